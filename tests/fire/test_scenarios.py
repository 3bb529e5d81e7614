"""Each scenario in its small form; the whole ones: ``python3 -m tests full --only S``."""

import subprocess
import sys

import pytest

from tests.fire.all import SCENARIOS, outcomes_of
from tests.fire.workshop import ROOT

IN_PROCESS = [name for name, one in SCENARIOS.items() if not one.in_browser]
IN_BROWSER = [name for name, one in SCENARIOS.items() if one.in_browser]


@pytest.mark.parametrize("name", IN_PROCESS)
def test_nothing_is_lost_and_nothing_comes_twice(name: str) -> None:
    outcomes = list(outcomes_of(name, small=True))
    assert outcomes
    for outcome in outcomes:
        assert outcome.held, f"{outcome.what}: {outcome.note}"
        assert outcome.faults > 0 or outcome.skipped


@pytest.mark.xdist_group("browser")
@pytest.mark.parametrize("name", IN_BROWSER)
def test_nothing_is_lost_on_a_real_phone(name: str) -> None:
    """In a process of its own: two drivers of browsers do not share one."""
    command = [sys.executable, "-m", "tests.fire", name, "--small"]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, timeout=600, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
