"""Every fault's own cases: the sound car of fixtures/faults, changed as each case says, and what must come out.

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


@pytest.mark.parametrize(("fault", "case"), list(found()))
def test_case(fault: str, case: dict[str, Any]) -> None:
    expect = case["expect"]
    verdict = judged(case["change"])
    rows = {row["fault"]: row for row in verdict["faults"]}
    if "conclusion" in expect:
        concluded = verdict["conclusion"]
        assert (concluded and concluded["fault"]) == expect["conclusion"]
        if "standing" in expect:
            assert concluded["standing"] == expect["standing"]
    for name in expect.get("not_proved", ()):
        assert rows[name]["standing"] != "proved"
    for name in expect.get("ruled_out", ()):
        assert rows[name]["standing"] == "ruled_out"
    for name in expect.get("not_likely", ()):
        assert rows[name]["standing"] != "likely"
    for name in expect.get("absent", ()):
        assert name not in rows
    if "first" in expect:
        assert verdict["faults"][0]["fault"] in expect["first"]
    for name in expect.get("not_first", ()):
        assert verdict["faults"][0]["fault"] != name
    if "explains" in expect:
        assert rows[expect.get("fault", fault)]["explains_complaint"] in expect["explains"]
    if "preload" in expect:
        assert verdict["adjustment"]["preload"] == expect["preload"]
    if "turns" in expect:
        assert verdict["adjustment"]["rod_turns"] == expect["turns"]


def test_every_fault_has_a_case_that_shows_it_and_one_that_does_not() -> None:
    counted = {file.stem: len(json.loads(file.read_text())["cases"]) for file in FOLDER.glob("*.json")
               if file.name != SOUND}  # fmt: skip
    assert counted.keys() == {fault.name for fault in FAULTS}
    assert min(counted.values()) >= 2
