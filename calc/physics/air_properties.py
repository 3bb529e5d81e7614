"""Speed of sound and viscosity of air.

[ISO2533] ISO 2533:1975, "Standard Atmosphere", clause 2 (Sutherland's form), from memory.
"""

import math

from calc.physics.air import GAS_CONSTANT, HEAT_RATIO, TEMPERATURE_RANGE
from calc.physics.bounds import require

SUTHERLAND_FACTOR = 1.458e-6  # kg/(m s K^0.5), [ISO2533]
SUTHERLAND_TEMPERATURE = 110.4  # K, [ISO2533]


def speed_of_sound(T: float) -> float:
    """Speed of sound in dry air.

    a = sqrt(γ·R·T)

    Parameters
    ----------
    T : float
        Temperature, 150 to 2 000; γ = 1.4 holds to 0.1 % below 400. [K]

    Returns
    -------
    float
        Speed. [m/s]

    Examples
    --------
    >>> round(speed_of_sound(288.15), 3)
    340.294

    References
    ----------
    [ISO2533].
    """
    return math.sqrt(HEAT_RATIO * GAS_CONSTANT * require("temperature", T, *TEMPERATURE_RANGE, "K"))


def viscosity(T: float) -> float:
    """Dynamic viscosity of air.

    μ = 1.458e-6 · T^1.5 / (T + 110.4)

    Parameters
    ----------
    T : float
        Temperature, 150 to 2 000. [K]

    Returns
    -------
    float
        Dynamic viscosity. [Pa s]

    Notes
    -----
    0.3 to 0.8 % below newer measurements between -20 and 100 degC.

    Examples
    --------
    >>> round(1e5 * viscosity(288.15), 4)
    1.7894

    References
    ----------
    [ISO2533], Sutherland's form.
    """
    t = require("temperature", T, *TEMPERATURE_RANGE, "K")
    return SUTHERLAND_FACTOR * t * math.sqrt(t) / (t + SUTHERLAND_TEMPERATURE)
