"""What a new reading moved, said in one line."""

from typing import Any

import calc
from tests.calc.test_fault_cases import merged
from tests.calc.test_verdict import late_actuator, sound_car


def line(before: dict[str, Any], after: dict[str, Any]) -> str | None:
    return calc.what_changed(calc.judge(merged(sound_car(), before)), calc.judge(merged(sound_car(), after)))


def test_nothing_moves_between_equal_verdicts() -> None:
    assert line({}, {}) is None


def test_a_proof_is_said_first() -> None:
    said = line({"tests": {"actuator": None, "road": None}}, late_actuator())
    assert said == "Not certain before. Now proved: the actuator moves too late."


def test_a_conclusion_that_gives_way_to_another_is_said_with_it() -> None:
    said = line({}, late_actuator())
    assert said == "Before, likely: no fault found. Now proved: the actuator moves too late."


def test_a_share_that_moved_is_said_before_and_now() -> None:
    before, after = (
        {
            "conclusion": None,
            "faults": [{"fault": "charge_air_leak", "standing": "possible", "probability": share}],
        }
        for share in (0.21, 0.64)
    )
    assert calc.what_changed(before, after) == "More probable now: charge air leak, 64 %, before 21 %."
    assert calc.what_changed(after, before) == "Less probable now: charge air leak, 21 %, before 64 %."


def test_a_proof_that_the_road_bears_out_is_said() -> None:
    bench = {"tests": {**late_actuator()["tests"], "road": None}}
    assert line(bench, late_actuator(boost_actual_kpa_abs=247)) == "Now it explains the complaint."
    assert line(late_actuator(), bench) == "Now it is open whether it explains the complaint."


def test_a_conclusion_that_falls_is_said() -> None:
    said = line(late_actuator(), {"tests": {"actuator": None, "road": None}})
    assert said == "No longer certain that the actuator moves too late."


def test_a_part_that_was_cleared_is_named() -> None:
    bare = {"tests": {"road": None, "actuator": {"hold": None}}}
    assert line(bare, {"tests": {"road": None}}) == "Now ruled out: diaphragm leaks."
