"""Documents that the contract accepts, and what the reader makes of them."""

import copy
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from calc.job import check_job, read_job, without_nulls

JOBS = Path(__file__).resolve().parents[2] / "fixtures" / "jobs"
EXAMPLE = json.loads((JOBS / "contract_example.json").read_text(encoding="utf-8"))


def read(document: object) -> dict[str, Any]:
    return read_job(json.dumps(document).encode())


def job(**rest: object) -> dict[str, object]:
    return {"format": "job/1", "id": "b1", **rest}


def paths(value: object, path: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    """Every place of a document, the document itself left out."""
    if isinstance(value, dict | list):
        steps = value if isinstance(value, dict) else range(len(value))
        for step in steps:
            yield (*path, step)
            yield from paths(value[step], (*path, step))


def with_null(path: tuple[str | int, ...]) -> dict[str, Any]:
    document = copy.deepcopy(EXAMPLE)
    inner: Any = document
    for step in path[:-1]:
        inner = inner[step]
    inner[path[-1]] = None
    return document


def test_format_and_id_are_enough() -> None:
    assert read(job()) == {"format": "job/1", "id": "b1"}


def test_the_contracts_own_example_is_read_whole() -> None:
    expected = copy.deepcopy(EXAMPLE)
    del expected["tests"]["solenoid"]["hoses_fault"]  # null in the contract: absent
    assert read(EXAMPLE) == expected


NAMES_A_GAUGE = {("gauges",), ("gauges", 0), ("gauges", 0, "id"), ("gauges", 1), ("gauges", 1, "id")}
REQUIRED = {("format",), ("id",)}
CAN_BE_NULL = [path for path in paths(EXAMPLE) if path not in NAMES_A_GAUGE | REQUIRED]


@pytest.mark.parametrize("path", CAN_BE_NULL, ids=lambda path: "/".join(map(str, path)))
def test_null_is_accepted_at_any_place(path: tuple[str | int, ...]) -> None:
    read(with_null(path))


def test_null_members_are_left_out_and_positions_stay() -> None:
    document = job(
        site={"altitude_m": None, "ambient_c": 12},
        spec={"base_boost_kpa": {"min": None, "max": 85}, "cooler_drop_kpa": None},
        gauges=[None, {"id": "g1", "span_kpa": [0, None]}],
        vehicle={"gear_ratios": [3.6, None, 1.4], "modified": ["exhaust", None]},
        tests={
            "road": [None, {"channels": {"t_s": [0, None, 2], "duty_pct": [None, 4, 5], "egr_pct": None}}]
        },
    )
    assert read(document) == job(
        site={"ambient_c": 12},
        spec={"base_boost_kpa": {"max": 85}},
        gauges=[None, {"id": "g1"}],
        vehicle={"gear_ratios": [3.6, None, 1.4], "modified": ["exhaust"]},
        tests={"road": [None, {"channels": {"t_s": [0, None, 2], "duty_pct": [None, 4, 5]}}]},
    )


def test_unknown_keys_are_kept_as_they_are() -> None:
    unknown = {"weather": {"wind": None, "list": [1, [True, "x"], {}]}, "": 0}
    assert read(job(**unknown, site={"weather": [None]})) == job(**unknown, site={"weather": [None]})


def test_an_id_that_the_contract_does_not_ask_for_may_be_anything() -> None:
    sweep = [{"id": 5, "rank": 1, "p_kpa": 0}, {"id": 5, "p_kpa": 10}]
    assert read(job(tests={"actuator": {"sweep": sweep}}))["tests"]["actuator"]["sweep"] == sweep


def test_gauges_may_stand_behind_the_tests_that_name_them() -> None:
    document = job(tests={"actuator": {"gauge": "g1"}}, gauges=[{"id": "g1"}])
    assert read(document) == document


@pytest.mark.parametrize(
    "document",
    [
        job(gauges=[{}, {}, {"kind": "digital"}]),
        job(gauges=[{"id": "g1", "span_kpa": [-100, 0], "class_pct": 0, "division_kpa": -1}]),
        job(spec={"actuator_start_kpa": {}, "actuator_full_kpa": {"min": -30, "max": -30, "why": "x"}}),
        job(tests={"solenoid": {"sweep": [{"duty_pct": 140}], "coil_ohm": 1e6}}),
        job(tests={"charge_decay": {"readings": [{"t_s": 10, "p_kpa": 1}, {"t_s": 0, "p_kpa": -2}]}}),
        job(tests={"road": [{"channels": {"t_s": [0, 0, 0.5]}}, {"channels": {"made_up": [1], "t_s": []}}]}),
        job(complaint={"freeze_frame": {"lamp": True, "text": "x", "list": [1]}, "symptoms": []}),
        job(vehicle={"year": 2014.0, "cylinders": 4.5}, opened_at="yesterday"),
        job(workshop={"priors": {"charge_air_leak": 0}, "minutes": {"smoke": 15, "egr": None}}),
        job(vehicle=None, tests=None, gauges=None, photos=[]),
    ],
)
def test_what_the_contract_does_not_refuse_is_accepted(document: dict[str, object]) -> None:
    read(document)
    check_job(document)


def test_a_bare_maximum_is_read_as_a_limit_where_the_contract_leaves_the_form_open() -> None:
    spec = {"supply_drop_v": 0.4, "ground_drop_v": {"max": 0.3}, "actuator_hysteresis_kpa": 12}
    assert read(job(spec=spec))["spec"] == {
        "supply_drop_v": {"max": 0.4},
        "ground_drop_v": {"max": 0.3},
        "actuator_hysteresis_kpa": {"max": 12},
    }


def test_a_mark_of_utf8_and_space_around_are_accepted() -> None:
    assert read_job(b'\xef\xbb\xbf\n {"format": "job/1", "id": "b1"} \r\n')["id"] == "b1"


def test_half_a_surrogate_pair_becomes_the_replacement_character_and_a_pair_stays() -> None:
    data = rb'{"format": "job/1", "id": "\ud83d\ude97 \ud83d \\ud83d", "\udead": "\udead"}'
    assert read_job(data) == {"format": "job/1", "id": "\U0001f697 \ufffd \\ud83d", "\ufffd": "\ufffd"}
    assert without_nulls({"format": "job/1", "id": "\ud83d"})["id"] == "\ufffd"


def test_a_parsed_document_is_read_the_same_and_left_as_it_is() -> None:
    before = copy.deepcopy(EXAMPLE)
    assert without_nulls(EXAMPLE) == read(EXAMPLE)
    assert before == EXAMPLE
