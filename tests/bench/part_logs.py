"""Logs: reading beside a bare csv.reader with a float loop, judging, and what hostile files cost."""

import csv
import io
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

import calc
from tests.bench import road
from tests.bench.rows import MEGA, at_most, in_turn, ratio
from tests.browser.machines import ROOT
from tests.calc.logs.test_hostile import hostile
from tests.full.registry import Row

TIMES, FEW_TIMES = 7, 1
READ_BAR, JUDGE_BAR = 2.0, 1.0
FEW_HOSTILE = 3
HOSTILE_SECONDS, HOSTILE_MB = 1.0, 200
# Not ru_maxrss: a child starts with its parent's highest size there (getrusage(2) counts it before exec).
MEASURED = """
import sys
from calc.__main__ import main
status = main(sys.argv[1:])
peak = next(line.split()[1] for line in open("/proc/self/status") if line.startswith("VmHWM"))
print(status, peak)
"""


def bare(data: bytes) -> list[list[float]]:
    """The least that a reader of the file must do."""
    lines = csv.reader(io.StringIO(data.decode()))
    next(lines)
    return [[float(cell) for cell in cells] for cells in lines]


def rows(small: bool) -> Iterator[Row]:
    """Small: a short log, one round, three hostile files."""
    times, count = (FEW_TIMES, road.FEW_ROWS) if small else (TIMES, road.ROWS)
    data = road.log(count)
    job = road.job(calc.read_log(data)["channels"])
    read, plainly, judged = in_turn(
        times, lambda: calc.read_log(data), lambda: bare(data), lambda: calc.judge(job)
    )
    yield ratio(f"read_log of {count:,} rows × 16 columns beside a bare csv.reader", read, plainly, READ_BAR)
    yield ratio("its run judged, beside reading it", judged, read, JUDGE_BAR)
    spent = [cost_of(name, data) for name, data in list(hostile().items())[: FEW_HOSTILE if small else None]]
    slowest, largest = max(spent), max(spent, key=lambda one: one[1])
    what = f"slowest of {len(spent)} hostile files, the command's start with it"
    yield at_most(what, slowest[0], HOSTILE_SECONDS, "s", digits=2, more=slowest[2])
    yield at_most("most memory for one of them", largest[1], HOSTILE_MB, "MB", more=largest[2])


def cost_of(name: str, data: bytes) -> tuple[float, float, str]:
    """Seconds and megabytes of the command on one file; it must refuse it in one line."""
    with tempfile.NamedTemporaryFile(suffix=".csv") as file:
        Path(file.name).write_bytes(data)
        command = [sys.executable, "-c", MEASURED, "read-log", file.name]
        began = time.perf_counter()
        done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
        spent = time.perf_counter() - began
    status, peak = done.stdout.split()
    assert status == "2", f"{name}: exit status {status}"
    return spent, int(peak) * 1024 / MEGA, name
