"""Load: 50 phones at once, 10,000 operations beside bare SQLite, a workshop of 20,000 jobs."""

import hashlib
import json
import random
import sqlite3
import statistics
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack, closing
from pathlib import Path

from api.fold.receipt import running_hash
from api.store import database
from tests.fire import checks
from tests.fire.lines import Http, StandingHttp, as_json
from tests.fire.phone import Phone
from tests.fire.scenario import folder
from tests.fire.server_faults import work
from tests.fire.workshop import Nursery, Workshop
from tests.full.registry import Row, full_run

PHOTO_BYTES = 300_000
ROUNDS = 5
Texts = list[list[str]]


class LightPhone:
    """Sends prepared work and takes up the list, keeping only where it stands: the load is the server's."""

    def __init__(self, port: int, seed: int) -> None:
        self.line = Http(port, 60)
        self.dice = random.Random(seed)
        self.number, self.hash = 0, ""
        self.batches: list[float] = []

    def exchange(self, texts: list[str]) -> bool:
        """One question and its answer; whether the list goes on."""
        body = json.dumps({"number": self.number, "hash": self.hash, "operations": texts}).encode()
        began = time.perf_counter()
        status, _, data = self.line.ask("POST", "/api/sync", body)
        self.batches.append((time.perf_counter() - began) * 1000)
        reply = as_json(status, data)
        assert all(answer["answer"] == "applied" for answer in reply["answers"])
        self.number, self.hash = reply["number"], reply["hash"]
        return bool(reply["more"])

    def photo(self) -> None:
        data = self.dice.randbytes(PHOTO_BYTES)
        name = hashlib.sha256(data).hexdigest()
        assert self.line.ask("HEAD", f"/api/blobs/{name}")[0] == 404
        assert self.line.ask("PUT", f"/api/blobs/{name}", data)[0] == 201

    def day(self, rounds: int, photos: int, errors: list[str]) -> None:
        """Ten operations, then a sync; a photo now and then. Each begins at a moment of its own."""
        texts = batches_of(10 * rounds, 10, self.dice)
        try:
            time.sleep(self.dice.uniform(0, 2))
            for number, batch in enumerate(texts):
                if number % max(1, rounds // photos) == 0:
                    self.photo()
                more = self.exchange(batch)
                while more:
                    more = self.exchange([])
                time.sleep(self.dice.uniform(0.5, 3))
        except Exception as error:  # noqa: BLE001  (an error of any kind is a row of the table)
            errors.append(repr(error)[:200])


@full_run("load: phones", "50 phones at once, each 200 operations and 5 photos", small_in_every_check=False)
def phones_at_once(small: bool) -> Iterator[Row]:
    count, rounds, photos = (5, 4, 1) if small else (50, 20, 5)
    errors: list[str] = []
    with folder() as space, Nursery() as nursery, Workshop(nursery, space / "data") as workshop:
        phones = [LightPhone(workshop.port, seed) for seed in range(count)]
        threads = [threading.Thread(target=one.day, args=(rounds, photos, errors)) for one in phones]
        began = time.perf_counter()
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        spent = time.perf_counter() - began
        listed = len(checks.list_of(workshop.data))
        blobs = checks.no_blob_is_wrong(workshop.data)
    batches = [one for phone in phones for one in phone.batches]
    p95 = statistics.quantiles(batches, n=20)[-1]
    operations = count * rounds * 10
    yield Row("operations in the list", f"{listed:,}", f"{operations:,}", listed == operations)
    yield Row("photos, each what its name says", f"{blobs}", f"{count * photos}", blobs == count * photos)
    yield Row("errors", f"{len(errors)} {errors[:1]}", "0", not errors)
    yield Row(
        f"95th percentile of {len(batches):,} batches, all in {spent:.0f} s (phones on the same cores)",
        f"{p95:.0f} ms",
        "at most 500 ms",
        p95 <= 500,
    )


@full_run(
    "load: beside SQLite",
    "10,000 operations against bare inserts of the same rows",
    small_in_every_check=False,
)
def beside_bare_sqlite(small: bool) -> Iterator[Row]:
    operations = 1_000 if small else 10_000
    for size in (10, 200):
        spent = [_seconds(operations, size) for _ in range(ROUNDS)]
        ours, bare = (min(one) for one in zip(*spent, strict=True))  # others at work only ever add to a time
        yield Row(
            f"{operations:,} operations over HTTP in batches of {size}: {ours:.2f} s, bare {bare:.2f} s",
            f"{ours / bare:.1f} times",
            "at most 3 times",
            ours / bare <= 3,
        )
        empty = min(_seconds_of_nothing(operations // size) for _ in range(ROUNDS))
        yield Row(
            f"of which HTTP alone: as many GET /health as batches of {size}: {empty:.2f} s",
            f"{empty / bare:.1f} times",
            "no bar: it says what is left for the work",
            holds=True,
        )


def batches_of(operations: int, size: int, dice: random.Random) -> Texts:
    """Work on jobs of 200 operations each, in batches."""
    phone = Phone("A", Http(0), dice)
    texts: list[str] = []
    while len(texts) < operations:
        job = phone.new_id()
        for number in range(100):
            item = f"/tests/actuator/sweep/s{number}"
            add = phone.new_id()
            texts.append(
                made(phone, job, add, "add", item, {"rank": f"h{number:03d}abcd", "p_kpa": number}, [])
            )
            texts.append(made(phone, job, phone.new_id(), "set", f"{item}/p_kpa", number + 1, [add]))
    return [texts[start : start + size] for start in range(0, operations, size)]


def made(phone: Phone, job: str, one: str, do: str, path: str, value: object, replaced: list[str]) -> str:
    operation = {"id": one, "job": job, "device": "A", "person": "p", "at": "2026-11-25T09:12:00+00:00"}
    return json.dumps(operation | {"do": do, "path": path, "value": value, "replaced": replaced})


def _seconds(operations: int, size: int) -> tuple[float, float]:
    """Seconds of ours over HTTP, and of bare SQLite inserting the rows that ours made, commit for commit."""
    batches = batches_of(operations, size, random.Random(0))
    with folder() as space, Nursery() as nursery, Workshop(nursery, space / "data") as workshop:
        number, running, ours = 0, "", 0.0
        with StandingHttp(workshop.port) as line:
            for batch in batches:
                body = {"number": number, "hash": running, "operations": batch}
                question = json.dumps(body).encode()
                began = time.perf_counter()
                _, _, data = line.ask("POST", "/api/sync", question)
                ours += time.perf_counter() - began  # the phone's own work is on the phone
                reply = json.loads(data)
                number, running = reply["number"], reply["hash"]
        workshop.kill()
        return ours, _bare(workshop.data, space / "bare.sqlite3", size)


def _seconds_of_nothing(questions: int) -> float:
    """What the same client and server need for as many questions that ask for nothing."""
    with ExitStack() as all_:
        space, nursery = all_.enter_context(folder()), all_.enter_context(Nursery())
        workshop = all_.enter_context(Workshop(nursery, space / "data"))
        line = all_.enter_context(StandingHttp(workshop.port))
        began = time.perf_counter()
        for _ in range(questions):
            line.ask("GET", "/health")
        return time.perf_counter() - began


def _bare(data: Path, target: Path, size: int) -> float:
    """The rows that a batch writes: its operations, and the mark that a job's document is behind."""
    with closing(sqlite3.connect(data / "workshop.sqlite3")) as source:
        rows = source.execute("SELECT * FROM operations ORDER BY number").fetchall()
    with closing(database.connect(target)) as connection:
        database.bring_up_to_date(connection)
        began = time.perf_counter()
        for start in range(0, len(rows), size):
            batch = rows[start : start + size]
            with database.writing(connection):
                connection.executemany("INSERT INTO operations VALUES (?, ?, ?, ?, ?, ?, ?)", batch)
                for job in {row[2] for row in batch}:
                    connection.execute("INSERT OR REPLACE INTO behind VALUES (?, ?)", (job, batch[-1][0]))
        return time.perf_counter() - began


@full_run("load: large workshop", "20,000 jobs, 400,000 operations", small_in_every_check=False)
def large_workshop(small: bool) -> Iterator[Row]:
    jobs = 500 if small else 20_000
    with folder() as space, Nursery() as nursery:
        large, little = (
            fill(nursery, space / name, count) for name, count in (("large", jobs), ("little", 200))
        )
        with large, little:
            some = _ids(large.data, 40)
            a_list = median_ms(lambda n: _ok(Http(large.port).ask("GET", "/api/jobs")), 20)
            opened = median_ms(lambda n: _ok(Http(large.port).ask("GET", f"/api/jobs/{some[n % 40]}")), 40)
            ratios = []
            for _ in range(3):
                costs = [median_ms(a_sync(workshop), 40) for workshop in (large, little)]
                ratios.append((costs[0] / costs[1], *costs))
            ratio, at_large, at_little = min(ratios)
    yield Row(f"list of jobs with {jobs:,}", f"{a_list:.0f} ms", "at most 100 ms", a_list <= 100)
    yield Row(f"opening a job of {jobs:,}", f"{opened:.0f} ms", "at most 100 ms", opened <= 100)
    yield Row(
        f"sync of one job: {at_large:.1f} ms with {jobs:,} jobs, {at_little:.1f} ms with 200",
        f"{ratio:.2f} times",
        "at most 1.5 times",
        ratio <= 1.5,
    )


def fill(nursery: Nursery, data: Path, jobs: int) -> Workshop:
    """A workshop with that many jobs of twenty operations each, laid down without a phone."""
    workshop = Workshop(nursery, data)
    with workshop:
        pass  # makes the folder and the tables
    dice = random.Random(1)
    phone = Phone("A", Http(0), dice)
    at = "2026-11-25T09:12:00.000+00:00"
    number, running = 0, ""
    with closing(database.connect(data / "workshop.sqlite3")) as connection, database.writing(connection):
        for _ in range(jobs):
            job = phone.new_id()
            rows = []
            for place in range(20):
                number += 1
                one = phone.new_id()
                text = made(phone, job, one, "set", f"/site/place_{place}", place, []).encode()
                running = running_hash(running, number, one)
                rows.append((number, one, job, text, hashlib.sha256(text).hexdigest(), running, at))
            document = {"format": "job/1", "id": job, "vehicle": {"make": "Alder"}}
            document["site"] = {f"place_{place}": place for place in range(20)}
            connection.executemany("INSERT INTO operations VALUES (?, ?, ?, ?, ?, ?, ?)", rows)
            connection.execute(
                "INSERT INTO jobs VALUES (?, ?, '[]', '[]', '[]', ?)", (job, json.dumps(document), number)
            )
    return workshop.start()


def _ids(data: Path, count: int) -> list[str]:
    with closing(sqlite3.connect(data / "workshop.sqlite3")) as connection:
        rows = connection.execute("SELECT id FROM jobs ORDER BY id LIMIT ?", (count,)).fetchall()
    return [job for (job,) in rows]


def a_sync(workshop: Workshop) -> Callable[[int], None]:
    """A phone that stands at the end of the list sends ten operations of a new job and takes them up."""
    _, _, data = Http(workshop.port).ask("GET", "/api/standing")
    end = json.loads(data)
    phone = Phone("A", Http(workshop.port), random.Random())
    phone.disk.number, phone.disk.hash = end["number"], end["hash"]

    def once(_: int) -> None:
        work(phone, phone.new_id(), phone.dice, 7)
        phone.exchange()
        phone.disk.rows.clear()

    return once


def _ok(answer: tuple[int, object, bytes]) -> None:
    assert answer[0] == 200


def median_ms(question: Callable[[int], object], times: int) -> float:
    question(0)
    spent = []
    for number in range(times):
        began = time.perf_counter()
        question(number)
        spent.append((time.perf_counter() - began) * 1000)
    return statistics.median(spent)
