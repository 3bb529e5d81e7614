"""Engine stopped and cold: every sensor has a known truth to be compared with."""

from dataclasses import replace
from math import hypot

from calc.checks.evidence import RELATIVE, STANDARD, Evidence, Value, voltage_doubt
from calc.checks.finding import Check, Finding, worse
from calc.errors import OutOfRange
from calc.physics.sensor import ratiometric_pressure, ratiometric_signal
from calc.uncertainty.decision import Limit
from calc.uncertainty.propagation import propagate

REST = "/tests/sensors_at_rest"
PRESSURE_KPA, TEMPERATURE_C = 3.0, 8.0
FLOORED_PCT, RELEASED_PCT, STILL_AIR_GPS = 95.0, 20.0, 1.0
REFERENCE_V, GROUND_V = Limit(4.9, 5.1), 0.05
REFERENCE_USUAL_V = 5.0


def charge_pressure(evidence: Evidence, check: Check) -> Finding:
    """Charge pressure sensor against the air around the car."""
    place = f"{REST}/charge_pressure_kpa_abs"
    sensor, outside = evidence.number(place), evidence.barometric
    if sensor is None:
        return check.missing()
    typed = evidence.number("/spec/rest_pressure_tolerance_kpa")
    width = PRESSURE_KPA if typed is None else abs(typed)
    doubt = hypot(STANDARD["sensor_boost_kpa"], outside.uncertainty)
    places = (place,) + ((outside.pointer,) if outside.pointer else ())
    return check.judged(
        evidence.above_the_air(sensor),
        doubt,
        Limit(-width, width),
        places,
        may_acquit=bool(outside.pointer),
        typical=typed is None,
    )


def pressure_by_signal(evidence: Evidence) -> Value | None:
    """What the sensor's voltage means by its range: wire and sensor told from what is shown. [kPa]

    None without voltage or range, and beyond a tenth and nine tenths of the reference.
    """
    place, ends = f"{REST}/signal_v", evidence.limit("charge_sensor_range_kpa_abs")
    volts, reference = evidence.number(place), evidence.number(f"{REST}/reference_v")
    if volts is None or ends is None or ends.low is None or ends.high is None:
        return None
    low, high = ends.low, ends.high

    def pressure(signal: float, reference: float) -> float:
        return ratiometric_pressure(signal, reference, low * 1e3, high * 1e3) / 1e3

    values = {"signal": volts, "reference": REFERENCE_USUAL_V if reference is None else reference}
    doubts = {name: voltage_doubt(value) for name, value in values.items()}
    try:
        return Value(pressure(**values), propagate(pressure, values, doubts), place)
    except OutOfRange:
        return None


def signal_called_for(evidence: Evidence) -> float | None:
    """The signal that the air around the car calls for, by the sensor's range and its reference. [V]

    None without a range, where the air's pressure is only assumed, or where it lies beyond the range.
    """
    ends, outside = evidence.limit("charge_sensor_range_kpa_abs"), evidence.barometric
    if ends is None or ends.low is None or ends.high is None or not outside.pointer:
        return None
    reference = evidence.number(f"{REST}/reference_v")
    supplied = REFERENCE_USUAL_V if reference is None else reference
    try:
        return ratiometric_signal(outside.value * 1e3, supplied, ends.low * 1e3, ends.high * 1e3)
    except OutOfRange:
        return None


def temperatures(evidence: Evidence, check: Check) -> Finding:
    """Intake air and coolant against the air around the car, the worse of the two."""
    ambient = evidence.number("/site/ambient_c")
    places = (f"{REST}/intake_air_c", f"{REST}/coolant_c")
    read = [(place, evidence.number(place)) for place in places]
    given = [(place, value) for place, value in read if value is not None]
    if not given:
        return check.missing()
    if ambient is None:
        return check.missing("no_ambient")
    typed = evidence.number("/spec/rest_temperature_tolerance_c")
    width = TEMPERATURE_C if typed is None else abs(typed)
    place, value = max(given, key=lambda item: abs(item[1] - ambient))
    return check.judged(
        value - ambient,
        STANDARD["temperature_difference_c"],
        Limit(-width, width),
        (place, "/site/ambient_c"),
        typical=typed is None,
    )


def pedal(evidence: Evidence, check: Check) -> Finding:
    """Pedal signal floored and released, the worse of the two."""
    ends = (("pedal_floored_pct", Limit(low=FLOORED_PCT)), ("pedal_released_pct", Limit(high=RELEASED_PCT)))
    found = [
        check.judged(value, STANDARD["share_pct"], limit, (place,), typical=True)
        for place, limit in ((f"{REST}/{key}", limit) for key, limit in ends)
        if (value := evidence.number(place)) is not None
    ]
    return worse(found) or check.missing()


def air_mass(evidence: Evidence, check: Check) -> Finding:
    """Air mass signal with no air moving."""
    place = f"{REST}/air_mass_gps"
    value = evidence.number(place)
    if value is None:
        return check.missing()
    doubt = RELATIVE["air_mass"] * abs(value)
    return check.judged(value, doubt, Limit(high=STILL_AIR_GPS), (place,), typical=True)


def feed(evidence: Evidence, check: Check) -> Finding:
    """Reference supply and ground of the sensors, the worse of the two."""
    ends = (("reference", "reference_v", REFERENCE_V), ("ground", "ground_offset_v", Limit(high=GROUND_V)))
    found = [
        check.judged(value, voltage_doubt(value), limit, (place,), typical=True, part=part)
        for part, place, limit in ((part, f"{REST}/{key}", limit) for part, key, limit in ends)
        if (value := evidence.number(place)) is not None
    ]
    worst = worse(found)
    if worst is None:
        return check.missing()
    return replace(worst, facts={**worst.facts, "ends": len(found)})
