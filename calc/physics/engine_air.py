"""Air that an engine swallows: density, speed-density, volumetric efficiency.

[HEYWOOD] J. B. Heywood, "Internal Combustion Engine Fundamentals", 1988, section 2.10, from memory.
"""

from calc.errors import OutOfRange
from calc.physics.air import GAS_CONSTANT, PRESSURE_RANGE, TEMPERATURE_RANGE
from calc.physics.bounds import TINIEST, require

REVOLUTIONS_A_CYCLE = {2: 1.0, 4: 2.0}  # by strokes of the cycle
LARGEST_DISPLACEMENT = 0.1  # m3, 100 litres
FASTEST = 30_000.0  # rev/min


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
