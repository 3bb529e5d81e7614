"""Straight lines through readings: least squares, and one that outliers do not move.

[NISTSTRD] NIST Statistical Reference Datasets, linear regression: the check values of the tests.
[THEIL] H. Theil, Proc. Kon. Ned. Akad. Wetensch. A 53 (1950) 386; P. K. Sen, J. Amer. Statist. Assoc. 63
    (1968) 1379; from memory.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

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


def theil_sen(x: Sequence[float], y: Sequence[float]) -> tuple[float, float]:
    """Slope and intercept of the line whose slope is the median over all pairs of points.

    slope = median((yj − yi) / (xj − xi)),  intercept = median(y) − slope · median(x)

    Parameters
    ----------
    x, y : sequence of float
        Coordinates, 2 to 2 000 points, not all at one x. [any]

    Returns
    -------
    tuple of float
        Slope [y/x] and intercept [y].

    Notes
    -----
    Up to 29 % of the points may be wild without moving it. Raises CannotFit as `line_fit` does, and above
    2 000 points, since it looks at every pair.

    Examples
    --------
    >>> slope, intercept = theil_sen([0, 1, 2, 3, 4, 5, 6], [0.0, 1.1, 1.9, 3.2, 4.0, 15.0, 6.1])
    >>> round(slope, 6), round(intercept, 6)
    (1.05, 0.05)

    References
    ----------
    [THEIL].
    """
    check_points(x, y, 2)
    if len(x) > 2_000:
        raise CannotFit(f"{len(x)} points are above 2000")
    points = sorted(zip(x, y, strict=True))
    slopes = [
        (high[1] - low[1]) / (high[0] - low[0])
        for place, low in enumerate(points)
        for high in points[place + 1 :]
        if high[0] > low[0]
    ]
    if not slopes:
        raise CannotFit(f"all {len(x)} points lie at x = {x[0]:g}")
    slope = median(slopes)
    return slope, median(y) - slope * median(x)


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
