"""S2, S3, S4: connections cut everywhere, the server killed at every statement, disks that fail."""

import errno
import hashlib
import random
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

from api.app import create_app
from tests.fire import checks, faults
from tests.fire.lines import Direct, Http, ServerSaysNoError, UnreachableError
from tests.fire.phone import Phone
from tests.fire.proxy import GOOD, Line, proxied
from tests.fire.scenario import Outcome, folder, scenario
from tests.fire.workshop import Nursery, Workshop

ACTUATOR = "/tests/actuator"
SIXTEENTHS = 16


def work(phone: Phone, job: str, dice: random.Random, operations: int = 4) -> None:
    """Some readings as a technician takes them: places set, items added and corrected."""
    for _ in range(operations):
        if dice.random() < 0.5:
            phone.change(job, "set", f"{ACTUATOR}/first_movement_kpa", dice.randint(60, 120))
        else:
            item = f"{ACTUATOR}/sweep/{phone.new_id()}"
            phone.change(
                job, "add", item, {"rank": f"h{dice.randint(0, 999):03d}abcd", "p_kpa": dice.randint(0, 99)}
            )
            phone.change(job, "set", f"{item}/travel_mm", round(dice.uniform(0, 12), 1))


def boundaries(request: int, reply: int) -> list[Line]:
    """Every class of place where a connection can break, for a request and a reply of these lengths."""
    up = [0, 1, 40, 120, *(200 + request * part // SIXTEENTHS for part in range(SIXTEENTHS + 1))]
    down = [0, 1, 15, 60, *(180 + reply * part // SIXTEENTHS for part in range(SIXTEENTHS))]
    return [*(Line(cut_up=at) for at in up), *(Line(cut_down=at) for at in down)]


@scenario("S2")
def connection_cut(small: bool) -> Iterator[Outcome]:
    """The line breaks before the headers, in them, in the body, before or in the reply; then it is good."""
    dice = random.Random(2)
    rounds = 1 if small else 26
    cuts = 0
    with folder() as space, Nursery() as nursery, Workshop(nursery, space / "data") as workshop:
        phone = Phone("A", Http(workshop.port), dice)
        for round_ in range(rounds):
            for line in boundaries(2200, 2600):
                job = phone.new_id()
                work(phone, job, dice)
                cuts += _cut_once(phone, workshop, line)
                phone.line = Http(workshop.port)
                phone.restart()
                phone.sync()
                assert job in phone.disk.safe, "not safe after the line was good again"
            checks.all_is_there(workshop.data, [phone])
            if round_ % 5 == 4:
                phone.disk.rows = {one: row for one, row in phone.disk.rows.items() if row.number is None}
    yield Outcome("S2", "connection cut at every boundary of question and answer", cuts, held=True)


def _cut_once(phone: Phone, workshop: Workshop, line: Line) -> int:
    with proxied(workshop.port, lambda number: line if number == 0 else GOOD) as proxy:
        phone.line = Http(workshop.port)
        phone.line.port = proxy.port
        http = phone.line
        ask = http.ask
        # The guard looks at Host and Origin: a phone behind a bad line still names the server itself.
        own = f"127.0.0.1:{workshop.port}"
        http.ask = lambda method, path, body=b"", **more: ask(  # type: ignore[method-assign]
            method, path, body, **{"Host": own, "Origin": f"http://{own}"} | more
        )
        with suppress(UnreachableError):
            phone.sync()
        return proxy.cuts


@scenario("S3")
def server_killed(small: bool) -> Iterator[Outcome]:
    """SIGKILL at the N-th statement of a sync, N = 1, 2, 3 … to the end, for several shapes of batch."""
    dice = random.Random(3)
    shapes = [(2, 1)] if small else [(size, jobs) for size in (1, 2, 4, 8, 16, 24) for jobs in (1, 2, 3)]
    step = 7 if small else 1
    kills = 0
    with folder() as space, Nursery() as nursery:
        for size, jobs in shapes:
            kills += _kill_through(nursery, space / f"{size}-{jobs}", dice, (size, jobs), step)
    yield Outcome("S3", "server killed at every SQL statement of a sync", kills, held=True)


def _kill_through(
    nursery: Nursery, data: Path, dice: random.Random, shape: tuple[int, int], step: int
) -> int:
    kills = at = 0
    while True:
        at += step if at else 1
        workshop, phone = Workshop(nursery, data / f"{at}"), Phone("A", Http(0), dice)
        made = [phone.new_id() for _ in range(shape[1])]
        for job in made:
            work(phone, job, dice, shape[0])
        workshop.start(kind="statement", at=at)
        phone.line = Http(workshop.port)
        died = _dies_in_sync(phone, workshop)
        workshop.kill()
        kills += died
        checks.nothing_lost_nothing_twice(workshop.data, [phone])
        workshop.start()
        phone.restart()
        phone.sync()
        workshop.kill()
        checks.all_is_there(workshop.data, [phone])
        assert phone.disk.safe >= set(made)
        if not died:
            return kills


def _dies_in_sync(phone: Phone, workshop: Workshop) -> bool:
    """In the sync, or while the office's list folds and keeps what it brought."""
    try:
        phone.sync()
        phone.line.ask("GET", "/office/jobs")
    except UnreachableError:
        workshop.wait_until_gone()
        return True
    return False


@scenario("S3 photo")
def server_killed_in_a_photo(small: bool) -> Iterator[Outcome]:
    """SIGKILL at the N-th write, fsync or rename of a photo, whole and in parts; then it is gone on with."""
    dice = random.Random(33)
    kills = 0
    with folder() as space, Nursery() as nursery:
        for size in [40_000] if small else [40_000, 60_000, 200_000, 350_000, 700_000]:
            kills += _kill_in_photos(nursery, space / f"{size}", dice, size, 3 if small else 1)
    yield Outcome("S3", "server killed at every write, fsync and rename of a photo", kills, held=True)


def _kill_in_photos(nursery: Nursery, data: Path, dice: random.Random, size: int, step: int) -> int:
    workshop = Workshop(nursery, data)
    phone = Phone("A", Http(0), dice)
    kills = at = 0
    while True:
        at += step if at else 1
        phone.photograph(phone.new_id(), dice.randbytes(size))
        workshop.start(kind="file", at=at)
        phone.line = Http(workshop.port)
        died = _dies_in_sync(phone, workshop)
        workshop.kill()
        kills += died
        checks.no_blob_is_wrong(data)
        workshop.start()
        phone.sync()
        workshop.kill()
        checks.all_is_there(data, [phone])
        if not died:
            return kills


@scenario("S4")
def disk_fails(small: bool) -> Iterator[Outcome]:
    """EIO and ENOSPC at the N-th write, fsync or rename of a photo: no wrong blob, no promise in vain."""
    dice = random.Random(4)
    failures = 0
    sizes = (
        [30_000, 200_000]
        if small
        else [1, 1000, 30_000, 64_000, 128_000, 200_000, 350_000, 500_000, 900_000, 2_000_000]
    )
    with folder() as space:
        client = create_app(space / "data").test_client()
        phone = Phone("A", Direct(client), dice)
        for size in sizes:
            for number in faults.DISK_ERRORS:
                failures += _fail_through(phone, space / "data", dice, size, number)
        checks.all_is_there(space / "data", [phone])
    yield Outcome("S4", "disk error at every write, fsync and rename of a photo", failures, held=True)


def _fail_through(phone: Phone, data: Path, dice: random.Random, size: int, number: int) -> int:
    at = failures = 0
    while True:
        at += 1
        job = phone.new_id()
        name = phone.photograph(job, dice.randbytes(size))
        countdown = faults.Countdown(at, faults.failing(number))
        with faults.counted_files(countdown):
            error = _refused(phone)
        failed = error is not None
        if error:
            assert error.status == 507
            assert "Nothing is lost" in error.says
            assert ("disk is full" in error.says) == (number == errno.ENOSPC)
        checks.no_blob_is_wrong(data)
        _is_durable_where_acknowledged(phone, data, name, countdown.seen)
        failures += failed
        phone.sync()
        assert job in phone.disk.safe
        if not failed:
            return failures


def _refused(phone: Phone) -> ServerSaysNoError | None:
    try:
        phone.sync()
    except ServerSaysNoError as error:
        return error
    return None


def _is_durable_where_acknowledged(phone: Phone, data: Path, name: str, seen: list[str]) -> None:
    """What the phone was told is kept was synced before it was renamed, and its folders after that."""
    if name not in phone.disk.sent:
        return
    assert hashlib.sha256((data / "blobs" / name[:2] / name).read_bytes()).hexdigest() == name
    assert seen[-4:] == ["fsync", "rename", "fsync", "fsync"], seen[-6:]
