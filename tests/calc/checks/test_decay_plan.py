"""The decay test told ahead: force and energy of its air, and how long it has to be watched."""

import json
import math
from typing import Any

import pytest
from scipy import integrate

import calc
from calc.checks.decay_plan import Watch, stored, watch
from calc.checks.evidence import Evidence
from calc.physics.orifice import mass_flow
from tests.calc.checks.bench import finding, job

AIR = {"barometric_kpa_abs": 101.325}
DIGITAL = {"id": "g1", "kind": "digital", "accuracy_pct_reading": 0.5, "resolution_kpa": 0.1}
LIMIT = {"charge_leak_hole_mm": {"max": 0.5}}


def decay(*readings: tuple[float, float], **more: Any) -> dict[str, Any]:
    rows = [{"t_s": at, "p_kpa": kpa} for at, kpa in readings]
    return {"charge_decay": {"gauge": "g1", "volume_l": 10, "air_c": 20, "readings": rows, **more}}


def watched(tests: dict[str, Any], **more: Any) -> Watch | None:
    return watch(Evidence(job(tests, site=AIR, spec=LIMIT, **more)))


@pytest.mark.parametrize(
    ("kpa", "litres", "newton", "joules"), [(50, 10, 141.4, 409.6), (100, 10, 282.7, 896.5)]
)
def test_the_air_of_the_test_pushes_and_holds(
    kpa: float, litres: float, newton: float, joules: float
) -> None:
    """p·A on 60 mm and isentropic work, as the published rows of `energy.csv`; 10 kg·g·h is that work."""
    held = stored(Evidence(job(decay((0, kpa), volume_l=litres), site=AIR)))
    assert held.force == pytest.approx(newton, abs=0.05)
    assert held.joules == pytest.approx(joules, abs=0.05)
    assert held.height is not None
    assert 10.0 * 9.80665 * held.height == pytest.approx(joules, abs=0.05)


def test_without_volume_or_reading_it_is_the_force_of_the_usual_pressure() -> None:
    held = stored(Evidence(job({})))
    assert (held.kpa, held.joules) == (50.0, None)
    assert held.weight == pytest.approx(math.pi / 4.0 * 0.06**2 * 50e3 / 9.80665)


@pytest.mark.parametrize("missing", ["volume_l", "readings", "gauge"])
def test_nothing_is_told_ahead_without_volume_reading_or_gauge(missing: str) -> None:
    tests = decay((0, 50))
    del tests["charge_decay"][missing]
    assert watched(tests) is None


def test_a_hole_at_the_limit_leaves_what_the_plain_equation_says() -> None:
    seen = watched(decay((0, 50), (60, 48)), gauges=[DIGITAL])
    assert seen is not None

    def falls(_: float, p: list[float]) -> list[float]:
        lost = mass_flow(0.62, math.pi / 4.0 * 0.5e-3**2, p[0], 101_325.0, 293.15)
        return [-lost * 287.05287 * 293.15 / 0.010]

    left = integrate.solve_ivp(falls, (0.0, 60.0), [151_325.0], rtol=1e-9).y[0][-1]
    assert seen.left_kpa == pytest.approx(left / 1e3 - 101.325, abs=1e-3)
    assert not seen.too_short


@pytest.mark.parametrize("gauge", [DIGITAL, {**DIGITAL, "resolution_kpa": 1.0}])
def test_a_tight_circuit_is_cleared_from_the_moment_told_and_not_long_before(gauge: dict[str, Any]) -> None:
    """The verdict's own rule judges: with temperatures typed in a degree of doubt counts there too."""
    seen = watched(decay((0, 50)), gauges=[gauge])
    assert seen is not None
    assert seen.seconds is None

    def outcome(seconds: float) -> str:
        tests = decay((0, 50), (seconds, 50), air_end_c=20)
        return finding("charge_leak_hole", tests, gauges=[gauge], site=AIR, spec=LIMIT).outcome

    assert outcome(1.15 * seen.needed) == "within"
    assert outcome(0.75 * seen.needed) == "undecided"


@pytest.mark.parametrize(("seconds", "short"), [(1, True), (600, False)])
def test_too_short_a_watch_is_said(seconds: float, short: bool) -> None:
    row = hole_row(decay((0, 50), (seconds, 49.9)))
    assert ("Too short" in row["watch"]["says"]) == short
    assert row["watch"]["needed_s"] > 1


def test_force_and_energy_are_told_as_long_as_the_decay_is_not_read() -> None:
    assert " J" not in hole_row({})["stored_energy"]["says"]
    assert "410 J" in hole_row(decay((0, 50)))["stored_energy"]["says"]
    assert "stored_energy" not in hole_row(decay((0, 50), (60, 49)))


def hole_row(tests: dict[str, Any]) -> dict[str, Any]:
    document = job(tests, gauges=[DIGITAL], site=AIR, spec=LIMIT)
    verdict = json.loads(calc.judge_text(json.dumps(document).encode()))
    return next(each for each in verdict["findings"] if each["check"] == "charge_leak_hole")


@pytest.mark.parametrize("seen", [True, False])
def test_the_force_is_a_caution_where_the_pressure_test_comes_next(seen: bool) -> None:
    """After smoke the decay comes next; with its readings in, it does no more."""
    tests = {"smoke": {"leak_seen": True}, **({} if seen else decay((0, 50), (60, 50)))}
    document = job(tests, spec={"charge_leak_hole_mm": {"max": 1.0}})
    verdict = json.loads(calc.judge_text(json.dumps(document).encode()))
    assert (verdict["next_test"]["test"] == "charge_decay") == seen
    assert any("141 N" in said for said in verdict["cautions"]) == seen
