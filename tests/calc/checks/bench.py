"""Small jobs for the tests of the checks, and the finding of one check."""

from typing import Any

from scipy import stats

from calc.checks import examine
from calc.checks.evidence import Evidence
from calc.checks.finding import Finding
from calc.job import without_nulls

DIAL = {"id": "g1", "kind": "analogue", "span_kpa": [0, 400], "class_pct": 1.6, "division_kpa": 10}
DIAL_U = 3.9669  # kPa, standard uncertainty of DIAL: reference table of EN 837-1 and JCGM 100, half division
SWEEP_P = (0, 20, 40, 60, 80, 100, 120, 140, 160, 180)


def job(tests: dict[str, Any], **more: Any) -> dict[str, Any]:
    return without_nulls({"format": "job/1", "id": "j", "gauges": [DIAL], "tests": tests, **more})


def finding(check: str, tests: dict[str, Any], **more: Any) -> Finding:
    return examine(Evidence(job(tests, **more)))[check]


def sweep(
    start: float = 70.0, rate: float = 0.13, stop_mm: float = 10.5, friction: float = 0.0, sign: int = 1
) -> list[dict[str, Any]]:
    """A noise-free bench sweep, up and down, by the ramp model; `friction` is half of the hysteresis."""

    def row(p: float, shift: float, direction: str) -> dict[str, Any]:
        travel = min(stop_mm, max(0.0, rate * (p - start - shift)))
        return {"p_kpa": sign * p, "travel_mm": round(travel, 6), "direction": direction}

    rising = [row(p, friction, "rising") for p in SWEEP_P]
    return rising + [row(p, -friction, "falling") for p in reversed(SWEEP_P)]


def inside(found: Finding, u: float) -> float:
    """The probability that the true value lies inside the limit, by scipy's normal distribution."""
    assert found.value is not None
    assert found.limit is not None
    normal = stats.norm(found.value, u)
    high = 1.0 if found.limit.high is None else normal.cdf(found.limit.high)
    low = 0.0 if found.limit.low is None else normal.cdf(found.limit.low)
    return float(high - low)


def by_the_rule(found: Finding, u: float) -> str:
    """The contract's rule, written down a second time."""
    assert found.value is not None
    assert found.limit is not None
    low, high = found.limit.low, found.limit.high
    x, p = found.value, inside(found, u)
    lies_inside = (low is None or x >= low) and (high is None or x <= high)
    if lies_inside and p >= 0.95:
        return "within"
    return "outside" if not lies_inside and p <= 0.05 else "undecided"
