"""Least-squares search for a ramp: rest, rise and, with a second break, a stop."""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

from calc.signals.regression import mean

MOST_POINTS = 300  # more are averaged in neighbouring groups of equal size
MOST_CANDIDATES = 40  # places at which the coarse search looks for a break
GOLDEN = 0.5 * (math.sqrt(5.0) - 1.0)


@dataclass(frozen=True)
class Points:
    """Pressures in rising order with their travels, and the squares below which a misfit is rounding."""

    p: tuple[float, ...]
    x: tuple[float, ...]
    rounding: float

    @classmethod
    def of(cls, pressures: Sequence[float], travels: Sequence[float]) -> "Points":
        """Sort, and average neighbours where there are too many."""
        pairs = sorted(zip(pressures, travels, strict=True))
        size = -(-len(pairs) // MOST_POINTS)
        groups = [pairs[at : at + size] for at in range(0, len(pairs), size)]
        p = tuple(mean([pair[0] for pair in group]) for group in groups)
        x = tuple(mean([pair[1] for pair in group]) for group in groups)
        return cls(p, x, 1.0e-24 * max(1.0, len(x)) * max(abs(value) for value in x) ** 2)


@dataclass(frozen=True)
class Ramp:
    """A fitted ramp; `stop` is None for one that rises to the end of the data."""

    start: float
    stop: float | None
    slope: float
    baseline: float
    rss: float
    before: int
    moving: int
    at_stop: int
    centre: float  # mean pressure of the moving points
    spread: float  # Σ(p − centre)² over them

    @property
    def height(self) -> float:
        """Travel between rest and stop."""
        return self.slope * ((self.start if self.stop is None else self.stop) - self.start)

    def start_leverage(self) -> float:
        """Standard error of the start for a scatter of 1."""
        return self._leverage(self.start, self.before)

    def stop_leverage(self) -> float:
        """Standard error of the stop for a scatter of 1."""
        return self._leverage(self.centre if self.stop is None else self.stop, self.at_stop)

    def _leverage(self, place: float, level_points: int) -> float:
        variance = 1.0 / level_points + 1.0 / self.moving + (place - self.centre) ** 2 / self.spread
        return math.sqrt(variance) / self.slope


def best_ramp(points: Points, breaks: int) -> Ramp:
    """The ramp with one break (start) or two (start and stop) that misses the points least.

    A coarse search over the pressures themselves; then, as long as the misfit falls, steps that solve the
    pieces exactly, or narrow one break alone (the least misfit may lie at a point, where no step leads).
    """
    places = _candidates(points.p)
    start = min(combinations(places, breaks), key=lambda guess: _misfit(points, guess), default=None)
    if start is None:  # a single pressure: nothing rises
        start = (points.p[0],) * breaks
    return _described(points, _refined(points, start))


def _candidates(p: Sequence[float]) -> list[float]:
    distinct = sorted(set(p))
    step = max(1.0, (len(distinct) - 1) / (MOST_CANDIDATES - 1))
    count = min(len(distinct), MOST_CANDIDATES)
    return [distinct[min(round(index * step), len(distinct) - 1)] for index in range(count)]


def _refined(points: Points, guess: tuple[float, ...]) -> tuple[float, ...]:
    best, misfit = guess, _misfit(points, guess)
    for _ in range(50):
        tries = [*_piecewise_step(points, best), *_narrowed(points, best)]
        new = min(tries, key=lambda each: _misfit(points, each), default=best)
        new_misfit = _misfit(points, new)
        if not new_misfit < misfit:
            break
        settled = misfit - new_misfit <= 1.0e-13 * misfit
        best, misfit = new, new_misfit
        if settled:
            break
    exact = next(_piecewise_step(points, best), best)
    return exact if _misfit(points, exact) <= misfit * (1.0 + 1.0e-9) + points.rounding else best


def _ramped(p: Sequence[float], breaks: tuple[float, ...]) -> list[float]:
    if len(breaks) == 1:
        return [max(0.0, value - breaks[0]) for value in p]
    return [min(max(value, breaks[0]), breaks[1]) - breaks[0] for value in p]


def _level_and_slope(points: Points, breaks: tuple[float, ...]) -> tuple[float, float, float]:
    """Baseline, slope (never falling) and sum of squared misses for given breaks."""
    u = _ramped(points.p, breaks)
    u_mean, x_mean = mean(u), mean(points.x)
    spread = math.fsum((value - u_mean) ** 2 for value in u)
    common = math.fsum((a - u_mean) * (b - x_mean) for a, b in zip(u, points.x, strict=True))
    slope = max(0.0, common / spread) if spread > 0.0 else 0.0
    level = x_mean - slope * u_mean
    rss = math.fsum((b - level - slope * a) ** 2 for a, b in zip(u, points.x, strict=True))
    return level, slope, rss


def _misfit(points: Points, breaks: tuple[float, ...]) -> float:
    return _level_and_slope(points, breaks)[2]


def _pieces(points: Points, breaks: tuple[float, ...]) -> tuple[int, int]:
    """Indices of the first moving point and of the first one at the stop."""
    first = bisect_right(points.p, breaks[0])
    last = len(points.p) if len(breaks) == 1 else bisect_left(points.p, breaks[1])
    return first, max(first, last)


def _piecewise_step(points: Points, breaks: tuple[float, ...]) -> Iterator[tuple[float, ...]]:
    """Where the lines through the pieces, each fitted alone, would cross (one step of Muggeo's iteration)."""
    first, last = _pieces(points, breaks)
    p, x = points.p[first:last], points.x[first:last]
    if first == 0 or last - first < 2 or (len(breaks) == 2 and last == len(points.p)):
        return
    centre, middle = mean(p), mean(x)
    spread = math.fsum((value - centre) ** 2 for value in p)
    common = math.fsum((a - centre) * (b - middle) for a, b in zip(p, x, strict=True))
    if spread == 0.0 or common <= 0.0:
        return
    slope = common / spread
    levels = (points.x[:first], points.x[last:])[: len(breaks)]
    crossings = tuple(centre + (mean(level) - middle) / slope for level in levels)
    if all(low < high for low, high in pairwise(crossings)):
        yield crossings


def _narrowed(points: Points, breaks: tuple[float, ...]) -> Iterator[tuple[float, ...]]:
    """Each break moved alone to the least misfit in the gap below it and in the gap above it."""
    for which, value in enumerate(breaks):
        below = points.p[max(0, bisect_left(points.p, value) - 1)]
        above = points.p[min(len(points.p) - 1, bisect_right(points.p, value))]
        others = [each for place, each in enumerate(breaks) if place != which]
        for low, high in ((below, value), (value, above)):
            if low < high and not any(low <= other <= high for other in others):
                yield _golden(points, breaks, which, low, high)


def _golden(
    points: Points, breaks: tuple[float, ...], which: int, low: float, high: float
) -> tuple[float, ...]:
    """Golden-section search for one break between two pressures, the ends included."""

    def placed(value: float) -> tuple[float, ...]:
        return (*breaks[:which], value, *breaks[which + 1 :])

    ends = [placed(low), placed(high)]
    near, far = high - GOLDEN * (high - low), low + GOLDEN * (high - low)
    at_near, at_far = (_misfit(points, placed(value)) for value in (near, far))
    for _ in range(45):
        if at_near < at_far:
            high, far, at_far = far, near, at_near
            near = high - GOLDEN * (high - low)
            at_near = _misfit(points, placed(near))
        else:
            low, near, at_near = near, far, at_far
            far = low + GOLDEN * (high - low)
            at_far = _misfit(points, placed(far))
    return min([*ends, placed(0.5 * (low + high))], key=lambda each: _misfit(points, each))


def _described(points: Points, breaks: tuple[float, ...]) -> Ramp:
    first, last = _pieces(points, breaks)
    moving = points.p[first:last]
    baseline, slope, rss = _level_and_slope(points, breaks)
    centre = mean(moving) if moving else breaks[0]
    return Ramp(
        start=breaks[0],
        stop=breaks[1] if len(breaks) == 2 else None,
        slope=slope,
        baseline=baseline,
        rss=0.0 if rss <= points.rounding else rss,
        before=first,
        moving=last - first,
        at_stop=len(points.p) - last,
        centre=centre,
        spread=math.fsum((value - centre) ** 2 for value in moving),
    )
