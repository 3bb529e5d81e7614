"""A run that names its log: channels come from the file, by the columns that were accepted and no other."""

import json
from typing import Any

import pytest

import calc
from tests.calc.logs.dialects import Dialect
from tests.calc.logs.test_dialects import ALL, rendered

NAME = "ab" * 32


def accepted(run: dict[str, Any]) -> dict[str, Any]:
    """The columns as the phone writes them down: all that were guessed, the times left to the reader."""
    return {
        guess["channel"]: {key: guess[key] for key in ("column", "unit", "kind") if guess[key] is not None}
        for guess in run["guesses"]
        if guess["channel"] != "t_s"
    }


def job_of(columns: dict[str, Any], **facts: Any) -> dict[str, Any]:
    run = {"id": "r1", "log": {"sha256": NAME, "columns": columns}}
    return {
        "format": "job/1",
        "id": "j",
        "site": {"barometric_kpa_abs": facts.get("barometric_kpa_abs")},
        "vehicle": {key: facts.get(key) for key in ("displacement_l", "cylinders")},
        "tests": {"road": [run]},
    }


def reader(data: bytes) -> calc.LogReader:
    return lambda name, wish: calc.read_log(data, **json.loads(wish)) if name == NAME else None


@pytest.mark.parametrize(
    "how", ALL[::3], ids=lambda how: f"{how.language}{how.variant}-{how.pressure}-{how.time}"
)
def test_columns_accepted_as_guessed_give_the_same_run(how: Dialect) -> None:
    log = rendered(how)
    guessed = calc.read_log(log.data, **log.facts)
    job = calc.read_job(json.dumps(job_of(accepted(guessed), **log.facts)).encode())
    run: Any = calc.with_logs(job, reader(log.data))["tests"]["road"][0]
    assert run["channels"] == guessed["channels"]


def test_a_channel_that_was_not_accepted_is_not_read() -> None:
    log = rendered(ALL[0])
    columns = accepted(calc.read_log(log.data))
    del columns["duty_pct"]
    run = calc.with_logs(job_of(columns), reader(log.data))["tests"]["road"][0]
    assert "duty_pct" not in run["channels"]
    assert set(columns) < set(run["channels"])


def test_a_log_that_is_not_here_or_cannot_be_read_leaves_the_run_without_channels() -> None:
    job = job_of({})
    assert calc.with_logs(job, lambda name, wish: None) == job
    assert calc.with_logs(job, reader(b"no table")) == job
    assert calc.log_names(job) == [NAME]
    assert calc.log_names({"tests": {"road": [None, {"id": "r1"}]}}) == []


def test_an_air_pressure_that_cannot_be_is_not_taken() -> None:
    facts = calc.log_facts(
        {"site": {"barometric_kpa_abs": 1.0}, "vehicle": {"cylinders": 0, "displacement_l": 1.8}}
    )
    assert facts == {"barometric_kpa_abs": None, "displacement_l": 1.8, "cylinders": None}


def test_the_verdict_judges_the_log_as_if_the_rows_stood_in_the_job() -> None:
    log = rendered(ALL[0])
    run = calc.read_log(log.data, barometric_kpa_abs=100.0)
    named = job_of(accepted(run), barometric_kpa_abs=100.0)
    whole = {**named, "tests": {"road": [{"id": "r1", "channels": run["channels"]}]}}
    said = calc.judge_text(json.dumps(named).encode(), read=reader(log.data))
    assert said == calc.judge_text(json.dumps(whole).encode())
    assert said != calc.judge_text(json.dumps(named).encode())


def test_an_operation_may_write_the_log_whole() -> None:
    calc.check_place("/tests/road/r1/log", {"sha256": NAME, "columns": {"duty_pct": {"column": "Duty"}}})
    with pytest.raises(calc.BrokenPlace):
        calc.check_place("/tests/road/r1/log/sha256", NAME)


def test_the_course_of_a_run_holds_pulls_and_gauges_where_they_were_read() -> None:
    log = rendered(ALL[0])
    run = calc.read_log(log.data, barometric_kpa_abs=100.0)
    whole: Any = job_of({}, barometric_kpa_abs=100.0)
    whole["gauges"] = [
        {"id": "g1", "kind": "analogue", "span_kpa": [0, 400], "class_pct": 1.6, "division_kpa": 10}
    ]
    channels = run["channels"]
    first = calc.run_shown({**whole, "tests": {"road": [{"id": "r1", "channels": channels}]}}, "r1")
    assert first is not None
    pull = first["pulls"][0]
    row = pull["judged"][0]
    read = [
        {"id": "a", "pull": 1, "engine_rpm": channels["engine_rpm"][row], "gauge": "g1", "p_kpa": 120.0},
        {"id": "b", "gauge": "g1", "p_kpa": 120.0},
        {"id": "c", "peak": True, "pull": 1, "gauge": "g1", "p_kpa": 130.0},
    ]
    shown = calc.run_shown(
        {**whole, "tests": {"road": [{"id": "r1", "channels": channels, "readings": read}]}}, "r1"
    )
    assert shown is not None
    (gauge,) = shown["gauges"]
    assert gauge["t_s"] == pytest.approx(channels["t_s"][row], abs=0.5)
    assert gauge["kpa"] == 220.0
    assert gauge["expanded"] == pytest.approx(
        7.9, abs=0.1
    )  # the contract's example gauge, with the barometer's 0.3
    assert shown["unplaced"] == 1
    assert calc.run_shown(whole, "r1") is None
