"""Symptoms and codes weigh a little and never decide.

Codes: SAE J2012 as public lists give them (hobby-grade; P0234 overboost, P0243 wastegate solenoid A, P0299
underboost were seen in more than one).
"""

import pytest

import calc
from tests.calc.test_fault_cases import judged as on_the_sound_car

BARE = {"format": "job/1", "id": "x"}


def share(complaint: dict[str, object], fault: str) -> float:
    rows = calc.judge({**BARE, "complaint": complaint})["faults"]
    return next(row["probability"] for row in rows if row["fault"] == fault)


def odds(complaint: dict[str, object], fault: str) -> float:
    """Against a fault that none of the codes below names: a code of boost too low names many at once."""
    return share(complaint, fault) / share(complaint, "pedal_signal_low")


@pytest.mark.parametrize(
    ("code", "fault"),
    [
        ("P0234", "wastegate_seized_closed"),
        ("P0243", "solenoid_circuit_fault"),
        ("P0299", "charge_air_leak"),
        ("P0236", "charge_pressure_reads_low"),
    ],
)
def test_a_code_makes_its_faults_more_probable_and_no_more_than_that(code: str, fault: str) -> None:
    assert odds({"codes": [code]}, fault) > 1.5 * odds({}, fault)
    verdict = calc.judge({**BARE, "complaint": {"codes": [code], "symptoms": ["boost_cut", "whistle"]}})
    assert verdict["conclusion"] is None
    assert max(row["probability"] for row in verdict["faults"]) < 0.15


def test_a_code_of_one_maker_says_nothing() -> None:
    assert share({"codes": ["P1557"]}, "wastegate_seized_closed") == share({}, "wastegate_seized_closed")


def test_a_code_of_boost_too_low_names_whatever_makes_it_so_on_this_kind_of_car() -> None:
    vacuum = {"device": "wastegate", "actuator": "vacuum"}

    def row(boost_control: dict[str, str] | None, code: str) -> float:
        job = {**BARE, "complaint": {"codes": [code]}, "boost_control": boost_control}
        rows = {row["fault"]: row["probability"] for row in calc.judge(job)["faults"]}
        return rows["control_line_leak"] / rows["pedal_signal_low"]

    assert row(None, "P0234") > 1.5 * row(None, "P0299")
    assert row(vacuum, "P0299") > 1.5 * row(vacuum, "P0234")


@pytest.mark.parametrize(
    ("reproduced", "alike", "means"),
    [(True, ["other_cause"], "We felt the trouble too."), (False, [], "If the trouble comes back")],
)
def test_a_complaint_that_was_felt_though_nothing_is_outside_may_have_its_cause_elsewhere(
    reproduced: bool, alike: list[str], means: str
) -> None:
    verdict = on_the_sound_car({"complaint": {"reproduced": reproduced}})
    (nothing,) = (one for one in verdict["faults"] if one["fault"] == "no_fault_found")
    assert verdict["conclusion"]["fault"] == "no_fault_found"
    assert nothing["alike"] == alike
    assert means in verdict["conclusion"]["customer_means"]
