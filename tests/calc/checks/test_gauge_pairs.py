"""Two gauges at one pressure: said where they disagree, and then neither clears anything.

Doubt of the difference: JCGM 100, 5.1.2, root of the squares of both gauges' doubts.
"""

import json
import math
from typing import Any

import pytest

import calc
from calc.checks.evidence import Evidence
from calc.job import without_nulls

SPEC = {"actuator_start_kpa": {"min": 60, "max": 80}}
U = math.hypot(5 / 12**0.5, 6.4 / 3**0.5)  # standard uncertainty of one dial, class 1.6 over 400, half of 10


def dial(name: str) -> dict[str, Any]:
    return {"id": name, "kind": "analogue", "span_kpa": [0, 400], "class_pct": 1.6, "division_kpa": 10}


def bench(p: float, other: float, **more: Any) -> dict[str, Any]:
    tests = {
        "gauges_compared": {"gauge": "g1", "other_gauge": "g2", "p_kpa": p, "other_kpa": other},
        "actuator": {"gauge": "g1", "first_movement_kpa": 70},
        **more,
    }
    return {
        "format": "job/1",
        "id": "j",
        "gauges": [dial("g1"), dial("g2"), dial("g3")],
        "spec": SPEC,
        "tests": tests,
    }


def judged(job: dict[str, Any]) -> dict[str, Any]:
    return json.loads(calc.judge_text(json.dumps(job).encode()))


def start(verdict: dict[str, Any]) -> dict[str, Any]:
    return next(found for found in verdict["findings"] if found["check"] == "actuator_start")


@pytest.mark.parametrize(
    ("other", "agree"), [(150, True), (160, True), (161.5, False), (175, False), (138, False)]
)
def test_the_distance_against_both_doubts(other: float, agree: bool) -> None:
    verdict = judged(bench(150, other))
    (pair,) = verdict["gauges_compared"]
    assert pair["difference_kpa"] == other - 150
    assert pair["expanded_uncertainty"] == pytest.approx(2 * math.sqrt(2) * U, rel=5e-3)  # 11.2 kPa
    assert pair["agree"] == agree
    assert bool(verdict["hints"]) != agree
    assert start(verdict)["outcome"] == ("within" if agree else "undecided")


def test_what_disagrees_is_said_and_its_doubt_reaches_to_the_other() -> None:
    verdict = judged(bench(150, 180))
    assert any("contradict" in caution for caution in verdict["cautions"])
    assert "30.0 kPa apart" in verdict["hints"][0]
    assert start(verdict)["expanded_uncertainty"] == pytest.approx(2 * math.hypot(U, 30 / 3**0.5), rel=5e-3)


def test_an_obvious_fault_is_still_accused() -> None:
    job = bench(150, 165)
    job["tests"]["actuator"]["first_movement_kpa"] = 130
    assert start(judged(job))["outcome"] == "outside"


def reading(gauge: str, p: float, **more: Any) -> dict[str, Any]:
    return {"gauge": gauge, "p_kpa": p, "pull": 1, "engine_rpm": 3500, **more}


def test_two_gauges_read_at_one_place_of_the_road_are_compared() -> None:
    """The reader's eye goes from one to the other: 4 kPa more, standard (common practice, no source)."""
    run = {"id": "r1", "readings": [reading("g1", 120), reading("g2", 130)]}
    verdict = judged(bench(0, 0, road=[run], gauges_compared=None))
    (pair,) = verdict["gauges_compared"]
    assert pair["expanded_uncertainty"] == pytest.approx(2 * math.hypot(U, U, 4.0), rel=5e-3)
    assert pair["agree"]


@pytest.mark.parametrize(
    "second",
    [
        reading("g2", 160, at="control_line"),
        reading("g2", 160, engine_rpm=4200),
        reading("g2", 160, pull=2),
        reading("g2", 160, peak=True),
        reading("g1", 160),
    ],
)
def test_other_places_and_moments_are_no_comparison(second: dict[str, Any]) -> None:
    run = {"id": "r1", "readings": [reading("g1", 120), second]}
    assert judged(bench(0, 0, road=[run], gauges_compared=None))["gauges_compared"] == []


def test_a_third_gauge_tells_which_is_off() -> None:
    run = {"id": "r1", "readings": [reading("g1", 120), reading("g3", 121), reading("g2", 150)]}
    job = without_nulls(bench(150, 180, road=[run]))
    assert set(Evidence(job).disputed) == {"g2"}
    assert start(judged(job))["outcome"] == "within"
