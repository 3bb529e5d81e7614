"""What compressed air can do to somebody: its energy, and the force on a plug."""

import math

from calc.physics.air import HEAT_RATIO, PRESSURE_RANGE
from calc.physics.bounds import require
from calc.physics.orifice import hole_area

LARGEST_VOLUME = 1_000.0  # m3


def isentropic_energy(volume: float, p: float, p_ambient: float) -> float:
    """Work of a sudden expansion to the outside pressure.

    E = p·V / (γ − 1) · (1 − (p0/p)^((γ−1)/γ))

    Parameters
    ----------
    volume : float
        Volume, 0 to 1 000. [m3]
    p : float
        Absolute pressure, p_ambient to 1e7. [Pa]
    p_ambient : float
        Absolute pressure outside, 1 to 1e7. [Pa]

    Returns
    -------
    float
        Energy. [J]

    Examples
    --------
    >>> round(isentropic_energy(0.010, 201_325.0, 101_325.0), 1)
    896.5

    References
    ----------
    First law for an isentropic expansion of an ideal gas.
    """
    _require(volume, p, p_ambient)
    share = -math.expm1((HEAT_RATIO - 1.0) / HEAT_RATIO * math.log(p_ambient / p))
    return p * volume / (HEAT_RATIO - 1.0) * share


def plug_force(diameter: float, gauge_pressure: float) -> float:
    """Force that drives a plug or a hose end off.

    F = p_gauge · π/4 · d²

    Parameters
    ----------
    diameter : float
        Inner diameter of the opening, 0 to 1. [m]
    gauge_pressure : float
        Gauge pressure, 0 to 1e7. [Pa]

    Returns
    -------
    float
        Force. [N]

    Examples
    --------
    >>> round(plug_force(0.060, 100_000.0), 1)
    282.7

    References
    ----------
    Elementary statics.
    """
    return require("gauge pressure", gauge_pressure, 0.0, PRESSURE_RANGE[1], "Pa") * hole_area(diameter)


def _require(volume: float, p: float, p_ambient: float) -> None:
    require("volume", volume, 0.0, LARGEST_VOLUME, "m3")
    require("pressure outside", p_ambient, *PRESSURE_RANGE, "Pa")
    require("pressure", p, p_ambient, PRESSURE_RANGE[1], "Pa")
