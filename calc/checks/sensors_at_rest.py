"""Engine stopped and cold: every sensor has a known truth to be compared with."""

from math import hypot

from calc.checks.evidence import RELATIVE, STANDARD, VOLT, Evidence
from calc.checks.finding import Check, Finding
from calc.uncertainty.decision import Limit

REST = "/tests/sensors_at_rest"
PRESSURE_KPA, TEMPERATURE_C = 3.0, 8.0
FLOORED_PCT, RELEASED_PCT, STILL_AIR_GPS = 95.0, 20.0, 1.0
REFERENCE_V, GROUND_V = Limit(4.9, 5.1), 0.05


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
        sensor - outside.value,
        doubt,
        Limit(-width, width),
        places,
        may_acquit=bool(outside.pointer),
        typical=typed is None,
    )


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
    """Pedal signal floored and released; the released one is reported where it is the one outside."""
    floored, released = (
        evidence.number(f"{REST}/pedal_floored_pct"),
        evidence.number(f"{REST}/pedal_released_pct"),
    )
    doubt = STANDARD["share_pct"]
    if released is not None:
        at_rest = check.judged(
            released, doubt, Limit(high=RELEASED_PCT), (f"{REST}/pedal_released_pct",), typical=True
        )
        if floored is None or at_rest.outcome == "outside":
            return at_rest
    if floored is None:
        return check.missing()
    return check.judged(floored, doubt, Limit(low=FLOORED_PCT), (f"{REST}/pedal_floored_pct",), typical=True)


def air_mass(evidence: Evidence, check: Check) -> Finding:
    """Air mass signal with no air moving."""
    place = f"{REST}/air_mass_gps"
    value = evidence.number(place)
    if value is None:
        return check.missing()
    doubt = RELATIVE["air_mass"] * abs(value)
    return check.judged(value, doubt, Limit(high=STILL_AIR_GPS), (place,), typical=True)


def feed(evidence: Evidence, check: Check) -> Finding:
    """Reference supply and ground of the sensors; the ground is reported where it is the one outside."""
    reference, ground = evidence.number(f"{REST}/reference_v"), evidence.number(f"{REST}/ground_offset_v")
    if ground is not None:
        doubt = hypot(RELATIVE["voltage"] * ground, VOLT)
        offset = check.judged(
            ground, doubt, Limit(high=GROUND_V), (f"{REST}/ground_offset_v",), typical=True, part="ground"
        )
        if reference is None or offset.outcome == "outside":
            return offset
    if reference is None:
        return check.missing()
    doubt = hypot(RELATIVE["voltage"] * reference, VOLT)
    return check.judged(reference, doubt, REFERENCE_V, (f"{REST}/reference_v",), typical=True)
