"""Where a rising or falling function crosses nought, by halving the bracket."""

from collections.abc import Callable

from calc.errors import OutOfRange

HALVINGS = 200  # far more than the 64 or so that exhaust a double; the loop stops earlier


def crossing(function: Callable[[float], float], low: float, high: float) -> float:
    """Root of a continuous function between two ends where its sign differs.

    function(x) = 0, low <= x <= high

    Parameters
    ----------
    function : callable
        Takes and returns a float. [any]
    low, high : float
        The ends of the bracket. [as the argument of the function]

    Returns
    -------
    float
        The root, to the last bit that a double holds. [as the argument of the function]

    Notes
    -----
    Bisection: slower than its rivals and never lost. Raises OutOfRange where both ends have the same sign.

    Examples
    --------
    >>> round(crossing(lambda x: x * x - 2.0, 0.0, 2.0), 12)
    1.414213562373

    References
    ----------
    Elementary numerical analysis, from memory.
    """
    at_low, at_high = function(low), function(high)
    if at_low == 0.0:
        return low
    if at_high == 0.0:
        return high
    if not (at_low < 0.0) != (at_high < 0.0):
        raise OutOfRange(
            f"no root between {low:g} and {high:g}: the values there are {at_low:g} and {at_high:g}"
        )
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        if middle in (low, high):
            break
        if (function(middle) < 0.0) == (at_low < 0.0):
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)
