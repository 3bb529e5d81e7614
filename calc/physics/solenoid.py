"""Control solenoid: its coil, and the pressure it leaves between two passages.

[IEC60028] IEC 60028, "International standard of resistance for copper", from memory.
[ISO6358] ISO 6358-1:2013, "Pneumatic fluid power ... compressible fluids", from memory.
"""

import math

from calc.physics.air import PRESSURE_RANGE
from calc.physics.bounds import TINIEST, require
from calc.physics.orifice import flow_function, iso6358_function
from calc.physics.roots import crossing

COPPER_COEFFICIENT = 0.00393  # 1/K at 20 degC, annealed copper, [IEC60028]
LARGEST_RESISTANCE = 1.0e9  # ohm
COLDEST, HOTTEST = -60.0, 300.0  # degC


def resistance_at(r20: float, temp_c: float) -> float:
    """Resistance of a copper coil at a temperature.

    R = R20 · (1 + α·(t − 20))

    Parameters
    ----------
    r20 : float
        Resistance at 20 degC, 0 to 1e9. [ohm]
    temp_c : float
        Temperature of the coil, -60 to 300. [degC]

    Returns
    -------
    float
        Resistance. [ohm]

    Examples
    --------
    >>> round(resistance_at(25.0, 80.0), 4)
    30.895

    References
    ----------
    [IEC60028], temperature coefficient at constant mass.
    """
    return require("resistance", r20, 0.0, LARGEST_RESISTANCE, "ohm") * _warming(temp_c)


def resistance_at_20c(r: float, temp_c: float) -> float:
    """Resistance that a copper coil would have at 20 degC: the inverse of `resistance_at`.

    R20 = R / (1 + α·(t − 20))

    Parameters
    ----------
    r : float
        Resistance measured, 0 to 1e9. [ohm]
    temp_c : float
        Temperature of the coil, -60 to 300. [degC]

    Returns
    -------
    float
        Resistance at 20 degC. [ohm]

    Examples
    --------
    >>> round(resistance_at_20c(31.2, 65.0), 6)
    26.51145

    References
    ----------
    [IEC60028], temperature coefficient at constant mass.
    """
    return require("resistance", r, 0.0, LARGEST_RESISTANCE, "ohm") / _warming(temp_c)


def _warming(temp_c: float) -> float:
    return 1.0 + COPPER_COEFFICIENT * (require("temperature", temp_c, COLDEST, HOTTEST, "degC") - 20.0)


def coil_temperature(r20: float, r: float) -> float:
    """Temperature of a copper coil from its resistance now and at 20 degC.

    t = 20 + (R / R20 − 1) / α

    Parameters
    ----------
    r20 : float
        Resistance at 20 degC, above 0 up to 1e9. [ohm]
    r : float
        Resistance now, 0 to 3 times r20. [ohm]

    Returns
    -------
    float
        Mean temperature of the winding. [degC]

    Examples
    --------
    >>> round(coil_temperature(26.0, 32.4), 4)
    82.6346

    References
    ----------
    [IEC60028], temperature coefficient at constant mass.
    """
    cold = require("resistance at 20 degC", r20, TINIEST, LARGEST_RESISTANCE, "ohm")
    return 20.0 + (require("resistance", r, 0.0, 3.0 * cold, "ohm") / cold - 1.0) / COPPER_COEFFICIENT


def two_orifice_pressure(
    ratio_c2_c1: float, p_supply: float, p_ambient: float, b: float | None = None
) -> float:
    """Pressure between a supply passage and a vent passage in series, with no flow into the actuator.

    C1 · p_supply · f(p/p_supply) = C2 · p · f(p_ambient/p)

    Parameters
    ----------
    ratio_c2_c1 : float
        Flow area of the vent over that of the supply, 0 to infinity. [-]
    p_supply : float
        Absolute pressure before the supply passage, p_ambient to 1e7. [Pa]
    p_ambient : float
        Absolute pressure behind the vent, 1 to 1e7. [Pa]
    b : float, optional
        Critical ratio of ISO 6358 passages, 0 to 0.99; left out: ideal nozzles. [-]

    Returns
    -------
    float
        Absolute pressure in between. [Pa]

    Notes
    -----
    Equal temperatures. Where vacuum is the supply, air flows the other way: hand the atmosphere in as
    p_supply, the vacuum as p_ambient and the ratio turned over.

    Examples
    --------
    Equal passages at 1 bar gauge, in bar gauge:

    >>> round((two_orifice_pressure(1.0, 201325.0, 101325.0) - 101325.0) / 1e5, 5)
    0.62399

    References
    ----------
    Continuity, with the flow functions of `calc.physics.orifice` ([ISO6358] where b is given).
    """
    require("pressure outside", p_ambient, *PRESSURE_RANGE, "Pa")
    require("supply pressure", p_supply, p_ambient, PRESSURE_RANGE[1], "Pa")
    require("ratio of the passages", ratio_c2_c1, 0.0, math.inf)
    if ratio_c2_c1 == 0.0 or p_supply == p_ambient:
        return p_supply
    if math.isinf(ratio_c2_c1):
        return p_ambient

    def shortfall(pressure: float) -> float:
        coming, going = _share(pressure / p_supply, b), _share(p_ambient / pressure, b)
        return ratio_c2_c1 * pressure * going - p_supply * coming

    return crossing(shortfall, p_ambient, p_supply)


def orifice_ratio(p_between: float, p_supply: float, p_ambient: float) -> float:
    """How many times as wide as the supply's passage the vent is, from the pressure between them.

    C2/C1 = p_supply · f(p/p_supply) / (p · f(p_ambient/p))

    Parameters
    ----------
    p_between : float
        Absolute pressure between the passages, above p_ambient and up to p_supply. [Pa]
    p_supply : float
        Absolute pressure before the supply passage, p_ambient to 1e7. [Pa]
    p_ambient : float
        Absolute pressure behind the vent, 1 to 1e7. [Pa]

    Returns
    -------
    float
        Flow area of the vent over that of the supply. [-]

    Notes
    -----
    `two_orifice_pressure` turned round, for ideal nozzles. Where vacuum is the supply, see there.

    Examples
    --------
    >>> round(orifice_ratio(101325.0 + 62399.0, 201325.0, 101325.0), 3)
    1.0

    References
    ----------
    As for `two_orifice_pressure`.
    """
    require("pressure outside", p_ambient, *PRESSURE_RANGE, "Pa")
    require("supply pressure", p_supply, p_ambient, PRESSURE_RANGE[1], "Pa")
    require("pressure between", p_between, p_ambient, p_supply, "Pa")
    going = p_between * flow_function(p_ambient / p_between)
    coming = p_supply * flow_function(p_between / p_supply)
    return math.inf if going == 0.0 else coming / going


def _share(ratio: float, b: float | None) -> float:
    return flow_function(ratio) if b is None else iso6358_function(ratio, b)
