"""Does a channel swing to and fro: how far, how often."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import median

from calc.signals.refusal import CannotFit
from calc.signals.regression import check_points
from calc.signals.series import interval_of

FEWEST_SWINGS = 3  # one and a half periods; fewer are an overshoot, no oscillation
SAMPLES_A_SWING = 2.0  # fewer samples in half a period do not show its size
SLOWEST_LOG_S, SHORTEST_S = 0.5, 1.5
NOISE_KPA = 2.0  # turns smaller than this are noise of the sensor; common practice, no source


@dataclass(frozen=True, slots=True)
class Oscillation:
    """Size peak to peak [as the channel], frequency [Hz], swings counted; size 0 where there is none."""

    size: float
    frequency: float
    swings: int


def oscillation(times: Sequence[float], values: Sequence[float], noise: float = NOISE_KPA) -> Oscillation:
    """Size and frequency of a swing to and fro.

    size = median of (one swing + the next)/2 between turning points, where there are 3 and more

    Parameters
    ----------
    times : sequence of float
        Times of one unbroken stretch, at most 0.5 s apart, 1.5 s and more. [s]
    values : sequence of float
        The channel. [any]
    noise : float
        A turn counts only once the channel has come back by this much. [as values]

    Returns
    -------
    Oscillation

    Notes
    -----
    A trend makes one way longer by as much as the other shorter, so that it drops out of a swing and the
    next. Turning points are refined by a parabola, since samples seldom hit the top. Raises CannotFit for a
    log too slow or too short, also where the swings found last fewer than 2 samples each.

    Examples
    --------
    >>> t = [0.1 * row for row in range(40)]
    >>> tooth = [10.0 * abs((row % 10) - 5) / 5.0 for row in range(40)]
    >>> found = oscillation(t, tooth)
    >>> found.size, round(found.frequency, 3)
    (10.0, 1.0)

    References
    ----------
    Turning points with hysteresis, as in ASTM E1049 (rainflow counting) before its pairing; from memory.
    """
    check_points(times, values, 4)
    interval = interval_of(times)
    if interval > SLOWEST_LOG_S:
        raise CannotFit(f"a row every {interval:g} s is too slow to show a swing")
    if times[-1] - times[0] < SHORTEST_S:
        raise CannotFit(f"{times[-1] - times[0]:g} s are too short to show a swing")
    turns = turning_points(values, noise)[1:-1]
    extremes = [_extreme(values, row) for row in turns]
    swings = [abs(b - a) for a, b in pairwise(extremes)]
    if len(swings) < FEWEST_SWINGS:
        return Oscillation(0.0, 0.0, len(swings))
    lasting = (times[turns[-1]] - times[turns[0]]) / len(swings)
    if lasting < SAMPLES_A_SWING * interval:
        raise CannotFit(f"swings of {lasting:g} s are too quick for a row every {interval:g} s")
    there_and_back = [(a + b) / 2.0 for a, b in pairwise(swings)]
    return Oscillation(median(there_and_back), 1.0 / (2.0 * lasting), len(swings))


def turning_points(values: Sequence[float], noise: float) -> list[int]:
    """Where a channel turns, small turns left out.

    a turn is an extreme from which the channel has come back by at least the noise

    Parameters
    ----------
    values : sequence of float
        The channel, at least one value. [any]
    noise : float
        The smallest way back that counts, above 0. [as values]

    Returns
    -------
    list of int
        Rows of the turns, high and low by turns, first and last row included.

    Examples
    --------
    >>> turning_points([0.0, 5.0, 4.5, 6.0, 1.0, 2.0, 9.0], 2.0)
    [0, 3, 4, 6]

    References
    ----------
    Turning points with hysteresis, textbook form.
    """
    turns, low, high, way = [0], 0, 0, 0
    for row, value in enumerate(values):
        low = row if value < values[low] else low
        high = row if value > values[high] else high
        if way >= 0 and values[high] - value >= noise:
            turns.append(high)
            way, low = -1, row
            high = row
        elif way <= 0 and value - values[low] >= noise:
            turns.append(low)
            way, high = 1, row
            low = row
    return [*dict.fromkeys([*turns, len(values) - 1])]


def _extreme(values: Sequence[float], row: int) -> float:
    """Value at the vertex of the parabola through a turn and its neighbours."""
    before, here, after = values[row - 1], values[row], values[row + 1]
    bend = before - 2.0 * here + after
    return here if bend == 0.0 else here - (after - before) ** 2 / (8.0 * bend)
