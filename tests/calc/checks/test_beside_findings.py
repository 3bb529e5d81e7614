"""What stands beside the findings: smallest defect shown, instruments, hole and sensor on the road."""

import json
import math
from pathlib import Path
from typing import Any

import pytest
from CoolProp.CoolProp import PropsSI
from scipy import integrate, optimize, stats

import calc
from calc.checks.evidence import Evidence
from calc.checks.finding import Finding
from calc.checks.heat import shares
from calc.checks.hold_hole import hole_of_hold
from calc.checks.humid import humid_air, thinner
from calc.checks.instruments import instruments, smallest_shown
from calc.checks.on_the_road import best_gear, road_plan, sensor_line
from calc.job import without_nulls
from calc.physics.orifice import hole_area, mass_flow
from calc.uncertainty.decision import Limit
from tests.calc.checks.bench import DIAL, DIAL_U, finding

EXAMPLE = Path(__file__).resolve().parents[3] / "fixtures" / "jobs" / "contract_example.json"


def judged(**changed: Any) -> dict[str, Any]:
    job = {**json.loads(EXAMPLE.read_text(encoding="utf-8")), **changed}
    return json.loads(calc.judge_text(json.dumps(job).encode()))


def row(verdict: dict[str, Any], check: str) -> dict[str, Any]:
    return next(each for each in verdict["findings"] if each["check"] == check)


def evidence(**job: Any) -> Evidence:
    return Evidence(without_nulls({"format": "job/1", "id": "j", **job}))


def found(limit: Limit, u: float) -> Finding:
    return Finding("actuator_start", "kPa", "within", value=70.0, uncertainty=u, limit=limit)


@pytest.mark.parametrize(("low", "high"), [(60.0, 80.0), (69.0, 71.0), (None, 80.0), (60.0, None)])
def test_the_smallest_defect_is_where_the_chance_has_fallen_to_5_per_cent(
    low: float | None, high: float | None
) -> None:
    shown = smallest_shown(found(Limit(low, high), DIAL_U))
    assert shown is not None

    def inside(x: float) -> float:
        normal = stats.norm(x, DIAL_U)
        above = 1.0 if high is None else normal.cdf(high)
        return float(above - (0.0 if low is None else normal.cdf(low)))

    for end, found_end in ((shown.called.low, shown.found.low), (shown.called.high, shown.found.high)):
        if end is not None and found_end is not None:
            assert inside(end) == pytest.approx(0.05, abs=1e-6)
            assert abs(found_end - end) == pytest.approx(stats.norm.ppf(0.95) * DIAL_U, rel=1e-4)
    assert (shown.called.low is None, shown.called.high is None) == (low is None, high is None)
    assert shown.clears == ((low, high) != (69.0, 71.0))


def test_what_is_not_judged_shows_nothing() -> None:
    assert smallest_shown(finding("actuator_start", {})) is None
    assert smallest_shown(finding("turbo_wheels", {"turbo_inspection": {"spins_free": True}})) is None


def test_the_smallest_hole_is_that_whose_area_would_be_called_outside() -> None:
    test = {"gauge": "g1", "volume_l": 10, "readings": [{"t_s": 0, "p_kpa": 60}, {"t_s": 60, "p_kpa": 55}]}
    spec = {"charge_leak_hole_mm": {"max": 1.0}}
    hole = finding("charge_leak_hole", {"charge_decay": test}, spec=spec)
    shown = smallest_shown(hole)
    assert shown is not None
    area, u, relative = (hole.facts[key] for key in ("area_m2", "area_u_m2", "area_relative"))
    fixed = math.sqrt(u**2 - (relative * area) ** 2)

    def miss(mm: float) -> float:
        here = hole_area(mm / 1e3)
        return (here - hole_area(1e-3)) / math.hypot(fixed, relative * here) - stats.norm.ppf(0.95)

    assert shown.called.high == pytest.approx(optimize.brentq(miss, 1.0, 5.0), rel=1e-3)
    assert shown.found.high is not None
    assert shown.found.high > shown.called.high


def test_a_test_not_made_yet_says_what_its_gauge_could_show() -> None:
    """Class 1.6 over 400 kPa, 10 kPa divisions by halves: U = 7.93 kPa; of 60 to 80 only 67 to 73 clear."""
    verdict = judged(tests={}, spec={"actuator_start_kpa": {"min": 60, "max": 80}}, gauges=[DIAL])
    foreseen = row(verdict, "actuator_start")["smallest_shown"]
    assert row(verdict, "actuator_start")["outcome"] == "not_examined"
    assert foreseen["high"] == pytest.approx(80 + stats.norm.ppf(0.95) * DIAL_U, rel=1e-4)
    assert foreseen["clears"]
    narrow = judged(tests={}, spec={"actuator_start_kpa": {"min": 68, "max": 72}}, gauges=[DIAL])
    assert not row(narrow, "actuator_start")["smallest_shown"]["clears"]
    assert "too coarse" in row(narrow, "actuator_start")["smallest_shown"]["says"]
    assert "smallest_shown" not in row(judged(tests={}, spec={}), "actuator_start")


@pytest.mark.parametrize(("kpa", "change"), [(50.0, 0.516), (100.0, 0.687)])
def test_one_degree_of_cooling_is_told_where_no_end_temperature_was_read(kpa: float, change: float) -> None:
    """Reference section 4.5: 516.2 and 686.8 Pa a kelvin at 0.5 and 1.0 bar gauge, 293.15 K."""
    decay = {
        "gauge": "g1", "volume_l": 10, "air_c": 20,
        "readings": [{"t_s": 0, "p_kpa": kpa}, {"t_s": 60, "p_kpa": kpa - 10}],
    }  # fmt: skip
    site = {"barometric_kpa_abs": 101.325}
    told = row(judged(tests={"charge_decay": decay}, site=site, gauges=[DIAL]), "charge_leak_hole")
    assert told["one_kelvin"]["value"] == pytest.approx(change, abs=6e-4)
    read = {**decay, "air_end_c": 19}
    assert "one_kelvin" not in row(judged(tests={"charge_decay": read}, site=site), "charge_leak_hole")


def test_the_hole_on_the_road_is_the_nozzle_at_that_boost() -> None:
    """A 1 mm hole costs 0.2 % of the air: the trade's own figure."""
    on_road = row(judged(), "charge_leak_hole")["on_road"]
    mm = row(judged(), "charge_leak_hole")["value"]
    lost = mass_flow(0.62, hole_area(mm / 1e3), on_road["boost_kpa_abs"] * 1e3, 100_100.0, 318.15)
    assert on_road["loss_gps"] == pytest.approx(1e3 * lost, rel=0.01)
    one_mm = on_road["share_pct"] / mm**2
    assert one_mm == pytest.approx(0.2, abs=0.03)
    assert on_road["smallest_share_pct"] > on_road["share_pct"]


def test_a_class_1_6_dial_cannot_show_a_gain_error_of_5_per_cent_and_says_so() -> None:
    """Reference section 11: u(G) near 0.03 to 0.05 over 120 kPa."""
    line = row(judged(), "road_sensor")["line"]
    assert 0.05 < line["gain_expanded"] < 0.12
    assert "cannot show a gain error" in line["says"]


def test_a_fine_gauge_shows_the_gain_of_the_reference_example() -> None:
    """(101.0, 104.0), (221.0, 218.0) kPa: gain 0.95, offset +8.05 kPa."""
    fine = {"id": "g1", "kind": "digital", "accuracy_pct_reading": 0.1, "resolution_kpa": 0.1}
    run = {
        "id": "r1",
        "noted": [
            {"pull": 1, "engine_rpm": 3500, "boost_specified_kpa_abs": 221, "boost_actual_kpa_abs": 218}
        ],
        "readings": [{"pull": 1, "engine_rpm": 3500, "gauge": "g1", "p_kpa": 120}],
    }
    seen = evidence(
        site={"barometric_kpa_abs": 101.0},
        gauges=[fine],
        tests={"sensors_at_rest": {"charge_pressure_kpa_abs": 104.0}, "road": [run]},
    )
    line = sensor_line(seen)
    assert line is not None
    assert (line.gain, line.offset_kpa) == (pytest.approx(0.95), pytest.approx(8.05))
    u = math.sqrt(0.75**2 + 0.75**2 + (0.95 * 0.15) ** 2 + (0.95 * 0.1 / 12**0.5) ** 2) / 120.0
    assert line.gain_expanded == pytest.approx(2.0 * u, rel=0.02)


def test_gauges_say_their_doubt_days_and_hose() -> None:
    gauge = {**DIAL, "calibrated_on": "2026-03-02", "hose_m": 3.0, "hose_bore_mm": 4}
    (clean,) = instruments(evidence(opened_at="2026-11-25T09:12:00+00:00", gauges=[gauge]))
    assert clean.days == 268
    assert clean.expanded == pytest.approx(2 * DIAL_U, rel=1e-4)
    assert clean.delay == pytest.approx(0.00874 + 2 * 0.00168187, rel=0.03)  # reference: 3 m, 20 mL, 2 bar
    assert not clean.hose_matters
    assert clean.ring == pytest.approx(19.28, abs=0.01)  # reference: 3 m, 4 mm, 20 mL end volume, 20 degC


def test_a_pinched_hose_matters() -> None:
    """A bore of 1 mm: resistance by 4⁴ greater."""
    (pinched,) = instruments(evidence(gauges=[{**DIAL, "hose_m": 3.0, "hose_bore_mm": 1}]))
    assert pinched.hose_matters
    assert pinched.lag_kpa is not None
    assert pinched.lag_kpa > 5.0
    assert pinched.days is None


@pytest.mark.parametrize(("calibrated", "opened"), [("soon", "2026-11-25T09:12:00Z"), (None, None)])
def test_no_dates_no_days(calibrated: str | None, opened: str | None) -> None:
    (gauge,) = instruments(evidence(opened_at=opened, gauges=[{**DIAL, "calibrated_on": calibrated}]))
    assert gauge.days is None


def test_the_pull_is_planned_from_tyre_and_ratios() -> None:
    """Reference section 12: 4500 rev/min in 1.32 x 3.94 on 205/55 R16 are 100.056 km/h."""
    vehicle = {"tyre": "205/55 R16", "final_drive": 3.94, "gear_ratios": [3.5, 2.0, 1.32, None, 0.8]}
    plan = road_plan(evidence(vehicle=vehicle))
    assert [pull.gear for pull in plan] == [1, 2, 3, 5]
    assert plan[2].to_kmh == pytest.approx(100.056, rel=1e-5)
    assert plan[2].from_kmh == pytest.approx(100.056 / 3, rel=1e-5)
    assert best_gear(plan, 90.0) == plan[1]
    assert best_gear(plan, 20.0) is None
    assert best_gear(plan, None) is None


@pytest.mark.parametrize(
    "vehicle", [{}, {"tyre": "round", "final_drive": 4, "gear_ratios": [1]}, {"tyre": "205/55 R16"}]
)
def test_no_plan_without_figures(vehicle: dict[str, Any]) -> None:
    assert road_plan(evidence(vehicle=vehicle)) == []


def test_no_gear_below_the_speed_typed_in_is_said() -> None:
    verdict = judged(site={"barometric_kpa_abs": 100.1, "speed_limit_kmh": 20})
    assert verdict["road_plan"]["gear"] is None
    assert all(pull["legal"] is False for pull in verdict["road_plan"]["pulls"])
    assert any("rollers" in hint for hint in verdict["hints"])
    wide = judged(site={"barometric_kpa_abs": 100.1, "speed_limit_kmh": 100})
    assert wide["road_plan"]["gear"] == 3


@pytest.mark.parametrize(("vin", "hints"), [
    ("1M8GDM9AXKP042788", 0), ("1M8GDM9A0KP042788", 1), ("1m8gdm9axkp042788", 0), ("short", 0), (None, 0),
])  # fmt: skip
def test_a_check_digit_is_a_hint_only(vin: str | None, hints: int) -> None:
    """49 CFR 565: a worked example, and the same with its check digit wrong."""
    assert len(judged(vehicle={"vin": vin})["hints"]) == hints


def cooler(**temperatures: float) -> list[Any]:
    return shares(
        evidence(
            site={"barometric_kpa_abs": 99.0, "ambient_c": 25},
            gauges=[DIAL],
            tests={"cooler_drop": {"gauge": "g1", "before_kpa": 102.3, "after_kpa": 95, **temperatures}},
        )
    )


def test_cooler_and_compressor_of_the_reference() -> None:
    effectiveness, efficiency = cooler(before_c=120, after_c=45)
    assert effectiveness.value == pytest.approx(0.789474, rel=1e-6)
    assert efficiency.name == "compressor_efficiency"
    (warm,) = [each for each in cooler(before_c=112, inlet_c=25) if each.name == "compressor_efficiency"]
    assert warm.value == pytest.approx(0.7703, abs=1e-4)


def test_above_one_is_refused_with_the_likely_cause() -> None:
    (efficiency,) = cooler(before_c=70)
    assert efficiency.value is None
    job = judged()
    tests = json.loads(EXAMPLE.read_text(encoding="utf-8"))["tests"]
    tests["cooler_drop"] = {"gauge": "g1", "before_kpa": 112, "after_kpa": 104, "before_c": 40, "after_c": 45}
    beside = row(judged(tests=tests), "cooler_drop")
    assert beside["compressor_efficiency"]["value"] is None
    assert "behind the cooler" in beside["compressor_efficiency"]["says"]
    assert beside["cooler_effectiveness"]["value"] is None
    assert "compressor_efficiency" not in row(job, "cooler_drop")


def test_turns_come_with_their_doubt() -> None:
    """26 kPa × 0.14 mm/kPa ÷ 1 mm; u of the start 3.97 kPa, travel 9 to 12 mm over 75 ± 4.1 kPa."""
    turned = judged()["adjustment"]
    rate = 10.5 / 75
    u_rate = rate * math.hypot(3 / (2 * 3**0.5) / 10.5, 2.0412 / 75)
    assert turned["rod_turns"] == 3.6
    assert turned["rod_turns_expanded"] == pytest.approx(2 * math.hypot(rate * DIAL_U, 26 * u_rate), abs=0.05)


def test_load_is_absolute_under_boost() -> None:
    run = {
        "id": "r1",
        "noted": [
            {
                "pull": 1, "engine_rpm": 3000, "boost_specified_kpa_abs": 200, "boost_actual_kpa_abs": 200,
                "air_mass_gps": 100, "intake_air_c": 40,
            }
        ],
    }  # fmt: skip
    verdict = judged(tests={"road": [run]}, vehicle={"displacement_l": 2.0})
    assert row(verdict, "road_air_mass")["absolute_load"]["value"] == pytest.approx(169)  # J1979: 168.9 %


def test_the_hold_is_also_a_hole() -> None:
    hole = row(judged(), "actuator_hold")["hole_mm"]
    assert 0.0 < hole["value"] < 0.05
    assert hole["expanded_uncertainty"] > 0.0
    assert "±" in hole["says"]


@pytest.mark.parametrize(("start", "seconds", "lost", "vacuum"), [
    (150.0, 60.0, 30.0, False), (150.0, 20.0, 100.0, False), (-80.0, 30.0, -10.0, True),
    (-60.0, 60.0, -4.0, True),
])  # fmt: skip
def test_the_hole_of_a_hold_loses_what_was_lost(
    start: float, seconds: float, lost: float, vacuum: bool
) -> None:
    """The chamber emptied, or filled, through that hole by scipy's integrator: isothermal, Heywood C.8."""
    end = start - lost
    fine = {"id": "g1", "kind": "digital", "accuracy_pct_reading": 0.05, "resolution_kpa": 0.01}
    hold = {"p_kpa": start, "t_s": seconds, "p_end_kpa": end, "volume_ml": 60}
    seen = hole_of_hold(
        evidence(
            gauges=[fine],
            site={"barometric_kpa_abs": 100.0},
            boost_control={"actuator": "vacuum" if vacuum else "pressure"},
            tests={"actuator": {"gauge": "g1", "hold": hold}},
        )
    )
    assert seen is not None
    area, T, volume = math.pi / 4 * (seen[0] * 1e-3) ** 2, 293.15, 60e-6

    def rate(_: float, p: Any) -> list[float]:
        high, low = max(p[0], 1e5), min(p[0], 1e5)
        flow = mass_flow(0.62, area, high, low, T)
        return [(1.0 if vacuum else -1.0) * flow * 287.05 * T / volume]

    left = integrate.solve_ivp(rate, (0.0, seconds), [1e5 + start * 1e3], rtol=1e-9).y[0][-1]
    assert (left - 1e5) / 1e3 == pytest.approx(end, abs=0.02 * abs(lost))


@pytest.mark.parametrize(("celsius", "humidity", "ratio", "thinner_by"), [
    (20, 50, 0.0072937, 1.19936 / 1.204106), (30, 60, 0.0161164, 1.15372 / 1.164386),
    (35, 80, 0.0290645, 1.12665 / 1.145493),
])  # fmt: skip
def test_humid_air_is_thinner(celsius: float, humidity: float, ratio: float, thinner_by: float) -> None:
    """CoolProp HAPropsSI (reference section 5.2, 1 % on the ratio) over dry air at 101 325 Pa."""
    seen = evidence(site={"barometric_kpa_abs": 101.325, "ambient_c": celsius, "humidity_pct": humidity})
    humid = humid_air(seen)
    assert humid is not None
    assert humid.ratio == pytest.approx(ratio, rel=0.01)
    assert thinner(seen, 101.325, celsius + 273.15) == pytest.approx(thinner_by, abs=5e-4)
    boosted = thinner(seen, 202.65, 313.15)
    assert boosted == pytest.approx(thinner_by, abs=5e-4), "the share of vapour stays through the compressor"


def test_humidity_moves_the_air_that_the_engine_must_swallow() -> None:
    site = {"barometric_kpa_abs": 100.1, "ambient_c": 30}
    run = {"id": "r1", "noted": [
        {"pull": 1, "engine_rpm": 3000, "boost_specified_kpa_abs": 200, "boost_actual_kpa_abs": 200,
         "air_mass_gps": 100, "intake_air_c": 40}
    ]}  # fmt: skip
    dry, humid = (
        row(judged(site=each, tests={"road": [run]}, vehicle={"displacement_l": 2.0}), "road_air_mass")
        for each in (site, {**site, "humidity_pct": 60})
    )
    assert humid["value"] / dry["value"] == pytest.approx(1.164386 / 1.15372, abs=5e-4)
    assert humid["humid_air"]["humidity_ratio"] == pytest.approx(0.0161, rel=0.02)
    assert "humid_air" not in dry


def test_the_signal_of_the_sensor_is_read_by_its_range() -> None:
    """Reference section 11: 1.913 V of 5.00 V over 20 to 250 kPa are 101.2475 kPa; 0.4 V is out of range."""
    spec = {"charge_sensor_range_kpa_abs": {"min": 20, "max": 250}}
    rest = {"charge_pressure_kpa_abs": 108.0, "signal_v": 1.913, "reference_v": 5.0}
    beside = row(judged(spec=spec, tests={"sensors_at_rest": rest}), "rest_charge_pressure")["by_signal"]
    assert beside["value"] == pytest.approx(101.2475, abs=1e-3)
    u = 287.5 * math.hypot((0.005 * 1.913 + 0.01) / 5, 1.913 / 25 * (0.005 * 5 + 0.01))
    assert beside["expanded_uncertainty"] == pytest.approx(2 * u, rel=5e-3)
    none = judged(spec=spec, tests={"sensors_at_rest": {**rest, "signal_v": 0.4}})
    assert "by_signal" not in row(none, "rest_charge_pressure")


def test_a_vacuum_is_told_as_at_sea_level_too() -> None:
    """A gauge shows what is left less the air around it (definition): 79.5 - 70 leaves 9.5."""
    supply = {"p_kpa": -70, "engine_rpm": 850, "hold_s": 30, "p_end_kpa": -68}
    high_up = judged(
        boost_control={"device": "variable_geometry", "actuator": "vacuum"},
        site={"barometric_kpa_abs": 79.5},
        tests={"vacuum_supply": supply},
    )
    found = row(high_up, "vacuum_supply")
    assert found["at_sea_level"]["value"] == pytest.approx(9.5 - 101.3)
    assert found["leak_down"] == pytest.approx(
        {"value": 4.0, "unit": "kPa/min", "says": found["leak_down"]["says"]}
    )
    assert "4" in found["leak_down"]["says"]


def test_no_vacuum_is_told_at_sea_level_without_the_air_pressure_here() -> None:
    found = row(judged(site={}, tests={"vacuum_supply": {"p_kpa": -70}}), "vacuum_supply")
    assert "at_sea_level" not in found
    assert "leak_down" not in found


@pytest.mark.parametrize(("celsius", "low", "high"), [(80.0, 30.8950, None), (None, None, None)])
def test_the_coils_limit_is_told_at_the_temperature_typed_in(
    celsius: float | None, low: float | None, high: float | None
) -> None:
    """25.0 ohm at 20 degC are 30.8950 ohm at 80 degC, as in `solenoid.csv`: copper of IEC 60028."""
    coil = {"coil_ohm": 31.0} if celsius is None else {"coil_ohm": 31.0, "coil_c": celsius}
    verdict = judged(spec={"solenoid_coil_ohm_20c": {"min": 25.0}}, tests={"solenoid": coil})
    warm = row(verdict, "solenoid_coil").get("warm_limit")
    if celsius is None:
        assert warm is None
        return
    assert warm["low"] == pytest.approx(low, abs=1e-4)
    assert warm["high"] == high
    assert "80 °C" in warm["says"]


@pytest.mark.parametrize(("ohm", "celsius"), [(32.4, 82.6346), (25.0, None), (60.0, None)])
def test_heat_that_would_explain_a_coil_is_told(ohm: float, celsius: float | None) -> None:
    """26.0 to 32.4 ohm is a winding at 82.6346 degC, as in `solenoid.csv`; no heat explains 60 ohm."""
    limit = {"solenoid_coil_ohm_20c": {"max": 26.0}}
    found = row(judged(spec=limit, tests={"solenoid": {"coil_ohm": ohm}}), "solenoid_coil")
    explained = found.get("explained_by_heat")
    assert (explained is None) == (celsius is None)
    if explained:
        assert explained["value"] == pytest.approx(celsius, abs=0.05)


@pytest.mark.parametrize(("air", "volts"), [(101.325, 1.914348), (None, None), (15.0, None)])
def test_the_signal_that_the_air_calls_for_is_told(air: float | None, volts: float | None) -> None:
    """101.325 kPa in a range of 20 to 250 kPa are 1.914348 V, as in `sensors.csv`."""
    site = {} if air is None else {"barometric_kpa_abs": air}
    spec = {"charge_sensor_range_kpa_abs": {"min": 20.0, "max": 250.0}}
    rest = {"signal_v": 1.913, "charge_pressure_kpa_abs": 101.0}
    found = row(judged(site=site, spec=spec, tests={"sensors_at_rest": rest}), "rest_charge_pressure")
    assert "by_signal" in found
    assert found.get("signal_for", {}).get("value") == (
        None if volts is None else pytest.approx(volts, abs=1e-5)
    )


def test_where_a_pull_passes_the_speed_typed_in_is_told() -> None:
    """100 km/h in 0.78 x 3.94 on 205/55 R16 are 2657.611 rev/min, as in `roads.csv`."""
    vehicle = {"tyre": "205/55 R16", "final_drive": 3.94, "gear_ratios": [3.5, 0.78]}
    plan = judged(vehicle=vehicle, site={"speed_limit_kmh": 100})["road_plan"]["pulls"]
    assert plan[0]["legal_rpm"] is None
    assert plan[1]["legal_rpm"] == pytest.approx(2657.61, abs=0.01)
    assert "2658 rev/min" in plan[1]["says"]


@pytest.mark.parametrize(("bore_mm", "length", "turbulent"), [(4.0, 3.0, False), (6.0, 40.0, True)])
def test_a_hose_too_long_for_laminar_flow_says_that_it_lags_more(
    bore_mm: float, length: float, turbulent: bool
) -> None:
    """Re = 4·m/(π·d·μ) by the viscosity of CoolProp, with all the air that passes the hose's mouth."""
    volume = 20e-6 + math.pi / 4.0 * (bore_mm / 1e3) ** 2 * length
    viscosity = PropsSI("V", "P", 101_325.0, "T", 293.15, "Air")
    reynolds = 4.0 * volume * 25e3 / (287.05 * 293.15) / (math.pi * bore_mm / 1e3 * viscosity)
    assert (reynolds > 2_000.0) == turbulent
    gauge = {**DIAL, "hose_m": length, "hose_bore_mm": bore_mm}
    (seen,) = instruments(evidence(gauges=[gauge]))
    assert seen.turbulent == turbulent
    assert seen.hose_matters >= turbulent
