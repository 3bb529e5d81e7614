"""Checks: from the readings of a job to one finding each, in the order of the contract's table.

A new check is a function `examine(evidence, check) -> Finding` in the file of its test and one row here;
its sentences stand in `calc.words`.
"""

from collections.abc import Mapping
from dataclasses import replace

from calc.checks import (
    actuator,
    air_path,
    road,
    road_control,
    road_course,
    sensors_at_rest,
    solenoid,
    tightness,
)
from calc.checks.evidence import Evidence
from calc.checks.finding import Check, Finding
from calc.checks.run_conditions import is_fit

GAUGE = "EN 837-1 class over span, JCGM 100 F.2.2.1 resolution; decision by JCGM 106 at 95 %"
SWEEP = "breakpoint regression (Muggeo 2003) joined with the gauge's class; decision by JCGM 106 at 95 %"
SEEN = "as seen by the technician"
LEAK = "isothermal decay through a sharp-edged hole, Heywood C.8 and C.9, Cd 0.62 ± 0.06; ASTM E2930"
COIL = "annealed copper, IEC 60028: 0.00393 per kelvin from 20 degC"
METER = "difference of two readings; decision by JCGM 106 at 95 %"
TYPICAL = "common practice, no source"
AIR = "speed-density, Heywood 2.27, charge conditions"
PASSAGES = "two passages in series, continuity of nozzle flow; this car's own sweep where there is one"

CHECKS: tuple[Check, ...] = (
    Check("smoke_leak", "flag", SEEN, tightness.smoke_leak),
    Check("charge_leak_hole", "mm", LEAK, tightness.charge_leak_hole),
    Check("actuator_start", "kPa", GAUGE, actuator.start),
    Check("actuator_full", "kPa", GAUGE, actuator.full),
    Check("actuator_travel", "mm", METER, actuator.travel),
    Check("actuator_rate", "mm/kPa", SWEEP, actuator.rate),
    Check("actuator_hysteresis", "kPa", SWEEP, actuator.hysteresis),
    Check("actuator_hold", "kPa/min", GAUGE, actuator.hold),
    Check("actuator_moves", "flag", SEEN, actuator.moves),
    Check("actuator_returns", "flag", SEEN, actuator.returns),
    Check("actuator_position", "pct", METER, actuator.rod),
    Check("wastegate_seat", "flag", SEEN, air_path.wastegate_seat),
    Check("solenoid_coil", "ohm", COIL, solenoid.coil),
    Check("solenoid_supply", "V", METER, solenoid.supply),
    Check("solenoid_ground", "V", METER, solenoid.ground),
    Check("solenoid_response", "pct", METER, solenoid.response),
    Check("control_hoses", "flag", SEEN, solenoid.hoses),
    Check("rest_charge_pressure", "kPa", METER, sensors_at_rest.charge_pressure),
    Check("rest_temperatures", "degC", METER, sensors_at_rest.temperatures),
    Check("rest_pedal", "pct", TYPICAL, sensors_at_rest.pedal),
    Check("rest_air_mass", "g/s", TYPICAL, sensors_at_rest.air_mass),
    Check("sensor_feed", "V", TYPICAL, sensors_at_rest.feed),
    Check("intake_depression", "kPa", GAUGE, air_path.intake_depression),
    Check("exhaust_back_pressure", "kPa", GAUGE, air_path.exhaust_back_pressure),
    Check("cooler_drop", "kPa", GAUGE, air_path.cooler_drop),
    Check("vacuum_supply", "kPa", GAUGE, air_path.vacuum_supply),
    Check("bypass_hold", "kPa", GAUGE, air_path.bypass_hold),
    Check("turbo_radial_play", "mm", METER, air_path.radial_play),
    Check("turbo_axial_play", "mm", METER, air_path.axial_play),
    Check("turbo_wheels", "flag", SEEN, air_path.wheels),
    Check("exhaust_leak", "flag", SEEN, air_path.exhaust_leak),
    Check("egr_closes", "flag", SEEN, air_path.egr_closes),
    Check("throttle_opens", "flag", SEEN, air_path.throttle_opens),
    Check("engine_health", "flag", SEEN, air_path.engine_health),
    Check("road_pedal", "pct", TYPICAL, road.pedal),
    Check("road_request", "kPa", METER, road.request),
    Check("road_specified", "kPa_abs", METER, road.specified),
    Check("road_tracking", "kPa", METER, road.tracking),
    Check("road_real_boost", "kPa", GAUGE, road.real_boost),
    Check("road_peak", "kPa_abs", GAUGE, road.peak),
    Check("road_overboost", "kPa", GAUGE, road_course.overboost),
    Check("road_sensor", "kPa", GAUGE, road.sensor),
    Check("road_control_pressure", "ratio", PASSAGES, road_control.control_pressure),
    Check("road_authority", "flag", TYPICAL, road_control.authority),
    Check("road_correction", "kPa", METER, road.correction),
    Check("road_air_mass", "ratio", AIR, road.air_mass),
    Check("road_hunting", "kPa", METER, road_course.hunting),
    Check("road_reduced_power", "flag", TYPICAL, road_course.reduced_power),
    Check("base_boost", "kPa", GAUGE, road_course.base_boost),
)

BY_NAME: dict[str, Check] = {check.name: check for check in CHECKS}

TEST_OF_CHECK: Mapping[str, str] = {
    "smoke_leak": "smoke",
    "charge_leak_hole": "charge_decay",
    **dict.fromkeys(
        (
            "actuator_start",
            "actuator_full",
            "actuator_travel",
            "actuator_rate",
            "actuator_hysteresis",
            "actuator_hold",
            "actuator_moves",
            "actuator_returns",
        ),
        "actuator",
    ),
    "actuator_position": "electric_actuator",
    "wastegate_seat": "wastegate_inspection",
    **dict.fromkeys(("solenoid_coil", "solenoid_supply", "solenoid_ground"), "solenoid_electrical"),
    **dict.fromkeys(("solenoid_response", "control_hoses"), "solenoid_sweep"),
    **dict.fromkeys(
        ("rest_charge_pressure", "rest_temperatures", "rest_pedal", "rest_air_mass", "sensor_feed"),
        "sensors_at_rest",
    ),
    "intake_depression": "intake_depression",
    "exhaust_back_pressure": "exhaust_back_pressure",
    "cooler_drop": "cooler_drop",
    "vacuum_supply": "vacuum_supply",
    "bypass_hold": "bypass_valve",
    **dict.fromkeys(("turbo_radial_play", "turbo_axial_play", "turbo_wheels"), "turbo_inspection"),
    "exhaust_leak": "exhaust_leak",
    "egr_closes": "egr",
    "throttle_opens": "throttle",
    "engine_health": "engine_health",
    **dict.fromkeys(
        (
            "road_pedal",
            "road_request",
            "road_specified",
            "road_tracking",
            "road_overboost",
            "road_authority",
            "road_correction",
            "road_air_mass",
            "road_hunting",
            "road_reduced_power",
        ),
        "road_run",
    ),
    **dict.fromkeys(("road_real_boost", "road_peak", "road_sensor", "road_control_pressure"), "road_gauges"),
    "base_boost": "base_boost_run",
}


ROAD_TESTS = ("road_run", "road_gauges", "base_boost_run")


def examine(evidence: Evidence) -> dict[str, Finding]:
    """Every check of the table, by name, in the table's order."""
    spoiled = any(not is_fit(run) for _, run in evidence.items("/tests/road"))
    found = {check.name: check.examine(evidence, check) for check in CHECKS}
    return {name: _left_out(one) if spoiled else one for name, one in found.items()}


def _left_out(found: Finding) -> Finding:
    """A road check without a reading, where a run was made but may not be judged, says so."""
    nothing = found.value is None and found.facts.get("because") == "no_reading"
    if not nothing or TEST_OF_CHECK[found.check] not in ROAD_TESTS:
        return found
    return replace(found, facts={**found.facts, "because": "run_left_out"})
