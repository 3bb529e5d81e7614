"""The command: `python3 -m calc judge JOB.json` prints the verdict on a job document.

Exit status 0 with a verdict on standard output; 2 with one line on standard error for a document that breaks
the contract, a wrong call, or a file that cannot be read; 1 only for a fault of our own.
"""

import os
import sys
from collections.abc import Sequence
from typing import BinaryIO

from calc.contract import MAX_BYTES
from calc.errors import BrokenDocument
from calc.walk import on_one_line

USE = "use: python3 -m calc judge JOB.json (or: python3 -m calc judge < JOB.json)"
DONE, OUR_FAULT, REFUSED = 0, 1, 2


class _Refused(Exception):
    """A call or a document that cannot be served; the text says why."""


def main(arguments: Sequence[str]) -> int:
    """Run the command; return its exit status."""
    try:
        return _print(_answer(arguments))
    except (_Refused, BrokenDocument) as error:
        return _complain(str(error), REFUSED)
    except KeyboardInterrupt:
        return _complain("broken off", REFUSED)
    except Exception as error:  # noqa: BLE001 - whatever else happens is told in one line, without a traceback
        return _complain(f"a fault in calc itself: {type(error).__name__}: {error}", OUR_FAULT)


def _answer(arguments: Sequence[str]) -> str:
    match list(arguments):
        case ["-h" | "--help"]:
            return USE + "\n"
        case ["judge", *names] if len(names) <= 1:
            return _judge(names[0] if names else "-")
    raise _Refused(USE)


def _judge(name: str) -> str:
    from calc import judge_text

    return judge_text(_read(name))


def _read(name: str) -> bytes:
    try:
        if name == "-":
            return _bounded(sys.stdin.buffer)
        with open(name, "rb") as file:
            return _bounded(file)
    except (OSError, ValueError, AttributeError) as error:
        reason = getattr(error, "strerror", None) or "it cannot be read"
        raise _Refused(f"{'standard input' if name == '-' else name}: {reason}") from None


def _bounded(file: BinaryIO) -> bytes:
    """Read no more than it takes to see that a document is too large."""
    return file.read(MAX_BYTES + 1)


def _print(text: str) -> int:
    """Write UTF-8 whatever the locale; a reader that has gone away is no fault."""
    try:
        sys.stdout.buffer.write(text.encode())
        sys.stdout.buffer.flush()
    except OSError as error:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # nothing is left to fail at exit
        if not isinstance(error, BrokenPipeError):
            raise
    return DONE


def _complain(reason: str, status: int) -> int:
    """Write one line on standard error, whatever signs the reason holds."""
    if sys.stderr is not None:
        sys.stderr.buffer.write(on_one_line(reason).encode() + b"\n")
    return status


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
