"""A child that stays: one process for many pieces, another one after a fault, none that hangs."""

import io
import os
import signal
from collections.abc import Iterator

import pytest
from PIL import Image

from api.limits import ChildFailedError
from api.standing import Standing


def picture(side: int) -> bytes:
    file = io.BytesIO()
    Image.new("RGB", (side, side), "#0065a4").save(file, "PNG")
    return file.getvalue()


@pytest.fixture
def child() -> Iterator[Standing]:
    standing = Standing("api.pictures", 60)
    yield standing
    standing.end()


def pid_of(child: Standing) -> int:
    assert child._child is not None
    return int(child._child.process.pid)


def test_one_process_does_one_piece_after_the_other(child: Standing) -> None:
    sizes = []
    for side in (40, 300, 30):
        copy = Image.open(io.BytesIO(child.ask(b"100\n" + picture(side))))
        sizes.append((copy.size, pid_of(child)))
    assert [size for size, _ in sizes] == [(40, 40), (100, 100), (30, 30)]
    assert len({pid for _, pid in sizes}) == 1


def test_after_a_fault_the_next_piece_finds_another_process(child: Standing) -> None:
    child.ask(b"100\n" + picture(40))
    first = pid_of(child)
    with pytest.raises(ChildFailedError, match="cannot identify image"):
        child.ask(b"100\nno picture")
    assert child.ask(b"100\n" + picture(40))
    assert pid_of(child) != first


def test_a_child_that_is_gone_is_called_again(child: Standing) -> None:
    child.ask(b"100\n" + picture(40))
    first = pid_of(child)
    os.kill(first, signal.SIGKILL)
    os.waitpid(first, 0)
    assert child.ask(b"100\n" + picture(40))
    assert pid_of(child) != first


def test_a_child_that_takes_too_long_is_ended(child: Standing) -> None:
    child.seconds = 0.01
    with pytest.raises(ChildFailedError, match=r"longer than 0\.01 s"):
        child.ask(b"100\n" + picture(4000))
    child.seconds = 60
    assert child.ask(b"100\n" + picture(40))
