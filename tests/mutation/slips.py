"""Slips of the kind that happen: a sign, gauge for absolute, degC for kelvin, a factor of 2."""

from dataclasses import dataclass

ROW = "published row "
CHECKS = "tests/calc/checks"
DOUBT = "tests/calc/uncertainty/test_gauge_and_decision.py"


@dataclass(frozen=True)
class Slip:
    """In a file of calc the first `right` becomes `wrong`; `caught_by` names the test that must fail."""

    kind: str
    file: str
    right: str
    wrong: str
    caught_by: str


SLIPS = (
    # sign
    Slip("sign", "physics/atmosphere.py", "STANDARD_TEMPERATURE - LAPSE_RATE",
         "STANDARD_TEMPERATURE + LAPSE_RATE",
         f"{ROW}atmosphere: pressure at 1000 m geopotential / Pa"),
    Slip("sign", "physics/leak.py", "(p_start / T_start - p_end / T_end)",
         "(p_start / T_start + p_end / T_end)",
         f"{ROW}leaks: 10 L, 0.50 to 0.48 bar, cooling by 1.5 K in 300 s / mg/s"),
    Slip("sign", "physics/actuator.py", "0.5 * (opening - closing)", "0.5 * (opening + closing)",
         f"{ROW}actuators: actuator 50 mm: friction of 10 N, half of the hysteresis / bar"),
    Slip("sign", "signals/regression.py", "y_mean - slope * x_mean, u_slope",
         "y_mean + slope * x_mean, u_slope",
         f"{ROW}sensors: offset from them / kPa"),
    Slip("sign", "checks/air_path.py", "sign=-1.0", "sign=1.0",
         f"{CHECKS}/test_air_way.py::test_intake_depression_judges_the_depth[-20-outside]"),
    Slip("sign", "checks/actuator.py", "lost = gap if evidence.kind.vacuum else -gap", "lost = gap",
         f"{CHECKS}/test_actuator_bench.py::test_hold_loss_a_minute_with_the_class_cancelled[140-60-10.0-outside]"),
    Slip("sign", "uncertainty/gauge.py", "p_kpa - (gauge.get(\"zero_kpa\")",
         "p_kpa + (gauge.get(\"zero_kpa\")",
         f"{CHECKS}/test_actuator_bench.py::test_the_zero_of_the_gauge_is_taken_out"),
    Slip("sign", "checks/evidence.py", "absolute_kpa - self.barometric.value",
         "self.barometric.value - absolute_kpa",
         f"{CHECKS}/test_sensors_still.py::test_charge_pressure_against_the_barometer[105.0]"),
    # gauge for absolute
    Slip("gauge for absolute", "checks/evidence.py", "gauge.value + air.value",
         "gauge.value",
         f"{CHECKS}/test_absolute_once.py::test_gauge_and_absolute_do_not_mix"),
    Slip("inverted", "physics/solenoid.py", "else coming / going", "else going / coming",
         f"{ROW}solenoid: passages back from 0.48029 bar of 0.5 bar / -"),
    Slip("doubt of one only", "checks/gauge_pairs.py", "hypot(one.uncertainty, other.uncertainty, apart_kpa)",
         "one.uncertainty",
         f"{CHECKS}/test_gauge_pairs.py::test_the_distance_against_both_doubts[160-True]"),
    Slip("gauge for absolute", "checks/tightness.py", "start = (self.start + self.barometric) * 1e3",
         "start = self.start * 1e3",
         f"{CHECKS}/test_tightness.py::test_the_four_inverse_holes_of_the_reference_table[10-150-100-60-0.61826]"),
    Slip("gauge for absolute", "physics/orifice.py", "flow_function(p2 / p1)",
         "flow_function((p1 - p2) / p1)",
         f"{ROW}orifice: flow through 1 mm from 0.3 bar gauge, Cd 1 / g/s"),
    Slip("gauge for absolute", "physics/leak.py", "stroke_volume * p_ambient / rise",
         "stroke_volume * (p_end - p_ambient) / rise",
         f"{CHECKS}/test_tightness.py::test_the_volume_by_pump_strokes_or_a_tank[by0]"),
    Slip("gauge for absolute", "physics/compressor.py", "return p_after / require",
         "return (p_after - p_before) / require", f"{ROW}atmosphere: pressure ratio of 1 bar gauge at 0 m"),
    Slip("gauge for absolute", "physics/stored_energy.py", "return p * volume",
         "return (p - p_ambient) * volume",
         f"{ROW}energy: 10 L at 0.5 bar, isentropic / J"),
    Slip("gauge for absolute", "checks/decay_plan.py", "(kpa + outside) * 1e3, outside", "kpa * 1e3, outside",
         f"{CHECKS}/test_decay_plan.py::test_the_air_of_the_test_pushes_and_holds[50-10-141.4-409.6]"),
    # degC for kelvin
    Slip("degC for K", "physics/units.py", "5_000.0, \"degC\") + ICE_POINT", "5_000.0, \"degC\") + 0.0",
         f"{ROW}engine_air: density at 101.325 kPa, 25 degC / kg/m3"),
    Slip("degC for K", "physics/engine_air.py",
         "GAS_CONSTANT * require(\"temperature\", T, *TEMPERATURE_RANGE, \"K\")",
         "GAS_CONSTANT * (require(\"temperature\", T, *TEMPERATURE_RANGE, \"K\") - 273.15)",
         f"{ROW}engine_air: density at 200 kPa, 40 degC / kg/m3"),
    Slip("degC for K", "physics/engine_air.py",
         "celsius = require(\"temperature\", T, 233.15, 333.15, \"K\") - ICE_POINT",
         "celsius = require(\"temperature\", T, 233.15, 333.15, \"K\")",
         f"{ROW}engine_air: humid air, 20 degC, RH 0.5: humidity ratio"),
    Slip("degC for K", "physics/solenoid.py", "\"degC\") - 20.0)", "\"degC\") + 253.15)",
         f"{CHECKS}/test_solenoid_bench.py::test_the_coil_is_brought_to_20_degrees[31.2-65-26.51145]"),
    Slip("degC for K", "checks/tightness.py", "temperature / (temperature + self.warmed_c)",
         "self.air_c / (self.air_c + self.warmed_c)",
         f"{CHECKS}/test_tightness.py::test_cooling_is_taken_out"),
    Slip("degC for K", "uncertainty/gauge.py", "REFERENCE_TEMPERATURE_C = 20.0",
         "REFERENCE_TEMPERATURE_C = 293.15",
         f"{CHECKS}/test_actuator_bench.py::test_away_from_20_degrees_the_gauge_is_worse"),
    # factor 2
    Slip("factor 2", "physics/engine_air.py", "REVOLUTIONS_A_CYCLE = {2: 1.0, 4: 2.0}",
         "REVOLUTIONS_A_CYCLE = {2: 1.0, 4: 1.0}", f"{ROW}engine_air: VE from 95 g/s, manifold"),
    Slip("factor 2", "physics/actuator.py", "0.5 * (opening - closing)", "opening - closing",
         "calc/physics/actuator.py::calc.physics.actuator.friction_pressure"),
    Slip("factor 2", "physics/orifice.py", "0.25 * math.pi", "0.5 * math.pi",
         f"{ROW}orifice: make-up flow of 1 mm at 1.0 bar gauge / g/s"),
    Slip("factor 2", "physics/hose.py", "(2.0 * math.pi * length)", "(math.pi * length)",
         f"{ROW}hoses: quarter wave of 3 m / Hz"),
    Slip("factor 2", "physics/road.py", "2.0 * width * aspect", "width * aspect",
         f"{ROW}roads: diameter of 205/55 R16 / mm"),
    Slip("factor 2", "physics/road.py", "/ (2.0 * a)", "/ a",
         f"{ROW}roads: 2000 to 4500 rev/min at 1.2 m/s2 / m"),
    Slip("factor 2", "checks/finding.py", "2.0 * self.uncertainty", "self.uncertainty",
         f"{CHECKS}/test_actuator_bench.py::test_first_movement_is_decided_by_the_true_probability[70]"),
    Slip("factor 2", "checks/evidence.py", "\"coil_temperature_c\": 2.5", "\"coil_temperature_c\": 5.0",
         f"{CHECKS}/test_solenoid_bench.py::test_coil_doubt_is_2_per_cent_and_0_2_ohm_and_5_degrees[30.0]"),
    Slip("factor 2", "uncertainty/propagation.py", "(up - down) / 2.0", "up - down",
         f"{ROW}gum: 5.1.2 and H.1: end gauge, first-order standard uncertainty / nm"),
    # other slips of the pen
    Slip("root", "uncertainty/gauge.py", "class_pct / 100.0 * span / sqrt(3.0)",
         "class_pct / 100.0 * span / 3.0",
         f"{ROW}gauges: standard uncertainty of class 1.6, 0 to 4 bar / bar"),
    Slip("root", "uncertainty/gauge.py", "resolution / sqrt(12.0), class_pct",
         "resolution / sqrt(3.0), class_pct",
         f"{ROW}gauges: reading of a 0.1 bar division, half division / bar"),
    Slip("whole for half", "uncertainty/gauge.py", "\"half\": 0.5", "\"half\": 1.0",
         f"{ROW}gauges: combined, class 1.6, 0 to 4 bar, half division / bar"),
    Slip("one side only", "uncertainty/decision.py", "1.0 - below - above", "1.0 - below",
         f"{ROW}decision: 0.65 to 0.80 bar, u 0.02: probability inside at 0.770 bar"),
    Slip("95 for 90", "uncertainty/decision.py", "CONFIDENCE = 0.95", "CONFIDENCE = 0.90",
         f"{CHECKS}/test_actuator_bench.py::test_of_a_limit_60_to_80_only_67_to_73_can_be_called_within"),
    Slip("assumed acquits", "uncertainty/decision.py", "inside and may_acquit and", "inside and",
         f"{CHECKS}/test_actuator_bench.py::test_no_gauge_accuses_and_never_acquits"),
    Slip("class counted twice", "uncertainty/gauge.py", "if not same or later.span is None:", "if True:",
         f"{CHECKS}/test_air_way.py::test_cooler_drop_cancels_the_class_of_one_gauge[104-within]"),
    Slip("diameter for area", "checks/tightness.py", "areas = Limit(_area(limit.low), _area(limit.high))",
         "areas = Limit(limit.low, limit.high)",
         f"{CHECKS}/test_tightness.py::test_decided_on_the_area_by_the_true_probability[13]"),
    Slip("degrees of freedom", "signals/breakpoint.py", "unknowns = 3 if", "unknowns = 0 if",
         f"{ROW}actuators: residual deviation / mm"),
    Slip("inverted", "physics/leak.py", "CHOKING_RISE = 1.0 / critical_ratio()",
         "CHOKING_RISE = 1.0 + critical_ratio()",
         f"{ROW}leaks: L2: 10 L, 1.0 mm, 1.5 to 0.5 bar, isothermal / s"),
)  # fmt: skip
