"""Compressor, charge-air cooler and turbine, from temperatures and pressures.

[HEYWOOD] J. B. Heywood, "Internal Combustion Engine Fundamentals", 1988, section 6.8, from memory.
[SAEJ1826] SAE J1826, "Turbocharger Gas Stand Test Code": corrected flow and speed, from memory.
"""

import math

from calc.errors import OutOfRange
from calc.physics.air import HEAT_CAPACITY, HEAT_RATIO, PRESSURE_RANGE, TEMPERATURE_RANGE
from calc.physics.bounds import TINIEST, require

EXHAUST_HEAT_RATIO = 1.33  # of exhaust gas; textbook figure, from memory
EXHAUST_HEAT_CAPACITY = 1_150.0  # J/(kg K), textbook figure, from memory
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


def outlet_temperature(ratio: float, T1: float, efficiency: float) -> float:
    """Temperature behind a compressor of a given efficiency.

    T2 = T1 + (T2s − T1) / η

    Parameters
    ----------
    ratio : float
        Pressure ratio, 1 to 20. [-]
    T1 : float
        Temperature before the compressor, 150 to 2 000. [K]
    efficiency : float
        Isentropic efficiency, 0.05 to 1. [-]

    Returns
    -------
    float
        Temperature. [K]

    Examples
    --------
    >>> round(outlet_temperature(2.0, 298.15, 0.75), 3)
    385.215

    References
    ----------
    [HEYWOOD], definition of the isentropic efficiency.
    """
    ideal = isentropic_outlet_temperature(ratio, T1)
    return T1 + (ideal - T1) / require("efficiency", efficiency, 0.05, 1.0)


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


def compressor_power(mass_flow: float, T1: float, T2: float) -> float:
    """Power that a compressor puts into the air.

    P = m · cp · (T2 − T1)

    Parameters
    ----------
    mass_flow : float
        Mass flow, 0 to 100. [kg/s]
    T1 : float
        Total temperature before, 150 to 2 000. [K]
    T2 : float
        Total temperature behind, T1 to 2 000. [K]

    Returns
    -------
    float
        Power. [W]

    Examples
    --------
    >>> round(compressor_power(4.0, 298.15, 473.15))
    703500

    References
    ----------
    [HEYWOOD], steady-flow energy equation.
    """
    require("mass flow", mass_flow, 0.0, 100.0, "kg/s")
    require("temperature before", T1, *TEMPERATURE_RANGE, "K")
    return mass_flow * HEAT_CAPACITY * (require("temperature behind", T2, T1, TEMPERATURE_RANGE[1], "K") - T1)


def corrected_mass_flow(
    mass_flow: float, T1: float, p1: float, T_reference: float, p_reference: float
) -> float:
    """Mass flow as a compressor map counts it.

    m_c = m · sqrt(T1 / T_ref) / (p1 / p_ref)

    Parameters
    ----------
    mass_flow : float
        Mass flow, 0 to 100. [kg/s]
    T1 : float
        Total temperature before the compressor, 150 to 2 000. [K]
    p1 : float
        Total absolute pressure before the compressor, 1 to 1e7. [Pa]
    T_reference : float
        Reference temperature of the map, 150 to 2 000. [K]
    p_reference : float
        Reference pressure of the map, 1 to 1e7. [Pa]

    Returns
    -------
    float
        Corrected mass flow. [kg/s]

    Notes
    -----
    The references differ from map to map, so there is no default.

    Examples
    --------
    >>> round(corrected_mass_flow(0.10, 308.15, 95_000.0, 298.15, 100_000.0), 6)
    0.107014

    References
    ----------
    [SAEJ1826].
    """
    require("mass flow", mass_flow, 0.0, 100.0, "kg/s")
    require("pressure", p1, *PRESSURE_RANGE, "Pa")
    require("reference pressure", p_reference, *PRESSURE_RANGE, "Pa")
    return mass_flow * _temperature_root(T1, T_reference) / (p1 / p_reference)


def corrected_speed(speed: float, T1: float, T_reference: float) -> float:
    """Speed of the shaft as a compressor map counts it.

    n_c = n / sqrt(T1 / T_ref)

    Parameters
    ----------
    speed : float
        Speed, 0 to 1e6. [rev/min]
    T1 : float
        Total temperature before the compressor, 150 to 2 000. [K]
    T_reference : float
        Reference temperature of the map, 150 to 2 000. [K]

    Returns
    -------
    float
        Corrected speed. [rev/min]

    Examples
    --------
    >>> round(corrected_speed(120_000.0, 308.15, 298.15), 1)
    118036.8

    References
    ----------
    [SAEJ1826].
    """
    return require("speed", speed, 0.0, 1.0e6, "rev/min") / _temperature_root(T1, T_reference)


def _temperature_root(T1: float, T_reference: float) -> float:
    require("temperature", T1, *TEMPERATURE_RANGE, "K")
    return math.sqrt(T1 / require("reference temperature", T_reference, *TEMPERATURE_RANGE, "K"))


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


def turbine_expansion_ratio(
    compressor_power: float, mass_flow: float, T3: float, efficiency: float, mechanical_efficiency: float
) -> float:
    """Expansion ratio with which a turbine drives a compressor.

    P = η_m · m · cp · T3 · η_t · (1 − ER^(−(γe−1)/γe)), solved for ER

    Parameters
    ----------
    compressor_power : float
        Power of the compressor, 0 to 1e6. [W]
    mass_flow : float
        Exhaust mass flow, 1e-6 to 100. [kg/s]
    T3 : float
        Temperature before the turbine, 150 to 2 000. [K]
    efficiency : float
        Isentropic efficiency of the turbine, 0.05 to 1. [-]
    mechanical_efficiency : float
        Mechanical efficiency of the shaft, 0.05 to 1. [-]

    Returns
    -------
    float
        Expansion ratio. [-]

    Notes
    -----
    Exhaust as an ideal gas of cp 1 150 J/(kg K) and γ 1.33. Raises OutOfRange where the gas does not carry
    the power.

    Examples
    --------
    >>> round(turbine_expansion_ratio(8750.06, 0.1069, 1073.15, 0.68, 0.97), 4)
    1.5328

    References
    ----------
    [HEYWOOD], power balance of the turbocharger.
    """
    require("power", compressor_power, 0.0, 1.0e6, "W")
    require("mass flow", mass_flow, 1.0e-6, 100.0, "kg/s")
    require("temperature", T3, *TEMPERATURE_RANGE, "K")
    require("efficiency", efficiency, 0.05, 1.0)
    require("mechanical efficiency", mechanical_efficiency, 0.05, 1.0)
    offered = mechanical_efficiency * efficiency * mass_flow * EXHAUST_HEAT_CAPACITY * T3
    share = require("share of the gas's heat that is asked for", compressor_power / offered, 0.0, 0.9)
    return math.exp(-math.log1p(-share) * EXHAUST_HEAT_RATIO / (EXHAUST_HEAT_RATIO - 1.0))
