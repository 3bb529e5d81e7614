"""Each slip is made in a copy of the project, and the named test must fail there."""

import random
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Sequence
from pathlib import Path

from tests.full.registry import Row, full_run
from tests.mutation.slips import ROW, SLIPS, Slip

ROOT = Path(__file__).resolve().parents[2]
COPIED = ("calc", "tests/calc", "tests/published", "tests/full", "tests/mutation", "fixtures/published")
SEED, WHOLE, SMALL = 20261125, 30, 3
TESTS_FAILED = 1  # pytest's exit status


@full_run("slips", "Deliberate slips in formulas, and whether the test named catches each")
def slips(small: bool) -> Iterator[Row]:
    drawn = random.Random(SEED).sample(SLIPS, SMALL if small else WHOLE)
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder)
        for part in COPIED:
            shutil.copytree(ROOT / part, copy / part, ignore=shutil.ignore_patterns("__pycache__"))
        for part in ("pyproject.toml", "tests/conftest.py"):
            shutil.copy(ROOT / part, copy / part)
        sound = run(copy, [slip.caught_by for slip in drawn])
        yield Row("no slip at all", f"exit status {sound}", "0", holds=sound == 0)
        for slip in drawn:
            yield caught(copy, slip)


def caught(copy: Path, slip: Slip) -> Row:
    path = copy / "calc" / slip.file
    sound = path.read_text(encoding="utf-8")
    assert slip.right in sound, f"{slip.file} does not hold {slip.right}"
    path.write_text(sound.replace(slip.right, slip.wrong, 1), encoding="utf-8")
    try:
        status = run(copy, [slip.caught_by])
    finally:
        path.write_text(sound, encoding="utf-8")
    test = slip.caught_by.rsplit("::", 1)[-1]
    what = f"{slip.kind}, {slip.file}: `{slip.right}` → `{slip.wrong}`"
    holds = status == TESTS_FAILED
    return Row(what, "caught" if holds else f"exit status {status}", f"caught by {test}", holds=holds)


def run(copy: Path, tests: Sequence[str]) -> int:
    """0 where all pass. Published rows are looked at without pytest, which takes long to collect them."""
    rows = [name.removeprefix(ROW) for name in tests if name.startswith(ROW)]
    others = [name for name in tests if not name.startswith(ROW)]
    python = [sys.executable, "-B", "-m"]
    commands = [[*python, "tests.mutation.row", name] for name in rows]
    if others:
        commands.append([*python, "pytest", "-q", "-x", "-p", "no:cacheprovider", *others])
    return max(
        subprocess.run(each, cwd=copy, check=False, capture_output=True).returncode for each in commands
    )
