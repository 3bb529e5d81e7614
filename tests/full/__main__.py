"""Run the long runs, print their tables, and keep those that were run whole in results.md."""

import argparse
import platform
import sys
import time
from collections.abc import Iterable, Iterator, Sequence
from datetime import UTC, datetime
from pathlib import Path

from tests.full.registry import FullRun, Row, discover

RESULTS = Path(__file__).with_name("results.md")
HEAD = (
    "# What the long runs showed\n\nWritten by `python3 -m tests full`; each section is the last whole run.\n"
)
COLUMNS = "| what | measured | required | holds |\n| --- | --- | --- | --- |"


def main(argv: Sequence[str]) -> int:
    """Run all, or those named; exit status 1 where a row does not hold."""
    runs = discover()
    asked = argparse.ArgumentParser(prog="python3 -m tests full", description=__doc__)
    asked.add_argument("--only", action="append", choices=list(runs), metavar="NAME", help=", ".join(runs))
    asked.add_argument("--small", action="store_true", help="the small form; results.md stays as it is")
    given = asked.parse_args(argv)
    failed = 0
    for name, run in runs.items():
        if given.only and name not in given.only:
            continue
        text, holds = section(run, small=given.small)
        print(text, flush=True)
        failed += not holds
        if not given.small:
            RESULTS.write_text(kept(RESULTS, name, text), encoding="utf-8")
    return 1 if failed else 0


def section(run: FullRun, *, small: bool) -> tuple[str, bool]:
    """A run's table as text, and whether every row holds."""
    started = time.monotonic()
    rows = list(told(run.run(small)))
    spent = time.monotonic() - started
    when = datetime.now(UTC).strftime("%Y-%m-%d %H:%M UTC")
    size = "small form" if small else "whole"
    head = f"## {run.name}\n\n{run.shows}. {when}, Python {platform.python_version()}, {size}, {spent:.0f} s."
    return "\n".join((head, "", COLUMNS, *map(printed, rows))) + "\n", all(row.holds for row in rows)


def told(rows: Iterable[Row]) -> Iterator[Row]:
    """The rows, each on standard error as it comes: a long run shows how far it is."""
    for row in rows:
        print(printed(row), file=sys.stderr, flush=True)
        yield row


def printed(row: Row) -> str:
    cells = (row.what, row.measured, row.required, "yes" if row.holds else "**no**")
    return "| " + " | ".join(cell.replace("|", "/") for cell in cells) + " |"


def kept(results: Path, name: str, text: str, head: str = HEAD) -> str:
    """The results with one section put in place of the earlier one of that name."""
    old = results.read_text(encoding="utf-8") if results.exists() else head
    head, *sections = old.split("\n## ")
    by_name = {part.split("\n", 1)[0]: part.strip() for part in sections}
    by_name[name] = text.removeprefix("## ").strip()
    return head.rstrip() + "\n" + "".join(f"\n## {part}\n" for _, part in sorted(by_name.items()))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
