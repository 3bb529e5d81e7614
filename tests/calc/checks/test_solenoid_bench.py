"""The control solenoid: coil, drops, response and hoses, by the contract's table."""

from typing import Any

import pytest

from tests.calc.checks.bench import DIAL, by_the_rule, finding

COIL = {"solenoid_coil_ohm_20c": {"min": 25, "max": 35}}


def solenoid(check: str, spec: dict[str, Any] | None = None, kind: str = "unknown", **readings: Any) -> Any:
    tests = {"solenoid": {"gauge": "g1", **readings}}
    return finding(check, tests, spec=spec or {}, boost_control={"arrangement": kind})


def rows(shares: list[float], supply: float = 80.0) -> list[dict[str, float]]:
    step = 100.0 / (len(shares) - 1)
    return [
        {"duty_pct": step * place, "supply_kpa": supply, "control_kpa": supply * share / 100.0}
        for place, share in enumerate(shares)
    ]


@pytest.mark.parametrize(("ohm", "celsius", "at_20"), [(31.2, 65, 26.511450), (29.4, 85, 23.417898)])
def test_the_coil_is_brought_to_20_degrees(ohm: float, celsius: float, at_20: float) -> None:
    """Reference rows after IEC 60028."""
    assert solenoid("solenoid_coil", COIL, coil_ohm=ohm, coil_c=celsius).value == pytest.approx(
        at_20, abs=1e-6
    )


@pytest.mark.parametrize("ohm", [20.0, 24.0, 25.5, 26.5, 30.0, 34.0, 35.5, 40.0])
def test_coil_doubt_is_2_per_cent_and_0_2_ohm_and_5_degrees(ohm: float) -> None:
    found = solenoid("solenoid_coil", COIL, coil_ohm=ohm, coil_c=20)
    u = ((0.01 * ohm + 0.1) ** 2 + (0.00393 * ohm * 2.5) ** 2) ** 0.5
    assert found.expanded_uncertainty == pytest.approx(2 * u)
    assert found.outcome == by_the_rule(found, u)


def test_an_open_circuit_is_outside() -> None:
    assert solenoid("solenoid_coil", COIL, coil_ohm=1e6, coil_c=20).outcome == "outside"


def test_a_coil_without_limit_is_not_judged() -> None:
    found = solenoid("solenoid_coil", coil_ohm=30, coil_c=20)
    assert (found.outcome, found.value) == ("not_examined", 30.0)


@pytest.mark.parametrize(
    ("check", "key"), [("solenoid_supply", "supply_drop_v"), ("solenoid_ground", "ground_drop_v")]
)
@pytest.mark.parametrize(
    ("volts", "outcome"), [(0.1, "within"), (0.49, "undecided"), (0.51, "undecided"), (0.8, "outside")]
)
def test_drops_against_half_a_volt(check: str, key: str, volts: float, outcome: str) -> None:
    found = solenoid(check, **{key: volts})
    assert (found.limit.high, found.typical) == (0.5, True)
    assert found.expanded_uncertainty == pytest.approx(0.01 * volts + 0.02)
    assert found.outcome == outcome == by_the_rule(found, 0.005 * volts + 0.01)


@pytest.mark.parametrize("typed", [0.2, {"max": 0.2}])
def test_a_typed_drop_stands_above_the_usual_one(typed: Any) -> None:
    found = solenoid("solenoid_supply", {"supply_drop_v": typed}, supply_drop_v=0.4)
    assert (found.outcome, found.typical, found.limit.high) == ("outside", False, 0.2)


@pytest.mark.parametrize(("kind", "shares", "outcome"), [
    ("changeover", [99, 70, 30, 1], "within"),
    ("changeover", [99, 80, 60, 40], "outside"),
    ("bleed", [99, 80, 50, 27], "within"),
    ("unknown", [99, 80, 50, 27], "within"),
    ("bleed", [99, 95, 90, 85], "outside"),
    ("bleed", [99, 99, 99, 99], "outside"),
    ("bleed", [2, 30, 60, 95], "within"),
])  # fmt: skip
def test_the_control_pressure_follows_its_duty(kind: str, shares: list[float], outcome: str) -> None:
    found = solenoid("solenoid_response", kind=kind, sweep=rows(shares))
    assert found.limit.low == {"changeover": 85.0, "bleed": 60.0, "unknown": 60.0}[kind]
    assert found.value == pytest.approx(abs(shares[0] - shares[-1]))
    assert found.outcome == outcome


def test_a_step_back_beyond_the_doubt_is_not_following() -> None:
    steps = [99, 60, 85, 40, 1]
    found = solenoid("solenoid_response", kind="changeover", sweep=rows(steps, supply=150.0))
    assert (found.outcome, found.facts["monotone"]) == ("outside", False)


def test_a_step_back_within_the_doubt_is_nothing() -> None:
    found = solenoid("solenoid_response", kind="changeover", sweep=rows([99, 70, 71, 30, 1]))
    assert found.facts["monotone"] is True
    assert found.outcome == "within"


def test_a_sweep_without_a_gauge_never_acquits() -> None:
    found = solenoid("solenoid_response", kind="bleed", gauge=None, sweep=rows([99, 50, 1], supply=300.0))
    assert found.outcome == "undecided"
    flat = solenoid("solenoid_response", kind="bleed", gauge=None, sweep=rows([99, 98, 99]))
    assert flat.expanded_uncertainty > 2 * 100 * 7.5 / 80, "15 kPa on each of two readings of 80"


@pytest.mark.parametrize(("shares", "stays"), [([99, 98, 99], "passing"), ([1, 2, 1], "venting")])
def test_a_flat_sweep_says_on_which_side_it_stays(shares: list[float], stays: str) -> None:
    found = solenoid("solenoid_response", kind="bleed", sweep=rows(shares))
    assert (found.outcome, found.facts["stays"]) == ("outside", stays)


def test_the_class_of_the_gauge_scales_the_span_and_cancels_in_it() -> None:
    """Doubt of 98 % of 80 kPa: the class of the one supply reading and two resolutions, nothing more."""
    found = solenoid("solenoid_response", kind="bleed", sweep=rows([99, 50, 1]))
    own, shared = 5 / 12**0.5, 6.4 / 3**0.5
    u = (
        100
        / 80
        * ((own * 1) ** 2 + (0.99 * own) ** 2 + own**2 + (0.01 * own) ** 2 + (0.98 * shared) ** 2) ** 0.5
    )
    assert found.expanded_uncertainty == pytest.approx(2 * u, rel=1e-3)
    assert DIAL["class_pct"] == 1.6


@pytest.mark.parametrize(("step", "outcome"), [(5.0, "within"), (10.0, "outside")])
def test_a_step_back_of_one_rounding_is_none(step: float, outcome: str) -> None:
    """A dial read to 5 kPa may show one pressure as two values 5 kPa apart: 6.25 % of a supply of 80."""
    on = [80.0, 75.0, 40.0, 5.0, 0.0, step]
    sweep = [
        {"duty_pct": 20.0 * place, "supply_kpa": 80.0, "control_kpa": kpa} for place, kpa in enumerate(on)
    ]
    found = solenoid("solenoid_response", kind="changeover", sweep=sweep)
    assert (found.outcome, found.facts["monotone"]) == (outcome, outcome == "within")


@pytest.mark.parametrize(
    ("shares", "jump"),
    [([99, 92, 75, 54, 35, 24], None), ([99, 94, 66, 22, 4, 1], None), ([99, 99, 98, 4, 2, 1], (94.0, 20.0))],
)
def test_a_jump_is_no_course(shares: list[float], jump: tuple[float, float] | None) -> None:
    """Bleed and changeover as two orifices give them (reference table), and a spool that sticks."""
    found = solenoid("solenoid_response", kind="bleed", sweep=rows(shares))
    assert found.facts["jump"] == (None if jump is None else pytest.approx(jump))


@pytest.mark.parametrize(("readings", "outcome"), [
    ({"hoses_sound": True}, "within"),
    ({"hoses_sound": False}, "outside"),
    ({"hoses_sound": True, "hoses_fault": "swapped"}, "outside"),
    ({"hoses_fault": "leak"}, "outside"),
    ({}, "not_examined"),
])  # fmt: skip
def test_hoses(readings: dict[str, Any], outcome: str) -> None:
    assert solenoid("control_hoses", **readings).outcome == outcome
