"""The verdict's rules, as the contract states them."""

import json
import math
from math import fsum
from pathlib import Path
from typing import Any

import pytest

import calc
from calc.checks import CHECKS
from tests.calc.test_fault_cases import SOUND, merged

FIXTURES = Path(__file__).parents[2] / "fixtures"
BARE = {"format": "job/1", "id": "x"}


def sound_car() -> dict[str, Any]:
    return json.loads((FIXTURES / "faults" / SOUND).read_text())


def judged(change: dict[str, Any]) -> dict[str, Any]:
    return calc.judge(merged(sound_car(), change))


def late_actuator(**road: Any) -> dict[str, Any]:
    """First movement and full travel 26 and 21 kPa above the middle of their limits; the road as asked."""
    noted = {"pull": 1, "engine_rpm": 3500, "pedal_pct": 100, "boost_specified_kpa_abs": 221, **road}
    reading = {"pull": 1, "engine_rpm": 3500, "gauge": "g1", "p_kpa": 147}
    return {
        "tests": {
            "actuator": {"first_movement_kpa": 96, "full_travel_kpa": 171},
            "road": [{"id": "r1", "readings": [reading], "noted": [noted]}],
        }
    }


def test_a_bare_job_has_nothing_examined_and_a_next_test() -> None:
    verdict = calc.judge(BARE)
    assert {row["outcome"] for row in verdict["findings"]} == {"not_examined"}
    assert {row["standing"] for row in verdict["faults"]} == {"not_examined"}
    assert verdict["conclusion"] is None
    assert verdict["adjustment"] is None
    assert "repair_proof" not in verdict
    assert verdict["next_test"]["test"] in ("smoke", "charge_decay", "sensors_at_rest", "actuator")


def test_findings_stand_in_the_order_of_the_contract() -> None:
    names = [row["check"] for row in calc.judge(BARE)["findings"]]
    assert names == [check.name for check in CHECKS]
    contract = (
        "smoke_leak charge_leak_hole actuator_start actuator_full actuator_travel actuator_rate "
        "actuator_hysteresis actuator_hold actuator_moves actuator_returns actuator_position wastegate_seat "
        "solenoid_coil solenoid_supply solenoid_ground solenoid_response control_hoses rest_charge_pressure "
        "rest_temperatures rest_pedal rest_air_mass sensor_feed intake_depression exhaust_back_pressure "
        "cooler_drop vacuum_supply bypass_hold turbo_radial_play turbo_axial_play turbo_wheels exhaust_leak "
        "egr_closes throttle_opens engine_health road_pedal road_request road_specified road_tracking "
        "road_real_boost road_peak road_overboost road_sensor road_control_pressure road_authority "
        "road_correction road_air_mass road_hunting road_reduced_power base_boost"
    )
    assert names == contract.split()


@pytest.mark.parametrize(
    ("control", "absent"),
    [
        ({}, {"actuator_motor_fault", "vacuum_supply_low", "vanes_sticking"}),
        (
            {"device": "variable_geometry", "actuator": "vacuum"},
            {"actuator_motor_fault", "wastegate_seized_closed", "wastegate_not_closing"},
        ),
        (
            {"device": "wastegate", "actuator": "electric"},
            {
                "diaphragm_leak",
                "solenoid_circuit_fault",
                "spring_weak",
                "vacuum_supply_low",
                "vanes_sticking",
            },
        ),
    ],
)
def test_only_faults_that_this_kind_can_have_are_named(control: dict[str, str], absent: set[str]) -> None:
    verdict = calc.judge({**BARE, "boost_control": control})
    names = {row["fault"] for row in verdict["faults"]}
    assert not names & absent
    assert {"no_fault_found", "charge_air_leak", "turbocharger_worn", "other_cause"} <= names


def test_probabilities_have_four_places_and_sum_to_one() -> None:
    for change in ({}, late_actuator(), {"tests": None}):
        shares = [row["probability"] for row in judged(change)["faults"]]
        assert fsum(shares) == pytest.approx(1.0, abs=1e-12)
        assert sum(round(share * 10_000) for share in shares) == 10_000
        assert all(round(share, 4) == share for share in shares)
        assert shares == sorted(shares, reverse=True)


def test_without_evidence_the_faults_are_alike_and_in_the_order_of_the_table() -> None:
    rows = calc.judge(BARE)["faults"]
    assert rows[0]["fault"] == "no_fault_found"
    assert rows[-1]["fault"] == "other_cause"
    assert rows[0]["probability"] - rows[-1]["probability"] <= 0.0001


def test_a_proved_fault_may_be_the_conclusion_before_any_road_run() -> None:
    verdict = judged(
        {"tests": {"road": None, "actuator": {"first_movement_kpa": 96, "full_travel_kpa": 171}}}
    )
    assert verdict["conclusion"]["fault"] == "actuator_opens_late"
    assert verdict["faults"][0]["explains_complaint"] == "unknown"
    assert verdict["next_test"] is not None


def test_no_next_test_once_a_fault_is_proved_and_explains() -> None:
    verdict = judged(late_actuator(boost_actual_kpa_abs=247, duty_pct=4))
    assert verdict["conclusion"]["standing"] == "proved"
    assert verdict["faults"][0]["explains_complaint"] == "yes"
    assert verdict["next_test"] is None


def test_a_late_actuator_that_the_loop_hides_is_measured_against_the_trim() -> None:
    """A correction of 26 kPa towards less boost is what the loop does about an actuator 26 kPa late."""
    change = late_actuator(boost_actual_kpa_abs=222, duty_pct=20, boost_correction_kpa=-26)
    change["tests"]["road"][0]["readings"][0]["p_kpa"] = 121
    verdict = judged(change)
    assert verdict["conclusion"]["fault"] == "actuator_opens_late"
    assert verdict["faults"][0]["explains_complaint"] == "yes"


def test_a_fault_that_was_not_reproduced_is_said_so() -> None:
    verdict = judged({**late_actuator(boost_actual_kpa_abs=247), "complaint": {"reproduced": False}})
    assert "not reproduced" in verdict["conclusion"]["says"]


def test_two_proved_faults_that_explain_alike_are_mended_in_the_order_of_the_table() -> None:
    """A hose blown off (without bound) before a valve of the intake that stays shut (not sized)."""
    verdict = judged(
        {
            "tests": {
                "charge_decay": {"readings": [{"t_s": 0, "p_kpa": 60}, {"t_s": 2, "p_kpa": 0}]},
                "egr": {"closes": False},
                "road": None,
            }
        }
    )
    proved = [row["fault"] for row in verdict["faults"] if row["standing"] == "proved"]
    assert set(proved) == {"charge_air_leak", "egr_not_closing"}
    assert verdict["conclusion"]["fault"] == "charge_air_leak"


def test_two_faults_that_none_explains_alone_are_named_as_a_pair() -> None:
    verdict = judged(
        {
            "tests": {
                "smoke": {"leak_seen": True},
                "charge_decay": {"readings": [{"t_s": 0, "p_kpa": 60}, {"t_s": 3, "p_kpa": 38}]},
                "actuator": {"first_movement_kpa": 45, "full_travel_kpa": 125},
            }
        }
    )
    assert [sorted(pair["faults"]) for pair in verdict["pairs"]] == [
        ["actuator_opens_early", "charge_air_leak"]
    ]


def test_no_full_load_pull_is_proposed_before_tightness_and_a_look_at_the_wheel() -> None:
    pulls = {"road_run", "road_gauges", "base_boost_run", "intake_depression", "cooler_drop"}
    done: dict[str, Any] = {}
    for _ in range(12):
        verdict = calc.judge({**sound_car(), "tests": done})
        following = verdict["next_test"]
        if following is None:
            return
        tight = "smoke" in done or "charge_decay" in done
        assert following["test"] not in pulls or (tight and "turbo_inspection" in done)
        name = {"solenoid_electrical": "solenoid", "solenoid_sweep": "solenoid", "road_run": "road"}.get(
            following["test"], following["test"]
        )
        if name not in sound_car()["tests"]:
            return
        done[name] = sound_car()["tests"][name]


def test_a_damaged_wheel_bars_full_load() -> None:
    verdict = judged({"tests": {"road": None, "turbo_inspection": {"wheel_damage": True}}})
    assert any("no full-load pull" in text for text in verdict["cautions"])


def test_workshops_own_weights_move_the_order() -> None:
    heavy = calc.judge({**BARE, "workshop": {"priors": {"egr_not_closing": 50}}})
    assert heavy["faults"][0]["fault"] == "egr_not_closing"


def test_workshops_own_minutes_are_used() -> None:
    verdict = calc.judge({**BARE, "workshop": {"minutes": {"actuator": 7}}})
    assert {row["test"]: row["minutes"] for row in verdict["remaining"]}["actuator"] == 7


@pytest.mark.parametrize(
    ("after_kpa", "proved"), [(121, True), (147, False), (None, None)], ids=["right", "wrong", "no gauge"]
)
def test_the_repair_is_proved_by_the_run_after_it(after_kpa: float | None, proved: bool | None) -> None:
    change = late_actuator(boost_actual_kpa_abs=247, duty_pct=4)
    later = {
        "id": "r2",
        "phase": "after_repair",
        "readings": [{"pull": 1, "engine_rpm": 3500, "gauge": "g1", "p_kpa": after_kpa}],
        "noted": [{"pull": 1, "engine_rpm": 3500, "pedal_pct": 100, "boost_specified_kpa_abs": 221}],
    }
    change["tests"]["road"].append(later)
    proof = judged(change)["repair_proof"]
    assert proof["proved"] is proved
    if proved:  # one gauge before and after: two readings and the air, without its class (JCGM 100, 5.2)
        u = math.hypot(2.5 / 12**0.5, 0.15) * 2**0.5
        assert proof["change"]["expanded_uncertainty"] == pytest.approx(2 * u, rel=5e-3)
        assert proof["change"]["value"] > 20


def test_an_undecided_finding_names_the_gauge_that_would_tell() -> None:
    """64 kPa read on a class 1.6 gauge over 400 kPa, limit 60 to 80: U = 7.9 kPa reaches across."""
    coarse = {"id": "g1", "kind": "analogue", "span_kpa": [0, 400], "class_pct": 1.6, "division_kpa": 10}
    job = merged(sound_car(), {"tests": {"actuator": {"first_movement_kpa": 64}}})
    verdict = calc.judge({**job, "gauges": [coarse, *job["gauges"][1:]]})
    start = next(row for row in verdict["findings"] if row["check"] == "actuator_start")
    assert start["outcome"] == "undecided"
    assert start["settles"] == "A gauge of class 0.6 would tell."


def test_the_same_job_gives_the_same_bytes() -> None:
    data = json.dumps(sound_car()).encode()
    assert calc.judge_text(data) == calc.judge_text(data)
    assert calc.judge_text(data) != calc.judge_text(data, unit="bar")
    assert json.loads(calc.judge_text(data)) == calc.judge(sound_car())


def test_units_change_what_is_said_and_nothing_else() -> None:
    spoken = ("says", "figure", "customer_says", "customer", "cautions", "settles", "why", "title")

    def bare(part: Any) -> Any:
        if isinstance(part, dict):
            return {key: bare(value) for key, value in part.items() if key not in spoken}
        return [bare(value) for value in part] if isinstance(part, list) else part

    assert bare(calc.judge(sound_car(), unit="psi")) == bare(calc.judge(sound_car()))


@pytest.mark.parametrize("file", sorted((FIXTURES / "faults").glob("*.json")), ids=lambda file: file.stem)
def test_nothing_that_is_said_shows_its_making(file: Path) -> None:
    """No braces, no Python words, no double signs in any sentence of any case."""
    document = json.loads(file.read_text())
    for case in document.get("cases", [{"change": {}}]):
        for text in strings(judged(case["change"])):
            assert not any(mark in text for mark in ("{", "}", "None", "nan", "..", " .", "  ", ": ;")), text


def strings(part: Any) -> list[str]:
    if isinstance(part, str):
        return [part]
    inside = part.values() if isinstance(part, dict) else part if isinstance(part, list) else ()
    return [text for one in inside for text in strings(one)]


def test_a_vacuum_actuator_that_holds_nothing_at_all_is_judged() -> None:
    """A torn diaphragm: the pump brings no depth, so that no hole can be reckoned from its loss."""
    hold = {"p_kpa": 0, "t_s": 5, "p_end_kpa": 0, "volume_ml": 60}
    job = {**BARE, "boost_control": {"actuator": "vacuum"}, "tests": {"actuator": {"hold": hold}}}
    found = next(row for row in calc.judge(job)["findings"] if row["check"] == "actuator_hold")
    assert "hole_mm" not in found
