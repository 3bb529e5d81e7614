"""The course of a run: plain numbers beside the checks, and what they may and may not do to a verdict.

The runs come from fixtures/simulator, a model of our own; the arithmetic is held against the run itself.
"""

from typing import Any

import pytest

import calc
from calc.checks import examine
from calc.checks.course import NEVER_RPM, course
from calc.checks.evidence import Evidence, Kind
from calc.faults import FAULTS, faults_of
from calc.faults.traces import ANY, EDGES, TEMPER, tables_of, trace_log
from calc.faults.weigh import LIKELY, weigh
from calc.job import without_nulls
from fixtures.simulator import simulate

PRESSURE = Kind("wastegate", "pressure", "unknown", None)
KINDS = (
    PRESSURE,
    Kind("wastegate", "vacuum", "unknown", None),
    Kind("variable_geometry", "vacuum", "unknown", None),
    Kind("wastegate", "electric", "unknown", None),
)


def run_of(fault: str | None, seed: int = 7, **more: Any) -> Evidence:
    job, _ = simulate(f"course {seed}", fault=fault, depth="road", **more)
    return Evidence(without_nulls(job))


def numbers_of(fault: str | None, seed: int = 7, **more: Any) -> dict[str, float]:
    return course(run_of(fault, seed, **more))


def test_a_job_without_a_run_has_no_course() -> None:
    assert course(Evidence({"format": "job/1", "id": "x"})) == {}


def test_a_sound_car_arrives_stays_at_its_aim_and_has_the_control_pressure_of_its_duty() -> None:
    seen = numbers_of(None)
    assert seen["arrival_rpm"] < 3000.0
    assert abs(seen["middle_share"]) < 0.12
    assert abs(seen["bend_share"]) < 0.12
    assert abs(seen["control_miss"]) < 0.2
    assert 0.75 < seen["filling"] < 1.1


def test_a_gate_that_never_shuts_never_arrives() -> None:
    assert numbers_of("wastegate_not_closing", severity=1.0)["arrival_rpm"] == NEVER_RPM


def test_a_vented_actuator_gets_nothing_and_a_passed_one_all() -> None:
    assert numbers_of("solenoid_vents_all", severity=1.0)["control_share"] < 0.35
    assert numbers_of("solenoid_passes_all", severity=1.0)["control_share"] > 0.6


def test_a_choked_intake_loses_boost_towards_the_top() -> None:
    """Trade: falls away on top, a restriction; common practice, no source."""
    bends = [
        sum(numbers_of(fault, seed, severity=severity)["bend_share"] for seed in range(6))
        for fault, severity in ((None, None), ("intake_restriction", 1.0))
    ]
    assert bends[1] < bends[0] - 6 * 0.03


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: f"{kind.actuator} {kind.device}")
def test_every_fault_of_a_kind_has_its_shares_and_they_are_shares(kind: Kind) -> None:
    for name, faults in tables_of(kind.device, kind.actuator).items():
        for fault, shares in faults.items():
            assert len(shares) == len(EDGES[name]) + 1
            assert sum(shares) == pytest.approx(1.0)
            assert min(shares) > 0.0, f"{fault} makes a range of {name} impossible"
    tabled = {fault for faults in tables_of(kind.device, kind.actuator).values() for fault in faults}
    untold = {"pedal_signal_low"}  # a pedal that never says full leaves no full-load pull to look at
    assert {fault.name for fault in faults_of(kind)} - untold <= tabled


def test_tables_name_known_faults_alone() -> None:
    known = {ANY, *(fault.name for fault in FAULTS)}
    for kind in KINDS:
        assert {
            fault for faults in tables_of(kind.device, kind.actuator).values() for fault in faults
        } <= known


def test_the_course_tells_a_leak_from_a_choked_exhaust() -> None:
    leak, choked = (
        numbers_of("charge_air_leak", severity=0.8),
        numbers_of("exhaust_restriction", severity=1.0),
    )

    def leans(seen: dict[str, float]) -> float:
        return trace_log("charge_air_leak", PRESSURE, seen) - trace_log("exhaust_restriction", PRESSURE, seen)

    assert leans(leak) > TEMPER
    assert leans(choked) < -TEMPER


def test_the_course_orders_and_never_convicts() -> None:
    """Whatever the pulls suggest, a fault is likely only where the checks alone make it so."""
    for fault in ("solenoid_circuit_fault", "control_hoses_swapped", "charge_air_leak", "egr_not_closing"):
        evidence = run_of(fault)
        for item in weigh(evidence, examine(evidence)):
            if item.standing == "likely" and not item.fault.likely_by_rule:
                assert item.by_checks >= LIKELY


def test_a_fault_that_no_table_holds_is_neither_favoured_nor_held_back() -> None:
    vanes = Kind("variable_geometry", "electric", "unknown", None)
    seen = numbers_of("charge_air_leak")
    logs = [trace_log(fault.name, vanes, seen) for fault in faults_of(vanes)]
    assert min(logs) < trace_log("vanes_sticking", vanes, seen) < max(logs)


def test_the_verdict_says_what_of_the_pulls_points_at_the_first_suspect() -> None:
    job, _ = simulate("course words", fault="solenoid_vents_all", depth="road")
    told = {row["name"]: row["says"] for row in calc.judge(job)["course"]}
    assert "control_share" in told
    assert "reached the actuator" in told["control_share"]
    assert calc.judge({"format": "job/1", "id": "x"})["course"] == []
