"""The contract's outcome rule on generated jobs, every check, with the probability taken from scipy."""

from typing import Any

import pytest

from calc.checks import CHECKS, examine
from calc.checks.evidence import Evidence
from calc.job import without_nulls
from tests.calc.checks.bench import by_the_rule, inside
from tests.generated_jobs import generated_jobs

JOBS = [without_nulls(job) for job, _ in generated_jobs(60)]
OWN_RULE = ("charge_leak_hole", "road_authority")  # decided on the area; on what the duty still does
NEEDS_A_GAUGE = {
    "charge_leak_hole": "charge_decay", "actuator_start": "actuator", "actuator_full": "actuator",
    "actuator_rate": "actuator", "actuator_hysteresis": "actuator", "actuator_hold": "actuator",
    "solenoid_response": "solenoid", "intake_depression": "intake_depression",
    "exhaust_back_pressure": "exhaust_back_pressure", "cooler_drop": "cooler_drop",
    "vacuum_supply": "vacuum_supply",
}  # fmt: skip


def all_findings() -> list[tuple[dict[str, Any], Any]]:
    return [(job, found) for job in JOBS for found in examine(Evidence(job)).values()]


FOUND = all_findings()


def test_every_check_turns_up_judged() -> None:
    judged = {found.check for _, found in FOUND if found.examined}
    assert {check.name for check in CHECKS} - judged <= {"base_boost", "road_reduced_power", "road_hunting"}


def test_the_outcome_follows_the_rule() -> None:
    for _, found in FOUND:
        if not found.examined or found.unit == "flag" or found.check in OWN_RULE:
            continue
        broken_off = found.lower_bound or found.facts.get("monotone") is False
        u = found.uncertainty or 1e-9
        ruled = by_the_rule(found, u)
        if found.outcome == "within":
            assert ruled == "within", found
        elif ruled == "outside" and not broken_off:
            assert found.outcome == "outside", found
        elif found.outcome == "outside" and not broken_off:
            assert ruled == "outside", found
        if found.chances is not None and found.uncertainty and found.facts.get("monotone") is not False:
            assert found.chances.inside == pytest.approx(inside(found, u), abs=1e-9), found


def test_a_pressure_without_a_gauge_is_never_within() -> None:
    seen = 0
    for job, found in FOUND:
        test = NEEDS_A_GAUGE.get(found.check)
        if test and found.examined and "gauge" not in job["tests"].get(test, {}):
            assert found.outcome != "within", found
            seen += 1
    assert seen > 20


def test_what_is_not_examined_says_why() -> None:
    for _, found in FOUND:
        if not found.examined:
            assert found.facts["because"]
            assert found.value is None or found.limit is None


def test_what_was_read_stands_where_the_finding_points() -> None:
    for job, found in FOUND:
        evidence = Evidence(job)
        for pointer in found.read_from:
            assert evidence.get(pointer) is not None, (found.check, pointer)
        assert bool(found.read_from) == (found.value is not None), found


def test_a_yes_or_no_is_one_or_nought() -> None:
    for _, found in FOUND:
        if found.unit == "flag" and found.examined and found.check != "road_authority":
            assert (found.outcome, found.value) in (("within", 1.0), ("outside", 0.0)), found
