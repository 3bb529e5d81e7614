"""How much later typed readings stand than the log beside them."""

import math
from collections.abc import Callable

from calc.signals.refusal import CannotFit

READINGS_REACH_S, READINGS_STEP_S = 5.0, 0.1
BETTER_BY_CHI_SQUARED = 9.0  # three standard doubts


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
