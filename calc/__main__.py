"""The commands: `python3 -m calc judge JOB.json` prints a verdict, `read-log LOG.csv` a road run.

Exit status 0 with the result on standard output; 2 with one line on standard error for a document that breaks
the contract, a log that cannot be read, a wrong call; 1 only for a fault of our own.
"""

import json
import os
import sys
from collections.abc import Sequence
from typing import Any, BinaryIO

from calc.contract import MAX_BYTES
from calc.errors import BrokenDocument, UnreadableLog
from calc.walk import on_one_line

USE = "use: python3 -m calc judge JOB.json (or: python3 -m calc judge < JOB.json)"
USE_LOG = (
    "use: python3 -m calc read-log LOG.csv [--columns MAP.json] [--barometric-kpa-abs X] "
    "[--displacement-l X --cylinders N]"
)
FACTS = {
    "--barometric-kpa-abs": ("barometric_kpa_abs", 50.0, 120.0),
    "--displacement-l": ("displacement_l", 0.05, 100.0),
    "--cylinders": ("cylinders", 1.0, 24.0),
}
DONE, OUR_FAULT, REFUSED = 0, 1, 2
MAP_BYTES = 1_000_000


class _Refused(Exception):
    """A call or a document that cannot be served; the text says why."""


def main(arguments: Sequence[str]) -> int:
    """Run the command; return its exit status."""
    try:
        return _print(_answer(arguments))
    except (_Refused, BrokenDocument, UnreadableLog) as error:
        return _complain(str(error), REFUSED)
    except KeyboardInterrupt:
        return _complain("broken off", REFUSED)
    except Exception as error:  # noqa: BLE001 - whatever else happens is told in one line, without a traceback
        return _complain(f"a fault in calc itself: {type(error).__name__}: {error}", OUR_FAULT)


def _answer(arguments: Sequence[str]) -> str:
    match list(arguments):
        case ["-h" | "--help"]:
            return f"{USE}\n{USE_LOG}\n"
        case ["read-log", *rest]:
            return _read_log(rest)
        case ["judge", *names] if len(names) <= 1:
            return _judge(names[0] if names else "-")
    raise _Refused(USE)


def _judge(name: str) -> str:
    from calc import judge_text

    return judge_text(_read(name))


def _read_log(arguments: Sequence[str]) -> str:
    from calc.logs import read_log
    from calc.logs.decode import MAX_BYTES as LOG_BYTES

    names, wishes = _told_apart(arguments)
    if len(names) != 1:
        raise _Refused(USE_LOG)
    columns = _columns(wishes.pop("--columns")) if "--columns" in wishes else None
    facts = {FACTS[option][0]: _within(option, text) for option, text in wishes.items()}
    run = read_log(_read(names[0], LOG_BYTES), columns, **facts)
    return json.dumps(run, ensure_ascii=False, allow_nan=False, separators=(",", ":")) + "\n"


def _told_apart(arguments: Sequence[str]) -> tuple[list[str], dict[str, str]]:
    """The file's name, and what each option was given."""
    names: list[str] = []
    wishes: dict[str, str] = {}
    waiting = list(arguments)
    while waiting:
        word, _, value = waiting.pop(0).partition("=")
        if not word.startswith("--"):
            names.append(f"{word}={value}" if value else word)
        elif word not in ("--columns", *FACTS) or word in wishes or not (value or waiting):
            raise _Refused(USE_LOG)
        else:
            wishes[word] = value or waiting.pop(0)
    return names, wishes


def _columns(name: str) -> dict[str, Any]:
    try:
        wish = json.loads(_read(name, MAP_BYTES))
    except (ValueError, RecursionError):
        raise _Refused(f"{name}: no JSON") from None
    if not isinstance(wish, dict):
        raise _Refused(f"{name}: not an object of channels")
    return wish


def _within(option: str, text: str) -> Any:
    """The number behind an option; cylinders are counted, not measured."""
    name, least, most = FACTS[option]
    try:
        value = float(text)
    except ValueError:
        raise _Refused(f"{option}: {text[:40]!r} is not a number") from None
    if not least <= value <= most:
        raise _Refused(f"{option}: {value:g} does not lie between {least:g} and {most:g}")
    if name != "cylinders":
        return value
    if value != int(value):
        raise _Refused(f"{option}: {value:g} is not a whole number")
    return int(value)


def _read(name: str, most: int = MAX_BYTES) -> bytes:
    try:
        if name == "-":
            return _bounded(sys.stdin.buffer, most)
        with open(name, "rb") as file:
            return _bounded(file, most)
    except (OSError, ValueError, AttributeError) as error:
        reason = getattr(error, "strerror", None) or "it cannot be read"
        raise _Refused(f"{'standard input' if name == '-' else name}: {reason}") from None


def _bounded(file: BinaryIO, most: int) -> bytes:
    """Read no more than it takes to see that a document is too large."""
    return file.read(most + 1)


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
