"""The places that an operation may write, by the rules of operations and the vectors' list of item lists."""

import json
from pathlib import Path
from typing import Any

import pytest

from calc.errors import BrokenPlace
from calc.job import ITEM_LISTS, check_place, names_item

VECTORS = Path(__file__).resolve().parents[2] / "fixtures" / "vectors" / "operations.json"

# The list in the README of the operations' vectors, an item's id written "*".
OUR_OWN_LISTS = {"/estimate/lines", "/estimate/authorisations", "/deliveries"}
LISTS_OF_ITEMS = {
    "/gauges",
    "/steps",
    "/photos",
    "/tests/smoke/places",
    "/tests/charge_decay/readings",
    "/tests/actuator/sweep",
    "/tests/solenoid/sweep",
    "/tests/road",
    "/tests/road/*/readings",
    "/tests/road/*/noted",
}


def refused_at(path: str, value: object) -> str:
    with pytest.raises(BrokenPlace) as caught:
        check_place(path, value)
    return caught.value.pointer


def test_the_lists_of_items_are_those_of_the_vectors() -> None:
    assert set(ITEM_LISTS) == LISTS_OF_ITEMS | OUR_OWN_LISTS
    assert len(ITEM_LISTS) == len(LISTS_OF_ITEMS | OUR_OWN_LISTS)


def operations() -> list[dict[str, Any]]:
    vectors = json.loads(VECTORS.read_text(encoding="utf-8"))["vectors"]
    lists = [vector.get(name, []) for vector in vectors for name in ("operations", "unlisted", "arriving")]
    return [operation for operations in lists for operation in operations]


def test_every_operation_of_the_vectors_is_at_a_place_of_the_contract() -> None:
    for operation in operations():
        check_place(operation["path"], operation.get("value"))
        assert names_item(operation["path"]) is (operation["do"] != "set")


GOOD = [
    ("/technician", "M. Example"),
    ("/vehicle/modified", ["exhaust"]),
    ("/vehicle/gear_ratios", [3.6, 2.1]),
    ("/complaint/freeze_frame", {"engine_rpm": 3210, "lamp": True}),
    ("/complaint/symptoms", ["boost_cut"]),
    ("/spec/actuator_start_kpa", {"min": 60, "max": 80}),
    ("/spec/abort_boost_kpa", 180),
    ("/gauges/g1", {"rank": "a0", "kind": "analogue", "span_kpa": [0, 400], "class_pct": 1.6}),
    ("/gauges/g1/span_kpa", [0, 400]),
    ("/gauges/g1/rank", "b1"),
    ("/gauges/a~1b~0c/class_pct", 1.6),
    ("/steps/s1/photos", ["0fea"]),
    ("/workshop/priors", {"charge_air_leak": 2}),
    ("/workshop/minutes", {"smoke": 10}),
    ("/tests/actuator/hold/p_kpa", 150),
    ("/tests/actuator/gauge", "any id: the gauge may come later"),
    ("/tests/solenoid/hoses_fault", None),
    ("/tests/road/r1", {"rank": "a", "phase": "before_repair", "gear": 3, "read_by": "N. Example"}),
    ("/tests/road/r1/read_by", "N. Example"),
    ("/tests/road/r1/channels/t_s", [0, 1, None, 2]),
    ("/tests/road/r1/readings/x1", {"at": "control_line", "p_kpa": 139, "peak": False}),
    ("/tests/road/r1/noted/n1/duty_pct", 4),
]


@pytest.mark.parametrize(("path", "value"), GOOD)
def test_a_place_of_the_contract_takes_its_value_and_null(path: str, value: object) -> None:
    check_place(path, value)
    check_place(path, None)


NO_PLACE = [
    "",
    "technician",
    "/",
    "/technician~2",
    "/format",
    "/id",
    "/weather",
    "/tests",
    "/tests/actuator",
    "/tests/actuator/hold",
    "/tests/actuator/sweep",
    "/tests/actuator/sweep/",
    "/tests/actuator/sweep/s1/id",
    "/tests/actuator/sweep/s1/weather",
    "/tests/actuator/first_movement_kpa/x",
    "/tests/actuator/rank",
    "/gauges",
    "/gauges/g1/id",
    "/spec/actuator_start_kpa/min",
    "/complaint/symptoms/0",
    "/complaint/freeze_frame/lamp",
    "/workshop/priors/charge_air_leak",
    "/gauges/g1/span_kpa/0",
    "/tests/road/r1/channels",
    "/tests/road/r1/channels/t_s/0",
    "/tests/road/r1/channels/rank",
    "/tests/road/r1/readings",
]


@pytest.mark.parametrize("path", NO_PLACE)
def test_what_the_contract_does_not_know_or_sets_in_parts_is_no_place(path: str) -> None:
    assert refused_at(path, None) == path
    with pytest.raises(BrokenPlace):
        names_item(path)


BROKEN_VALUES = [
    ("/technician", 5, "/technician"),
    ("/boost_control/device", "blower", "/boost_control/device"),
    ("/tests/actuator/first_movement_kpa", True, "/tests/actuator/first_movement_kpa"),
    ("/tests/actuator/first_movement_kpa", float("inf"), "/tests/actuator/first_movement_kpa"),
    ("/spec/actuator_start_kpa", 70, "/spec/actuator_start_kpa"),
    ("/spec/actuator_start_kpa", {"min": "60"}, "/spec/actuator_start_kpa/min"),
    ("/complaint/symptoms", ["rattle"], "/complaint/symptoms/0"),
    ("/workshop/priors", {"gremlins": 1}, "/workshop/priors/gremlins"),
    ("/tests/road/r1/channels/t_s", [1, 0], "/tests/road/r1/channels/t_s/1"),
    ("/gauges/a~1b/class_pct", "1.6", "/gauges/a~1b/class_pct"),
    ("/gauges/g1", "an item is no text", "/gauges/g1"),
    ("/gauges/g1", {"rank": 1}, "/gauges/g1/rank"),
    ("/gauges/g1", {"id": "g1"}, "/gauges/g1/id"),
    ("/gauges/g1", {"colour": "black"}, "/gauges/g1/colour"),
    ("/gauges/g1", {"class_pct": "1.6"}, "/gauges/g1/class_pct"),
    ("/tests/road/r1", {"readings": []}, "/tests/road/r1/readings"),
    ("/tests/road/r1", {"channels": {}}, "/tests/road/r1/channels"),
]


@pytest.mark.parametrize(("path", "value", "pointer"), BROKEN_VALUES)
def test_a_value_that_cannot_stand_at_a_place_is_refused(path: str, value: object, pointer: str) -> None:
    assert refused_at(path, value) == pointer
