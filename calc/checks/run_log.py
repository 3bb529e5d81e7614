"""The log of one road run: its pulls, what of each may be judged, where typed gauge readings lie in it."""

from bisect import bisect_left
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from math import fsum, hypot, inf, sqrt
from typing import Any

from calc.checks.evidence import Evidence
from calc.signals.lag import lag_of_readings
from calc.signals.pulls import Pull, find_pulls
from calc.signals.refusal import CannotFit
from calc.signals.regression import line_fit
from calc.signals.series import (
    Values,
    bridged,
    interval_of,
    resolution_of,
    swing,
    value_at,
)
from calc.signals.settled import Settling, settle

SPECIFIED, ACTUAL = "boost_specified_kpa_abs", "boost_actual_kpa_abs"
SAME_SPEED_RPM = 150.0
SLOWEST_ROW_S = 1.5  # rows farther apart do not show what is settled; common practice, no source
TOGETHER_S = 0.5  # samples nearer than this err together; common practice, no source
READER_RPM, READER_KPA = 75.0, 4.0  # how well a passenger reads in a pull; common practice, no source
FEWEST_FOR_LAG = 3
CHARGE_SIDE = ("charge_circuit", "after_cooler")
STEADY_REACH_S, KNOWN_LAG_REACH_S, AROUND_S = 1.0, 0.5, 0.3
ROOT_12 = sqrt(12.0)


@dataclass
class LoggedPull:
    """One pull of a log, its channels cut out and their gaps bridged."""

    pull: Pull
    pointer: str
    times: Sequence[float]
    logged: Mapping[str, Values]
    cut_out: dict[str, list[float | None]] = field(default_factory=dict)

    def channel(self, name: str) -> list[float | None]:
        """A channel over the pull, all None where it was not logged."""
        if name not in self.cut_out:
            values = self.logged.get(name)
            cut = [None] * len(self.times) if values is None else values[self.pull.rows]
            self.cut_out[name] = bridged(self.times, cut)
        return self.cut_out[name]

    def has(self, name: str) -> bool:
        """Whether a channel holds anything in this pull."""
        return any(value is not None for value in self.channel(name))

    @cached_property
    def settling(self) -> Settling:
        """What of this pull may be judged."""
        channel = self.channel
        return settle(self.times, channel(SPECIFIED), channel(ACTUAL), channel("engine_rpm"))

    @cached_property
    def errors(self) -> list[float | None]:
        """Actual less specified, row by row. [kPa]"""
        pairs = zip(self.channel(ACTUAL), self.channel(SPECIFIED), strict=True)
        return [None if said is None or aim is None else said - aim for said, aim in pairs]

    @cached_property
    def interval(self) -> float:
        """Time between rows. [s]"""
        return interval_of(self.times)

    @cached_property
    def resolutions(self) -> dict[str, float]:
        """How finely each channel is written in this pull."""
        return {name: resolution_of(self.channel(name)) for name in self.logged if name != "t_s"}

    def mean(self, name: str, rows: Sequence[int]) -> float | None:
        """Mean of a channel over rows, None where nothing was read."""
        values = self.channel(name)
        known = [value for row in rows if (value := values[row]) is not None]
        return fsum(known) / len(known) if known else None

    def said(self, rows: Sequence[int]) -> dict[str, float]:
        """Every channel's mean over rows, by name."""
        means = ((name, self.mean(name, rows)) for name in self.logged if name != "t_s")
        return {name: value for name, value in means if value is not None}

    def doubt(self, name: str, values: Values, rows: Sequence[int]) -> float:
        """Standard uncertainty of a mean over rows: scatter about its line, writing, rows not simultaneous.

        hypot(s·√(0.5 s ÷ duration), step/√12, slope · interval/√12)
        """
        points = [(self.times[row], value) for row in rows if (value := values[row]) is not None]
        step = self.resolutions.get(name, 0.0) / ROOT_12
        if len(points) < 2 or points[-1][0] <= points[0][0]:
            return step
        slope, scatter = _line(points)
        lasting = points[-1][0] - points[0][0] + self.interval
        count = max(1.0, min(float(len(points)), lasting / TOGETHER_S))
        return hypot(scatter / sqrt(count), step, slope * min(self.interval, SLOWEST_ROW_S) / ROOT_12)

    def judged_at(self, when: float) -> bool:
        """Whether the row nearest to a time may be judged."""
        after = min(bisect_left(self.times, when), len(self.times) - 1)
        before = max(0, after - 1)
        row = before if when - self.times[before] < self.times[after] - when else after
        return row in self._judged_rows

    @cached_property
    def _judged_rows(self) -> frozenset[int]:
        return frozenset(self.settling.judged)

    def row_at_speed(self, rpm: float) -> int | None:
        """The row whose engine speed is nearest, within 150 rev/min."""
        speeds = self.channel("engine_rpm")
        gaps = [(abs(speed - rpm), row) for row, speed in enumerate(speeds) if speed is not None]
        gap, row = min(gaps, default=(SAME_SPEED_RPM + 1.0, -1))
        return row if gap <= SAME_SPEED_RPM else None


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a gauge reading lies in the log: its time, and its pull where it lies in one."""

    when: float
    pull: LoggedPull | None
    lag_known: bool


class RunLog:
    """The log of one run; `usable` is False without times, and `because` then says why."""

    def __init__(self, pointer: str, run: Mapping[str, Any]) -> None:
        self.pointer = f"{pointer}/channels"
        channels = run.get("channels") or {}
        times = channels.get("t_s") or ()
        kept: Mapping[str, Values] = _rows_with_time(channels) if None in times else channels
        self.times: list[float] = [when for when in kept.get("t_s") or () if when is not None]
        self.channels: Mapping[str, Values] = {
            name: values for name, values in kept.items() if name == "t_s" or _holds_anything(values)
        }

    @cached_property
    def usable(self) -> bool:
        """Whether there are rows with times, and something in them."""
        return len(self.times) > 2 and len(self.channels) > 1

    @cached_property
    def too_slow(self) -> bool:
        """Whether rows lie too far apart to show what is settled."""
        return interval_of(self.times) > SLOWEST_ROW_S

    @cached_property
    def pulls(self) -> list[LoggedPull]:
        """The full-load pulls in order; none from a log that is too slow."""
        if not self.usable or self.too_slow:
            return []
        return [
            LoggedPull(pull, self.pointer, self.times[pull.rows], self.channels)
            for pull in find_pulls(self.channels)
        ]

    @cached_property
    def actual(self) -> list[float | None]:
        """The sensor's boost over the whole log, gaps bridged. [kPa]"""
        return bridged(self.times, self.channels.get(ACTUAL) or [None] * len(self.times))

    def spots(self, evidence: Evidence, items: Sequence[Mapping[str, Any]]) -> list[Spot | None]:
        """Where each gauge reading lies: by pull and engine speed, else by time with its lag taken out."""
        if not self.usable:
            return [None] * len(items)
        lag = self._lag(evidence, [item for item in items if item.get("t_s") is not None])
        return [self._spot(item, lag) for item in items]

    def swing_at(self, spot: Spot) -> float | None:
        """How far the sensor's boost moves within 1 s before and after. [kPa]"""
        return swing(self.times, self.actual, spot.when, STEADY_REACH_S)

    def doubt_of_time(self, spot: Spot) -> float:
        """Standard uncertainty of boost from not knowing the moment better. [kPa]"""
        reach = KNOWN_LAG_REACH_S if spot.lag_known else STEADY_REACH_S
        first, last = self.times[0], self.times[-1]
        near = [
            value
            for when in (spot.when - reach, spot.when - reach / 2.0, spot.when, spot.when + reach / 2.0)
            if first <= when <= last and (value := value_at(self.times, self.actual, when)) is not None
        ]
        return (max(near) - min(near)) / ROOT_12 if near else 0.0

    def said_at(self, spot: Spot) -> dict[str, float]:
        """Every channel at a spot."""
        found = {}
        for name, values in self.channels.items():
            if name != "t_s":
                near = spot.pull.channel(name) if spot.pull is not None else None
                value = (
                    value_at(spot.pull.times, near, spot.when)
                    if spot.pull is not None and near is not None
                    else _value_near(self.times, values, spot.when)
                )
                if value is not None:
                    found[name] = value
        return found

    def _spot(self, item: Mapping[str, Any], lag: float | None) -> Spot | None:
        number, rpm, when = item.get("pull"), item.get("engine_rpm"), item.get("t_s")
        if rpm is not None and (number is not None or when is None):
            spot = self._by_speed(number, rpm)
            if spot is not None:
                return spot
        if when is None or not self.times[0] <= when + (lag or 0.0) <= self.times[-1]:
            return None
        there = when + (lag or 0.0)
        inside = (pull for pull in self.pulls if pull.times[0] <= there <= pull.times[-1])
        return Spot(there, next(inside, None), lag is not None)

    def _by_speed(self, number: int | None, rpm: float) -> Spot | None:
        pulls = [pull for pull in self.pulls if number is None or pull.pull.number == number]
        rows = ((pull, pull.row_at_speed(rpm)) for pull in pulls)
        found = [(pull, row) for pull, row in rows if row is not None]
        if not found:
            return None
        pull, row = found[0]
        return Spot(pull.times[row], pull, lag_known=True)

    def _lag(self, evidence: Evidence, items: Sequence[Mapping[str, Any]]) -> float | None:
        """By engine speed where it was read, and by charge pressure, whose common offset stays free."""
        speeds = self.channels.get("engine_rpm")
        by_speed = [item for item in items if item.get("engine_rpm") is not None] if speeds else []
        charge = [
            (item, evidence.pressure(item["p_kpa"], item.get("gauge")))
            for item in items
            if (item.get("at") or "charge_circuit") in CHARGE_SIDE
        ]

        def misfit(lag: float) -> float:
            turns = [self._apart(speeds or (), item["t_s"] + lag, item["engine_rpm"]) for item in by_speed]
            said = [self._apart(self.actual, item["t_s"] + lag, p.value) for item, p in charge]
            parts = [_chi_squared(turns, READER_RPM, offset=False)]
            if len(charge) >= FEWEST_FOR_LAG:
                parts.append(_chi_squared(said, READER_KPA, offset=True))
            return fsum(parts)

        if not by_speed and len(charge) < FEWEST_FOR_LAG:
            return None
        try:
            return lag_of_readings(misfit)
        except CannotFit:
            return None

    def _apart(self, values: Values, when: float, read: float) -> float | None:
        said = _value_near(self.times, values, when)
        return None if said is None else said - read


def run_logs(evidence: Evidence, runs: Iterator[tuple[str, Mapping[str, Any]]]) -> list[RunLog]:
    """The logs of runs, each worked out once for a job."""
    found = []
    for pointer, run in runs:
        if pointer not in evidence.worked_out:
            evidence.worked_out[pointer] = RunLog(pointer, run)
        found.append(evidence.worked_out[pointer])
    return found


def _chi_squared(apart: Sequence[float | None], doubt: float, *, offset: bool) -> float:
    """Σ (d/u)², a common offset taken out where it is free; infinite where the log has nothing."""
    known = [one for one in apart if one is not None]
    if len(known) < len(apart):
        return inf
    middle = fsum(known) / len(known) if offset and known else 0.0
    return fsum(((one - middle) / doubt) ** 2 for one in known)


def _rows_with_time(channels: Mapping[str, Any]) -> dict[str, list[float | None]]:
    rows = [row for row, when in enumerate(channels["t_s"]) if when is not None]
    return {name: [values[row] for row in rows] for name, values in channels.items() if values}


def _holds_anything(values: Values) -> bool:
    return bool(values) and any(value is not None for value in values)


def _value_near(times: Sequence[float], values: Values, when: float) -> float | None:
    """A channel of the whole log at a time; in a gap, the nearest rows on both sides up to 1 s away."""
    found = value_at(times, values, when)
    return found if found is not None else _across_gap(times, values, when)


def _across_gap(times: Sequence[float], values: Values, when: float) -> float | None:
    first, end = bisect_left(times, when - STEADY_REACH_S), bisect_left(times, when + STEADY_REACH_S)
    return value_at(times[first:end], bridged(times[first:end], values[first:end]), when)


def _line(points: Sequence[tuple[float, float]]) -> tuple[float, float]:
    """Slope and scatter about the least-squares line; two points lie on theirs."""
    times, values = zip(*points, strict=True)
    if len(points) < 3:
        return (values[1] - values[0]) / (times[1] - times[0]), 0.0
    line = line_fit(times, values)
    return line.slope, line.residual_s
