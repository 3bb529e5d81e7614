"""Standard atmosphere and the barometer: the pressure of the air outside.

[ISO2533] ISO 2533:1975, "Standard Atmosphere", equal to ICAO Doc 7488 up to 32 km; formula from memory.
[ICAO8896] ICAO Doc 8896, "Manual of Aeronautical Meteorological Practice": QNH, from memory.
"""

from calc.physics.air import GAS_CONSTANT, STANDARD_GRAVITY, STANDARD_PRESSURE, STANDARD_TEMPERATURE
from calc.physics.bounds import require

LAPSE_RATE = 0.0065  # K/m, lost per metre climbed, [ISO2533]
EXPONENT = STANDARD_GRAVITY / (LAPSE_RATE * GAS_CONSTANT)  # 5.25588
LOWEST, HIGHEST = -2_000.0, 11_000.0  # m: the layer in which the lapse rate holds


def standard_temperature(height_m: float) -> float:
    """Air temperature of the standard atmosphere at a height.

    T = T0 − L·H

    Parameters
    ----------
    height_m : float
        Geopotential height above mean sea level, -2 000 to 11 000. [m]

    Returns
    -------
    float
        Temperature. [K]

    Examples
    --------
    >>> round(standard_temperature(2000.0), 2)
    275.15

    References
    ----------
    [ISO2533], equation for layers with a temperature gradient, from memory.
    """
    return STANDARD_TEMPERATURE - LAPSE_RATE * require("height", height_m, LOWEST, HIGHEST, "m")


def standard_pressure(height_m: float) -> float:
    """Air pressure of the standard atmosphere at a height.

    p = p0 · (1 − L·H / T0) ^ (g / (L·R))

    Parameters
    ----------
    height_m : float
        Geopotential height above mean sea level, -2 000 to 11 000. [m]

    Returns
    -------
    float
        Absolute pressure. [Pa]

    Notes
    -----
    A standard day: weather moves the real barometer by up to about 4 % either way. Good for spotting
    a plainly wrong barometer, not for calibrating one.

    Examples
    --------
    A workshop 1 000 m above the sea:

    >>> round(standard_pressure(1000.0), 1)
    89874.6

    References
    ----------
    [ISO2533], equation for layers with a temperature gradient, from memory.
    """
    return float(STANDARD_PRESSURE * (standard_temperature(height_m) / STANDARD_TEMPERATURE) ** EXPONENT)


def standard_height(pressure: float) -> float:
    """Height at which the standard atmosphere has a pressure: the inverse of `standard_pressure`.

    H = T0/L · (1 − (p / p0) ^ (L·R / g))

    Parameters
    ----------
    pressure : float
        Absolute pressure, 22 632.1 to 127 774 (11 000 m down to -2 000 m). [Pa]

    Returns
    -------
    float
        Geopotential height above mean sea level. [m]

    Examples
    --------
    >>> round(standard_height(89874.6), 1)
    1000.0

    References
    ----------
    [ISO2533], as for `standard_pressure`.
    """
    p = require("pressure", pressure, standard_pressure(HIGHEST), standard_pressure(LOWEST), "Pa")
    return float(STANDARD_TEMPERATURE / LAPSE_RATE * (1.0 - (p / STANDARD_PRESSURE) ** (1.0 / EXPONENT)))


def station_pressure(qnh_pa: float, height_m: float) -> float:
    """Barometric pressure at the workshop from the value that a weather report reduced to sea level.

    p = p0 · ((QNH / p0) ^ (1/n) − L·H / T0) ^ n,  n = g / (L·R)

    Parameters
    ----------
    qnh_pa : float
        Reported sea-level pressure (QNH), 85 000 to 110 000. [Pa]
    height_m : float
        Height of the workshop above mean sea level, -2 000 to 11 000. [m]

    Returns
    -------
    float
        Absolute pressure at the workshop. [Pa]

    Notes
    -----
    The same standard air column is laid under the workshop that the report laid there. A report for
    the public may be reduced with the real temperature in place of the standard one: 50 Pa of doubt.

    Examples
    --------
    >>> round(station_pressure(102000.0, 300.0))
    98428

    References
    ----------
    [ICAO8896], [ISO2533], from memory.
    """
    qnh = require("sea-level pressure", qnh_pa, 85_000.0, 110_000.0, "Pa")
    return standard_pressure(require("height", height_m, LOWEST, HIGHEST, "m") + standard_height(qnh))
