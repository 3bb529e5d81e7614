"""Air that an engine swallows: density, humid air, speed-density, volumetric efficiency, absolute load.

[HEYWOOD] J. B. Heywood, "Internal Combustion Engine Fundamentals", 1988, section 2.10, from memory.
[MAGNUS] O. A. Alduchov, R. E. Eskridge, "Improved Magnus form approximation of saturation vapor pressure",
    J. Appl. Meteorol. 35 (1996) 601, equation 21, from memory.
[J1979] SAE J1979 / ISO 15031-5, definition of the absolute load value (data item 0x43).
"""

from math import exp

from calc.errors import OutOfRange
from calc.physics.air import GAS_CONSTANT, ICE_POINT, PRESSURE_RANGE, TEMPERATURE_RANGE
from calc.physics.bounds import TINIEST, require

REVOLUTIONS_A_CYCLE = {2: 1.0, 4: 2.0}  # by strokes of the cycle
LARGEST_DISPLACEMENT = 0.1  # m3, 100 litres
FASTEST = 30_000.0  # rev/min
VAPOUR_GAS_CONSTANT = 461.523  # J/(kg K), water vapour
REFERENCE_DENSITY = 1.184  # kg/m3, dry air at 25 degC and 101 325 Pa as [J1979] prints it


def air_density(p: float, T: float) -> float:
    """Density of dry air.

    ρ = p / (R·T)

    Parameters
    ----------
    p : float
        Absolute pressure, 1 to 1e7. [Pa]
    T : float
        Temperature, 150 to 2 000. [K]

    Returns
    -------
    float
        Density. [kg/m3]

    Notes
    -----
    Ideal gas: the real one is 0.04 % denser at 2 bar and 40 degC.

    Examples
    --------
    >>> round(air_density(101325.0, 298.15), 6)
    1.183913

    References
    ----------
    Ideal gas law with the gas constant of ISO 2533.
    """
    require("pressure", p, *PRESSURE_RANGE, "Pa")
    return p / (GAS_CONSTANT * require("temperature", T, *TEMPERATURE_RANGE, "K"))


def vapour_pressure(relative_humidity: float, T: float) -> float:
    """Partial pressure of the water vapour in the air.

    pv = RH · 610.94 · exp(17.625·t / (t + 243.04)), t in degC

    Parameters
    ----------
    relative_humidity : float
        Relative humidity over water, 0 to 1. [-]
    T : float
        Temperature, 233.15 to 333.15. [K]

    Returns
    -------
    float
        Partial pressure of the vapour. [Pa]

    Notes
    -----
    Within 1 % of the properties of real humid air at the pressure of the ground.

    Examples
    --------
    >>> round(vapour_pressure(0.5, 293.15))
    1167

    References
    ----------
    [MAGNUS].
    """
    require("relative humidity", relative_humidity, 0.0, 1.0)
    celsius = require("temperature", T, 233.15, 333.15, "K") - ICE_POINT
    return relative_humidity * 610.94 * exp(17.625 * celsius / (celsius + 243.04))


def humidity_ratio(p: float, p_vapour: float) -> float:
    """Mass of water vapour that comes with a kilogram of dry air.

    W = R / R_v · pv / (p − pv)

    Parameters
    ----------
    p : float
        Absolute pressure of the humid air, 1 to 1e7. [Pa]
    p_vapour : float
        Partial pressure of the vapour, 0 to half of p. [Pa]

    Returns
    -------
    float
        Humidity ratio; W / (1 + W) is the share that an air mass figure counts and an engine cannot burn
        with. [kg/kg]

    Examples
    --------
    >>> round(humidity_ratio(101325.0, 4494.0), 4)
    0.0289

    References
    ----------
    Mixture of ideal gases.
    """
    require("pressure", p, *PRESSURE_RANGE, "Pa")
    require("pressure of the vapour", p_vapour, 0.0, p / 2.0, "Pa")
    return GAS_CONSTANT / VAPOUR_GAS_CONSTANT * p_vapour / (p - p_vapour)


def humid_air_density(p: float, T: float, p_vapour: float) -> float:
    """Density of humid air.

    ρ = (p − pv) / (R·T) + pv / (R_v·T)

    Parameters
    ----------
    p : float
        Absolute pressure of the humid air, 1 to 1e7. [Pa]
    T : float
        Temperature, 150 to 2 000. [K]
    p_vapour : float
        Partial pressure of the vapour, 0 to half of p. [Pa]

    Returns
    -------
    float
        Density, a little less than that of dry air. [kg/m3]

    Examples
    --------
    A close summer day:

    >>> round(humid_air_density(101325.0, 308.15, 4494.0), 4)
    1.1263

    References
    ----------
    Mixture of ideal gases.
    """
    require("pressure", p, *PRESSURE_RANGE, "Pa")
    require("pressure of the vapour", p_vapour, 0.0, p / 2.0, "Pa")
    dry = air_density(p - p_vapour, T)
    return dry + p_vapour / (VAPOUR_GAS_CONSTANT * T)


def absolute_load(mass_flow: float, displacement: float, rpm: float, strokes: int = 4) -> float:
    """Air mass an intake stroke over that of a full cylinder at 25 degC and 101 325 Pa.

    load = m · 60·cycle / (1.184 · Vd · n)

    Parameters
    ----------
    mass_flow : float
        Mass flow, 0 to 10. [kg/s]
    displacement : float
        Displacement of all cylinders, above 0 up to 0.1. [m3]
    rpm : float
        Engine speed, 1 to 30 000. [rev/min]
    strokes : int, optional
        4 or 2. [-]

    Returns
    -------
    float
        Absolute load, 1 for a cylinder just filled; above 1 under boost. [-]

    Examples
    --------
    >>> round(absolute_load(0.0592, 0.002, 3000.0), 6)
    1.0

    References
    ----------
    [J1979]; the number of cylinders cancels.
    """
    require("mass flow", mass_flow, 0.0, 10.0, "kg/s")
    require("displacement", displacement, TINIEST, LARGEST_DISPLACEMENT, "m3")
    require("engine speed", rpm, 1.0, FASTEST, "rev/min")
    return mass_flow / (REFERENCE_DENSITY * displacement * cycles_per_second(rpm, strokes))


def cycles_per_second(rpm: float, strokes: int = 4) -> float:
    """How often a second each cylinder draws in.

    f = n / (60·cycle), with 2 revolutions a cycle (4-stroke) or 1 (2-stroke)

    Parameters
    ----------
    rpm : float
        Engine speed, 0 to 30 000. [rev/min]
    strokes : int, optional
        4 or 2. [-]

    Returns
    -------
    float
        Intake strokes of one cylinder. [1/s]

    Examples
    --------
    >>> cycles_per_second(3000.0)
    25.0

    References
    ----------
    Definition of the working cycle.
    """
    require("engine speed", rpm, 0.0, FASTEST, "rev/min")
    if strokes not in REVOLUTIONS_A_CYCLE:
        raise OutOfRange(f"strokes {strokes} is not 2 or 4")
    return rpm / (60.0 * REVOLUTIONS_A_CYCLE[strokes])


def swallowed_mass_flow(displacement: float, rpm: float, p: float, T: float, strokes: int = 4) -> float:
    """Mass flow of an engine that fills its whole displacement at every cycle.

    m = Vd · n / (60·cycle) · p / (R·T)

    Parameters
    ----------
    displacement : float
        Displacement of all cylinders, above 0 up to 0.1. [m3]
    rpm : float
        Engine speed, 0 to 30 000. [rev/min]
    p : float
        Absolute pressure in the manifold, 1 to 1e7. [Pa]
    T : float
        Temperature in the manifold, 150 to 2 000. [K]
    strokes : int, optional
        4 or 2. [-]

    Returns
    -------
    float
        Mass flow at a volumetric efficiency of 1. [kg/s]

    Examples
    --------
    >>> round(1000 * swallowed_mass_flow(0.001998, 3000.0, 200000.0, 313.15), 3)
    111.135

    References
    ----------
    [HEYWOOD], equation 2.27.
    """
    require("displacement", displacement, TINIEST, LARGEST_DISPLACEMENT, "m3")
    return displacement * cycles_per_second(rpm, strokes) * air_density(p, T)


def speed_density_mass_flow(
    ve: float, displacement: float, rpm: float, p: float, T: float, strokes: int = 4
) -> float:
    """Mass flow of an engine from its speed and the density in the manifold.

    m = VE · Vd · n / (60·cycle) · p / (R·T)

    Parameters
    ----------
    ve : float
        Volumetric efficiency referred to manifold conditions, 0 to 3. [-]
    displacement : float
        Displacement of all cylinders, above 0 up to 0.1. [m3]
    rpm : float
        Engine speed, 0 to 30 000. [rev/min]
    p : float
        Absolute pressure in the manifold, 1 to 1e7. [Pa]
    T : float
        Temperature in the manifold, 150 to 2 000. [K]
    strokes : int, optional
        4 or 2. [-]

    Returns
    -------
    float
        Mass flow. [kg/s]

    Notes
    -----
    VE referred to the manifold stays near 0.8 to 1.0; referred to the outside it passes 1 under boost.

    Examples
    --------
    In grams a second:

    >>> round(1000 * speed_density_mass_flow(0.90, 0.001998, 3000.0, 200000.0, 313.15), 4)
    100.0216

    References
    ----------
    [HEYWOOD], equation 2.27.
    """
    require("volumetric efficiency", ve, 0.0, 3.0)
    return ve * swallowed_mass_flow(displacement, rpm, p, T, strokes)


def volumetric_efficiency(
    mass_flow: float, displacement: float, rpm: float, p: float, T: float, strokes: int = 4
) -> float:
    """Volumetric efficiency that a measured mass flow implies: the inverse of `speed_density_mass_flow`.

    VE = m · 60·cycle · R·T / (Vd · n · p)

    Parameters
    ----------
    mass_flow : float
        Measured mass flow, 0 to 10. [kg/s]
    displacement : float
        Displacement of all cylinders, above 0 up to 0.1. [m3]
    rpm : float
        Engine speed, 1 to 30 000. [rev/min]
    p : float
        Absolute pressure in the manifold, 1 to 1e7. [Pa]
    T : float
        Temperature in the manifold, 150 to 2 000. [K]
    strokes : int, optional
        4 or 2. [-]

    Returns
    -------
    float
        Volumetric efficiency referred to the p and T given. [-]

    Examples
    --------
    >>> round(volumetric_efficiency(0.095, 0.001998, 3000.0, 200000.0, 313.15), 6)
    0.854816

    References
    ----------
    [HEYWOOD], equation 2.27.
    """
    require("mass flow", mass_flow, 0.0, 10.0, "kg/s")
    require("engine speed", rpm, 1.0, FASTEST, "rev/min")
    return mass_flow / swallowed_mass_flow(displacement, rpm, p, T, strokes)


def mass_flow_from_stroke(mass_per_stroke: float, rpm: float, cylinders: int, strokes: int = 4) -> float:
    """Mass flow from the air mass that each cylinder takes at each intake stroke.

    m = m_stroke · z · n / (60·cycle)

    Parameters
    ----------
    mass_per_stroke : float
        Air mass an intake stroke, 0 to 0.1. [kg]
    rpm : float
        Engine speed, 0 to 30 000. [rev/min]
    cylinders : int
        Number of cylinders, 1 to 24. [-]
    strokes : int, optional
        4 or 2. [-]

    Returns
    -------
    float
        Mass flow. [kg/s]

    Examples
    --------
    1 000 mg a stroke in a four-cylinder engine at 3 000 rev/min is 100 g/s:

    >>> round(1000 * mass_flow_from_stroke(0.001, 3000.0, 4), 9)
    100.0

    References
    ----------
    Counting of intake strokes.
    """
    require("air mass a stroke", mass_per_stroke, 0.0, 0.1, "kg")
    require("cylinders", cylinders, 1, 24)
    return mass_per_stroke * cylinders * cycles_per_second(rpm, strokes)
