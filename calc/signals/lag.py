"""How much later one channel does what another did."""

import math
from collections.abc import Callable, Sequence
from itertools import pairwise

from calc.signals.refusal import CannotFit
from calc.signals.regression import check_points

MOST_SAMPLES = 4_000
READINGS_REACH_S, READINGS_STEP_S = 5.0, 0.1
BETTER_BY_CHI_SQUARED = 9.0  # three standard doubts


def lag_by_differences(leading: Sequence[float], lagging: Sequence[float], interval: float) -> float:
    """Time by which one equally sampled channel follows another.

    the k·Δt, refined by a parabola, with the greatest Σ Δx_i · Δy_(i+k)

    Parameters
    ----------
    leading : sequence of float
        The channel that is taken to be first, 4 to 4 000 samples. [any]
    lagging : sequence of float
        The other one, sampled at the same moments. [any]
    interval : float
        Time between samples, above 0. [s]

    Returns
    -------
    float
        Lag; negative where the second channel is in fact first. [s]

    Notes
    -----
    Differences and not values, since a mean that is subtracted from a pulse draws the lag towards nought.
    A first-order answer has no pure delay, so its lag is not its time constant. Raises CannotFit where a
    channel does not change.

    Examples
    --------
    >>> pulse = [0, 0, 1, 4, 9, 4, 1, 0, 0, 0, 0]
    >>> round(lag_by_differences(pulse, [0, 0, *pulse[:-2]], 0.1), 6)
    0.2

    References
    ----------
    Cross-correlation with parabolic peak interpolation, textbook form, from memory.
    """
    check_points(leading, lagging, 4)
    if len(leading) > MOST_SAMPLES:
        raise CannotFit(f"{len(leading)} samples are above {MOST_SAMPLES}")
    if not 0.0 < interval < math.inf:
        raise CannotFit(f"interval {interval:g} s is not above 0")
    x, y = _differences(leading), _differences(lagging)
    if not any(x) or not any(y):
        raise CannotFit("a channel does not change")
    return _peak(x, y) * interval


def _peak(x: list[float], y: list[float]) -> float:
    shifts = range(-len(x) + 1, len(x))
    sums = [_overlap(x, y, shift) for shift in shifts]
    at = max(range(len(sums)), key=sums.__getitem__)
    if at in (0, len(sums) - 1):
        return float(shifts[at])
    below, top, above = sums[at - 1 : at + 2]
    bend = below - 2.0 * top + above
    return shifts[at] + (0.5 * (below - above) / bend if bend < 0.0 else 0.0)


def _overlap(x: list[float], y: list[float], shift: int) -> float:
    start, end = max(0, -shift), min(len(x), len(y) - shift)
    return math.fsum(x[place] * y[place + shift] for place in range(start, end))


def _differences(values: Sequence[float]) -> list[float]:
    return [after - before for before, after in pairwise(values)]


def lag_of_readings(misfit: Callable[[float], float], reach: float = READINGS_REACH_S) -> float:
    """Time by which a few typed readings stand apart from a log.

    the τ within ± reach with the least misfit, refined by a parabola

    Parameters
    ----------
    misfit : callable
        χ² of the readings against the log, were they τ later; infinite where the log has nothing there. [-]
    reach : float
        Largest lag looked for. [s]

    Returns
    -------
    float
        What to add to a reading's time to find its place in the log. [s]

    Notes
    -----
    Raises CannotFit where no lag explains the readings better than none by a χ² of 9: steady readings do not
    tell it, and then need none. A misfit must leave a common offset of the readings free: else a sensor that
    lies is taken for a clock that does.

    Examples
    --------
    >>> round(lag_of_readings(lambda lag: 100.0 * (lag - 0.53) ** 2), 6)
    0.53

    References
    ----------
    Least squares on a grid, textbook form.
    """
    count = int(reach / READINGS_STEP_S)
    grid = [step * READINGS_STEP_S for step in range(-count, count + 1)]
    found = [misfit(lag) for lag in grid]
    at = min(range(len(grid)), key=lambda place: (found[place], abs(grid[place])))
    if found[at] == math.inf or found[count] - found[at] < BETTER_BY_CHI_SQUARED:
        raise CannotFit("the readings do not tell a lag")
    if at in (0, len(grid) - 1):
        raise CannotFit(f"the readings lie more than {reach:g} s from the log")
    below, top, above = found[at - 1 : at + 2]
    bend = below - 2.0 * top + above
    if not 0.0 < bend < math.inf:
        return grid[at]
    return grid[at] + 0.5 * (below - above) / bend * READINGS_STEP_S
