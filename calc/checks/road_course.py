"""What boost does in the course of a pull: an excess that stays, hunting, reduced power; and base boost."""

from collections import defaultdict, deque
from collections.abc import Sequence
from itertools import pairwise
from math import fsum, hypot
from typing import Any

from calc.checks.evidence import STANDARD, Evidence, Value
from calc.checks.finding import Check, Finding
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
from calc.checks.run_log import ACTUAL, CHARGE_SIDE, SPECIFIED, LoggedPull, run_logs
from calc.checks.worst import boost_tolerance, can_act, farthest, worst
from calc.signals.oscillation import NOISE_KPA, oscillation
from calc.signals.pulls import FULL_PEDAL_PCT
from calc.signals.refusal import CannotFit
from calc.signals.settled import DROP_SHARE, PLATEAU_SHARE, unbroken
from calc.uncertainty.decision import Limit

LASTS_S, LAST_SECOND_S = 1.5, 1.0
CUT_SHORT_S = 0.2  # an excess that the control unit cuts has to be more than one row of noise
NEAR_AIM_SHARE = 0.10  # an excess over an aim below 90 % of its peak is a taper, not overboost
APART_RPM = 750.0  # typed rows this far apart lie 1.5 s apart in any pull; common practice, no source
SHUT_PCT, OPEN_PCT = 60.0, 85.0  # a throttle that goes from open to shut at full pedal is a cut
MIDDLE = (0.4, 0.7)  # of a pull's time: its middle, where base boost is read; common practice, no source
TURN_KPA = 3.0 * NOISE_KPA / 2.0


def overboost(evidence: Evidence, check: Check) -> Finding:
    """Largest excess of real boost that lasts over 1.5 s and does not fade, or that the control unit cuts.

    Real boost is the sensor's trace set right by the gauge where one was read beside it, else the sensor's.
    """
    limit = Limit(high=boost_tolerance(evidence).high)
    typical = evidence.number("/spec/boost_tolerance_kpa") is None
    judged = []
    for pull in logged_pulls(evidence):
        right = set_right(evidence, pull.pointer.removesuffix("/channels"))
        found = _lasting_excess(evidence, pull, right.value)
        if found is not None:
            doubt = hypot(right.uncertainty, pull.resolutions.get(ACTUAL, 0.0) / 12.0**0.5)
            places = tuple(
                filter(None, (f"{pull.pointer}/{ACTUAL}", f"{pull.pointer}/{SPECIFIED}", right.pointer))
            )
            judged.append(check.judged(found, doubt, limit, places, typical=typical, pull=pull.pull.number))
    judged += [
        check.judged(excess.value, excess.uncertainty, limit, (excess.pointer,), typical=typical, pull=number)
        for number, excess in _typed_excesses(evidence)
    ]
    because = _needs_a_log(evidence)
    return worst(judged, check, "log_too_slow_or_short" if because == "never_settled" else because)


def hunting(evidence: Evidence, check: Check) -> Finding:
    """Boost swinging to and fro once it has arrived: peak to peak, with its frequency."""
    limit = Limit(high=boost_tolerance(evidence).high)
    typical = evidence.number("/spec/boost_tolerance_kpa") is None
    judged, because = [], _needs_a_log(evidence)
    for pull in logged_pulls(evidence):
        for rows in unbroken(pull.times, pull.settling.arrived):
            points = [
                (pull.times[row], said) for row in rows if (said := pull.channel(ACTUAL)[row]) is not None
            ]
            try:
                seen = oscillation([when for when, _ in points], [said for _, said in points], TURN_KPA)
            except CannotFit:
                because = "log_too_slow_or_short"
                continue
            judged.append(
                check.judged(
                    seen.size,
                    hypot(STANDARD["sensor_boost_kpa"], pull.resolutions[ACTUAL] / 6.0**0.5),
                    limit,
                    (f"{pull.pointer}/{ACTUAL}",),
                    typical=typical,
                    pull=pull.pull.number,
                    frequency_hz=seen.frequency,
                )
            )
    return worst(judged, check, because)


def reduced_power(evidence: Evidence, check: Check) -> Finding:
    """Whether the aim drops to a plateau while the pedal stays down."""
    found = []
    for pull in logged_pulls(evidence):
        if pull.has(SPECIFIED):
            places = (f"{pull.pointer}/{SPECIFIED}",)
            cut = pull.settling.cut
            speed = None if cut is None else pull.channel("engine_rpm")[cut]
            found.append(check.flag(cut is None, places, pull=pull.pull.number, engine_rpm=speed))
    for rows in _typed_pulls(evidence).values():
        aims = [(aim, row) for row in rows if (aim := row.number(SPECIFIED)) is not None]
        if _wide_enough([row for _, row in aims]):
            drop = _typed_drop(aims)
            row = drop or aims[-1][1]
            when = {"pull": row.pull, "engine_rpm": row.number("engine_rpm")} if drop else {"pull": row.pull}
            found.append(check.flag(drop is None, (row.place(SPECIFIED),), **when))
    return worst(found, check, _needs_a_log(evidence))


def base_boost(evidence: Evidence, check: Check) -> Finding:
    """Boost with the solenoid out of play in the middle of a full-load pull: by gauge, else by the sensor."""
    limit = evidence.limit("base_boost_kpa")
    judged = []
    for pointer, run in runs(evidence):
        if is_normal(run):
            continue
        by_gauge = _base_by_gauge(evidence, pointer, run, limit, check)
        judged += by_gauge or _base_by_sensor(evidence, pointer, run, limit, check)
    return farthest(judged, check, None)


def _lasting_excess(evidence: Evidence, pull: LoggedPull, add: float) -> float | None:
    """Largest L with excess ≥ L for over 1.5 s and over half of L left at the end; None: too short to say.

    Where the control unit cut, what it cut short counts however briefly it lasted. [kPa]
    """
    end = _cut_row(pull)
    points = _excess(evidence, pull, add, len(pull.times) if end is None else end + 1)
    if not points:
        return None
    if end is not None:
        return max(0.0, _highest_floor(points, CUT_SHORT_S) or 0.0)
    if points[-1][0] - points[0][0] < LASTS_S:
        return None
    last = [over for when, over in points if when >= pull.times[-1] - LAST_SECOND_S]
    left = fsum(last) / len(last) if last else 0.0
    return max(0.0, min(_highest_floor(points, LASTS_S) or 0.0, 2.0 * left))


def _excess(evidence: Evidence, pull: LoggedPull, add: float, end: int) -> list[tuple[float, float]]:
    """Times and excess where the aim stands near its peak and the device can act. [s, kPa]"""
    aims = pull.channel(SPECIFIED)[:end]
    least = (1.0 - NEAR_AIM_SHARE) * max((aim for aim in aims if aim is not None), default=0.0)
    free = evidence.limit("base_boost_kpa") is None
    return [
        (when, error + add)
        for when, aim, error in zip(pull.times, aims, pull.errors, strict=False)
        if aim is not None
        and error is not None
        and aim >= least
        and (free or can_act(evidence, aim, error + add))
    ]


def _cut_row(pull: LoggedPull) -> int | None:
    """The last row before the control unit cuts: the aim drops, or the throttle shuts at full pedal."""
    if pull.settling.cut is not None:
        return pull.settling.cut
    opened = False
    for row, angle in enumerate(pull.channel("throttle_pct")):
        if angle is not None:
            opened = opened or angle >= OPEN_PCT
            if opened and angle < SHUT_PCT:
                return max(0, row - 1)
    return None


def _highest_floor(points: Sequence[tuple[float, float]], lasting: float) -> float | None:
    """The greatest minimum over any stretch so long; None where the points hold none."""
    best: float | None = None
    lowest: deque[int] = deque()
    first = 0
    for last, (when, over) in enumerate(points):
        while lowest and points[lowest[-1]][1] >= over:
            lowest.pop()
        lowest.append(last)
        while first + 1 <= last and when - points[first + 1][0] >= lasting:
            first += 1
        while lowest[0] < first:
            lowest.popleft()
        if when - points[first][0] >= lasting:
            floor = points[lowest[0]][1]
            best = floor if best is None else max(best, floor)
    return best


def _typed_pulls(evidence: Evidence) -> dict[tuple[str, int | None], list[Moment]]:
    """Typed full-load rows of each pull in the order of engine speed, else of time."""
    pulls: dict[tuple[str, int | None], list[Moment]] = defaultdict(list)
    for moment in typed(evidence):
        pedal = moment.number("pedal_pct")
        if pedal is None or pedal >= FULL_PEDAL_PCT:
            pulls[pull_key(moment)].append(moment)
    for rows in pulls.values():
        rows.sort(key=lambda row: (row.number("engine_rpm") or 0.0, row.number("t_s") or 0.0))
    return pulls


def _wide_enough(rows: Sequence[Moment]) -> bool:
    return len(rows) >= 3 and _apart(rows[0], rows[-1])


def _apart(first: Moment, last: Moment) -> bool:
    """Whether two typed rows lie over 1.5 s apart, by time, else by engine speed."""
    t0, t1 = first.number("t_s"), last.number("t_s")
    if t0 is not None and t1 is not None:
        return abs(t1 - t0) > LASTS_S
    n0, n1 = first.number("engine_rpm"), last.number("engine_rpm")
    return n0 is not None and n1 is not None and abs(n1 - n0) >= APART_RPM


def _typed_drop(aims: Sequence[tuple[float, Moment]]) -> Moment | None:
    """The row at which the aim has dropped and two rows stand level at the new value."""
    for (top, _), (first, row), (second, _) in zip(aims, aims[1:], aims[2:], strict=False):
        fallen = first < (1.0 - DROP_SHARE) * top
        if fallen and abs(second - first) <= PLATEAU_SHARE * top:
            return row
    return None


def _typed_excesses(evidence: Evidence) -> list[tuple[int | None, Value]]:
    """The excess that neighbouring settled typed rows of a pull share, where they lie over 1.5 s apart."""
    may_be_judged = {id(moment) for moment in settled(evidence)}
    found = []
    for (_, number), rows in _typed_pulls(evidence).items():
        over = [(value, row) for row in rows if id(row) in may_be_judged and (value := _over(evidence, row))]
        shared = [
            min(a, b, key=lambda value: value.value)
            for (a, first), (b, last) in pairwise(over)
            if _apart(first, last)
        ]
        if shared:
            top, left = max(shared, key=lambda value: value.value), over[-1][0].value
            lasting = max(0.0, min(top.value, 2.0 * max(left, 0.0)))
            found.append((number, Value(lasting, top.uncertainty, top.pointer)))
    return found


def _over(evidence: Evidence, row: Moment) -> Value | None:
    """Real boost less specified: by the gauge, else by the sensor. [kPa]"""
    aimed, gauge, said = row.number(SPECIFIED), row.gauge_at(*CHARGE_SIDE), row.number(ACTUAL)
    if aimed is None:
        return None
    if gauge is not None:
        real = evidence.absolute(gauge[0])
        found = Value(real.value - aimed, real.uncertainty, gauge[1])
    elif said is not None:
        found = Value(said - aimed, STANDARD["sensor_boost_kpa"], row.place(ACTUAL))
    else:
        return None
    return found if can_act(evidence, aimed, found.value) else None


def _needs_a_log(evidence: Evidence) -> str:
    """Why nothing could be judged: no road run, typed values alone, or a log that does not show it."""
    logs = [log for log in normal_logs(evidence) if log.usable]
    if not logs:
        return "needs_a_log" if moments(evidence) else "no_reading"
    if all(log.too_slow for log in logs):
        return "log_too_slow"
    return "never_settled" if any(log.pulls for log in logs) else "no_pull"


def _base_by_gauge(
    evidence: Evidence, pointer: str, run: Any, limit: Limit | None, check: Check
) -> list[Finding]:
    """Gauge readings of each pull, those nearest to its middle where the engine speed tells."""
    pulls: dict[Any, list[tuple[str, Any]]] = defaultdict(list)
    for place, item in gauge_items(evidence, pointer):
        if charge_gauge(item) and not item.get("peak"):
            pulls[item.get("pull")].append((place, item))
    judged = []
    for number, items in pulls.items():
        for place, item in _in_the_middle(items):
            read = evidence.pressure(item["p_kpa"], item.get("gauge"))
            found = check.judged(
                read.value,
                read.uncertainty,
                limit,
                (f"{place}/p_kpa",),
                may_acquit=read.known,
                pull=number,
                engine_rpm=item.get("engine_rpm"),
            )
            judged.append(found)
    return judged


def _in_the_middle(items: list[tuple[str, Any]]) -> list[tuple[str, Any]]:
    """Of three readings and more with engine speeds the one nearest to the middle; else all."""
    speeds = [item["engine_rpm"] for _, item in items if item.get("engine_rpm") is not None]
    if len(items) < 3 or len(speeds) < len(items):
        return items
    middle = (min(speeds) + max(speeds)) / 2.0
    return [min(items, key=lambda pair: abs(pair[1]["engine_rpm"] - middle))]


def _base_by_sensor(
    evidence: Evidence, pointer: str, run: Any, limit: Limit | None, check: Check
) -> list[Finding]:
    outside, judged = evidence.barometric, []
    for pull in run_logs(evidence, iter([(pointer, run)]))[0].pulls:
        start, lasting = pull.times[0], pull.times[-1] - pull.times[0]
        rows = [
            row
            for row, when in enumerate(pull.times)
            if MIDDLE[0] * lasting <= when - start <= MIDDLE[1] * lasting
        ]
        said = pull.mean(ACTUAL, rows)
        if said is not None:
            doubt = hypot(
                STANDARD["sensor_boost_kpa"],
                outside.uncertainty,
                pull.doubt(ACTUAL, pull.channel(ACTUAL), rows),
            )
            judged.append(
                check.judged(
                    evidence.above_the_air(said),
                    doubt,
                    limit,
                    (f"{pull.pointer}/{ACTUAL}",),
                    pull=pull.pull.number,
                    engine_rpm=pull.mean("engine_rpm", rows),
                )
            )
    return judged
