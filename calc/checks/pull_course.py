"""The course of each logged pull in figures, and what boost did at part load.

Rise, overshoot and settling are taken by IEEE 181 from the boost the pull begins with to the boost that it
settles at. What rows lie too far apart for is left out.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import fsum, hypot, sqrt
from typing import NamedTuple

from calc.checks.evidence import STANDARD, Evidence
from calc.checks.moments import normal_logs
from calc.checks.run_log import ACTUAL, SPECIFIED, LoggedPull, RunLog
from calc.checks.worst import boost_tolerance, can_act
from calc.signals.pulls import FULL_PEDAL_PCT
from calc.signals.refusal import CannotFit
from calc.signals.series import LONGEST_BRIDGE_S, resolution_of
from calc.signals.step import Step, step_metrics
from calc.uncertainty.decision import chances, outcome

SMALLEST_STEP_KPA = 20.0  # a rise of less shows no course; common practice, no source
ROWS_IN_A_RISE = 4.0  # rows that a rise has to hold for its time to be told; common practice, no source
CORRECTIONS = ("boost_correction_kpa", "correction_pct")
PART_LOAD_PCT = (25.0, FULL_PEDAL_PCT)
STEADY_S, STEADY_PEDAL_PCT, STEADY_KPA = 1.5, 4.0, 10.0  # part load that stands; common practice, no source


@dataclass(frozen=True, slots=True)
class Course:
    """One full-load pull. Times and shares with no doubt beside them are as exact as the rows are close.

    step : rise and settling [s], overshoot [% of the rise]; None where the log does not show it.
    step_doubt : U of the rise from rows apart. [s]
    mean, largest : actual less specified where it may be judged, each with its U. [kPa]
    corrected_pct : share of that time in which a correction stood. [%]
    """

    run: str
    pull: int
    step: Step | None
    step_doubt: float
    mean: tuple[float, float] | None
    largest: tuple[float, float] | None
    corrected_pct: float | None


@dataclass(frozen=True, slots=True)
class PartLoad:
    """One steady stretch at part load: pedal, aim, actual less specified with its U, and how that is judged.

    outcome : `within`, `outside`, `undecided`, or `cannot_act`: the aim lies below base boost, where a
        pressure-opened gate cannot bring boost down, so that more than specified is healthy.
    """

    run: str
    t_s: float
    seconds: float
    pedal_pct: float
    specified: float
    error: float
    expanded: float
    outcome: str


def courses(evidence: Evidence) -> list[Course]:
    """The course of every full-load pull of the normal runs."""
    return [_course(log, pull) for log in normal_logs(evidence) for pull in log.pulls]


def part_loads(evidence: Evidence) -> list[PartLoad]:
    """Every steady stretch at part load of the normal runs."""
    return [
        found
        for log in normal_logs(evidence)
        if log.usable and not log.too_slow
        for found in _part_loads(evidence, log)
    ]


def _course(log: RunLog, pull: LoggedPull) -> Course:
    step = _step(pull)
    rows = [row for row in pull.settling.judged if pull.errors[row] is not None]
    return Course(
        run=log.pointer.removesuffix("/channels"),
        pull=pull.pull.number,
        step=step,
        step_doubt=2.0 * pull.interval / sqrt(6.0),
        mean=_mean(pull, rows),
        largest=_largest(pull, rows),
        corrected_pct=_corrected(pull, rows),
    )


def _step(pull: LoggedPull) -> Step | None:
    rows = pull.settling.settled
    settled = pull.mean(ACTUAL, rows[len(rows) // 2 :])  # the later half: overshoot has died away
    points = [
        (when, said) for when, said in zip(pull.times, pull.channel(ACTUAL), strict=True) if said is not None
    ]
    if settled is None or not points or abs(settled - points[0][1]) < SMALLEST_STEP_KPA:
        return None
    end = pull.times[pull.settling.cut] if pull.settling.cut is not None else points[-1][0]
    shown = [point for point in points if point[0] <= end]
    try:
        found = step_metrics([when for when, _ in shown], [said for _, said in shown], points[0][1], settled)
    except CannotFit:
        return None
    slow = found.transition is not None and found.transition < ROWS_IN_A_RISE * pull.interval
    return None if slow else found


def _mean(pull: LoggedPull, rows: Sequence[int]) -> tuple[float, float] | None:
    known = [error for row in rows if (error := pull.errors[row]) is not None]
    if not known:
        return None
    doubt = hypot(STANDARD["sensor_boost_kpa"], pull.doubt(ACTUAL, pull.errors, rows))
    return fsum(known) / len(known), 2.0 * doubt


def _largest(pull: LoggedPull, rows: Sequence[int]) -> tuple[float, float] | None:
    known = [error for row in rows if (error := pull.errors[row]) is not None]
    if not known:
        return None
    written = pull.resolutions.get(ACTUAL, 0.0) / sqrt(12.0)
    return max(known, key=abs), 2.0 * hypot(STANDARD["sensor_boost_kpa"], written)


def _corrected(pull: LoggedPull, rows: Sequence[int]) -> float | None:
    """Share of the rows in which the correction is more than its own doubt."""
    for name in CORRECTIONS:
        known = [trim for row in rows if (trim := pull.channel(name)[row]) is not None]
        if known:
            stood = sum(1 for trim in known if abs(trim) > 2.0 * STANDARD["correction_kpa"])
            return 100.0 * stood / len(known)
    return None


def _part_loads(evidence: Evidence, log: RunLog) -> Iterator[PartLoad]:
    pedals, aims, said = (log.channels.get(name) for name in ("pedal_pct", SPECIFIED, ACTUAL))
    if pedals is None or aims is None or said is None:
        return
    rows = [
        Row(when, pedal, aim, boost)
        for when, pedal, aim, boost in zip(log.times, pedals, aims, said, strict=True)
        if pedal is not None and aim is not None and boost is not None
        if PART_LOAD_PCT[0] <= pedal < PART_LOAD_PCT[1]
    ]
    run = log.pointer.removesuffix("/channels")
    for part in _steady(rows):
        if part[-1].when - part[0].when >= STEADY_S:
            yield _judged(evidence, run, part)


class Row(NamedTuple):
    """One row at part load. [s, %, kPa, kPa]"""

    when: float
    pedal: float
    aim: float
    boost: float


def _steady(rows: Sequence[Row]) -> Iterator[list[Row]]:
    """The stretches over which neither pedal nor boost moves much, each as long as it goes."""
    part: list[Row] = []
    low = high = Row(0.0, 0.0, 0.0, 0.0)
    for row in rows:
        near = bool(part) and row.when - part[-1].when <= LONGEST_BRIDGE_S
        lower, higher = Row(*map(min, low, row)), Row(*map(max, high, row))
        still = higher.pedal - lower.pedal <= STEADY_PEDAL_PCT and higher.boost - lower.boost <= STEADY_KPA
        if near and still:
            part.append(row)
            low, high = lower, higher
            continue
        if part:
            yield part
        part, low, high = [row], row, row
    if part:
        yield part


def _judged(evidence: Evidence, run: str, part: Sequence[Row]) -> PartLoad:
    count = len(part)
    pedal, aim, error = (
        fsum(values) / count
        for values in (
            [row.pedal for row in part],
            [row.aim for row in part],
            [row.boost - row.aim for row in part],
        )
    )
    written = resolution_of([row.boost for row in part]) / sqrt(12.0)
    doubt, limit = hypot(STANDARD["sensor_boost_kpa"], written), boost_tolerance(evidence)
    acts = can_act(evidence, aim, error)
    said = outcome(error, limit, chances(error, doubt, limit)) if acts else "cannot_act"
    return PartLoad(run, part[0].when, part[-1].when - part[0].when, pedal, aim, error, 2.0 * doubt, said)
