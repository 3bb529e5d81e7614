"""A pressure is made gauge or absolute in one place; a reading and an absolute pressure cannot be added."""

import re
from pathlib import Path

import pytest

from calc.checks.evidence import Evidence

CHECKS = Path(__file__).resolve().parents[3] / "calc" / "checks"
ADDED = re.compile(r"[+-]\s*(?:\w+\.)*(?:outside|barometric|air)\.value")
EDGE = "evidence.py"


def test_the_air_is_added_and_taken_away_in_one_file() -> None:
    found = [
        f"{path.name}: {line.strip()}"
        for path in sorted(CHECKS.glob("*.py"))
        if path.name != EDGE
        for line in path.read_text(encoding="utf-8").splitlines()
        if ADDED.search(line)
    ]
    assert found == []


def test_gauge_and_absolute_do_not_mix() -> None:
    """201.325 kPa absolute at 1000 m (89.875 kPa) are 1.1145 bar gauge: reference section 1."""
    seen = Evidence({"site": {"barometric_kpa_abs": 89.875}})
    gauge = seen.pressure(111.45, None)
    absolute = seen.absolute(gauge)
    assert absolute.value == pytest.approx(201.325)
    assert seen.above_the_air(absolute.value) == pytest.approx(gauge.value)
    with pytest.raises(TypeError):
        gauge + absolute  # type: ignore[operator]
