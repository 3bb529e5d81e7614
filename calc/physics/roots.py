"""Where a rising or falling function crosses nought, by Ridders' steps in a bracket that keeps the root."""

import math
from collections.abc import Callable

from calc.errors import OutOfRange

STEPS = 200  # far more than any bracket of doubles takes; the loop stops earlier


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
    Each step halves the bracket at least, and mostly lands on the root to double the digits. Raises
    OutOfRange where both ends have the same sign.

    Examples
    --------
    >>> round(crossing(lambda x: x * x - 2.0, 0.0, 2.0), 12)
    1.414213562373

    References
    ----------
    C. Ridders, A new algorithm for computing a single root of a real continuous function, IEEE Trans.
    Circuits Syst. 26 (1979), from memory.
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
    last = math.inf
    for _ in range(STEPS):
        middle = 0.5 * (low + high)
        at_middle = function(middle)
        root = _straightened(low, middle, high, at_low, at_middle, at_high)
        at_root = function(root)
        if at_root == 0.0 or abs(root - last) <= math.ulp(root) or middle in (low, high):
            return root
        last = root
        for place, value in sorted(((middle, at_middle), (root, at_root))):
            if (value < 0.0) == (at_low < 0.0):
                if place > low:
                    low, at_low = place, value
            elif place < high:
                high, at_high = place, value
                break
    return 0.5 * (low + high)


def _straightened(
    low: float, middle: float, high: float, at_low: float, at_middle: float, at_high: float
) -> float:
    """Where the line crosses nought that is left when an exponential is taken out of the three values."""
    root = math.sqrt(at_middle * at_middle - at_low * at_high)
    if not 0.0 < root < math.inf:
        return middle
    step = (middle - low) * at_middle / root
    return middle + (step if at_low > at_high else -step)
