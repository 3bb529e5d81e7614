"""A customer whose car has vanes is told of vanes, in both languages and nowhere of a valve."""

import json

import pytest

import calc
from fixtures.simulator import simulate


@pytest.mark.parametrize(
    ("language", "valve", "vanes"),
    [("en", "boost valve", "vane ring"), ("de", "Begrenzungsventil", "Leitgitter")],
)
@pytest.mark.parametrize("kind", ["vacuum_vgt", "pressure"])
def test_the_customer_is_told_of_the_part_that_the_car_has(
    kind: str, language: str, valve: str, vanes: str
) -> None:
    job, _ = simulate(3, fault="diaphragm_leak", kind=kind)
    verdict = calc.judge(calc.read_job(json.dumps(job).encode()), language=language)
    told = [verdict["customer"], verdict["tested_sound"], verdict["not_tested"], verdict["conclusion"]]
    told.append([row["customer_title"] for row in verdict["faults"]])
    said, unsaid = (vanes, valve) if kind == "vacuum_vgt" else (valve, vanes)
    assert said in str(told)
    assert unsaid not in str(told)
