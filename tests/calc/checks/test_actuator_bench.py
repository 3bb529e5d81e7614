"""The actuator on the bench: pressures, travel, rate, friction, hold, rod; by the contract's table."""

from typing import Any

import pytest
from scipy import stats

from calc.checks.actuator_sweep import spring
from calc.checks.evidence import Evidence
from tests.calc.checks.bench import DIAL, DIAL_U, by_the_rule, finding, inside, job, sweep

START = {"actuator_start_kpa": {"min": 60, "max": 80}}
LIMITS = {
    **START,
    "actuator_full_kpa": {"min": 140, "max": 160},
    "actuator_travel_mm": {"min": 9, "max": 12},
    "actuator_hold_loss_kpa_per_min": {"max": 5},
}
VACUUM: dict[str, Any] = {
    "boost_control": {"device": "variable_geometry", "actuator": "vacuum"},
    "gauges": [{"id": "g1", "span_kpa": [-100, 0], "class_pct": 1.0, "division_kpa": 2}],
    "spec": {"actuator_start_kpa": {"min": -30, "max": -20}},
}


def actuator(check: str, spec: dict[str, Any] | None = None, **readings: Any) -> Any:
    return finding(check, {"actuator": {"gauge": "g1", **readings}}, spec=LIMITS if spec is None else spec)


@pytest.mark.parametrize(
    "p", [40, 55, 58, 60, 62, 65, 66, 67, 68, 70, 72, 73, 74, 75, 78, 80, 82, 85, 86, 87, 96]
)
def test_first_movement_is_decided_by_the_true_probability(p: float) -> None:
    found = actuator("actuator_start", first_movement_kpa=p)
    assert found.expanded_uncertainty == pytest.approx(7.934, abs=0.001)  # the contract's g1: U = 7.9 kPa
    assert found.chances.inside == pytest.approx(inside(found, DIAL_U), abs=1e-5)
    assert found.outcome == by_the_rule(found, DIAL_U)


def test_of_a_limit_60_to_80_only_67_to_73_can_be_called_within() -> None:
    """The trade's own example of a class 1.6, 4 bar gauge."""
    within = [
        p for p in range(55, 90) if actuator("actuator_start", first_movement_kpa=p).outcome == "within"
    ]
    assert within == list(range(67, 74))


def test_no_gauge_accuses_and_never_acquits() -> None:
    """Pressure without a gauge: 15 kPa, and never within."""
    tests = {"actuator": {"first_movement_kpa": 100}}
    found = finding("actuator_start", tests, spec={"actuator_start_kpa": {"min": 0, "max": 200}})
    assert found.expanded_uncertainty == pytest.approx(15.0)
    assert found.chances.inside > 0.999
    assert found.outcome == "undecided"
    assert finding("actuator_start", tests, spec=START).outcome == "outside"


def test_a_gauge_without_class_counts_as_none() -> None:
    found = finding(
        "actuator_start",
        {"actuator": {"gauge": "g1", "first_movement_kpa": 70}},
        gauges=[{"id": "g1", "span_kpa": [0, 400]}],
        spec={"actuator_start_kpa": {"min": 0, "max": 200}},
    )
    assert (found.outcome, found.expanded_uncertainty) == ("undecided", pytest.approx(15.0))


def test_no_limit_is_not_examined_and_still_gives_the_value() -> None:
    found = actuator("actuator_start", {}, first_movement_kpa=96)
    assert (found.outcome, found.value, found.limit) == ("not_examined", 96.0, None)


def test_no_reading_is_not_examined() -> None:
    found = actuator("actuator_start")
    assert (found.outcome, found.value) == ("not_examined", None)


def test_the_zero_of_the_gauge_is_taken_out() -> None:
    tests = {"actuator": {"gauge": "g1", "first_movement_kpa": 96}}
    assert finding("actuator_start", tests, spec=LIMITS, gauges=[{**DIAL, "zero_kpa": 4}]).value == 92.0


def test_away_from_20_degrees_the_gauge_is_worse() -> None:
    """Reference table: half division and 10 K off, u_c = 0.040731 bar."""
    tests = {"actuator": {"gauge": "g1", "first_movement_kpa": 96}}
    found = finding("actuator_start", tests, spec=LIMITS, gauges=[{**DIAL, "used_at_c": 30}])
    assert found.expanded_uncertainty == pytest.approx(2 * 4.0731, rel=1e-4)


def test_a_sweep_that_fits_gives_the_break_and_joins_the_gauge() -> None:
    readings = {"sweep": sweep(), "first_movement_kpa": 50, "full_travel_kpa": 50}
    start, full = (actuator(f"actuator_{end}", **readings) for end in ("start", "full"))
    assert start.value == pytest.approx(70.0)
    assert full.value == pytest.approx(70.0 + 10.5 / 0.13)
    assert start.expanded_uncertainty == pytest.approx(2 * DIAL_U, rel=1e-3)
    assert start.read_from[0] == "/tests/actuator/sweep/0/p_kpa"


@pytest.mark.parametrize(
    "rows",
    [
        [{"p_kpa": 0, "travel_mm": 0}, {"p_kpa": 100, "travel_mm": 3}],
        [{"p_kpa": p, "travel_mm": 0} for p in (0, 20, 40, 60, 80, 100)],
        [{"p_kpa": p, "travel_mm": 0.1 * (p - 30)} for p in (40, 60, 80, 100, 120, 140)],
    ],
    ids=["too few", "no movement", "no rest"],
)
def test_a_sweep_that_cannot_be_fitted_falls_back_on_the_two_pressures(rows: list[dict[str, Any]]) -> None:
    found = actuator("actuator_start", sweep=rows, first_movement_kpa=96)
    assert found.value == 96.0
    assert found.read_from == ("/tests/actuator/first_movement_kpa",)


def test_a_vacuum_actuator_goes_by_the_depth() -> None:
    rows = sweep(start=25.0, rate=0.25, stop_mm=12.0, sign=-1)
    found = finding("actuator_start", {"actuator": {"gauge": "g1", "sweep": rows}}, **VACUUM)
    assert found.value == pytest.approx(-25.0)
    assert found.outcome == "within"


@pytest.mark.parametrize(("p", "side", "said"), [(-40, "low", "high"), (-10, "high", "low")])
def test_deeper_than_its_limit_is_late(p: float, side: str, said: str) -> None:
    """`low` is early and `high` late in the words, whatever the sign of the pressure."""
    found = finding("actuator_start", {"actuator": {"gauge": "g1", "first_movement_kpa": p}}, **VACUUM)
    assert (found.outcome, found.side, found.spoken_side) == ("outside", side, said)


def test_travel_needs_a_sweep_past_the_start_limit() -> None:
    short = [row for row in sweep() if abs(row["p_kpa"]) <= 80]
    assert actuator("actuator_travel", sweep=short).outcome == "not_examined"
    found = actuator("actuator_travel", sweep=sweep())
    assert (found.value, found.expanded_uncertainty, found.outcome) == (10.5, 0.2, "within")


def test_travel_of_a_sweep_broken_off_on_the_way_accuses_nobody() -> None:
    broken_off = [row for row in sweep() if row["p_kpa"] <= 120 and row["direction"] == "rising"]
    found = actuator("actuator_travel", sweep=broken_off)
    assert (found.outcome, found.lower_bound) == ("undecided", True)


def test_too_little_travel_at_the_end_is_outside() -> None:
    found = actuator("actuator_travel", sweep=sweep(stop_mm=6.0))
    assert (found.outcome, found.side) == ("outside", "low")


@pytest.mark.parametrize(("rate", "outcome"), [(0.13, "within"), (0.26, "outside"), (0.05, "outside")])
def test_rate_against_travel_over_full_less_start(rate: float, outcome: str) -> None:
    found = actuator(
        "actuator_rate", sweep=sweep(rate=rate, start=62.0, stop_mm=10.0 if rate > 0.1 else 20.0)
    )
    assert found.limit.low == pytest.approx(9 / (160 - 60))
    assert found.limit.high == pytest.approx(12 / (140 - 80))
    assert (found.value, found.outcome) == (pytest.approx(rate, rel=1e-6), outcome)


@pytest.mark.parametrize(("friction", "outcome"), [(2.0, "within"), (12.0, "outside")])
def test_friction_by_both_directions(friction: float, outcome: str) -> None:
    found = actuator("actuator_hysteresis", sweep=sweep(friction=friction))
    assert found.value == pytest.approx(2 * friction, abs=1e-6)
    assert (found.outcome, found.typical, found.limit.high) == (outcome, True, 15.0)
    assert found.expanded_uncertainty < 2 * 3.695, "the class of the gauge cancels"


def test_friction_of_a_vacuum_actuator_and_a_typed_limit() -> None:
    rows = sweep(start=25.0, rate=0.25, stop_mm=12.0, friction=1.0, sign=-1)
    tests = {"actuator": {"gauge": "g1", "sweep": rows}}
    found = finding("actuator_hysteresis", tests, **VACUUM)
    assert (found.value, found.limit.high) == (pytest.approx(2.0, abs=0.5), 5.0)  # 20 kPa apart
    spec = {"actuator_hysteresis_kpa": 8}
    typed = finding("actuator_hysteresis", tests, **{**VACUUM, "spec": spec})
    assert (typed.limit.high, typed.typical) == (8.0, False)


def test_friction_needs_both_directions() -> None:
    rising = [row for row in sweep() if row["direction"] == "rising"]
    assert actuator("actuator_hysteresis", sweep=rising).outcome == "not_examined"


@pytest.mark.parametrize(("end", "seconds", "loss", "outcome"), [
    (149, 60, 1.0, "within"), (146, 60, 4.0, "undecided"), (140, 60, 10.0, "outside"),
    (149, 15, 4.0, "undecided"), (151, 60, -1.0, "within"),
])  # fmt: skip
def test_hold_loss_a_minute_with_the_class_cancelled(
    end: float, seconds: float, loss: float, outcome: str
) -> None:
    found = actuator("actuator_hold", hold={"p_kpa": 150, "t_s": seconds, "p_end_kpa": end})
    u = (2 * (5 / 12**0.5) ** 2) ** 0.5 * 60 / seconds  # two readings to half a division of 10
    assert found.value == pytest.approx(loss)
    assert found.expanded_uncertainty == pytest.approx(2 * u, rel=1e-6)
    assert found.chances.inside == pytest.approx(stats.norm(loss, u).cdf(5.0), abs=1e-9)
    assert found.outcome == outcome == by_the_rule(found, u)


def test_hold_by_depth_for_vacuum() -> None:
    hold = {"p_kpa": -60, "t_s": 60, "p_end_kpa": -40}
    spec = {"actuator_hold_loss_kpa_per_min": {"max": 5}}
    found = finding("actuator_hold", {"actuator": {"gauge": "g1", "hold": hold}}, **{**VACUUM, "spec": spec})
    assert (found.value, found.outcome) == (pytest.approx(20.0), "outside")


def test_far_apart_readings_share_less_of_the_class_error() -> None:
    near = actuator("actuator_hold", hold={"p_kpa": 150, "t_s": 60, "p_end_kpa": 140})
    far = actuator("actuator_hold", hold={"p_kpa": 350, "t_s": 60, "p_end_kpa": 0})
    assert far.expanded_uncertainty > near.expanded_uncertainty


@pytest.mark.parametrize("readings", [
    {"hold": {"p_kpa": 25}},
    {"sweep": [{"p_kpa": p, "travel_mm": 0} for p in (0, 20, 25, 25)]},
])  # fmt: skip
def test_a_pump_that_cannot_reach_the_start_limit_does_not_hold(readings: dict[str, Any]) -> None:
    found = actuator("actuator_hold", **readings)
    assert (found.outcome, found.lower_bound, found.value) == ("outside", True, 25.0)


@pytest.mark.parametrize("readings", [
    {"sweep": [{"p_kpa": p, "travel_mm": 0} for p in (0, 20, 40)]},
    {"sweep": [{"p_kpa": p, "travel_mm": 0} for p in (0, 20)]},
    {"hold": {"p_kpa": 58}},
])  # fmt: skip
def test_a_sweep_still_on_its_way_up_says_nothing_of_the_diaphragm(readings: dict[str, Any]) -> None:
    assert actuator("actuator_hold", **readings).outcome == "not_examined"


def test_emptied_in_the_minute_is_a_lower_bound() -> None:
    found = actuator("actuator_hold", hold={"p_kpa": 100, "t_s": 60, "p_end_kpa": 0})
    assert (found.outcome, found.lower_bound) == ("outside", True)


@pytest.mark.parametrize(("readings", "outcome"), [
    ({"linkage_free": True}, "within"),
    ({"linkage_free": False, "sweep": sweep()}, "outside"),
    ({"sweep": sweep()}, "within"),
    ({"sweep": sweep(start=500.0)}, "outside"),
    ({"linkage_free": True, "sweep": sweep(start=500.0)}, "outside"),
    ({"sweep": sweep()[:4]}, "not_examined"),
    ({}, "not_examined"),
])  # fmt: skip
def test_the_rod_moves_once_its_start_limit_is_passed(readings: dict[str, Any], outcome: str) -> None:
    found = actuator("actuator_moves", **readings)
    assert found.outcome == outcome
    assert found.unit == "flag"
    assert found.value == {"within": 1.0, "outside": 0.0, "not_examined": None}[outcome]


@pytest.mark.parametrize(("readings", "outcome"), [
    ({"returns_to_stop": True}, "within"),
    ({"returns_to_stop": False}, "outside"),
    ({"sweep": sweep()}, "within"),
    ({"sweep": [{"p_kpa": 0, "travel_mm": 3, "direction": "falling"}]}, "outside"),
    ({"sweep": [{"p_kpa": 60, "travel_mm": 3, "direction": "falling"}]}, "not_examined"),
    ({}, "not_examined"),
])  # fmt: skip
def test_the_rod_returns_to_its_stop(readings: dict[str, Any], outcome: str) -> None:
    assert actuator("actuator_returns", **readings).outcome == outcome


@pytest.mark.parametrize(("readings", "outcome"), [
    ({"commanded_pct": 60, "reported_pct": 58}, "within"),
    ({"commanded_pct": 60, "reported_pct": 55.2}, "undecided"),
    ({"commanded_pct": 60, "reported_pct": 50}, "outside"),
    ({"commanded_pct": 60, "reported_pct": 58, "rod_seen_moving": False}, "outside"),
    ({"commanded_pct": 60, "reported_pct": 58, "end_stops_learned": False}, "outside"),
    ({"rod_seen_moving": True}, "within"),
    ({}, "not_examined"),
])  # fmt: skip
def test_an_electric_actuator_goes_where_it_is_commanded(readings: dict[str, Any], outcome: str) -> None:
    found = finding("actuator_position", {"electric_actuator": readings})
    assert found.outcome == outcome
    if found.unit == "pct" and found.value is not None:
        assert found.expanded_uncertainty == pytest.approx(2**0.5)  # two readings of ± 1 each


@pytest.mark.parametrize("sign", [1, -1])
def test_preload_and_friction_are_told_apart_by_both_sweeps(sign: int) -> None:
    """Opens at 74, closes at 66: the spring holds 70, friction takes 4 (elementary statics)."""
    kind = {"actuator": "vacuum" if sign < 0 else "pressure"}
    told = Evidence(
        job({"actuator": {"gauge": "g1", "sweep": sweep(70.0, friction=4.0, sign=sign)}}, boost_control=kind)
    )
    seen = spring(told)
    assert seen is not None
    assert seen.rests[0] == pytest.approx(66.0, abs=0.01)
    assert seen.preload[0] == pytest.approx(70.0, abs=0.01)
    assert seen.friction[0] == pytest.approx(4.0, abs=0.01)
    assert seen.falling_rate[0] == pytest.approx(0.13, rel=1e-3)
    own, shared = 5.0 / 12**0.5, 6.4 / 3**0.5
    assert seen.friction[1] == pytest.approx(2 * own / 2**0.5, rel=1e-6), "the class falls out"
    assert seen.preload[1] == pytest.approx(2 * (own**2 / 2 + shared**2) ** 0.5, rel=1e-6)
