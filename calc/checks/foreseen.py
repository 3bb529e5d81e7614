"""What a test that was not made yet could show: its check, examined on a reading put at its limit."""

from collections.abc import Mapping
from typing import Any

from calc.checks.evidence import Evidence
from calc.checks.finding import Check, Finding

# Check, the reading it would judge, the limit that it needs, and whether a gauge is read.
READINGS: Mapping[str, tuple[str, str, bool]] = {
    "actuator_start": ("actuator/first_movement_kpa", "actuator_start_kpa", True),
    "actuator_full": ("actuator/full_travel_kpa", "actuator_full_kpa", True),
    "solenoid_coil": ("solenoid/coil_ohm", "solenoid_coil_ohm_20c", False),
    "intake_depression": ("intake_depression/p_kpa", "intake_depression_kpa", True),
    "exhaust_back_pressure": ("exhaust_back_pressure/p_kpa", "exhaust_back_pressure_kpa", True),
    "vacuum_supply": ("vacuum_supply/p_kpa", "vacuum_supply_kpa", True),
    "bypass_hold": ("bypass_valve/hold_kpa", "bypass_hold_kpa", True),
    "turbo_radial_play": ("turbo_inspection/radial_play_mm", "shaft_radial_play_mm", False),
    "turbo_axial_play": ("turbo_inspection/axial_play_mm", "shaft_axial_play_mm", False),
}


def foreseen(check: Check, evidence: Evidence) -> Finding | None:
    """A check's finding as it would be at its limit, by the gauge chosen for its test or the job's first.

    None where the test was made, or where the check, its limit or a gauge is missing: nothing is foreseen.
    """
    reading, limit_name, needs_gauge = READINGS.get(check.name, ("", "", False))
    limit = evidence.limit(limit_name) if reading else None
    if limit is None or evidence.get(f"/tests/{reading}") is not None:
        return None
    test, key = reading.split("/")
    gauge = evidence.get(f"/tests/{test}/gauge") or next(iter(evidence.gauges), None)
    if needs_gauge and gauge is None:
        return None
    at = limit.high if limit.low is None else limit.low
    tests = evidence.get("/tests") or {}
    made: dict[str, Any] = {**(tests.get(test) or {}), "gauge": gauge, key: at}
    found = check.examine(Evidence({**evidence.job, "tests": {**tests, test: made}}), check)
    return found if found.examined else None
