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
    assert line({"tests": {"actuator": None}}, late_actuator()) == "Now proved: the actuator moves too late."


def test_a_conclusion_that_falls_is_said() -> None:
    said = line(late_actuator(), {"tests": {"actuator": None, "road": None}})
    assert said == "No longer certain that the actuator moves too late."


def test_a_part_that_was_cleared_is_named() -> None:
    bare = {"tests": {"road": None, "actuator": {"hold": None}}}
    assert line(bare, {"tests": {"road": None}}) == "Now ruled out: diaphragm leaks."
