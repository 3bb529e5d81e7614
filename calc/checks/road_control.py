"""What the control side did in the road run: authority used up, and the control pressure for its duty."""

from collections import defaultdict
from dataclasses import replace
from itertools import pairwise
from math import hypot

from calc.checks import solenoid
from calc.checks.evidence import STANDARD, Evidence
from calc.checks.finding import Check, Finding
from calc.checks.moments import Moment, is_normal, moments, runs, settled
from calc.checks.road import ACTUAL, SPECIFIED, boost_tolerance, worst
from calc.errors import OutOfRange
from calc.physics.solenoid import two_orifice_pressure
from calc.uncertainty.decision import Chances, Limit

END_OF_RANGE_PCT = 12.0  # duty nearer to its end than this has nothing left; common practice, no source
NO_LONGER_MOVES_PCT = 2.0
APART_RPM = 400.0
SURE, UNSURE = 0.97, 0.4
CONTROL_RATIO = 0.12
VENT_TO_SUPPLY, VENT_TO_SUPPLY_STANDARD = 1.4, 0.2
BLEED_TO_SUPPLY, BLEED_TO_SUPPLY_STANDARD = 2.0, 0.3  # 28 kPa left of 105 at 92 %: the trade's own example


def authority(evidence: Evidence, check: Check) -> Finding:
    """+1 used up towards more boost, −1 towards less: an error persists and the duty no longer moves."""
    pulls: dict[tuple[str, int | None], list[Moment]] = defaultdict(list)
    for moment in settled(evidence):
        if moment.number("duty_pct") is not None:
            pulls[moment.pointer.rsplit("/", 2)[0], moment.pull].append(moment)
    found = [_pull_authority(evidence, check, rows) for rows in pulls.values()]
    found = [item for item in found if item.examined]
    return worst(found, check)


def _pull_authority(evidence: Evidence, check: Check, rows: list[Moment]) -> Finding:
    tolerance = boost_tolerance(evidence)
    off = [(error, row) for row in rows if (error := _error(row, evidence)) is not None]
    if not off:
        return check.missing()
    error, row = max(off, key=lambda pair: abs(pair[0]))
    places = (row.place("duty_pct"), row.place(SPECIFIED))
    if tolerance.contains(error):
        return _said(check, 0, SURE, places, row)
    wanted = 1 if error < 0.0 else -1
    if _at_its_end(evidence, row, wanted) or _no_longer_moves(rows, wanted, evidence):
        return _said(check, wanted, SURE, places, row)
    return _said(check, wanted, UNSURE, places, row)


def _error(row: Moment, evidence: Evidence) -> float | None:
    """The error as the control unit sees it, by its own sensor; by the gauge where no sensor value is."""
    aimed, said = row.number(SPECIFIED), row.number(ACTUAL)
    if aimed is None:
        return None
    if said is not None:
        return said - aimed
    gauge = row.gauge_at("charge_circuit", "after_cooler")
    return None if gauge is None else gauge[0].value + evidence.barometric.value - aimed


def _towards_more_boost(evidence: Evidence, duty_pct: float) -> float | None:
    if evidence.kind.more_duty is None:
        return None
    return duty_pct if evidence.kind.more_duty == "raises_boost" else 100.0 - duty_pct


def _at_its_end(evidence: Evidence, row: Moment, wanted: int) -> bool:
    duty = row.number("duty_pct")
    lean = None if duty is None else _towards_more_boost(evidence, duty)
    if lean is None:
        return False
    return lean >= 100.0 - END_OF_RANGE_PCT if wanted > 0 else lean <= END_OF_RANGE_PCT


def _no_longer_moves(rows: list[Moment], wanted: int, evidence: Evidence) -> bool:
    """Duty the same over a wide stretch of a pull while every error of it lies on the same side."""
    duties = [duty for row in rows if (duty := row.number("duty_pct")) is not None]
    speeds = [rpm for row in rows if (rpm := row.number("engine_rpm")) is not None]
    errors = [error for row in rows if (error := _error(row, evidence)) is not None]
    if len(duties) < 3 or len(speeds) < 3 or max(speeds) - min(speeds) < APART_RPM:
        return False
    same_side = all((error < 0.0) == (wanted > 0) for error in errors)
    return same_side and max(duties) - min(duties) <= NO_LONGER_MOVES_PCT


def _said(check: Check, way: int, sure: float, places: tuple[str, ...], row: Moment) -> Finding:
    rest = (1.0 - sure) / 2.0
    seen = Chances(*(sure if side == way else rest for side in (-1, 0, 1)))
    if way == 0:
        outcome, value = "within", 0.0
    elif sure >= SURE:
        outcome, value = "outside", float(way)
    else:
        outcome, value = "undecided", 0.0
    found = check.judged(value, 0.0, Limit(0.0, 0.0), places, pull=row.pull, duty_pct=row.number("duty_pct"))
    return replace(found, outcome=outcome, chances=seen)


def control_pressure(evidence: Evidence, check: Check) -> Finding:
    """Control ÷ supply pressure against what the duty should give on this car.

    Two passages in series; this car's own bench sweep, where it is sound, stands in place of the model.
    """
    typed = evidence.number("/spec/control_ratio_tolerance")
    width = CONTROL_RATIO if typed is None else abs(typed)
    judged = []
    for moment in settled(evidence):
        supply = moment.gauge_at("compressor_outlet", "charge_circuit")
        control, duty = moment.gauge_at("control_line"), moment.number("duty_pct")
        if supply is None or control is None or duty is None or supply[0].value <= 0.0:
            continue
        expected = _expected_ratio(evidence, duty, supply[0].value)
        if expected is None:
            return check.missing("arrangement_unknown")
        ratio = control[0].value / supply[0].value
        doubt = hypot(
            hypot(control[0].uncertainty, ratio * supply[0].uncertainty) / supply[0].value, expected[1]
        )
        judged.append(
            check.judged(
                ratio - expected[0],
                doubt,
                Limit(-width, width),
                (control[1], supply[1], moment.place("duty_pct")),
                may_acquit=control[0].known and supply[0].known,
                typical=typed is None,
                pull=moment.pull,
                engine_rpm=moment.number("engine_rpm"),
                expected=expected[0],
            )
        )
    return worst(judged, check)


def _expected_ratio(evidence: Evidence, duty_pct: float, supply_kpa: float) -> tuple[float, float] | None:
    """Expected control ÷ supply pressure (gauge) and its standard uncertainty."""
    own = _from_sweep(evidence, duty_pct)
    if own is not None:
        return own, STANDARD["share_pct"] / 100.0 + 0.02
    kind = evidence.kind
    if kind.arrangement == "unknown" or kind.more_duty is None or kind.actuator != "pressure":
        return None
    vent = (duty_pct if kind.more_duty == "raises_boost" else 100.0 - duty_pct) / 100.0
    vent = min(1.0, max(0.0, vent))
    if kind.arrangement == "bleed":
        opening, doubt = BLEED_TO_SUPPLY * vent, BLEED_TO_SUPPLY_STANDARD * vent
    else:
        closing = max(1e-3, 1.0 - vent)
        opening, doubt = VENT_TO_SUPPLY * vent / closing, VENT_TO_SUPPLY_STANDARD * vent / closing
    try:
        middle = _ratio(evidence, opening, supply_kpa)
        wide, narrow = (_ratio(evidence, opening + step, supply_kpa) for step in (doubt, -doubt))
    except OutOfRange:
        return None
    return middle, abs(narrow - wide) / 2.0


def _ratio(evidence: Evidence, opening: float, supply_kpa: float) -> float:
    ambient = evidence.barometric.value * 1e3
    absolute = two_orifice_pressure(max(opening, 0.0), supply_kpa * 1e3 + ambient, ambient)
    return (absolute - ambient) / (supply_kpa * 1e3)


def _from_sweep(evidence: Evidence, duty_pct: float) -> float | None:
    """This car's own control ÷ supply at a duty, by straight lines through its bench sweep."""
    rows = sorted(
        (item["duty_pct"], item["control_kpa"] / item["supply_kpa"])
        for _, item in evidence.items("/tests/solenoid/sweep")
        if item.get("duty_pct") is not None and item.get("control_kpa") is not None and item.get("supply_kpa")
    )
    if len(rows) < 3 or not rows[0][0] - 5.0 <= duty_pct <= rows[-1][0] + 5.0:
        return None
    check = Check("solenoid_response", "pct", "", solenoid.response)
    if solenoid.response(evidence, check).outcome == "outside":
        return None
    for (d0, r0), (d1, r1) in pairwise(rows):
        if duty_pct <= d1 and d1 > d0:
            return r0 + (r1 - r0) * max(0.0, duty_pct - d0) / (d1 - d0)
    return rows[-1][1]


def base_boost(evidence: Evidence, check: Check) -> Finding:
    """Boost with the solenoid out of play, by gauge, in a full-load pull."""
    limit = evidence.limit("base_boost_kpa")
    judged = []
    for pointer, run in runs(evidence):
        if is_normal(run):
            continue
        for place, item in evidence.items(f"{pointer}/readings"):
            at = item.get("at") or "charge_circuit"
            if at not in ("charge_circuit", "after_cooler") or item.get("p_kpa") is None or item.get("peak"):
                continue
            read = evidence.pressure(item["p_kpa"], item.get("gauge"))
            judged.append(
                check.judged(read.value, read.uncertainty, limit, (f"{place}/p_kpa",), may_acquit=read.known)
            )
    if limit is None and judged:
        return judged[len(judged) // 2]
    return worst(judged, check)


def needs_a_log(evidence: Evidence, check: Check) -> Finding:
    """Checks that only a log can answer; typed values never do."""
    return check.missing("needs_a_log" if moments(evidence) else "no_reading")
