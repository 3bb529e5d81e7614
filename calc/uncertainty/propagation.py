"""From the doubts of the inputs to the doubt of a result.

[GUM] JCGM 100:2008, 5.1.2 (combination) and 5.1.3, note 2 (numerical evaluation).
"""

from collections.abc import Callable, Mapping
from math import fsum, sqrt

Z95 = 1.959964  # two-sided 95 % of a normal distribution


def propagate(
    function: Callable[..., float], values: Mapping[str, float], uncertainties: Mapping[str, float]
) -> float:
    """Combined standard uncertainty of a result from independent inputs.

    u² = Σ ( ½·(f(… xᵢ + uᵢ …) − f(… xᵢ − uᵢ …)) )²

    Parameters
    ----------
    function : callable
        The result from the inputs, called by their names. [any]
    values : Mapping
        The inputs by name. [as the function takes them]
    uncertainties : Mapping
        Standard uncertainty of the inputs that carry one, 0 or more. [as values]

    Returns
    -------
    float
        Standard uncertainty. [as the result]

    Notes
    -----
    The differences over ± u see a bend that a slope alone would miss. What the function refuses it
    refuses here too.

    Examples
    --------
    Power of 12.0 V over 4.0 ohm, each known to 1 %:

    >>> power = lambda volt, ohm: volt**2 / ohm
    >>> round(propagate(power, {"volt": 12.0, "ohm": 4.0}, {"volt": 0.12, "ohm": 0.04}), 3)
    0.805

    References
    ----------
    [GUM], 5.1.2 and 5.1.3.
    """
    shares = [_share(function, values, name, u) for name, u in uncertainties.items() if u > 0.0]
    return sqrt(fsum(share * share for share in shares))


def _share(function: Callable[..., float], values: Mapping[str, float], name: str, u: float) -> float:
    up, down = (function(**{**values, name: values[name] + step}) for step in (u, -u))
    return (up - down) / 2.0


def few_points(degrees_of_freedom: int) -> float:
    """How much wider a standard error from few points is taken, so that twice it still covers 95 %.

    t(0.975, ν) / z(0.975) = 1 + (z² + 1)/(4ν) + (5z⁴ + 16z² + 3)/(96ν²)

    Parameters
    ----------
    degrees_of_freedom : int
        Points less fitted unknowns, 1 or more. [-]

    Returns
    -------
    float
        Factor, 1 or more. [-]

    Notes
    -----
    Two terms of the expansion in 1/ν: within 0.6 % of Student's quantile from ν = 6 on.

    Examples
    --------
    >>> round(few_points(10), 3)
    1.135

    References
    ----------
    [GUM], G.3 (Student's distribution); Abramowitz and Stegun 26.7.5, from memory.
    """
    nu = max(1, degrees_of_freedom)
    return 1.0 + (Z95**2 + 1.0) / (4.0 * nu) + (5.0 * Z95**4 + 16.0 * Z95**2 + 3.0) / (96.0 * nu * nu)
