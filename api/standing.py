"""A child process that stays for the next piece of work, so that what it has loaded is loaded once.

Parent and child send each other pieces: eight bytes of length, then as many bytes. A child ends by itself
when nothing was asked for a while, when its parent is gone, or when a piece of work fails; the next piece
starts another one.
"""

import gc
import os
import select
import struct
import subprocess
import sys
import tempfile
import threading
from collections.abc import Callable
from typing import IO

from api.limits import PROJECT, ChildFailedError

HEAD = struct.Struct(">Q")
TOLD = 2000  # signs of what a child said last


class Standing:
    """A module of ours that answers one piece after the other in a process of its own.

    `seconds` is what a piece may take by the clock. Not for two threads at a time.
    """

    def __init__(self, module: str, seconds: float) -> None:
        self.module = module
        self.seconds = seconds
        self._child: _Child | None = None

    def ask(self, given: bytes) -> bytes:
        """The child's answer.

        Raises
        ------
        ChildFailedError
            it took longer than `seconds`, ran out of memory, or found its input bad
        """
        child = self._at_work()
        if child is not None:
            try:
                return self._answer(child, given)
            except _WentHomeError:
                self.end()
        self._child = _Child(self.module)
        try:
            return self._answer(self._child, given)
        except _WentHomeError:
            raise ChildFailedError(f"{self.module} ended before it answered") from None

    def end(self) -> None:
        """End the child where there is one."""
        child, self._child = self._present(), None
        if child is not None:
            child.end()

    def _present(self) -> "_Child | None":
        """The child, where this very process started it and not the one that it was forked from."""
        if self._child is not None and self._child.parent != os.getpid():
            self._child = None
        return self._child

    def _at_work(self) -> "_Child | None":
        """The child, where it has not ended since it was last asked."""
        child = self._present()
        if child is not None and child.process.poll() is not None:
            self.end()
            return None
        return child

    def _answer(self, child: "_Child", given: bytes) -> bytes:
        late = threading.Event()

        def too_late() -> None:
            late.set()
            child.process.kill()

        timer = threading.Timer(self.seconds, too_late)
        timer.start()
        try:
            return child.ask(given)
        except (OSError, EOFError):
            if late.is_set():
                self.end()
                raise ChildFailedError(f"{self.module} took longer than {self.seconds:g} s") from None
            if child.process.wait() == 0:
                raise _WentHomeError from None
            said = child.said()
            self.end()
            raise ChildFailedError(f"{self.module}: {said}") from None
        finally:
            timer.cancel()


class _WentHomeError(Exception):
    """The child had ended by itself before it was asked."""


class _Child:
    def __init__(self, module: str) -> None:
        self.parent = os.getpid()
        self._said = tempfile.TemporaryFile()  # noqa: SIM115  (closed with the child)
        self.process = subprocess.Popen(
            [sys.executable, "-m", module],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=self._said,
            cwd=PROJECT,
        )
        if self.process.stdin is None or self.process.stdout is None:
            raise ChildFailedError(f"{module} was started without pipes to talk through")
        self._pieces, self._answers = self.process.stdin, self.process.stdout

    def ask(self, given: bytes) -> bytes:
        _send(self._pieces, given)
        return _receive(self._answers)

    def said(self) -> str:
        self._said.seek(0)
        return self._said.read().decode(errors="replace")[-TOLD:]

    def end(self) -> None:
        self.process.kill()
        self.process.communicate()
        self._said.close()


def answer(work: Callable[[bytes], bytes], before: Callable[[], None], idle_seconds: float) -> None:
    """The child's side: do one piece after the other. `before` is called ahead of each, to set its limits.

    Rubbish is looked for between pieces alone: searching all that a document is made of while it is being
    made took a seventh of a drawing's time.
    """
    pieces, answers = _own_pipes()
    gc.disable()
    while select.select([pieces], [], [], idle_seconds)[0]:
        try:
            given = _receive(pieces)
        except EOFError:
            return
        before()
        _send(answers, work(given))
        del given
        gc.collect()


def _own_pipes() -> tuple[IO[bytes], IO[bytes]]:
    """What the parent reads and writes; whatever a library prints goes to the errors instead."""
    answers = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
    return open(sys.stdin.fileno(), "rb", buffering=0, closefd=False), answers


def _send(pipe: IO[bytes], data: bytes) -> None:
    pipe.write(HEAD.pack(len(data)) + data)
    pipe.flush()


def _receive(pipe: IO[bytes]) -> bytes:
    (length,) = HEAD.unpack(_exactly(pipe, HEAD.size))
    return _exactly(pipe, length)


def _exactly(pipe: IO[bytes], length: int) -> bytes:
    pieces = []
    while length:
        piece = pipe.read(length)
        if not piece:
            raise EOFError
        pieces.append(piece)
        length -= len(piece)
    return b"".join(pieces)
