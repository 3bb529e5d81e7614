"""Air through a hole: ideal nozzle, and the ISO 6358 form for pneumatic parts.

[HEYWOOD] J. B. Heywood, "Internal Combustion Engine Fundamentals", 1988, Appendix C, from memory.
[NACA1135] NACA Report 1135, "Equations, Tables, and Charts for Compressible Flow", 1953, from memory.
[ISO6358] ISO 6358-1:2013, "Pneumatic fluid power ... compressible fluids", from memory.
"""

import math

from calc.physics.air import GAS_CONSTANT, HEAT_RATIO, PRESSURE_RANGE, TEMPERATURE_RANGE
from calc.physics.bounds import TINIEST, require

LARGEST_AREA = 1.0  # m2: beyond this it is no hole


def critical_ratio(gamma: float = HEAT_RATIO) -> float:
    """Pressure ratio p2/p1 at and below which the flow through a hole is choked.

    r* = (2 / (γ + 1)) ^ (γ / (γ − 1))

    Parameters
    ----------
    gamma : float, optional
        Ratio of heat capacities, 1.01 to 1.7; air 1.4. [-]

    Returns
    -------
    float
        Critical pressure ratio. [-]

    Examples
    --------
    >>> round(critical_ratio(1.4), 6)
    0.528282

    References
    ----------
    [NACA1135], equation 43 with M = 1.
    """
    g = require("heat ratio", gamma, 1.01, 1.7)
    return float((2.0 / (g + 1.0)) ** (g / (g - 1.0)))


def flow_function(ratio: float, gamma: float = HEAT_RATIO) -> float:
    """How much of the flow a pressure ratio drives: ψ of the nozzle equation.

    ψ = sqrt(2γ/(γ−1) · (r^(2/γ) − r^((γ+1)/γ))), r no smaller than the critical ratio

    Parameters
    ----------
    ratio : float
        Absolute pressure behind the hole over that before it, 0 to 1. [-]
    gamma : float, optional
        Ratio of heat capacities, 1.01 to 1.7; air 1.4. [-]

    Returns
    -------
    float
        ψ: 0 at ratio 1, at most 0.684731 for air. [-]

    Notes
    -----
    Below the critical ratio the flow is choked and ψ keeps its greatest value.

    Examples
    --------
    >>> round(flow_function(0.669585), 6)
    0.65372

    References
    ----------
    [HEYWOOD], equations C.8 (subsonic) and C.9 (choked).
    """
    r = max(require("pressure ratio", ratio, 0.0, 1.0), critical_ratio(gamma))
    # r^(2/γ) − r^((γ+1)/γ) = r^(2/γ)·(1 − r^((γ−1)/γ)); expm1 keeps its digits where r is nearly 1
    rest = -math.expm1((gamma - 1.0) / gamma * math.log(r))
    return math.sqrt(2.0 * gamma / (gamma - 1.0) * rest) * math.exp(math.log(r) / gamma)


def mass_flow(cd: float, area: float, p1: float, p2: float, T1: float) -> float:
    """Mass of air that a hole passes.

    m = Cd · A · p1 / sqrt(R·T1) · ψ(p2 / p1)

    Parameters
    ----------
    cd : float
        Discharge coefficient, above 0 up to 1.1; a sharp-edged hole about 0.62. [-]
    area : float
        Area of the hole, 0 to 1. [m2]
    p1 : float
        Absolute pressure before the hole, 1 to 1e7. [Pa]
    p2 : float
        Absolute pressure behind the hole, 0 to p1. [Pa]
    T1 : float
        Temperature before the hole, 150 to 2 000. [K]

    Returns
    -------
    float
        Mass flow. [kg/s]

    Notes
    -----
    Ideal gas, no heat, one discharge coefficient for all pressure ratios (that of a sharp edge really
    rises towards 0.84 as the ratio falls). The real gas differs by 0.15 % at 1.5 bar.

    Examples
    --------
    A 1 mm hole at 1 bar gauge, in grams a second:

    >>> round(1000 * mass_flow(1.0, hole_area(0.001), 201325.0, 101325.0, 293.15), 4)
    0.3732

    References
    ----------
    [HEYWOOD], equations C.8 and C.9.
    """
    require("discharge coefficient", cd, TINIEST, 1.1)
    require("area", area, 0.0, LARGEST_AREA, "m2")
    require("pressure before the hole", p1, *PRESSURE_RANGE, "Pa")
    require("pressure behind the hole", p2, 0.0, p1, "Pa")
    require("temperature", T1, *TEMPERATURE_RANGE, "K")
    return cd * area * p1 / math.sqrt(GAS_CONSTANT * T1) * flow_function(p2 / p1)


def iso6358_function(ratio: float, b: float, exponent: float = 0.5) -> float:
    """Share of the choked flow by ISO 6358: 1 when choked, 0 without a difference.

    f = (1 − ((r − b) / (1 − b))²) ^ exponent for r > b, else 1

    Parameters
    ----------
    ratio : float
        Absolute pressure behind the part over that before it, 0 to 1. [-]
    b : float
        Critical pressure ratio of the part, 0 to 0.99. [-]
    exponent : float, optional
        Subsonic index m of the 2013 edition, 0.2 to 1; 0.5 is the quarter ellipse. [-]

    Returns
    -------
    float
        Share of the choked flow, 0 to 1. [-]

    Examples
    --------
    >>> round(iso6358_function(0.7, 0.528282), 5)
    0.93139

    References
    ----------
    [ISO6358], subsonic flow equation.
    """
    r = require("pressure ratio", ratio, 0.0, 1.0)
    require("critical ratio", b, 0.0, 0.99)
    require("subsonic index", exponent, 0.2, 1.0)
    return 1.0 if r <= b else float(max(0.0, 1.0 - ((r - b) / (1.0 - b)) ** 2) ** exponent)


def hole_area(diameter: float) -> float:
    """Area of a round hole.

    A = π/4 · d²

    Parameters
    ----------
    diameter : float
        Diameter, 0 to 1. [m]

    Returns
    -------
    float
        Area. [m2]

    Examples
    --------
    >>> round(1e6 * hole_area(0.001), 6)
    0.785398

    References
    ----------
    Elementary geometry.
    """
    return 0.25 * math.pi * require("diameter", diameter, 0.0, 1.0, "m") ** 2


def hole_diameter(area: float) -> float:
    """Diameter of the round hole of an area: the inverse of `hole_area`.

    d = sqrt(4·A / π)

    Parameters
    ----------
    area : float
        Area, 0 to 1. [m2]

    Returns
    -------
    float
        Diameter. [m]

    Examples
    --------
    >>> round(1000 * hole_diameter(0.785398e-6), 6)
    1.0

    References
    ----------
    Elementary geometry.
    """
    return math.sqrt(4.0 * require("area", area, 0.0, LARGEST_AREA, "m2") / math.pi)
