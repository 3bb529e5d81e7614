"""Pressures along the way of the air, the wheels, and what the eye decides; by the contract's table."""

from typing import Any

import pytest

from tests.calc.checks.bench import DIAL_U, by_the_rule, finding

SPEC = {
    "intake_depression_kpa": {"max": 4}, "exhaust_back_pressure_kpa": {"max": 20},
    "cooler_drop_kpa": {"max": 15},
    "vacuum_supply_kpa": {"max": -60}, "bypass_hold_kpa": {"min": 120}, "shaft_radial_play_mm": {"max": 0.6},
    "shaft_axial_play_mm": {"max": 0.1},
}  # fmt: skip


def found_in(check: str, test: str, spec: dict[str, Any] | None = None, **read: Any) -> Any:
    return finding(check, {test: {"gauge": "g1", **read}}, spec=SPEC if spec is None else spec)


@pytest.mark.parametrize("kpa", [2, 8, 14, 20, 26, 28, 40])
def test_back_pressure_at_full_load(kpa: float) -> None:
    found = found_in("exhaust_back_pressure", "exhaust_back_pressure", p_kpa=kpa)
    assert found.outcome == by_the_rule(found, DIAL_U)


@pytest.mark.parametrize(("p", "outcome"), [(-20, "outside"), (-2.5, "undecided")])
def test_intake_depression_judges_the_depth(p: float, outcome: str) -> None:
    found = found_in("intake_depression", "intake_depression", p_kpa=p)
    assert (found.value, found.outcome) == (-p, outcome)


@pytest.mark.parametrize("test", ["intake_depression", "exhaust_back_pressure"])
def test_read_without_load_proves_nothing(test: str) -> None:
    found = found_in(test, test, p_kpa=-50, load="none")
    assert (found.outcome, found.facts["because"]) == ("not_examined", "not_at_full_load")


@pytest.mark.parametrize(("after", "outcome"), [(104, "within"), (98, "undecided"), (85, "outside")])
def test_cooler_drop_cancels_the_class_of_one_gauge(after: float, outcome: str) -> None:
    found = found_in("cooler_drop", "cooler_drop", before_kpa=112, after_kpa=after)
    u = (2 * 25 / 12) ** 0.5
    assert found.expanded_uncertainty == pytest.approx(2 * u)
    assert found.outcome == outcome == by_the_rule(found, u)


def test_cooler_drop_without_load_proves_nothing() -> None:
    assert (
        found_in("cooler_drop", "cooler_drop", before_kpa=112, after_kpa=10, load="none").outcome
        == "not_examined"
    )


@pytest.mark.parametrize(("p", "outcome"), [(-88, "within"), (-62, "undecided"), (-40, "outside")])
def test_vacuum_supply_keeps_its_sign(p: float, outcome: str) -> None:
    found = found_in("vacuum_supply", "vacuum_supply", p_kpa=p)
    assert (found.value, found.outcome) == (p, outcome)


@pytest.mark.parametrize(("read", "outcome"), [
    ({"hold_kpa": 140, "seats": True}, "within"), ({"hold_kpa": 60}, "outside"),
    ({"hold_kpa": 140, "seats": False}, "outside"), ({"seats": True}, "within"), ({}, "not_examined"),
])  # fmt: skip
def test_bypass_valve(read: dict[str, Any], outcome: str) -> None:
    assert found_in("bypass_hold", "bypass_valve", **read).outcome == outcome


@pytest.mark.parametrize(("check", "key", "limit"), [
    ("turbo_radial_play", "radial_play_mm", 0.6), ("turbo_axial_play", "axial_play_mm", 0.1),
])  # fmt: skip
@pytest.mark.parametrize("off", [-0.05, -0.01, 0.0, 0.01, 0.05])
def test_play(check: str, key: str, limit: float, off: float) -> None:
    found = found_in(check, "turbo_inspection", **{key: limit + off})
    assert found.expanded_uncertainty == pytest.approx(0.02)
    assert found.outcome == by_the_rule(found, 0.01)


FLAGS = [
    ("turbo_wheels", "turbo_inspection", {"wheel_damage": False, "spins_free": True}),
    ("wastegate_seat", "wastegate_inspection", {"seats": True, "damage": False}),
    ("exhaust_leak", "exhaust_leak", {"soot_or_hiss": False}),
    ("egr_closes", "egr", {"closes": True}),
    ("throttle_opens", "throttle", {"opens_fully": True}),
    (
        "engine_health",
        "engine_health",
        {"fuel_pressure_in_order": True, "misfire": False, "compression_even": True},
    ),
]  # fmt: skip


@pytest.mark.parametrize(("check", "test", "right"), FLAGS)
def test_one_wrong_answer_is_not_in_order(check: str, test: str, right: dict[str, bool]) -> None:
    found = finding(check, {test: right})
    assert (found.outcome, found.value, found.unit) == ("within", 1.0, "flag")
    for key, answer in right.items():
        wrong = finding(check, {test: {**right, key: not answer}})
        assert (wrong.outcome, wrong.value) == ("outside", 0.0)
        assert wrong.read_from == (f"/tests/{test}/{key}",)
        assert finding(check, {test: {key: answer}}).outcome == "within"
    assert finding(check, {test: {}}).outcome == "not_examined"


@pytest.mark.parametrize(("check", "test", "read"), [
    ("exhaust_back_pressure", "exhaust_back_pressure", {"p_kpa": 12}),
    ("vacuum_supply", "vacuum_supply", {"p_kpa": -88}),
    ("bypass_hold", "bypass_valve", {"hold_kpa": 130}),
    ("cooler_drop", "cooler_drop", {"before_kpa": 112, "after_kpa": 104}),
    ("turbo_radial_play", "turbo_inspection", {"radial_play_mm": 0.2}),
])  # fmt: skip
def test_without_limit_the_value_is_given(check: str, test: str, read: dict[str, float]) -> None:
    found = found_in(check, test, {}, **read)
    assert found.outcome == "not_examined"
    assert found.value is not None


@pytest.mark.parametrize(("check", "test", "read"), [
    ("exhaust_back_pressure", "exhaust_back_pressure", {"p_kpa": -200}),
    ("vacuum_supply", "vacuum_supply", {"p_kpa": -200}),
    ("bypass_hold", "bypass_valve", {"hold_kpa": 300}),
    ("cooler_drop", "cooler_drop", {"before_kpa": 0, "after_kpa": 300}),
])  # fmt: skip
def test_without_a_gauge_never_within(check: str, test: str, read: dict[str, float]) -> None:
    found = finding(check, {test: read}, spec=SPEC)
    assert found.outcome == "undecided"
    assert found.expanded_uncertainty in (pytest.approx(15.0), pytest.approx(15.0 * 2**0.5))
