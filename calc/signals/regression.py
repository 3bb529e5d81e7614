"""Straight lines through readings: doubt in one direction, and in both.

[NISTSTRD] NIST Statistical Reference Datasets, linear regression: the check values of the tests.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.signals.refusal import CannotFit

LARGEST = 1.0e150  # beyond this a square overflows


@dataclass(frozen=True)
class Line:
    """A fitted line y = intercept + slope·x with its standard errors and the residual deviation."""

    slope: float
    intercept: float
    se_slope: float
    se_intercept: float
    residual_s: float
    r_squared: float


def line_fit(x: Sequence[float], y: Sequence[float]) -> Line:
    """Least-squares line through points of equal weight.

    slope = Σ(x−x̄)(y−ȳ) / Σ(x−x̄)²,  intercept = ȳ − slope·x̄

    Parameters
    ----------
    x, y : sequence of float
        Coordinates, at least 3 points, not all at one x. [any]

    Returns
    -------
    Line
        Slope [y/x], intercept [y], standard errors, residual deviation on n − 2 degrees of freedom
        [y], and the share of the variance explained [-].

    Notes
    -----
    All the doubt is taken to lie in y. Raises CannotFit for too few points, unequal lengths, one x only,
    or a number that is not finite.

    Examples
    --------
    >>> fit = line_fit([0.0, 1.0, 2.0, 3.0], [1.0, 3.0, 5.0, 7.0])
    >>> fit.slope, fit.intercept, fit.residual_s
    (2.0, 1.0, 0.0)

    References
    ----------
    Ordinary least squares; checked against [NISTSTRD] Norris.
    """
    check_points(x, y, 3)
    n, x_mean, y_mean = len(x), mean(x), mean(y)
    sxx = math.fsum((xi - x_mean) ** 2 for xi in x)
    if sxx == 0.0:
        raise CannotFit(f"all {n} points lie at x = {x_mean:g}")
    sxy = math.fsum((xi - x_mean) * (yi - y_mean) for xi, yi in zip(x, y, strict=True))
    syy = math.fsum((yi - y_mean) ** 2 for yi in y)
    slope = sxy / sxx
    intercept = y_mean - slope * x_mean
    rss = math.fsum((yi - y_mean - slope * (xi - x_mean)) ** 2 for xi, yi in zip(x, y, strict=True))
    s = math.sqrt(rss / (n - 2))
    return Line(
        slope=slope,
        intercept=intercept,
        se_slope=s / math.sqrt(sxx),
        se_intercept=s * math.sqrt(1.0 / n + x_mean**2 / sxx),
        residual_s=s,
        r_squared=1.0 - rss / syy if syy > 0.0 else 1.0,
    )


def mean(values: Sequence[float]) -> float:
    """Arithmetic mean with an exact sum.

    x̄ = Σx / n

    Parameters
    ----------
    values : sequence of float
        At least one number. [any]

    Returns
    -------
    float
        The mean. [as values]

    Examples
    --------
    >>> mean([0.1] * 10)
    0.1

    References
    ----------
    Definition.
    """
    return math.fsum(values) / len(values)


def check_points(x: Sequence[float], y: Sequence[float], fewest: int) -> None:
    """Refuse points that no line can be laid through.

    len(x) = len(y) >= fewest, every number finite

    Parameters
    ----------
    x, y : sequence of float
        Coordinates. [any]
    fewest : int
        Least number of points. [-]

    Returns
    -------
    None
        Raises CannotFit, or does nothing. [-]

    Examples
    --------
    >>> check_points([0.0, 1.0], [0.0, 1.0], 2)

    References
    ----------
    A rule of this house, no outside source.
    """
    if len(x) != len(y):
        raise CannotFit(f"{len(x)} abscissae and {len(y)} ordinates")
    if len(x) < fewest:
        raise CannotFit(f"{len(x)} points are fewer than {fewest}")
    for value in (*x, *y):
        if not -LARGEST <= value <= LARGEST:
            raise CannotFit("a number is not finite or beyond 1e150")


def line_fit_both(
    x: Sequence[float], y: Sequence[float], u_x: Sequence[float], u_y: Sequence[float]
) -> tuple[float, float, float, float]:
    """The line through points that are in doubt in both directions.

    S = Σ (y − a − b·x)² / (u_y² + b²·u_x²), least over a and b

    Parameters
    ----------
    x, y : sequence of float
        Coordinates, 2 to 2 000 points, not all at one x. [any]
    u_x, u_y : sequence of float
        Their standard uncertainties, above 0, independent of each other. [as x, as y]

    Returns
    -------
    tuple of float
        Slope b [y/x], intercept a [y] and their standard uncertainties from the doubts given.

    Notes
    -----
    Raises CannotFit as `line_fit` does, for a doubt not above 0, and where the search does not settle.

    Examples
    --------
    >>> slope, intercept, u_slope, _ = line_fit_both([101.0, 221.0], [104.0, 218.0], [2.0, 4.0], [1.0, 1.0])
    >>> round(slope, 6), round(intercept, 6), round(u_slope, 3)
    (0.95, 8.05, 0.037)

    References
    ----------
    D. York et al., "Unified equations for the slope, intercept, and standard errors of the best straight
    line", Am. J. Phys. 72 (2004) 367, from memory.
    """
    check_points(x, y, 2)
    check_points(u_x, u_y, len(x))
    if min(*u_x, *u_y) <= 0.0 or len(x) != len(u_x) or len(x) > 2_000:
        raise CannotFit("every point needs a doubt above 0 in both directions, and at most 2000 points")
    centre = mean(x)
    sxx = math.fsum((xi - centre) ** 2 for xi in x)
    if sxx == 0.0:
        raise CannotFit(f"all {len(x)} points lie at x = {centre:g}")
    slope = math.fsum((xi - centre) * yi for xi, yi in zip(x, y, strict=True)) / sxx
    for _ in range(200):
        weights = [1.0 / (uy**2 + slope**2 * ux**2) for ux, uy in zip(u_x, u_y, strict=True)]
        total = math.fsum(weights)
        x_mean, y_mean = (
            math.fsum(w * v for w, v in zip(weights, values, strict=True)) / total for values in (x, y)
        )
        points = list(zip(x, y, u_x, u_y, weights, strict=True))
        beta = [w * ((xi - x_mean) * uy**2 + slope * (yi - y_mean) * ux**2) for xi, yi, ux, uy, w in points]
        above = math.fsum(
            w * each * (yi - y_mean) for each, (_, yi, _, _, w) in zip(beta, points, strict=True)
        )
        below = math.fsum(
            w * each * (xi - x_mean) for each, (xi, _, _, _, w) in zip(beta, points, strict=True)
        )
        if below == 0.0:
            break
        before, slope = slope, above / below
        if abs(slope - before) <= 1.0e-13 * max(1.0, abs(slope)):
            return _with_doubt(slope, x_mean, y_mean, beta, weights)
    raise CannotFit("the search for a line with both directions in doubt does not settle")


def _with_doubt(
    slope: float, x_mean: float, y_mean: float, beta: Sequence[float], weights: Sequence[float]
) -> tuple[float, float, float, float]:
    """Slope, intercept and their doubts from the adjusted points (their x is x_mean + beta)."""
    total = math.fsum(weights)
    middle = math.fsum(w * each for w, each in zip(weights, beta, strict=True)) / total
    spread = math.fsum(w * (each - middle) ** 2 for w, each in zip(weights, beta, strict=True))
    u_slope = 1.0 / math.sqrt(spread)
    u_intercept = math.sqrt(1.0 / total + (x_mean + middle) ** 2 / spread)
    return slope, y_mean - slope * x_mean, u_slope, u_intercept
