"""Compressor and charge-air cooler, from temperatures and pressures.

[HEYWOOD] J. B. Heywood, "Internal Combustion Engine Fundamentals", 1988, section 6.8, from memory.
"""

import math

from calc.errors import OutOfRange
from calc.physics.air import HEAT_RATIO, PRESSURE_RANGE, TEMPERATURE_RANGE
from calc.physics.bounds import TINIEST, require

SHARE = (HEAT_RATIO - 1.0) / HEAT_RATIO  # 2/7


def pressure_ratio(p_before: float, p_after: float) -> float:
    """Pressure ratio of a compressor.

    PR = p2 / p1

    Parameters
    ----------
    p_before : float
        Absolute pressure after the air filter, 1 to 1e7. [Pa]
    p_after : float
        Absolute pressure behind the compressor, 1 to 1e7. [Pa]

    Returns
    -------
    float
        Pressure ratio. [-]

    Examples
    --------
    1 bar gauge at 1 000 m:

    >>> round(pressure_ratio(89_875.0, 189_875.0), 4)
    2.1127

    References
    ----------
    Definition, [HEYWOOD].
    """
    require("pressure behind the compressor", p_after, *PRESSURE_RANGE, "Pa")
    return p_after / require("pressure before the compressor", p_before, *PRESSURE_RANGE, "Pa")


def isentropic_outlet_temperature(ratio: float, T1: float) -> float:
    """Temperature behind a compressor without losses.

    T2s = T1 · PR^((γ−1)/γ)

    Parameters
    ----------
    ratio : float
        Pressure ratio, 1 to 20. [-]
    T1 : float
        Temperature before the compressor, 150 to 2 000. [K]

    Returns
    -------
    float
        Temperature. [K]

    Examples
    --------
    >>> round(isentropic_outlet_temperature(2.0, 298.15), 2)
    363.45

    References
    ----------
    [HEYWOOD], isentropic relation of the ideal gas.
    """
    require("temperature", T1, *TEMPERATURE_RANGE, "K")
    return T1 * math.exp(SHARE * math.log(require("pressure ratio", ratio, 1.0, 20.0)))


def isentropic_efficiency(ratio: float, T1: float, T2: float) -> float:
    """Efficiency of a compressor from the temperatures on both sides.

    η = T1 · (PR^((γ−1)/γ) − 1) / (T2 − T1)

    Parameters
    ----------
    ratio : float
        Pressure ratio, 1 to 20. [-]
    T1 : float
        Total temperature before the compressor, 150 to 2 000. [K]
    T2 : float
        Total temperature right behind it, above T1. [K]

    Returns
    -------
    float
        Isentropic efficiency, at most 1. [-]

    Notes
    -----
    Raises OutOfRange for a result above 1: the second sensor then sits behind the cooler, is slow, or
    the first one is heat-soaked.

    Examples
    --------
    >>> round(isentropic_efficiency(1.9, 298.15, 378.15), 6)
    0.750142

    References
    ----------
    [HEYWOOD], definition of the isentropic efficiency.
    """
    gain = isentropic_outlet_temperature(ratio, T1) - T1
    rise = require("temperature behind", T2, T1, TEMPERATURE_RANGE[1], "K") - T1
    if rise <= 0.0 or gain > rise:
        raise OutOfRange(
            f"temperature rise {rise:.3g} K is below {gain:.3g} K, that of a compressor without loss"
        )
    return gain / rise


def cooler_effectiveness(T_hot: float, T_cooled: float, T_coolant: float) -> float:
    """How near a cooler brings the charge air to the temperature of what cools it.

    ε = (T2 − T3) / (T2 − T_coolant)

    Parameters
    ----------
    T_hot : float
        Charge air before the cooler, T_cooled to 2 000. [K]
    T_cooled : float
        Charge air behind the cooler, T_coolant to 2 000. [K]
    T_coolant : float
        Outside air or water that cools it, 150 to 2 000. [K]

    Returns
    -------
    float
        Effectiveness, 0 to 1. [-]

    Examples
    --------
    >>> round(cooler_effectiveness(393.15, 318.15, 298.15), 6)
    0.789474

    References
    ----------
    [HEYWOOD]; definition for the stream that limits.
    """
    require("coolant temperature", T_coolant, *TEMPERATURE_RANGE, "K")
    require("temperature behind the cooler", T_cooled, T_coolant, TEMPERATURE_RANGE[1], "K")
    require("temperature before the cooler", T_hot, T_cooled, TEMPERATURE_RANGE[1], "K")
    if T_hot - T_coolant <= TINIEST:
        raise OutOfRange(f"temperature before the cooler {T_hot:g} K is that of the coolant {T_coolant:g} K")
    return (T_hot - T_cooled) / (T_hot - T_coolant)
