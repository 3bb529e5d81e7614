"""A cleared code, a cold engine, a wrong gear, reduced power are asked about; a run made so proves nothing.

The rules are the trade's own: common practice, no source.
"""

from typing import Any

import pytest

import calc
from calc.words.sentences import LANGUAGES
from tests.calc.test_fault_cases import merged
from tests.calc.test_verdict import late_actuator, sound_car

SPOILING = {"engine_warm": False, "gear_held": False, "in_reduced_power": True, "regenerating": True}


def judged(change: dict[str, Any], language: str = "en") -> dict[str, Any]:
    return calc.judge(merged(sound_car(), change), language=language)


def asked(verdict: dict[str, Any]) -> dict[str, Any]:
    return {row["path"].rsplit("/", 1)[1]: row for row in verdict["questions"]}


def run_with(**answers: bool) -> dict[str, Any]:
    """The sound car's run with gauge and sensor 26 kPa above the aim, and answers about how it was made."""
    change = late_actuator(boost_actual_kpa_abs=247, duty_pct=4)
    change["tests"]["actuator"] = {}
    change["tests"]["road"][0] |= answers
    return change


def test_a_car_with_a_run_is_asked_of_codes_warmth_gear_and_reduced_power() -> None:
    verdict = judged({**run_with(), "complaint": {"codes": ["P0234"]}})
    assert list(asked(verdict)) == ["codes_cleared", "engine_warm", "gear_held", "in_reduced_power"]
    assert asked(verdict)["engine_warm"]["path"] == "/tests/road/r1/engine_warm"
    assert {row["answer"] for row in verdict["questions"]} == {None}


def test_only_a_diesel_is_asked_of_its_filter() -> None:
    assert "regenerating" in asked(judged({**run_with(), "vehicle": {"fuel": "diesel"}}))


def test_nothing_is_asked_before_anything_was_done() -> None:
    assert calc.judge({"format": "job/1", "id": "x"})["questions"] == []


def test_an_unanswered_question_changes_nothing_and_a_good_answer_neither() -> None:
    good = {key: not spoiling for key, spoiling in SPOILING.items()}
    plain, answered = judged(run_with()), judged(run_with(**good))
    for verdict in (plain, answered):
        del verdict["questions"]
    assert answered == plain


@pytest.mark.parametrize(("key", "spoiling"), SPOILING.items())
def test_a_run_made_wrongly_blames_nothing(key: str, spoiling: bool) -> None:
    fair, spoiled = judged(run_with()), judged(run_with(**{key: spoiling}))
    assert "outside" in {row["outcome"] for row in fair["findings"] if row["check"].startswith("road_")}
    road = [row for row in spoiled["findings"] if row["check"].startswith("road_")]
    assert {row["outcome"] for row in road} == {"not_examined"}
    assert "not judged" in road[0]["says"]
    assert spoiled["conclusion"] is None
    assert "road_run" in [row["test"] for row in spoiled["remaining"]]
    if key in asked(spoiled):
        assert asked(spoiled)[key]["says"] in spoiled["cautions"]


def test_a_proof_on_the_bench_stands_without_the_run() -> None:
    change = late_actuator(boost_actual_kpa_abs=247, duty_pct=4)
    change["tests"]["road"][0]["engine_warm"] = False
    concluded = judged(change)["conclusion"]
    assert (concluded["fault"], concluded["standing"]) == ("actuator_opens_late", "proved")


def test_a_cold_run_after_the_repair_proves_no_repair() -> None:
    change = late_actuator(boost_actual_kpa_abs=247, duty_pct=4)
    sound = sound_car()["tests"]["road"][0]
    change["tests"]["road"].append({**sound, "id": "r2", "phase": "after_repair"})
    assert judged(change)["repair_proof"]["proved"] is True
    change["tests"]["road"][1]["engine_warm"] = False
    assert judged(change)["repair_proof"]["proved"] is None


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_question_is_a_question_and_says_what_follows(language: str) -> None:
    for asks, says in LANGUAGES[language].QUESTIONS.values():
        assert asks.endswith("?")
        assert says.endswith(".")
