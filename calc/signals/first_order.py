"""Time constant and gain of a first-order system from what went in and what came out."""

import math
from collections.abc import Sequence

from calc.signals.refusal import CannotFit
from calc.signals.regression import check_points


def fit_first_order(
    inputs: Sequence[float], outputs: Sequence[float], interval: float
) -> tuple[float, float]:
    """Time constant and gain of a first-order system, by least squares.

    y[k] = a·y[k−1] + b·u[k−1];  τ = −Δt / ln a,  gain = b / (1 − a)

    Parameters
    ----------
    inputs : sequence of float
        What went in, at least 4 equally spaced samples. [any]
    outputs : sequence of float
        What came out, at the same moments. [any]
    interval : float
        Time between samples, above 0. [s]

    Returns
    -------
    tuple of float
        Time constant [s] and gain [output per input].

    Notes
    -----
    Exact without noise; noise in the output makes the time constant too short. Raises CannotFit where
    the output does not follow the input as a first-order system does (a not between 0 and 1).

    Examples
    --------
    >>> tau, gain = fit_first_order([1.0] * 5, [0.0, 0.5, 0.75, 0.875, 0.9375], 0.1)
    >>> round(tau, 6), round(gain, 6)
    (0.14427, 1.0)

    References
    ----------
    Zero-order hold and least squares, textbook form, from memory.
    """
    check_points(inputs, outputs, 4)
    before, after, drive = outputs[:-1], outputs[1:], inputs[:-1]
    yy, uu, uy = _dot(before, before), _dot(drive, drive), _dot(drive, before)
    determinant = yy * uu - uy * uy
    if not 0.0 < interval < math.inf or determinant <= 1.0e-12 * yy * uu:
        raise CannotFit("input and output do not differ enough")
    a = (uu * _dot(before, after) - uy * _dot(drive, after)) / determinant
    b = (yy * _dot(drive, after) - uy * _dot(before, after)) / determinant
    if not 0.0 < a < 1.0:
        raise CannotFit(f"the output does not follow as a first-order system does (a = {a:g})")
    return -interval / math.log(a), b / (1.0 - a)


def _dot(first: Sequence[float], second: Sequence[float]) -> float:
    return math.fsum(a * b for a, b in zip(first, second, strict=True))
