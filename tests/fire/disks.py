"""A disk that is full, a disk that may not be written: a small file system of our own, where we may mount."""

import os
import random
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from tests.fire import checks
from tests.fire.lines import Http, ServerSaysNoError
from tests.fire.phone import Phone
from tests.fire.scenario import Outcome, folder, scenario
from tests.fire.server_faults import work
from tests.fire.workshop import Nursery, Workshop

SIZE = "8m"


@contextmanager
def small_disk(at: Path) -> Iterator[str]:
    """A file system of 8 MB in memory; yields why not, where it cannot be mounted here."""
    at.mkdir(parents=True)
    if os.name != "posix" or os.geteuid() != 0:
        yield "mounting a small disk needs root"
        return
    done = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", f"size={SIZE}", "tmpfs", str(at)],
        capture_output=True,
        text=True,
        check=False,
    )
    if done.returncode:
        yield f"mounting is not permitted here ({done.stderr.strip()[:80]})"
        return
    try:
        yield ""
    finally:
        subprocess.run(["umount", "--lazy", str(at)], check=False, capture_output=True)


@contextmanager
def write_protected(folder: Path) -> Iterator[None]:
    """The folder again on top of itself, read-only: what opens it from now on may not write."""
    call = ["mount", "--bind", str(folder), str(folder)]
    subprocess.run(call, check=True, capture_output=True)
    try:
        subprocess.run(["mount", "-o", "remount,ro,bind", str(folder)], check=True, capture_output=True)
        yield
    finally:
        subprocess.run(["umount", "--lazy", str(folder)], check=True, capture_output=True)


def refusal_of(phone: Phone) -> ServerSaysNoError:
    """What the server says to a sync that it cannot take."""
    try:
        phone.sync()
    except ServerSaysNoError as error:
        return error
    raise AssertionError("the server took what it cannot keep")


@scenario("S4 full")
def disk_full(small: bool) -> Iterator[Outcome]:
    """The disk fills up under the server: a clear sentence, nothing lost; with room again it goes on."""
    dice = random.Random(44)
    faults = 0
    with folder() as space, small_disk(space / "disk") as why_not:
        if why_not:
            yield Outcome("S4", "disk full, for real", 0, held=True, skipped=why_not)
            return
        with Nursery() as nursery, Workshop(nursery, space / "disk/data") as workshop:
            phone = Phone("A", Http(workshop.port), dice)
            for turn in range(2 if small else 20):
                faults += _fill(space / "disk", workshop, phone, dice, with_photo=turn % 2 == 1)
    yield Outcome("S4", "disk full, for real (readings, photos)", faults, held=True)


def _fill(disk: Path, workshop: Workshop, phone: Phone, dice: random.Random, *, with_photo: bool) -> int:
    job = phone.new_id()
    work(phone, job, dice, 40)
    if with_photo:
        phone.sync()
        phone.photograph(job, dice.randbytes(300_000))
        phone.exchange()
    filler = disk / "filler"
    with filler.open("wb", buffering=0) as file:
        try:
            while True:
                file.write(bytes(4096))
        except OSError:
            pass
    error = refusal_of(phone)
    assert error.status in (503, 507)
    assert "disk is full" in error.says, error.says
    assert "Nothing is lost" in error.says
    filler.unlink()
    phone.sync()
    assert job in phone.disk.safe
    checks.all_is_there(workshop.data, [phone])
    for name in list(phone.disk.blobs):  # room for the next turn
        (workshop.data / "blobs" / name[:2] / name).unlink()
        del phone.disk.blobs[name]
    return 1


@scenario("S4 read-only")
def disk_read_only(small: bool) -> Iterator[Outcome]:
    """The database may not be written: a clear sentence, nothing lost; once it may, the sync goes on."""
    dice = random.Random(45)
    faults = 0
    with folder() as space, small_disk(space / "disk") as why_not:
        if why_not:
            yield Outcome("S4", "database file read-only", 0, held=True, skipped=why_not)
            return
        with Nursery() as nursery, Workshop(nursery, space / "disk/data") as workshop:
            phone = Phone("A", Http(workshop.port), dice)
            phone.change(phone.new_id(), "set", "/spec/source", "x")
            phone.sync()
            for _ in range(2 if small else 20):
                job = phone.new_id()
                work(phone, job, dice)
                with write_protected(workshop.data):
                    error = refusal_of(phone)
                assert error.status == 503
                assert "write-protected" in error.says or "cannot be opened" in error.says, error.says
                phone.sync()
                assert job in phone.disk.safe
                faults += 1
            checks.all_is_there(workshop.data, [phone])
    yield Outcome("S4", "database file read-only, for real", faults, held=True)
