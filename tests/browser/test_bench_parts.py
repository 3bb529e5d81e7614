"""The parts of the bench that drive a browser work in their small form; no time is looked at.

The command runs in a process of its own: each part brings its browser along.
"""

import re
import subprocess
import sys

import pytest

from tests.browser.machines import ROOT


@pytest.mark.parametrize(("name", "count"), [("engine", 3), ("pages", 7)])
def test_a_part_measures_what_it_says(name: str, count: int) -> None:
    command = [sys.executable, "-m", "tests.bench", "--only", name, "--small"]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode in (0, 1), done.stderr  # 1: a bar was missed, which is no fault here
    rows = re.findall(r"^\| .* \| .* \| at most .* \| (?:yes|\*\*no\*\*) \|$", done.stdout, re.MULTILINE)
    assert len(rows) == count, done.stdout + done.stderr
