"""Priors: all alike by default, the workshop's own proved jobs where they are in the job, and shown."""

import json
from typing import Any

import pytest

import calc
from calc import vocabulary

BARE: dict[str, Any] = {"format": "job/1", "id": "x"}


def shares(job: dict[str, Any]) -> dict[str, float]:
    return {row["fault"]: row["probability"] for row in calc.judge(job)["faults"]}


def test_priors_are_alike_by_default_and_nothing_is_said_of_them() -> None:
    assert max(shares(BARE).values()) - min(shares(BARE).values()) <= 0.0001
    assert calc.judge(BARE)["priors"] is None


def test_proved_jobs_add_a_fifth_each_and_no_more_than_three_times() -> None:
    weights = calc.prior_weights(
        {"charge_air_leak": 1, "spring_weak": 5, "vanes_sticking": 1000, "other_cause": 0}
    )
    assert weights == {"charge_air_leak": 1.2, "spring_weak": 2.0, "vanes_sticking": 3.0}


def test_a_fault_weighs_by_its_own_jobs_as_bayes_has_it() -> None:
    """With no evidence the posterior is the prior: weight ÷ sum of weights."""
    found = shares({**BARE, "workshop": {"priors": {"charge_air_leak": 1.6}}})
    assert found["charge_air_leak"] == pytest.approx(1.6 / (len(found) - 1 + 1.6), abs=1e-4)


def test_weights_are_shown_the_weightiest_first_and_only_for_faults_of_this_car() -> None:
    priors = {"charge_air_leak": 1.2, "actuator_opens_late": 2.0, "vanes_sticking": 3.0, "spring_weak": 1.0}
    shown = calc.judge({**BARE, "workshop": {"priors": priors}})["priors"]
    assert shown["weights"] == {"charge_air_leak": 1.2, "actuator_opens_late": 2.0}
    assert shown["says"].endswith("actuator opens too late 2 times and charge air leak 1.2 times.")


def test_the_weights_travel_in_the_job() -> None:
    """So that phone and server, whatever each has counted since, say the same of the same bytes."""
    data = json.dumps({**BARE, "workshop": {"priors": calc.prior_weights({"spring_weak": 2})}}).encode()
    assert '"weights":{"spring_weak":1.4}' in calc.judge_text(data)


def test_no_weight_decides_by_itself() -> None:
    """Even the most that a workshop's jobs can do leaves a job without readings open."""
    for fault in vocabulary.FAULTS:
        verdict = calc.judge({**BARE, "workshop": {"priors": calc.prior_weights({fault: 10_000})}})
        assert verdict["conclusion"] is None


def test_own_minutes_take_the_place_of_the_usual_ones() -> None:
    verdict = calc.judge({**BARE, "workshop": {"minutes": {"sensors_at_rest": 90, "throttle": 1}}})
    assert verdict["next_test"]["test"] == "throttle"
    assert {row["test"]: row["minutes"] for row in verdict["remaining"]}["sensors_at_rest"] == 90
