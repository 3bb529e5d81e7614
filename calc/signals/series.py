"""A logged channel against its times: gaps bridged, values in between, slopes, swings."""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from itertools import pairwise
from statistics import median

LONGEST_BRIDGE_S = 2.0  # neighbours farther apart are not joined by a line; the contract's own figure
SLOPE_REACH_S = 0.35  # half the stretch over which a slope is taken; common practice, no source

Values = Sequence[float | None]


def bridged(times: Sequence[float], values: Values) -> list[float | None]:
    """A channel with its gaps filled by straight lines between neighbours at most 2 s apart.

    v = v0 + (v1 − v0)·(t − t0)/(t1 − t0)

    Parameters
    ----------
    times : sequence of float
        Times that never go back. [s]
    values : sequence of float or None
        The channel at those times, None for a gap. [any]

    Returns
    -------
    list of float or None
        None stays where a neighbour is missing or too far away. [as values]

    Examples
    --------
    >>> bridged([0.0, 1.0, 2.0, 9.0, 10.0], [4.0, None, 6.0, None, 7.0])
    [4.0, 5.0, 6.0, None, 7.0]

    References
    ----------
    Linear interpolation.
    """
    filled = list(values)
    if None not in filled:
        return filled
    known = [row for row, value in enumerate(values) if value is not None]
    for left, right in pairwise(known):
        if right - left > 1 and times[right] - times[left] <= LONGEST_BRIDGE_S:
            for row in range(left + 1, right):
                filled[row] = _between(times, values, left, right, times[row])
    return filled


def value_at(times: Sequence[float], values: Values, when: float) -> float | None:
    """A channel's value between two of its rows.

    v = v0 + (v1 − v0)·(t − t0)/(t1 − t0)

    Parameters
    ----------
    times : sequence of float
        Times that never go back. [s]
    values : sequence of float or None
        The channel, its gaps bridged. [any]
    when : float
        The time asked for. [s]

    Returns
    -------
    float or None
        None outside the times, in a gap, or between rows more than 2 s apart. [as values]

    Examples
    --------
    >>> value_at([0.0, 1.0], [10.0, 20.0], 0.25)
    12.5

    References
    ----------
    Linear interpolation.
    """
    right = bisect_left(times, when)
    if right < len(times) and times[right] == when:
        return values[right]
    if right == 0 or right == len(times) or times[right] - times[right - 1] > LONGEST_BRIDGE_S:
        return None
    return _between(times, values, right - 1, right, when)


def slopes(times: Sequence[float], values: Values) -> list[float | None]:
    """The slope of a channel at each row, over about 0.7 s around it.

    (v_b − v_a)/(t_b − t_a), a and b the outermost rows within 0.35 s, else the neighbours

    Parameters
    ----------
    times : sequence of float
        Times that never go back. [s]
    values : sequence of float or None
        The channel, its gaps bridged. [any]

    Returns
    -------
    list of float or None
        None where no slope can be taken. [values per s]

    Examples
    --------
    >>> slopes([0.0, 0.5, 1.0, 1.5], [0.0, 5.0, 10.0, 10.0])
    [10.0, 10.0, 5.0, 0.0]

    References
    ----------
    Difference quotient; the reach is a rule of this house.
    """
    last, first, end = len(times) - 1, 0, 0
    found: list[float | None] = []
    for row, when in enumerate(times):
        while times[first] < when - SLOPE_REACH_S:
            first += 1
        while end < last and times[end + 1] <= when + SLOPE_REACH_S:
            end += 1
        a, b = (first, end) if first < row < end else (max(0, row - 1), min(last, row + 1))
        found.append(_quotient(times, values, a, b))
    return found


def swing(times: Sequence[float], values: Values, when: float, reach: float) -> float | None:
    """How far a channel moves around a time, peak to peak.

    max v − min v over the rows within the reach

    Parameters
    ----------
    times : sequence of float
        Times that never go back. [s]
    values : sequence of float or None
        The channel. [any]
    when, reach : float
        The middle and half the width of the stretch. [s]

    Returns
    -------
    float or None
        None unless the log covers both sides, to within half the reach of their ends. [as values]

    Examples
    --------
    >>> swing([0.0, 0.5, 1.0, 1.5, 2.0], [5.0, 6.0, 9.0, 8.0, 7.0], 1.0, 1.0)
    4.0

    References
    ----------
    Definition.
    """
    first, end = bisect_left(times, when - reach), bisect_right(times, when + reach)
    rows = [row for row in range(first, end) if values[row] is not None]
    if not rows or times[rows[0]] > when - reach / 2.0 or times[rows[-1]] < when + reach / 2.0:
        return None
    seen = [value for row in rows if (value := values[row]) is not None]
    return max(seen) - min(seen)


def interval_of(times: Sequence[float]) -> float:
    """Time between rows, by its median.

    median(t_(i+1) − t_i)

    Parameters
    ----------
    times : sequence of float
        Times that never go back. [s]

    Returns
    -------
    float
        Infinite for fewer than two rows. [s]

    Examples
    --------
    >>> interval_of([0.0, 0.1, 0.2, 5.0])
    0.1

    References
    ----------
    Definition.
    """
    return median(after - before for before, after in pairwise(times)) if len(times) > 1 else math.inf


def resolution_of(values: Values) -> float:
    """The smallest step that a channel makes: how finely it was written.

    min |v_i − v_j| over unequal values

    Parameters
    ----------
    values : sequence of float or None
        The channel. [any]

    Returns
    -------
    float
        Nought where it never changes. [as values]

    Examples
    --------
    >>> resolution_of([220.0, 221.0, None, 223.0])
    1.0

    References
    ----------
    JCGM 100:2008, F.2.2.1, for what a step means to the doubt: step/√12.
    """
    steps = [b - a for a, b in pairwise(sorted({value for value in values if value is not None}))]
    return min((step for step in steps if step > 1e-9), default=0.0)


def _between(times: Sequence[float], values: Values, left: int, right: int, when: float) -> float | None:
    before, after = values[left], values[right]
    if before is None or after is None:
        return None
    share = (when - times[left]) / (times[right] - times[left])
    return before + (after - before) * share


def _quotient(times: Sequence[float], values: Values, a: int, b: int) -> float | None:
    before, after = values[a], values[b]
    if before is None or after is None or times[b] <= times[a]:
        return None
    return (after - before) / (times[b] - times[a])
