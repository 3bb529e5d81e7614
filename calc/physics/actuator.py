"""Pressure-opened actuator: the friction of its rod, and the turns that set its preload.

Pressures here are differences against the local atmosphere (gauge), since that is what lies on the other
side of the diaphragm.
"""

from calc.physics.bounds import require

LARGEST_PRESSURE = 1.0e7  # Pa


def friction_pressure(opening: float, closing: float) -> float:
    """Friction in terms of pressure: half of the hysteresis at equal travel.

    Ff / Ae = (p_opening − p_closing) / 2

    Parameters
    ----------
    opening : float
        Pressure at a travel while it rises, -1e7 to 1e7. [Pa]
    closing : float
        Pressure at the same travel while it falls, -1e7 to 1e7. [Pa]

    Returns
    -------
    float
        Half of the difference. [Pa]

    Examples
    --------
    >>> friction_pressure(104000.0, 96000.0)
    4000.0

    References
    ----------
    Elementary statics: friction turns round with the movement.
    """
    require("opening pressure", opening, -LARGEST_PRESSURE, LARGEST_PRESSURE, "Pa")
    require("closing pressure", closing, -LARGEST_PRESSURE, LARGEST_PRESSURE, "Pa")
    return 0.5 * (opening - closing)


def rod_turns(pressure_error: float, travel_per_pressure: float, pitch: float) -> float:
    """Turns of the adjuster that shift the first movement by a pressure.

    turns = Δp · (dx/dp) / pitch

    Parameters
    ----------
    pressure_error : float
        Pressure by which the actuator starts too late (positive) or too early, -1e7 to 1e7. [Pa]
    travel_per_pressure : float
        Rate of the actuator, 0 to 1. [m/Pa]
    pitch : float
        Pitch of the rod's thread, 1e-5 to 0.1. [m]

    Returns
    -------
    float
        Turns, of the sign of the error: positive asks for less preload. [-]

    Notes
    -----
    Cures the preload alone: neither friction nor a wrong spring. Any three units that fit together do
    as well: kPa, mm/kPa and mm, within the same numbers.

    Examples
    --------
    26 kPa too late, 10.5 mm over 75 kPa, 1 mm pitch:

    >>> round(rod_turns(26_000.0, 0.0105 / 75_000.0, 0.001), 2)
    3.64

    References
    ----------
    Elementary geometry of a thread.
    """
    require("pressure error", pressure_error, -LARGEST_PRESSURE, LARGEST_PRESSURE, "Pa")
    require("rate", travel_per_pressure, 0.0, 1.0, "m/Pa")
    return pressure_error * travel_per_pressure / require("pitch", pitch, 1.0e-5, 0.1, "m")
