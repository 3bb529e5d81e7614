"""The core comparison of a road run: asked, aimed, the car's own sensor, and real gauges beside them."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace
from math import fsum, hypot
from typing import Any

from calc.checks.evidence import RELATIVE, STANDARD, Evidence
from calc.checks.finding import Check, Finding
from calc.checks.humid import thinner
from calc.checks.moments import (
    Moment,
    charge_gauge,
    gauge_items,
    is_normal,
    logged_pulls,
    moments,
    normal_logs,
    pull_key,
    runs,
    set_right,
    settled,
    typed,
)
from calc.checks.run_log import ACTUAL, CHARGE_SIDE, SPECIFIED, LoggedPull
from calc.checks.worst import (
    Compared,
    because_of,
    boost_tolerance,
    by_pull,
    can_act,
    farthest,
    is_default,
    moment_facts,
    worst,
)
from calc.errors import OutOfRange
from calc.physics.engine_air import volumetric_efficiency
from calc.physics.units import kelvin
from calc.signals.pulls import FULL_PEDAL_PCT, highest_pedal_held
from calc.signals.settled import OVERDUE_RPM, blocks
from calc.uncertainty.decision import Limit
from calc.uncertainty.gauge import Pressure

SENSOR_KPA, CORRECTION = 6.0, 10.0
EFFICIENCY = Limit(0.75, 1.10)
REQUEST = "boost_request_kpa_abs"
SPECIFIED_STANDARD_KPA = 0.0  # what the control unit aims at is a number of its own, without doubt
MANIFOLD_AIR, INTAKE_AIR = "manifold_air_c", "intake_air_c"


def real_boost(evidence: Evidence, check: Check, phase: str = "before_repair") -> Finding:
    """Gauge in the charge circuit, made absolute, against what the control unit aims at."""
    seen = []
    for moment in settled(evidence, phase):
        aimed, gauge = moment.number(SPECIFIED), moment.gauge_at(*CHARGE_SIDE)
        if aimed is None or gauge is None:
            continue
        real, place = evidence.absolute(gauge[0]), gauge[1]
        error = real.value - aimed
        if can_act(evidence, aimed, error):
            doubt, own = (hypot(u, moment.time_doubt) for u in (real.uncertainty, real.alone))
            places = (place, moment.place(SPECIFIED))
            seen.append(Compared(moment, error, doubt, places, real.known, real.gauge, own))
    judged = by_pull(
        check, seen, boost_tolerance(evidence), typical=is_default(evidence, "boost_tolerance_kpa")
    )
    return worst(judged, check, because_of(evidence, SPECIFIED, phase=phase))


def tracking(evidence: Evidence, check: Check, phase: str = "before_repair") -> Finding:
    """The car's own sensor against what the control unit aims at."""
    seen = []
    for moment in settled(evidence, phase):
        aimed, said = moment.number(SPECIFIED), moment.number(ACTUAL)
        if aimed is not None and said is not None and can_act(evidence, aimed, said - aimed):
            doubt = hypot(STANDARD["sensor_boost_kpa"], moment.own_doubt(ACTUAL))
            seen.append(
                Compared(moment, said - aimed, doubt, (moment.place(ACTUAL), moment.place(SPECIFIED)))
            )
    judged = by_pull(
        check,
        seen,
        boost_tolerance(evidence),
        typical=is_default(evidence, "boost_tolerance_kpa"),
        where=_places_of_error(evidence, phase),
    )
    return worst(judged, check, because_of(evidence, SPECIFIED, ACTUAL, phase=phase))


def sensor(evidence: Evidence, check: Check) -> Finding:
    """The car's charge pressure sensor against a gauge beside it, wherever boost stands still."""
    typed_width = evidence.number("/spec/sensor_tolerance_kpa")
    width = SENSOR_KPA if typed_width is None else abs(typed_width)
    may_be_judged = {id(moment) for moment in settled(evidence)}
    seen = []
    for moment in moments(evidence):
        said, gauge = moment.number(ACTUAL), moment.gauge_at(*CHARGE_SIDE)
        still = id(moment) in may_be_judged if moment.steady is None else moment.steady
        if said is None or gauge is None or not still:
            continue
        real, place = evidence.absolute(gauge[0]), gauge[1]
        doubt = hypot(real.uncertainty, STANDARD["sensor_boost_kpa"], moment.time_doubt)
        seen.append(Compared(moment, said - real.value, doubt, (moment.place(ACTUAL), place), real.known))
    found = worst(by_pull(check, seen, Limit(-width, width), typical=typed_width is None), check)
    if not seen:
        return found
    return replace(found, facts={**found.facts, "least": _least([one.value for one in seen])})


def _least(differences: Sequence[float]) -> float:
    """What every one of them has in common: the smallest, and nought where they lie to both sides."""
    return max(min(differences), 0.0) + min(max(differences), 0.0)


def request(evidence: Evidence, check: Check) -> Finding:
    """What the control unit aims at against what the pedal asks for."""
    seen = []
    for moment in settled(evidence):
        aimed, asked = moment.number(SPECIFIED), moment.number(REQUEST)
        if aimed is not None and asked is not None:
            doubt = hypot(STANDARD["request_kpa"], moment.own_doubt(REQUEST))
            seen.append(
                Compared(moment, aimed - asked, doubt, (moment.place(SPECIFIED), moment.place(REQUEST)))
            )
    judged = by_pull(
        check, seen, boost_tolerance(evidence), typical=is_default(evidence, "boost_tolerance_kpa")
    )
    return worst(judged, check, because_of(evidence, SPECIFIED, REQUEST))


def specified(evidence: Evidence, check: Check) -> Finding:
    """Highest specified value at full pedal of each pull against the maker's figure."""
    limit = evidence.limit("boost_specified_peak_kpa_abs")
    highest = [_highest(pull, SPECIFIED) for pull in logged_pulls(evidence) if _got_going(pull)]
    by_row = [moment for moment in typed(evidence) if _pedal_down(moment)]
    judged = [
        check.judged(aimed, SPECIFIED_STANDARD_KPA, limit, (place,), **when)
        for aimed, place, when in (*filter(None, highest), *_highest_typed(by_row, SPECIFIED))
    ]
    return farthest(judged, check, because_of(evidence, SPECIFIED))


def pedal(evidence: Evidence, check: Check) -> Finding:
    """Highest pedal signal of each pull; in a log whose pedal never says full, where it was held."""
    highest = [_highest(pull, "pedal_pct") for pull in logged_pulls(evidence)]
    for log in normal_logs(evidence):
        held = None if log.pulls or not log.usable or log.too_slow else highest_pedal_held(log.channels)
        if held is not None:
            highest.append((held[0], f"{log.pointer}/pedal_pct", {"pull": held[1].number}))
    judged = [
        check.judged(said, STANDARD["share_pct"], Limit(low=FULL_PEDAL_PCT), (place,), typical=True, **when)
        for said, place, when in (*filter(None, highest), *_highest_typed(typed(evidence), "pedal_pct"))
    ]
    return worst(judged, check, because_of(evidence, "pedal_pct"))


def peak(evidence: Evidence, check: Check) -> Finding:
    """Highest real boost of each pull, tell-tales included, against the maker's peak and its tolerance.

    Where a pull was read neither at its tell-tale nor while settled, what was read is no peak: it may be too
    high, never too low.
    """
    limit = evidence.limit("boost_specified_peak_kpa_abs")
    width = boost_tolerance(evidence).high or 0.0
    if limit is not None:
        limit = Limit(
            None if limit.low is None else limit.low - width,
            None if limit.high is None else limit.high + width,
        )
    judged = []
    for read, place, is_peak in _peaks_read(evidence):
        real = evidence.absolute(read)
        found = check.judged(
            real.value,
            real.uncertainty,
            limit,
            (place,),
            may_acquit=real.known,
            typical=is_default(evidence, "boost_tolerance_kpa"),
        )
        if is_peak or limit is None or limit.low is None or (found.value or 0.0) > limit.low:
            judged.append(found)
    return farthest(judged, check, "no_reading")


def correction(evidence: Evidence, check: Check) -> Finding:
    """The trim that lasts while settled, in kPa where the car says kPa, else in per cent."""
    wanted = evidence.number("/spec/correction_tolerance_kpa")
    for channel, unit in (("boost_correction_kpa", "kPa"), ("correction_pct", "pct")):
        typical = wanted is None or unit == "pct"
        width = CORRECTION if wanted is None or unit == "pct" else abs(wanted)
        judged = [
            check.judged(
                trim,
                hypot(STANDARD["correction_kpa"], doubt),
                Limit(-width, width),
                (place,),
                typical=typical,
                unit=unit,
                **when,
            )
            for trim, doubt, place, when in _lasting(evidence, channel)
        ]
        if judged:
            return worst(judged, check)
    return check.missing(because_of(evidence, "boost_correction_kpa") or "no_reading")


def air_mass(evidence: Evidence, check: Check) -> Finding:
    """Volumetric efficiency that the air mass signal implies (speed-density), manifold conditions."""
    limit = evidence.limit("volumetric_efficiency")
    seen = [found for moment in settled(evidence) if (found := filling(evidence, moment)) is not None]
    judged = by_pull(check, seen, limit or EFFICIENCY, typical=limit is None)
    worst_of = worst(judged, check, because_of(evidence, "air_mass_gps"))
    return replace(worst_of, facts={**worst_of.facts, "grows": 1})


def filling(evidence: Evidence, moment: Moment) -> Compared | None:
    """The volumetric efficiency that the air mass signal implies at one moment. [-]"""
    litres = evidence.number("/vehicle/displacement_l")
    strokes = 2 if evidence.number("/vehicle/strokes") == 2.0 else 4
    mass, rpm = moment.number("air_mass_gps"), moment.number("engine_rpm")
    boost, celsius = _charge_pressure(moment, evidence), _charge_temperature(moment, evidence)
    if mass is None or not rpm or not litres or boost is None or celsius is None:
        return None
    pressure, doubt_kpa, boost_place = boost
    try:
        temperature = kelvin(celsius)
        share = volumetric_efficiency(mass / 1e3, litres / 1e3, rpm, pressure * 1e3, temperature, strokes)
        share /= thinner(evidence, pressure, temperature)
    except OutOfRange:
        return None
    relative = hypot(
        RELATIVE["air_mass"],
        RELATIVE["speed"],
        doubt_kpa / pressure,
        STANDARD["temperature_c"] / temperature,
        _not_together(moment, mass, rpm),
    )
    return Compared(moment, share, share * relative, (moment.place("air_mass_gps"), boost_place))


def _pedal_down(moment: Moment) -> bool:
    said = moment.number("pedal_pct")
    return said is None or said >= FULL_PEDAL_PCT


Highest = tuple[float, str, dict[str, Any]]


def _highest(pull: LoggedPull, channel: str) -> Highest | None:
    """A channel's highest value in a logged pull, with its place and when it was."""
    known = [(value, -row) for row, value in enumerate(pull.channel(channel)) if value is not None]
    if not known:
        return None
    value, row = max(known)
    speed = pull.channel("engine_rpm")[-row]
    return value, f"{pull.pointer}/{channel}", {"pull": pull.pull.number, "engine_rpm": speed}


def _highest_typed(rows: Sequence[Moment], channel: str) -> list[Highest]:
    """A channel's highest typed value of each pull."""
    pulls: dict[tuple[str, int | None], list[tuple[float, Moment]]] = defaultdict(list)
    for moment in rows:
        if (said := moment.number(channel)) is not None:
            pulls[pull_key(moment)].append((said, moment))
    top = [max(found, key=lambda pair: pair[0]) for found in pulls.values()]
    return [(said, moment.place(channel), moment_facts(moment)) for said, moment in top]


def _got_going(pull: LoggedPull) -> bool:
    """Whether a pull went far enough up to show its highest aim."""
    known = [speed for speed in pull.channel("engine_rpm") if speed is not None]
    return not known or max(known) > OVERDUE_RPM


def _peaks_read(evidence: Evidence) -> list[tuple[Pressure, str, bool]]:
    """The highest gauge reading of each pull, and whether it is one to call a peak."""
    settled_places = {place for moment in settled(evidence) for _, place in moment.gauges.values()}
    pulls: dict[tuple[str, Any], list[tuple[Pressure, str, bool]]] = defaultdict(list)
    for pointer, run in runs(evidence):
        if not is_normal(run):
            continue
        for place, item in gauge_items(evidence, pointer):
            if charge_gauge(item):
                pointed = f"{place}/p_kpa"
                read = evidence.pressure(item["p_kpa"], item.get("gauge"))
                is_peak = bool(item.get("peak")) or pointed in settled_places
                pulls[pointer, item.get("pull")].append((read, pointed, is_peak))
    found = []
    for readings in pulls.values():
        value, place, _ = max(readings, key=lambda item: item[0].value)
        found.append((value, place, any(is_peak for _, _, is_peak in readings)))
    return found


def _lasting(evidence: Evidence, channel: str) -> list[tuple[float, float, str, dict[str, Any]]]:
    """A trim's mean over what may be judged of each logged pull, and each typed row of its own."""
    found = []
    for pull in logged_pulls(evidence):
        rows = pull.settling.judged
        trim = pull.mean(channel, rows)
        if trim is not None:
            doubt = pull.doubt(channel, pull.channel(channel), rows)
            when = {"pull": pull.pull.number, "engine_rpm": pull.mean("engine_rpm", rows)}
            found.append((trim, doubt, f"{pull.pointer}/{channel}", when))
    for moment in settled(evidence):
        if moment.judged is None and (typed_trim := moment.number(channel)) is not None:
            found.append((typed_trim, 0.0, moment.place(channel), moment_facts(moment)))
    return found


def _places_of_error(evidence: Evidence, phase: str) -> dict[tuple[str, int | None], dict[str, str]]:
    """Where in each logged pull boost fails: `low_down`, `on_top`, `all_along`, `come_and_go`."""
    tolerance = boost_tolerance(evidence)
    found: dict[tuple[str, int | None], dict[str, str]] = {}
    for pull in logged_pulls(evidence, phase):
        parts = blocks(pull.times, pull.settling.judged)
        means = [
            _mean_known([error for row in part if (error := pull.errors[row]) is not None]) for part in parts
        ]
        off = [place for place, mean in enumerate(means) if mean is not None and not tolerance.contains(mean)]
        if off:
            key = (pull.pointer.removesuffix("/channels"), pull.pull.number)
            found[key] = {"where": _where(off, len(means))}
    return found


def _mean_known(values: Sequence[float]) -> float | None:
    return fsum(values) / len(values) if values else None


def _where(off: Sequence[int], count: int) -> str:
    if len(off) == count:
        return "all_along"
    if off[-1] < count / 2.0:
        return "low_down"
    return "on_top" if off[0] >= count / 2.0 - 0.5 else "come_and_go"


def _charge_pressure(moment: Moment, evidence: Evidence) -> tuple[float, float, str] | None:
    """Absolute pressure the engine breathes, its doubt and place; a gauge before the sensor. [kPa]"""
    gauge = moment.gauge_at("manifold", *CHARGE_SIDE)
    if gauge is not None:
        real = evidence.absolute(gauge[0])
        return real.value, hypot(real.uncertainty, moment.time_doubt), gauge[1]
    said = moment.number(ACTUAL)
    if said is None:
        return None
    right = set_right(evidence, moment.run)
    return said + right.value, right.uncertainty, moment.place(ACTUAL)


def _charge_temperature(moment: Moment, evidence: Evidence) -> float | None:
    manifold = moment.number(MANIFOLD_AIR)
    if manifold is not None or evidence.get("/spec/intake_air_at") == "before_compressor":
        return manifold
    return moment.number(INTAKE_AIR)


def _not_together(moment: Moment, mass: float, rpm: float) -> float:
    """Relative doubt from scatter and from samples that are not of one instant."""
    if moment.judged is None or not mass:
        return 0.0
    return hypot(moment.own_doubt("air_mass_gps") / mass, moment.own_doubt("engine_rpm") / rpm)
