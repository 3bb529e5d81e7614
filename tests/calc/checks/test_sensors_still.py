"""Sensors with the engine stopped, by the contract's table."""

from typing import Any

import pytest

from tests.calc.checks.bench import by_the_rule, finding, inside

SITE = {"barometric_kpa_abs": 100.1, "ambient_c": 12}


def still(
    check: str, spec: dict[str, Any] | None = None, site: dict[str, Any] | None = None, **read: Any
) -> Any:
    return finding(check, {"sensors_at_rest": read}, spec=spec or {}, site=SITE if site is None else site)


@pytest.mark.parametrize("kpa", [95.0, 96.5, 97.5, 98.5, 100.1, 101.8, 102.5, 103.5, 105.0])
def test_charge_pressure_against_the_barometer(kpa: float) -> None:
    found = still("rest_charge_pressure", charge_pressure_kpa_abs=kpa)
    u = (0.75**2 + 0.15**2) ** 0.5  # sensor 1.5 kPa, barometric as typed 0.3 kPa, both expanded
    assert found.value == pytest.approx(kpa - 100.1)
    assert (found.limit.low, found.limit.high, found.typical) == (-3.0, 3.0, True)
    assert found.chances.inside == pytest.approx(inside(found, u), abs=1e-9)
    assert found.outcome == by_the_rule(found, u)


@pytest.mark.parametrize(("site", "outside", "U"), [
    ({"barometric_kpa_abs": 100.1, "altitude_m": 1000}, 100.1, 0.3),
    ({"altitude_m": 1000}, 89.8746, 3.0),
    ({"altitude_m": 300, "sea_level_kpa_abs": 102}, 98.428, 0.5),
    ({"sea_level_kpa_abs": 102}, 101.3, 4.0),
    ({}, 101.3, 4.0),
])  # fmt: skip
def test_barometric_typed_from_height_or_assumed(site: dict[str, float], outside: float, U: float) -> None:
    """Height by ISO 2533, a report by ICAO Doc 8896 (reference tables); never the sensor under test."""
    found = still("rest_charge_pressure", site=site, charge_pressure_kpa_abs=120, barometric_kpa_abs=119)
    assert found.value == pytest.approx(120 - outside, abs=0.001)
    assert found.expanded_uncertainty == pytest.approx((1.5**2 + U**2) ** 0.5)


def test_an_assumed_barometer_accuses_and_never_acquits() -> None:
    spec = {"rest_pressure_tolerance_kpa": 20}
    assert still("rest_charge_pressure", spec, {}, charge_pressure_kpa_abs=101.3).outcome == "undecided"
    assert still("rest_charge_pressure", spec, {}, charge_pressure_kpa_abs=140).outcome == "outside"


@pytest.mark.parametrize(("readings", "value", "outcome"), [
    ({"intake_air_c": 13, "coolant_c": 14}, 2, "within"),
    ({"intake_air_c": 13, "coolant_c": 30}, 18, "outside"),
    ({"intake_air_c": -6, "coolant_c": 14}, -18, "outside"),
    ({"intake_air_c": 19}, 7, "undecided"),
])  # fmt: skip
def test_temperatures_against_the_air_the_worse_of_two(
    readings: dict[str, float], value: float, outcome: str
) -> None:
    found = still("rest_temperatures", **readings)
    assert (found.value, found.outcome, found.expanded_uncertainty) == (value, outcome, 2.0)
    assert found.outcome == by_the_rule(found, 1.0)


def test_temperatures_without_ambient_are_not_judged() -> None:
    found = still("rest_temperatures", site={}, intake_air_c=13)
    assert (found.outcome, found.facts["because"]) == ("not_examined", "no_ambient")


@pytest.mark.parametrize(("readings", "value", "outcome"), [
    ({"pedal_released_pct": 0, "pedal_floored_pct": 100}, 100, "within"),
    ({"pedal_released_pct": 0, "pedal_floored_pct": 80}, 80, "outside"),
    ({"pedal_released_pct": 30, "pedal_floored_pct": 100}, 30, "outside"),
    ({"pedal_released_pct": 20, "pedal_floored_pct": 100}, 20, "undecided"),
    ({"pedal_released_pct": 15}, 15, "within"),
])  # fmt: skip
def test_pedal_floored_and_released_the_worse(readings: dict[str, float], value: float, outcome: str) -> None:
    found = still("rest_pedal", **readings)
    assert (found.value, found.outcome, found.expanded_uncertainty) == (value, outcome, 1.0)


@pytest.mark.parametrize(("gps", "outcome"), [(0.2, "within"), (0.99, "undecided"), (3.0, "outside")])
def test_air_mass_with_no_air_moving(gps: float, outcome: str) -> None:
    found = still("rest_air_mass", air_mass_gps=gps)
    assert (found.outcome, found.limit.high) == (outcome, 1.0)
    assert found.expanded_uncertainty == pytest.approx(0.03 * gps)
    assert found.outcome == by_the_rule(found, 0.015 * gps)


@pytest.mark.parametrize(("readings", "value", "outcome"), [
    ({"reference_v": 5.01, "ground_offset_v": 0.01}, 5.01, "within"),
    ({"reference_v": 4.7}, 4.7, "outside"),
    ({"reference_v": 5.0, "ground_offset_v": 0.3}, 0.3, "outside"),
    ({"reference_v": 4.86, "ground_offset_v": 0.01}, 4.86, "undecided"),
])  # fmt: skip
def test_feed_of_the_sensors_the_worse(readings: dict[str, float], value: float, outcome: str) -> None:
    found = still("sensor_feed", **readings)
    assert (found.value, found.outcome) == (value, outcome)
    assert found.expanded_uncertainty == pytest.approx(0.01 * value + 0.02)


@pytest.mark.parametrize(
    "check", ["rest_charge_pressure", "rest_temperatures", "rest_pedal", "rest_air_mass", "sensor_feed"]
)
def test_nothing_read_is_not_examined(check: str) -> None:
    assert still(check).outcome == "not_examined"
