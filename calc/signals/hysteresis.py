"""How far opening and closing lie apart in pressure at the same travel."""

from collections.abc import Sequence
from itertools import accumulate, pairwise

from calc.signals.refusal import CannotFit
from calc.signals.regression import check_points

EDGE = 0.1  # share of the travel left out at either end, where stops and not friction decide


def gaps(
    rising_pressures: Sequence[float],
    rising_travels: Sequence[float],
    falling_pressures: Sequence[float],
    falling_travels: Sequence[float],
) -> list[float]:
    """Differences of pressure between opening and closing at equal travel, one a falling point.

    p_rising(x) − p_falling(x), in the middle four fifths of the travel

    Parameters
    ----------
    rising_pressures, rising_travels : sequence of float
        The opening sweep, at least 2 points. [any pressure unit, any length unit]
    falling_pressures, falling_travels : sequence of float
        The closing sweep, at least 1 point. [the same units]

    Returns
    -------
    list of float
        At least one difference. [as pressures]

    Notes
    -----
    The opening line is drawn straight between its points; friction is half of the median of these. Raises
    CannotFit where no falling point lies in the middle of the travel that the rising sweep covers.

    Examples
    --------
    >>> gaps([60, 80, 100, 120], [0, 2, 4, 6], [110, 90, 70], [6, 4, 2])
    [10.0, 10.0]

    References
    ----------
    Definition of hysteresis.
    """
    check_points(rising_pressures, rising_travels, 2)
    check_points(falling_pressures, falling_travels, 1)
    pressures, travels = zip(*sorted(zip(rising_pressures, rising_travels, strict=True)), strict=True)
    opening = list(zip(pressures, accumulate(travels, max), strict=True))  # friction never moves the rod back
    low, high = opening[0][1], opening[-1][1]
    edge = EDGE * (high - low)
    found = [
        _pressure_at(opening, travel) - pressure
        for pressure, travel in zip(falling_pressures, falling_travels, strict=True)
        if low + edge <= travel <= high - edge
    ]
    if high <= low or not found:
        raise CannotFit(f"no falling point in the middle of the travel from {low:g} to {high:g}")
    return found


def _pressure_at(opening: list[tuple[float, float]], travel: float) -> float:
    """Pressure of the opening line at a travel that it covers."""
    for (low_p, low_x), (high_p, high_x) in pairwise(opening):
        if low_x <= travel <= high_x and high_x > low_x:
            return low_p + (high_p - low_p) * (travel - low_x) / (high_x - low_x)
    raise CannotFit(f"the opening line does not reach travel {travel:g}")
