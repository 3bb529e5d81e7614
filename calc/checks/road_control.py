"""What the control side did in the road run: authority used up, and the control pressure for its duty."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import fsum, hypot
from typing import Any

from calc.checks.control_model import expected_ratio
from calc.checks.evidence import STANDARD, Evidence
from calc.checks.finding import Check, Finding
from calc.checks.moments import Moment, logged_pulls, pull_key, settled
from calc.checks.run_log import ACTUAL, SPECIFIED, LoggedPull
from calc.checks.worst import boost_tolerance, can_act, worst
from calc.signals.settled import blocks, unbroken
from calc.uncertainty.decision import Chances, Limit
from calc.uncertainty.gauge import difference

END_OF_RANGE_PCT = 12.0  # duty nearer to its end than this has nothing left; common practice, no source
NO_LONGER_MOVES_PCT = 2.0
NO_LONGER_MOVES_KPA = 1.0
APART_RPM = 400.0
PERSISTS_S = 1.5  # an error shorter than this does not persist; common practice, no source
SURE, UNSURE = 0.97, 0.4
CONTROL_RATIO = 0.12
COOLER_DROP_STANDARD_KPA = 3.0  # between the solenoid's tap and a gauge after the cooler; common practice
SWEEP_SUPPLY_STANDARD_KPA = 5.0
TRIMS = (
    ("boost_correction_kpa", NO_LONGER_MOVES_KPA),
    ("correction_pct", NO_LONGER_MOVES_PCT),
)


def authority(evidence: Evidence, check: Check) -> Finding:
    """+1 used up towards more boost, −1 towards less: an error persists and the duty no longer moves."""
    pulls: dict[tuple[str, int | None], list[Moment]] = defaultdict(list)
    for moment in settled(evidence):
        if moment.judged is None and moment.number("duty_pct") is not None:
            pulls[pull_key(moment)].append(moment)
    found = [_pull_authority(evidence, check, rows) for rows in pulls.values()]
    found += [_logged_authority(evidence, check, pull) for pull in logged_pulls(evidence)]
    return worst([item for item in found if item.examined], check)


def _logged_authority(evidence: Evidence, check: Check, pull: LoggedPull) -> Finding:
    """One logged pull: the worst 1.5 s of it, and what duty and correction did while that error lasted."""
    trims = [name for name in ("duty_pct", *(name for name, _ in TRIMS)) if pull.has(name)]
    parts = [
        (error, part) for part in blocks(pull.times, pull.settling.judged) if (error := _mean(pull, part))
    ]
    parts = [(error, part) for error, part in parts if _counts(evidence, pull, part, error)]
    if not trims or not parts:
        return check.missing()
    error, part = max(parts, key=lambda pair: abs(pair[0]))
    places = tuple(f"{pull.pointer}/{name}" for name in (trims[0], SPECIFIED))
    facts = {"pull": pull.pull.number, "duty_pct": pull.mean("duty_pct", part)}
    doubt = hypot(STANDARD["sensor_boost_kpa"], pull.doubt(ACTUAL, pull.errors, part))
    seen = check.judged(error, doubt, boost_tolerance(evidence), places)
    wanted = 1 if error < 0.0 else -1
    stretch = _lasts(pull, wanted, 0.7 * (boost_tolerance(evidence).high or 0.0))
    if seen.outcome == "within":
        return _said(check, 0, SURE, places, facts)
    persists = pull.times[stretch[-1]] - pull.times[stretch[0]] >= PERSISTS_S
    used_up = persists and seen.outcome == "outside" and _used_up(evidence, pull, stretch, wanted)
    return _said(check, wanted, SURE if used_up else UNSURE, places, facts)


def _mean(pull: LoggedPull, rows: Sequence[int]) -> float | None:
    known = [error for row in rows if (error := pull.errors[row]) is not None]
    return fsum(known) / len(known) if known else None


def _counts(evidence: Evidence, pull: LoggedPull, rows: Sequence[int], error: float) -> bool:
    aimed = pull.mean(SPECIFIED, rows)
    return aimed is not None and can_act(evidence, aimed, error)


def _lasts(pull: LoggedPull, wanted: int, width: float) -> list[int]:
    """The longest unbroken stretch over which the error stays on its side."""
    rows = [
        row
        for row in pull.settling.judged
        if (error := pull.errors[row]) is not None and -error * wanted >= width
    ]
    stretches = unbroken(pull.times, rows) or [[pull.settling.judged[0]]]
    return max(stretches, key=lambda stretch: pull.times[stretch[-1]] - pull.times[stretch[0]])


def _used_up(evidence: Evidence, pull: LoggedPull, stretch: Sequence[int], wanted: int) -> bool:
    """Duty at its end or no longer moving the way it should; or a correction that stands on its stop."""
    third = max(1, len(stretch) // 3)
    early, late = stretch[:third], stretch[-third:]
    for name, still in TRIMS:
        first, last = pull.mean(name, early), pull.mean(name, late)
        if (
            first is not None
            and last is not None
            and last * wanted > 0.0
            and (last - first) * wanted <= still
        ):
            return True
    first, last = pull.mean("duty_pct", early), pull.mean("duty_pct", late)
    if first is None or last is None:
        return False
    lean = evidence.kind.towards_more_boost(last)
    if lean is None:
        return abs(last - first) <= NO_LONGER_MOVES_PCT
    if lean >= 100.0 - END_OF_RANGE_PCT if wanted > 0 else lean <= END_OF_RANGE_PCT:
        return True
    before = evidence.kind.towards_more_boost(first) or 0.0
    return (lean - before) * wanted <= NO_LONGER_MOVES_PCT


def _pull_authority(evidence: Evidence, check: Check, rows: list[Moment]) -> Finding:
    tolerance = boost_tolerance(evidence)
    off = [(error, row) for row in rows if (error := _error(row, evidence)) is not None]
    if not off:
        return check.missing()
    error, row = max(off, key=lambda pair: abs(pair[0]))
    places = (row.place("duty_pct"), row.place(SPECIFIED))
    facts = {"pull": row.pull, "duty_pct": row.number("duty_pct")}
    if tolerance.contains(error):
        return _said(check, 0, SURE, places, facts)
    wanted = 1 if error < 0.0 else -1
    if _at_its_end(evidence, row, wanted) or _no_longer_moves(rows, wanted, evidence):
        return _said(check, wanted, SURE, places, facts)
    return _said(check, wanted, UNSURE, places, facts)


def _error(row: Moment, evidence: Evidence) -> float | None:
    """The error as the control unit sees it, by its own sensor; by the gauge where no sensor value is."""
    aimed, said = row.number(SPECIFIED), row.number(ACTUAL)
    if aimed is None:
        return None
    if said is not None:
        return said - aimed
    gauge = row.gauge_at("charge_circuit", "after_cooler")
    return None if gauge is None else evidence.absolute(gauge[0]).value - aimed


def _at_its_end(evidence: Evidence, row: Moment, wanted: int) -> bool:
    duty = row.number("duty_pct")
    lean = None if duty is None else evidence.kind.towards_more_boost(duty)
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


def _said(check: Check, way: int, sure: float, places: tuple[str, ...], facts: dict[str, Any]) -> Finding:
    rest = (1.0 - sure) / 2.0
    seen = Chances(*(sure if side == way else rest for side in (-1, 0, 1)))
    if way == 0:
        outcome, value = "within", 0.0
    elif sure >= SURE:
        outcome, value = "outside", float(way)
    else:
        outcome, value = "undecided", 0.0
    found = check.judged(value, 0.0, Limit(0.0, 0.0), places, **facts)
    return replace(found, outcome=outcome, chances=seen)


def control_pressure(evidence: Evidence, check: Check) -> Finding:
    """Control ÷ supply pressure against what the duty should give on this car.

    Two passages in series; this car's own bench sweep, where it is sound, stands in place of the model.
    """
    typed = evidence.number("/spec/control_ratio_tolerance")
    width = CONTROL_RATIO if typed is None else abs(typed)
    judged = []
    for moment in settled(evidence):
        control, duty, supply = (
            moment.gauge_at("control_line"),
            moment.number("duty_pct"),
            supply_of(evidence, moment),
        )
        if supply is None or control is None or duty is None:
            continue
        expected = expected_ratio(evidence, duty, supply.p_kpa)
        if expected is None:
            return check.missing("arrangement_unknown")
        ratio = control[0].value / supply.p_kpa
        doubt = hypot(
            control[0].uncertainty / supply.p_kpa,
            ratio * hypot(supply.doubt, moment.time_doubt) / supply.p_kpa,
            expected[1],
        )
        judged.append(
            check.judged(
                ratio - expected[0],
                doubt,
                Limit(-width, width),
                (control[1], supply.place, moment.place("duty_pct")),
                may_acquit=control[0].known and supply.known,
                typical=typed is None,
                pull=moment.pull,
                engine_rpm=moment.number("engine_rpm"),
                expected=expected[0],
            )
        )
    return worst(judged, check)


@dataclass(frozen=True, slots=True)
class Supply:
    """Pressure that feeds the solenoid: boost, or the vacuum of a vacuum actuator; both gauge. [kPa]"""

    p_kpa: float
    doubt: float
    place: str
    known: bool


def supply_of(evidence: Evidence, moment: Moment) -> Supply | None:
    """What feeds the solenoid at a moment: boost, by the gauge nearest to its tap, or the vacuum supply."""
    if evidence.kind.vacuum:
        return _vacuum_supply(evidence)
    found = moment.gauge_at("compressor_outlet", "charge_circuit", "after_cooler")
    if found is None or found[0].value <= 0.0:
        return None
    read, place = found
    drop, doubt = (0.0, 0.0) if "compressor_outlet" in moment.gauges else _drop_of_the_cooler(evidence)
    return Supply(read.value + drop, hypot(read.uncertainty, doubt), place, read.known)


def _drop_of_the_cooler(evidence: Evidence) -> tuple[float, float]:
    """What lies between the tap at the compressor and a gauge behind the cooler, with its doubt. [kPa]"""
    before = evidence.test_pressure("cooler_drop", "before_kpa")
    after = evidence.test_pressure("cooler_drop", "after_kpa")
    at_load = evidence.get("/tests/cooler_drop/load") != "none"
    if before is None or after is None or not at_load:
        return 0.0, COOLER_DROP_STANDARD_KPA
    drop, doubt = difference(before, after)
    return max(drop, 0.0), min(doubt, COOLER_DROP_STANDARD_KPA)


def _vacuum_supply(evidence: Evidence) -> Supply | None:
    """The vacuum measured at its source, else what the bench sweep was fed with, within 10 kPa."""
    read = evidence.test_pressure("vacuum_supply", "p_kpa")
    if read is not None and read.value < 0.0:
        return Supply(read.value, read.uncertainty, "/tests/vacuum_supply/p_kpa", read.known)
    for place, item in evidence.items("/tests/solenoid/sweep"):
        if (item.get("supply_kpa") or 0.0) < 0.0:
            return Supply(float(item["supply_kpa"]), SWEEP_SUPPLY_STANDARD_KPA, f"{place}/supply_kpa", True)
    return None
