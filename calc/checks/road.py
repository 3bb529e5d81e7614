"""The core comparison of a road run: asked, aimed, the car's own sensor, and real gauges beside them."""

from collections.abc import Iterable
from math import hypot

from calc.checks.evidence import RELATIVE, STANDARD, Evidence
from calc.checks.finding import Check, Finding
from calc.checks.moments import CHARGE_SIDE, Moment, moments, peak_readings, settled
from calc.errors import OutOfRange
from calc.physics.engine_air import volumetric_efficiency
from calc.physics.units import kelvin
from calc.uncertainty.decision import Limit

BOOST_KPA, SENSOR_KPA, CORRECTION = 10.0, 6.0, 10.0
FLOORED_PCT = 95.0
EFFICIENCY = Limit(0.75, 1.10)
SPECIFIED, ACTUAL = "boost_specified_kpa_abs", "boost_actual_kpa_abs"
REQUEST = "boost_request_kpa_abs"
SPECIFIED_STANDARD_KPA = 0.0  # what the control unit aims at is a number of its own, without doubt


def real_boost(evidence: Evidence, check: Check, phase: str = "before_repair") -> Finding:
    """Gauge in the charge circuit, made absolute, against what the control unit aims at."""
    outside = evidence.barometric
    judged = []
    for moment in settled(evidence, phase):
        aimed, gauge = moment.number(SPECIFIED), moment.gauge_at(*CHARGE_SIDE)
        if aimed is None or gauge is None:
            continue
        read, place = gauge
        judged.append(
            check.judged(
                read.value + outside.value - aimed,
                hypot(read.uncertainty, outside.uncertainty),
                boost_tolerance(evidence),
                (place, moment.place(SPECIFIED)),
                may_acquit=read.known,
                typical=_typical(evidence, "boost_tolerance_kpa"),
                **_when(moment),
            )
        )
    return worst(judged, check)


def tracking(evidence: Evidence, check: Check, phase: str = "before_repair") -> Finding:
    """The car's own sensor against what the control unit aims at."""
    judged = []
    for moment in settled(evidence, phase):
        aimed, said = moment.number(SPECIFIED), moment.number(ACTUAL)
        if aimed is not None and said is not None:
            judged.append(
                check.judged(
                    said - aimed,
                    STANDARD["sensor_boost_kpa"],
                    boost_tolerance(evidence),
                    (moment.place(ACTUAL), moment.place(SPECIFIED)),
                    typical=_typical(evidence, "boost_tolerance_kpa"),
                    **_when(moment),
                )
            )
    return worst(judged, check)


def sensor(evidence: Evidence, check: Check) -> Finding:
    """The car's charge pressure sensor against a gauge on the same side of cooler and throttle."""
    outside = evidence.barometric
    typed = evidence.number("/spec/sensor_tolerance_kpa")
    width = SENSOR_KPA if typed is None else abs(typed)
    judged = []
    for moment in settled(evidence):
        said, gauge = moment.number(ACTUAL), moment.gauge_at(*CHARGE_SIDE)
        if said is None or gauge is None:
            continue
        read, place = gauge
        judged.append(
            check.judged(
                said - read.value - outside.value,
                hypot(read.uncertainty, outside.uncertainty, STANDARD["sensor_boost_kpa"]),
                Limit(-width, width),
                (moment.place(ACTUAL), place),
                may_acquit=read.known,
                typical=typed is None,
                **_when(moment),
            )
        )
    return worst(judged, check)


def request(evidence: Evidence, check: Check) -> Finding:
    """What the control unit aims at against what the pedal asks for."""
    judged = []
    for moment in settled(evidence):
        aimed, asked = moment.number(SPECIFIED), moment.number(REQUEST)
        if aimed is not None and asked is not None:
            judged.append(
                check.judged(
                    aimed - asked,
                    STANDARD["request_kpa"],
                    boost_tolerance(evidence),
                    (moment.place(SPECIFIED), moment.place(REQUEST)),
                    typical=_typical(evidence, "boost_tolerance_kpa"),
                    **_when(moment),
                )
            )
    return worst(judged, check)


def specified(evidence: Evidence, check: Check) -> Finding:
    """Highest specified value at full pedal against the maker's figure."""
    rows = [
        (aimed, moment)
        for moment in moments(evidence)
        if (aimed := moment.number(SPECIFIED)) is not None and _pedal_down(moment)
    ]
    if not rows:
        return check.missing()
    aimed, moment = max(rows, key=lambda row: row[0])
    limit = evidence.limit("boost_specified_peak_kpa_abs")
    return check.judged(aimed, SPECIFIED_STANDARD_KPA, limit, (moment.place(SPECIFIED),), **_when(moment))


def pedal(evidence: Evidence, check: Check) -> Finding:
    """Highest pedal signal in a pull."""
    rows = [
        (said, moment) for moment in moments(evidence) if (said := moment.number("pedal_pct")) is not None
    ]
    if not rows:
        return check.missing()
    said, moment = max(rows, key=lambda row: row[0])
    limit, place = Limit(low=FLOORED_PCT), (moment.place("pedal_pct"),)
    return check.judged(said, STANDARD["share_pct"], limit, place, typical=True, **_when(moment))


def peak(evidence: Evidence, check: Check) -> Finding:
    """Highest real boost of a pull, tell-tales included, against the maker's peak and its tolerance."""
    read = peak_readings(evidence)
    if not read:
        return check.missing()
    outside, limit = evidence.barometric, evidence.limit("boost_specified_peak_kpa_abs")
    highest, place = max(read, key=lambda item: item[0].value)
    width = boost_tolerance(evidence).high or 0.0
    if limit is not None:
        limit = Limit(
            None if limit.low is None else limit.low - width,
            None if limit.high is None else limit.high + width,
        )
    doubt = hypot(highest.uncertainty, outside.uncertainty)
    return check.judged(highest.value + outside.value, doubt, limit, (place,), may_acquit=highest.known)


def correction(evidence: Evidence, check: Check) -> Finding:
    """The trim that lasts while settled, in kPa where the car says kPa, else in per cent."""
    typed = evidence.number("/spec/correction_tolerance_kpa")
    for channel, unit in (("boost_correction_kpa", "kPa"), ("correction_pct", "pct")):
        width = CORRECTION if typed is None or unit == "pct" else abs(typed)
        judged = [
            check.judged(
                trim,
                STANDARD["correction_kpa"],
                Limit(-width, width),
                (moment.place(channel),),
                typical=typed is None or unit == "pct",
                unit=unit,
                **_when(moment),
            )
            for moment in settled(evidence)
            if (trim := moment.number(channel)) is not None
        ]
        if judged:
            return worst(judged, check)
    return check.missing()


def air_mass(evidence: Evidence, check: Check) -> Finding:
    """Volumetric efficiency that the air mass signal implies (speed-density), manifold conditions."""
    litres, limit = evidence.number("/vehicle/displacement_l"), evidence.limit("volumetric_efficiency")
    judged = []
    for moment in settled(evidence):
        mass, rpm = moment.number("air_mass_gps"), moment.number("engine_rpm")
        boost, celsius = _charge_pressure(moment, evidence), _charge_temperature(moment, evidence)
        if mass is None or not rpm or not litres or boost is None or celsius is None:
            continue
        pressure, doubt_kpa, boost_place = boost
        temperature = kelvin(celsius)
        try:
            share = volumetric_efficiency(mass / 1e3, litres / 1e3, rpm, pressure * 1e3, temperature)
        except OutOfRange:
            continue
        relative = hypot(
            RELATIVE["air_mass"],
            RELATIVE["speed"],
            doubt_kpa / pressure,
            STANDARD["temperature_c"] / temperature,
        )
        judged.append(
            check.judged(
                share,
                share * relative,
                limit or EFFICIENCY,
                (moment.place("air_mass_gps"), boost_place),
                typical=limit is None,
                **_when(moment),
            )
        )
    return worst(judged, check)


def boost_tolerance(evidence: Evidence) -> Limit:
    """How far real or measured boost may lie from what is aimed at. [kPa]"""
    typed = evidence.number("/spec/boost_tolerance_kpa")
    width = BOOST_KPA if typed is None else abs(typed)
    return Limit(-width, width)


def worst(judged: Iterable[Finding], check: Check) -> Finding:
    """The finding least likely to be inside its limit; of equals the one farthest from nought."""
    found = [item for item in judged if item.chances is not None]
    if not found:
        return check.missing()
    return min(
        found, key=lambda item: (item.chances.inside if item.chances else 1.0, -abs(item.value or 0.0))
    )


def _typical(evidence: Evidence, key: str) -> bool:
    return evidence.number(f"/spec/{key}") is None


def _pedal_down(moment: Moment) -> bool:
    said = moment.number("pedal_pct")
    return said is None or said >= FLOORED_PCT


def _when(moment: Moment) -> dict[str, float | int | None]:
    return {"pull": moment.pull, "engine_rpm": moment.number("engine_rpm")}


def _charge_pressure(moment: Moment, evidence: Evidence) -> tuple[float, float, str] | None:
    """Absolute pressure the engine breathes, its doubt and place; a gauge before the sensor. [kPa]"""
    gauge, outside = moment.gauge_at("manifold", *CHARGE_SIDE), evidence.barometric
    if gauge is not None:
        read, place = gauge
        return read.value + outside.value, hypot(read.uncertainty, outside.uncertainty), place
    said = moment.number(ACTUAL)
    return None if said is None else (said, STANDARD["sensor_boost_kpa"], moment.place(ACTUAL))


def _charge_temperature(moment: Moment, evidence: Evidence) -> float | None:
    manifold = moment.number("manifold_air_c")
    if manifold is not None or evidence.get("/spec/intake_air_at") == "before_compressor":
        return manifold
    return moment.number("intake_air_c")
