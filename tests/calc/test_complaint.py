"""Symptoms and codes weigh a little and never decide.

Codes: SAE J2012 as public lists give them (hobby-grade; P0234 overboost, P0243 wastegate solenoid A, P0299
underboost were seen in more than one).
"""

import pytest

import calc

BARE = {"format": "job/1", "id": "x"}


def share(complaint: dict[str, object], fault: str) -> float:
    rows = calc.judge({**BARE, "complaint": complaint})["faults"]
    return next(row["probability"] for row in rows if row["fault"] == fault)


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
    assert share({"codes": [code]}, fault) > 1.5 * share({}, fault)
    verdict = calc.judge({**BARE, "complaint": {"codes": [code], "symptoms": ["boost_cut", "whistle"]}})
    assert verdict["conclusion"] is None
    assert max(row["probability"] for row in verdict["faults"]) < 0.15


def test_a_code_of_one_maker_says_nothing() -> None:
    assert share({"codes": ["P1557"]}, "wastegate_seized_closed") == share({}, "wastegate_seized_closed")
