"""Measure, print one table, keep what was measured whole in results.md, and quote it in the README."""

import argparse
import os
import platform
import shutil
import subprocess
import time
from collections.abc import Callable, Iterator, Sequence
from datetime import UTC, datetime
from pathlib import Path

from tests.bench import (
    part_calc,
    part_engine,
    part_lighthouse,
    part_logs,
    part_pages,
    part_pdf,
    part_sync,
)
from tests.bench.quote import quoted
from tests.browser.machines import ROOT
from tests.full.__main__ import COLUMNS, kept, printed
from tests.full.registry import Row

RESULTS = Path(__file__).with_name("results.md")
README = ROOT / "README.md"
HEAD = """# How fast

Written by `python3 -m tests.bench`; each section is the last whole run, figures are medians.
"""
PARTS: dict[str, tuple[str, Callable[[bool], Iterator[Row]]]] = {
    "calc": ("The calculation on the server", part_calc.rows),
    "logs": ("Recorded logs", part_logs.rows),
    "engine": ("The same calculation in the phone's browser", part_engine.rows),
    "sync": ("Operations handed in over HTTP", part_sync.rows),
    "pdf": ("The report", part_pdf.rows),
    "pages": ("The app on a slow phone", part_pages.rows),
    "lighthouse": ("Lighthouse 13, mobile", part_lighthouse.rows),
}


def main(argv: Sequence[str]) -> int:
    """Measure all parts or those named; exit status 1 where a bar does not hold."""
    asked = argparse.ArgumentParser(prog="python3 -m tests.bench", description=__doc__)
    asked.add_argument("--only", action="append", choices=list(PARTS), metavar="NAME", help=", ".join(PARTS))
    asked.add_argument(
        "--small", action="store_true", help="only whether it works; results.md stays as it is"
    )
    given = asked.parse_args(argv)
    failed = 0
    for name in given.only or PARTS:
        text, holds = section(name, small=given.small)
        print(text, flush=True)
        failed += not holds
        if not given.small:
            RESULTS.write_text(kept(RESULTS, name, text, head=HEAD), encoding="utf-8")
            readme = README.read_text(encoding="utf-8")
            README.write_text(quoted(readme, RESULTS.read_text(encoding="utf-8")), encoding="utf-8")
    return 1 if failed else 0


def section(name: str, *, small: bool) -> tuple[str, bool]:
    """A part's table as text, with when and where it was measured, and whether every bar holds."""
    shows, part = PARTS[name]
    when = datetime.now(UTC).strftime("%Y-%m-%d %H:%M UTC")
    load, started = os.getloadavg()[0], time.monotonic()
    rows = list(part(small))
    spent, after = time.monotonic() - started, os.getloadavg()[0]
    busy = f"load of the machine {load:.1f} before and {after:.1f} after"
    head = f"## {name}\n\n{shows}. {when}, {machine()}; {busy}; {spent:.0f} s."
    return "\n".join((head, "", COLUMNS, *map(printed, rows))) + "\n", all(row.holds for row in rows)


def machine() -> str:
    """What it was measured on."""
    memory = os.sysconf("SC_PAGE_SIZE") * os.sysconf("SC_PHYS_PAGES") / 2**30
    parts = [
        f"{os.cpu_count()} × {processor()}",
        f"{memory:.0f} GB",
        f"Python {platform.python_version()}",
        browser(),
    ]
    return ", ".join(part for part in parts if part)


def processor() -> str:
    """Its name as Linux knows it, or its kind."""
    known = Path("/proc/cpuinfo")
    lines = known.read_text(encoding="utf-8").splitlines() if known.exists() else []
    named = (line.partition(":")[2].strip() for line in lines if line.startswith("model name"))
    return next(named, platform.machine())


def browser() -> str:
    """Chromium's name and main version, or nothing where there is none."""
    program = shutil.which("chromium")
    if program is None:
        return ""
    said = subprocess.run([program, "--version"], check=True, capture_output=True, text=True).stdout.split()
    return f"Chromium {said[1].split('.')[0]}"
