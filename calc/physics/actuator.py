"""Pressure-opened actuator: a diaphragm against a spring, and the rod that sets its preload.

All forces are those of elementary statics. Pressures here are differences against the local atmosphere
(gauge), since that is what lies on the other side of the diaphragm.
"""

import math

from calc.physics.bounds import TINIEST, require

LARGEST_FORCE = 1.0e6  # N
LARGEST_PRESSURE = 1.0e7  # Pa
LARGEST_TRAVEL = 1.0  # m


def effective_area(piston_diameter: float, housing_diameter: float) -> float:
    """Effective area of a diaphragm between its piston and its housing.

    Ae = π/12 · (D² + D·d + d²)

    Parameters
    ----------
    piston_diameter : float
        Diameter d of the stiff middle, 0 to D. [m]
    housing_diameter : float
        Diameter D at which the diaphragm is clamped, above 0 up to 1. [m]

    Returns
    -------
    float
        Effective area. [m2]

    Examples
    --------
    >>> round(effective_area(0.040, 0.050), 9)
    0.001596976

    References
    ----------
    Usual form in diaphragm design (volume of a truncated cone), from memory.
    """
    big = require("housing diameter", housing_diameter, TINIEST, 1.0, "m")
    small = require("piston diameter", piston_diameter, 0.0, big, "m")
    return math.pi / 12.0 * (big * big + big * small + small * small)


def opening_pressure(
    preload: float, spring_rate: float, travel: float, area: float, friction: float = 0.0
) -> float:
    """Pressure that holds the rod at a travel: the first movement at travel 0, full travel at its end.

    p = (F0 + k·x + Ff) / Ae

    Parameters
    ----------
    preload : float
        Force F0 of the spring at rest, 0 to 1e6. [N]
    spring_rate : float
        Spring rate k, 0 to 1e9. [N/m]
    travel : float
        Travel x of the rod from its stop, 0 to 1. [m]
    area : float
        Effective area Ae, above 0 up to 1. [m2]
    friction : float, optional
        Friction force Ff: positive while opening, negative while closing, -1e6 to 1e6. [N]

    Returns
    -------
    float
        Gauge pressure. [Pa]

    Notes
    -----
    On the bench no exhaust pushes the flap; on the car it does.

    Examples
    --------
    A 50 mm diaphragm, 150 N, 10 N/mm, after 10 mm:

    >>> round(opening_pressure(150.0, 10_000.0, 0.010, math.pi / 4 * 0.050**2))
    127324

    References
    ----------
    Elementary statics.
    """
    require("preload", preload, 0.0, LARGEST_FORCE, "N")
    require("spring rate", spring_rate, 0.0, 1.0e9, "N/m")
    require("travel", travel, 0.0, LARGEST_TRAVEL, "m")
    require("friction", friction, -LARGEST_FORCE, LARGEST_FORCE, "N")
    return (preload + spring_rate * travel + friction) / require("area", area, TINIEST, 1.0, "m2")


def travel_at(preload: float, spring_rate: float, pressure: float, area: float) -> float:
    """Travel of the rod at a pressure, without friction: the inverse of `opening_pressure`.

    x = max(0, (p·Ae − F0) / k)

    Parameters
    ----------
    preload : float
        Force F0 of the spring at rest, 0 to 1e6. [N]
    spring_rate : float
        Spring rate k, 1e-3 to 1e9. [N/m]
    pressure : float
        Gauge pressure, 0 to 1e7. [Pa]
    area : float
        Effective area Ae, above 0 up to 1. [m2]

    Returns
    -------
    float
        Travel from the stop. [m]

    Examples
    --------
    >>> round(1000 * travel_at(150.0, 10_000.0, 127324.0, math.pi / 4 * 0.050**2), 3)
    10.0

    References
    ----------
    Elementary statics.
    """
    require("preload", preload, 0.0, LARGEST_FORCE, "N")
    require("spring rate", spring_rate, 1.0e-3, 1.0e9, "N/m")
    require("pressure", pressure, 0.0, LARGEST_PRESSURE, "Pa")
    force = pressure * require("area", area, TINIEST, 1.0, "m2")
    return max(0.0, (force - preload) / spring_rate)


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


def crank_arc(radius: float, angle: float) -> float:
    """Way of the crank's end along its circle.

    arc = r · θ

    Parameters
    ----------
    radius : float
        Length of the crank, 0 to 1. [m]
    angle : float
        Angle turned, 0 to π. [rad]

    Returns
    -------
    float
        Length along the circle. [m]

    Examples
    --------
    >>> round(1000 * crank_arc(0.025, math.radians(45.0)), 4)
    19.635

    References
    ----------
    Elementary geometry.
    """
    return require("radius", radius, 0.0, 1.0, "m") * require("angle", angle, 0.0, math.pi, "rad")


def crank_chord(radius: float, angle: float) -> float:
    """Straight way of the crank's end, which is what the rod follows.

    chord = 2·r · sin(θ/2)

    Parameters
    ----------
    radius : float
        Length of the crank, 0 to 1. [m]
    angle : float
        Angle turned, 0 to π. [rad]

    Returns
    -------
    float
        Length of the chord. [m]

    Examples
    --------
    >>> round(1000 * crank_chord(0.025, math.radians(45.0)), 4)
    19.1342

    References
    ----------
    Elementary geometry.
    """
    turned = require("angle", angle, 0.0, math.pi, "rad")
    return 2.0 * require("radius", radius, 0.0, 1.0, "m") * math.sin(0.5 * turned)
