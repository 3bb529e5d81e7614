"""Every fault's own cases: the sound car of fixtures/faults, changed as each case says, and what comes out.

A case is a JSON merge patch (RFC 7396) on the sound car; the figures are invented, the expectations are the
contract's rules. A new fault brings a file of its own; nothing here changes.
"""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

import calc
from calc.faults import FAULTS

FOLDER = Path(__file__).parents[2] / "fixtures" / "faults"
SOUND = "sound_car.json"


def merged(target: Any, patch: Any) -> Any:
    """RFC 7396."""
    if not isinstance(patch, dict):
        return patch
    result = dict(target) if isinstance(target, dict) else {}
    for key, value in patch.items():
        if value is None:
            result.pop(key, None)
        else:
            result[key] = merged(result.get(key), value)
    return result


def found() -> Iterator[Any]:
    for file in sorted(FOLDER.glob("*.json")):
        if file.name != SOUND:
            document = json.loads(file.read_text())
            for case in document["cases"]:
                yield pytest.param(document["fault"], case, id=f"{document['fault']}: {case['name']}")


def judged(change: Any) -> dict[str, Any]:
    return calc.judge(merged(json.loads((FOLDER / SOUND).read_text()), change))


def row(verdict: dict[str, Any], fault: str) -> dict[str, Any]:
    return next(one for one in verdict["faults"] if one["fault"] == fault)


def concluded(verdict: dict[str, Any], key: str) -> Any:
    return (verdict["conclusion"] or {}).get(key)


# what a case may expect: its key, and what holds then
HOLDS = {
    "conclusion": lambda verdict, fault, name: concluded(verdict, "fault") == name,
    "standing": lambda verdict, fault, standing: concluded(verdict, "standing") == standing,
    "explains": lambda verdict, fault, words: row(verdict, fault)["explains_complaint"] in words,
    "not_proved": lambda verdict, fault, names: all(row(verdict, n)["standing"] != "proved" for n in names),
    "not_likely": lambda verdict, fault, names: all(row(verdict, n)["standing"] != "likely" for n in names),
    "ruled_out": lambda verdict, fault, names: all(row(verdict, n)["standing"] == "ruled_out" for n in names),
    "absent": lambda verdict, fault, names: not {one["fault"] for one in verdict["faults"]} & set(names),
    "first": lambda verdict, fault, names: verdict["faults"][0]["fault"] in names,
    "not_first": lambda verdict, fault, names: verdict["faults"][0]["fault"] not in names,
    "preload": lambda verdict, fault, way: verdict["adjustment"]["preload"] == way,
    "turns": lambda verdict, fault, count: verdict["adjustment"]["rod_turns"] == count,
}


@pytest.mark.parametrize(("fault", "case"), list(found()))
def test_case(fault: str, case: dict[str, Any]) -> None:
    verdict = judged(case["change"])
    broken = [
        key for key, value in case["expect"].items() if not HOLDS[key](verdict, case.get("of", fault), value)
    ]
    assert not broken, (case["expect"], verdict["conclusion"], verdict["faults"][:3])


def test_every_fault_has_a_case_that_shows_it_and_one_that_does_not() -> None:
    counted = {file.stem: len(json.loads(file.read_text())["cases"]) for file in FOLDER.glob("*.json")
               if file.name != SOUND}  # fmt: skip
    assert counted.keys() == {fault.name for fault in FAULTS}
    assert min(counted.values()) >= 2
