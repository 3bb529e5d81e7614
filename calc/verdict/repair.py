"""Is the repair proved? The run after it against specified, and against the run before it."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import hypot
from typing import Any

from calc.checks import BY_NAME
from calc.checks.evidence import Evidence
from calc.checks.finding import Finding
from calc.faults.model import Findings

ROAD_CHECKS = (
    "road_real_boost",
    "road_tracking",
    "road_peak",
    "road_overboost",
    "road_sensor",
    "road_authority",
    "road_correction",
    "road_hunting",
    "road_reduced_power",
)
ERRORS = ("road_real_boost", "road_tracking", "road_peak", "road_overboost", "road_authority")


@dataclass(frozen=True, slots=True)
class Proof:
    """`proved` is True, False, or None where the runs do not suffice; the findings of both runs beside it."""

    proved: bool | None
    before: Finding | None
    after: Finding | None
    checks: tuple[Finding, ...]


def repair_proof(evidence: Evidence, findings: Findings) -> Proof | None:
    """What the runs after the repair show; None where there is no such run."""
    runs = [run for run in evidence.job.get("tests", {}).get("road") or () if run is not None]
    later = [run for run in runs if run.get("phase") == "after_repair"]
    if not later:
        return None
    seen = _examined(evidence.job, later)
    after = _error(seen)
    before = findings[after.check] if after is not None else _error(findings)
    return Proof(_proved(seen, findings, before, after), before, after, tuple(seen.values()))


def _examined(job: Mapping[str, Any], later: list[Mapping[str, Any]]) -> dict[str, Finding]:
    """The road checks as if the runs after the repair were the only ones."""
    tests = {**(job.get("tests") or {}), "road": [{**run, "phase": "before_repair"} for run in later]}
    after = Evidence({**job, "tests": tests})
    return {name: BY_NAME[name].examine(after, BY_NAME[name]) for name in ROAD_CHECKS}


def _error(findings: Findings) -> Finding | None:
    """Boost off its aim: by the gauge, else by the car's own sensor."""
    found = (findings[name] for name in ("road_real_boost", "road_tracking"))
    return next((one for one in found if one.examined), None)


def _proved(seen: Findings, findings: Findings, before: Finding | None, after: Finding | None) -> bool | None:
    if any(seen[name].outcome == "outside" for name in (*ERRORS, "road_sensor", "road_hunting")):
        return False
    if after is None or after.outcome != "within" or before is None:
        return None
    if after.check == "road_tracking" and not _sensor_is_known(seen, findings):
        return None
    if before.outcome == "outside":
        return True if _is_better(before, after) else None
    was_wrong = [name for name in ROAD_CHECKS if findings[name].outcome == "outside"]
    return True if was_wrong and all(seen[name].outcome == "within" for name in was_wrong) else None


def _sensor_is_known(seen: Findings, findings: Findings) -> bool:
    """The car's own word proves a repair only where its sensor was compared and agreed."""
    return any(
        found.outcome == "within"
        for found in (seen["road_sensor"], findings["road_sensor"], findings["rest_charge_pressure"])
    )


def _is_better(before: Finding, after: Finding) -> bool:
    """Nearer to the aim by more than the doubt of the change."""
    if before.value is None or after.value is None:
        return False
    return abs(before.value) - abs(after.value) > doubt_of_change(before, after)


def by_same_gauge(before: Finding, after: Finding) -> bool:
    """Whether one gauge was read before and after."""
    gauge = before.facts.get("gauge")
    return gauge is not None and gauge == after.facts.get("gauge")


def doubt_of_change(before: Finding, after: Finding) -> float:
    """Standard uncertainty of what the repair changed: the class of one and the same gauge cancels."""
    if by_same_gauge(before, after):
        return hypot(before.facts["own"], after.facts["own"])
    return hypot(before.uncertainty or 0.0, after.uncertainty or 0.0)
