"""The road run as moments: what the car said and what the gauges said at one instant of a pull.

A moment is a typed row (`noted`), about 1.5 s of a log that may be judged, or a gauge reading laid into the
log or beside the typed row it belongs to (by pull and nearest engine speed, else by time). A typed row counts
as settled at full load where the contract's words allow it: pedal down, specified near its peak of the pull,
and not still spooling up at low engine speed.
"""

from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from math import fsum, hypot
from typing import Any

from calc.checks.evidence import STANDARD, Evidence, Value
from calc.checks.run_conditions import is_fit
from calc.checks.run_log import (
    ACTUAL,
    CHARGE_SIDE,
    SAME_SPEED_RPM,
    SPECIFIED,
    LoggedPull,
    RunLog,
    Spot,
    run_logs,
)
from calc.signals.pulls import FULL_PEDAL_PCT
from calc.signals.settled import ARRIVED_KPA, NEAR_PEAK_SHARE, OVERDUE_RPM, blocks
from calc.uncertainty.gauge import Pressure

SAME_TIME_S = 2.0
STEADY_KPA = 10.0


def _nought(channel: str) -> float:
    return 0.0


@dataclass(slots=True)
class Moment:
    """One instant of a pull: channel values by their contract name, gauges by where they sit.

    judged : whether a log says that it may be judged; None for a typed row, which is asked by the words.
    steady : whether boost swings under 10 kPa around it; None where no log shows it.
    own_doubt : standard uncertainty of a channel's value beside its instrument's: scatter, writing.
    time_doubt : standard uncertainty of boost from not knowing the moment better. [kPa]
    """

    pointer: str
    pull: int | None
    said: Mapping[str, Any]
    gauges: dict[str, tuple[Pressure, str]] = field(default_factory=dict)
    run: str = ""
    judged: bool | None = None
    steady: bool | None = None
    overdue: bool = False
    own_doubt: Callable[[str], float] = _nought
    time_doubt: float = 0.0

    def number(self, channel: str) -> float | None:
        """A channel's value at this instant."""
        found = self.said.get(channel)
        return None if found is None else float(found)

    def place(self, channel: str) -> str:
        """Where a channel's value was read from."""
        return f"{self.pointer}/{channel}"

    def gauge_at(self, *places: str) -> tuple[Pressure, str] | None:
        """The first gauge reading found at one of the places."""
        return next((self.gauges[place] for place in places if place in self.gauges), None)


def runs(evidence: Evidence, phase: str = "before_repair") -> Iterator[tuple[str, Mapping[str, Any]]]:
    """The road runs of a phase that may be judged, with their pointers."""
    for pointer, run in evidence.items("/tests/road"):
        if (run.get("phase") or "before_repair") == phase and is_fit(run):
            yield pointer, run


def is_normal(run: Mapping[str, Any]) -> bool:
    """Whether the boost control was left to work as it does on the road."""
    return (run.get("control") or "normal") == "normal"


def normal_logs(evidence: Evidence, phase: str = "before_repair") -> list[RunLog]:
    """The logs of the normal runs of a phase."""
    return run_logs(evidence, ((place, run) for place, run in runs(evidence, phase) if is_normal(run)))


def logged_pulls(evidence: Evidence, phase: str = "before_repair") -> list[LoggedPull]:
    """The full-load pulls of the normal runs' logs."""
    return [pull for log in normal_logs(evidence, phase) for pull in log.pulls]


def moments(evidence: Evidence, phase: str = "before_repair") -> list[Moment]:
    """Every moment of the normal runs of a phase, gauges laid beside the rows they belong to."""
    key = f"moments {phase}"
    if key not in evidence.worked_out:
        found: list[Moment] = []
        for pointer, run in runs(evidence, phase):
            if is_normal(run):
                found.extend(_run_moments(evidence, pointer, run))
        evidence.worked_out[key] = found
    return list(evidence.worked_out[key])


def settled(evidence: Evidence, phase: str = "before_repair") -> list[Moment]:
    """The moments that may be judged: full load, specified near its peak, boost no longer on its way."""
    key = f"settled {phase}"
    if key not in evidence.worked_out:
        found = moments(evidence, phase)
        peaks = _peaks(found)
        evidence.worked_out[key] = [
            moment for moment in found if _may_be_judged(moment, peaks.get(pull_key(moment)), evidence)
        ]
    return list(evidence.worked_out[key])


def set_right(evidence: Evidence, run: str) -> Value:
    """What to add to a run's sensor to get real boost: nought, or what a gauge beside it says. [kPa]"""
    if "set right" not in evidence.worked_out:
        evidence.worked_out["set right"] = _gauges_beside(evidence)
    beside = evidence.worked_out["set right"].get(run)
    if not beside:
        return Value(0.0, STANDARD["sensor_boost_kpa"], "")
    doubt = max(read.uncertainty for read, _, _ in beside)
    middle = fsum(apart for _, apart, _ in beside) / len(beside)
    outside = evidence.barometric.uncertainty
    return Value(middle, hypot(doubt, outside, STANDARD["sensor_boost_kpa"]), beside[0][2])


def _gauges_beside(evidence: Evidence) -> dict[str, list[tuple[Pressure, float, str]]]:
    """Readings beside the sensor while boost stood still, by run: reading, gauge less sensor, place."""
    found: dict[str, list[tuple[Pressure, float, str]]] = defaultdict(list)
    for moment in moments(evidence):
        gauge, said = moment.gauge_at(*CHARGE_SIDE), moment.number(ACTUAL)
        if moment.steady and gauge is not None and said is not None:
            apart = evidence.absolute(gauge[0]).value - said
            found[moment.run].append((gauge[0], apart, gauge[1]))
    return found


def typed(evidence: Evidence) -> list[Moment]:
    """The moments of the normal runs that stand on typed rows."""
    return [moment for moment in moments(evidence) if moment.judged is None]


def pull_key(moment: Moment) -> tuple[str, int | None]:
    """Which pull of which run a moment belongs to."""
    return moment.run, moment.pull


def gauge_items(evidence: Evidence, pointer: str) -> list[tuple[str, Mapping[str, Any]]]:
    """The gauge readings of a run that carry a pressure, with their pointers."""
    return [
        (place, item)
        for place, item in evidence.items(f"{pointer}/readings")
        if item.get("p_kpa") is not None
    ]


def charge_gauge(item: Mapping[str, Any]) -> bool:
    """Whether a reading was taken where the charge pressure sensor sits."""
    return _at(item) in CHARGE_SIDE


def _run_moments(evidence: Evidence, pointer: str, run: Mapping[str, Any]) -> list[Moment]:
    log = run_logs(evidence, iter([(pointer, run)]))[0]
    rows = [
        Moment(place, item.get("pull"), item, run=pointer)
        for place, item in evidence.items(f"{pointer}/noted")
    ]
    laid: dict[tuple[float, int | None], Moment] = {}
    lone: list[Moment] = []
    items = [(place, item) for place, item in gauge_items(evidence, pointer) if not item.get("peak")]
    spots = log.spots(evidence, [item for _, item in items])
    for (place, item), spot in zip(items, spots, strict=True):
        if spot is not None:
            home = laid.setdefault(_spot_key(spot), _laid(pointer, log, spot))
        else:
            home = _home(place, item, pointer, rows, lone)
        read = evidence.pressure(item["p_kpa"], item.get("gauge"))
        home.gauges.setdefault(_at(item), (read, f"{place}/p_kpa"))
    return [
        *(moment for pull in log.pulls for moment in _blocks(pointer, pull)),
        *laid.values(),
        *rows,
        *lone,
    ]


def _blocks(run: str, pull: LoggedPull) -> Iterator[Moment]:
    """What of a logged pull may be judged, in parts of about 1.5 s."""
    settling = pull.settling
    for rows, overdue in ((settling.overdue, True), (settling.settled, False)):
        for part in blocks(pull.times, rows):
            yield Moment(
                pull.pointer,
                pull.pull.number,
                pull.said(part),
                run=run,
                judged=True,
                overdue=overdue,
                own_doubt=_own_doubt(pull, part),
            )


def _own_doubt(pull: LoggedPull, rows: Sequence[int]) -> Callable[[str], float]:
    """Scatter of boost is taken about what is aimed at, so that an aim that moves is no doubt."""

    def doubt(channel: str) -> float:
        about_aim = channel == ACTUAL and pull.has(SPECIFIED)
        return pull.doubt(channel, pull.errors if about_aim else pull.channel(channel), rows)

    return doubt


def _laid(run: str, log: RunLog, spot: Spot) -> Moment:
    """A gauge reading in the log: what the car said then, and whether boost stood still."""
    moved = log.swing_at(spot)
    return Moment(
        log.pointer,
        None if spot.pull is None else spot.pull.pull.number,
        log.said_at(spot),
        run=run,
        judged=spot.pull is not None and spot.pull.judged_at(spot.when),
        steady=moved is not None and moved < STEADY_KPA,
        time_doubt=log.doubt_of_time(spot),
    )


def _spot_key(spot: Spot) -> tuple[float, int | None]:
    return spot.when, None if spot.pull is None else spot.pull.pull.number


def _home(place: str, item: Mapping[str, Any], run: str, rows: list[Moment], lone: list[Moment]) -> Moment:
    """The typed row, or the other reading, that a gauge reading belongs to; else a moment of its own."""
    home = _beside(item, rows) or _beside(item, lone)
    if home is None:
        home = Moment(place, item.get("pull"), _instant(item), run=run)
        lone.append(home)
    return home


def _instant(item: Mapping[str, Any]) -> dict[str, Any]:
    return {key: item[key] for key in ("engine_rpm", "t_s") if item.get(key) is not None}


def _beside(item: Mapping[str, Any], rows: list[Moment]) -> Moment | None:
    """The row a gauge reading belongs to: same pull and nearest engine speed, else nearest time."""
    pull = item.get("pull")
    same = [row for row in rows if pull is None or row.pull is None or row.pull == pull]
    near = _nearest(item, same, "engine_rpm", SAME_SPEED_RPM)
    if near is None and not _both_have(item, same, "engine_rpm"):
        near = _nearest(item, same, "t_s", SAME_TIME_S)
    if near is None and len(same) == 1 and not _both_have(item, same, "engine_rpm", "t_s"):
        return same[0]
    return near


def _nearest(item: Mapping[str, Any], rows: list[Moment], key: str, reach: float) -> Moment | None:
    if item.get(key) is None:
        return None
    apart = [(abs(row.said[key] - item[key]), row) for row in rows if row.said.get(key) is not None]
    gap, row = min(apart, key=lambda pair: pair[0], default=(reach + 1.0, None))
    return row if gap <= reach else None


def _both_have(item: Mapping[str, Any], rows: list[Moment], *keys: str) -> bool:
    return any(
        item.get(key) is not None and any(row.said.get(key) is not None for row in rows) for key in keys
    )


def _at(item: Mapping[str, Any]) -> str:
    return item.get("at") or "charge_circuit"


def _peaks(found: Sequence[Moment]) -> dict[tuple[str, int | None], float]:
    """The highest aim of each pull that stands on typed rows."""
    peaks: dict[tuple[str, int | None], float] = {}
    for moment in found:
        specified = moment.number(SPECIFIED)
        if specified is not None and moment.judged is None:
            key = pull_key(moment)
            peaks[key] = max(peaks.get(key, specified), specified)
    return peaks


def _may_be_judged(moment: Moment, peak: float | None, evidence: Evidence) -> bool:
    if moment.judged is not None:
        return moment.judged
    pedal, specified = moment.number("pedal_pct"), moment.number(SPECIFIED)
    if pedal is not None and pedal < FULL_PEDAL_PCT:
        return False
    if specified is None or peak is None:
        return specified is None
    if specified < peak * (1.0 - NEAR_PEAK_SHARE):
        return False
    return not _still_spooling(moment, specified, evidence)


def _still_spooling(moment: Moment, specified: float, evidence: Evidence) -> bool:
    rpm = moment.number("engine_rpm")
    if rpm is None or rpm > OVERDUE_RPM:
        return False
    gauge = moment.gauge_at(*CHARGE_SIDE)
    boost = moment.number(ACTUAL)
    if gauge is not None:
        boost = evidence.absolute(gauge[0]).value
    return boost is not None and boost < specified - ARRIVED_KPA
