"""Tyre, gear and speed: what a pull will be on the road, before anybody drives it.

[ISO4000] ISO 4000-1, "Passenger car tyres and rims", design dimensions, from memory.
[ETRTO] European Tyre and Rim Technical Organisation: rolling circumference 3.05·D, from memory.
"""

import re

from calc.errors import OutOfRange
from calc.physics.bounds import require
from calc.physics.units import INCH

ROLLING_FACTOR = 3.05  # rolling circumference over diameter, radial tyres, [ETRTO]
MARKING = re.compile(
    r"\s*(\d{2,3})\s*/\s*(\d{2,3})\s*Z?[RBD-]\s*(\d{2}(?:\.\d)?)(?!\d)", re.ASCII | re.IGNORECASE
)
FASTEST = 150.0  # m/s


def tyre_diameter(marking: str) -> float:
    """Outer diameter of a tyre from what is written on it.

    D = rim · 0.0254 + 2 · width · aspect / 100

    Parameters
    ----------
    marking : str
        Width in mm, aspect in per cent and rim in inches, as in 205/55 R16. [-]

    Returns
    -------
    float
        Diameter. [m]

    Notes
    -----
    Raises OutOfRange for another form and for figures that no car tyre has.

    Examples
    --------
    >>> round(1000 * tyre_diameter("205/55 R16"), 3)
    631.9

    References
    ----------
    [ISO4000], design dimensions.
    """
    found = MARKING.match(marking[:40])
    if not found:
        raise OutOfRange(f"tyre {marking[:40]!r} is not written like 205/55 R16")
    width, aspect, rim = (float(figure) for figure in found.groups())
    require("tyre width", width, 100.0, 500.0, "mm")
    require("tyre aspect", aspect, 20.0, 100.0, "%")
    require("rim", rim, 8.0, 30.0, "in")
    return rim * INCH + 2.0 * width * aspect / 100_000.0


def rolling_circumference(diameter: float) -> float:
    """Way that a wheel makes in one turn.

    U = 3.05 · D

    Parameters
    ----------
    diameter : float
        Outer diameter of the tyre, 0.2 to 2. [m]

    Returns
    -------
    float
        Rolling circumference. [m]

    Notes
    -----
    A loaded tyre rolls 3 % less than π·D.

    Examples
    --------
    >>> round(rolling_circumference(0.6319), 6)
    1.927295

    References
    ----------
    [ETRTO].
    """
    return ROLLING_FACTOR * require("diameter", diameter, 0.2, 2.0, "m")


def road_speed(rpm: float, circumference: float, gear_ratio: float, final_drive: float) -> float:
    """Speed of the car at an engine speed.

    v = n/60 · U / (i_gear · i_final)

    Parameters
    ----------
    rpm : float
        Engine speed, 0 to 30 000. [rev/min]
    circumference : float
        Rolling circumference, 0.5 to 7. [m]
    gear_ratio : float
        Ratio of the gear, 0.1 to 20. [-]
    final_drive : float
        Ratio of the final drive, 0.1 to 20. [-]

    Returns
    -------
    float
        Speed. [m/s]

    Examples
    --------
    In km/h:

    >>> round(3.6 * road_speed(3000.0, 1.927295, 1.0, 3.65), 4)
    95.0447

    References
    ----------
    Gear train without slip.
    """
    require("engine speed", rpm, 0.0, 30_000.0, "rev/min")
    return rpm / 60.0 * _way_per_turn(circumference, gear_ratio, final_drive)


def engine_speed(speed: float, circumference: float, gear_ratio: float, final_drive: float) -> float:
    """Engine speed at a speed of the car: the inverse of `road_speed`.

    n = 60 · v · i_gear · i_final / U

    Parameters
    ----------
    speed : float
        Speed, 0 to 150. [m/s]
    circumference : float
        Rolling circumference, 0.5 to 7. [m]
    gear_ratio : float
        Ratio of the gear, 0.1 to 20. [-]
    final_drive : float
        Ratio of the final drive, 0.1 to 20. [-]

    Returns
    -------
    float
        Engine speed. [rev/min]

    Examples
    --------
    >>> round(engine_speed(100.0 / 3.6, 1.927295, 0.78, 3.94), 2)
    2657.61

    References
    ----------
    Gear train without slip.
    """
    require("speed", speed, 0.0, FASTEST, "m/s")
    return 60.0 * speed / _way_per_turn(circumference, gear_ratio, final_drive)


def _way_per_turn(circumference: float, gear_ratio: float, final_drive: float) -> float:
    require("circumference", circumference, 0.5, 7.0, "m")
    require("gear ratio", gear_ratio, 0.1, 20.0)
    return circumference / (gear_ratio * require("final drive", final_drive, 0.1, 20.0))


def pull_time_and_distance(speed_start: float, speed_end: float, acceleration: float) -> tuple[float, float]:
    """Time and way that a pull takes at a steady acceleration.

    t = (v2 − v1) / a,  s = (v2² − v1²) / (2·a)

    Parameters
    ----------
    speed_start : float
        Speed at the start, 0 to speed_end. [m/s]
    speed_end : float
        Speed at the end, up to 150. [m/s]
    acceleration : float
        Mean acceleration, 0.01 to 20. [m/s2]

    Returns
    -------
    tuple of float
        Time [s] and way [m].

    Notes
    -----
    Real acceleration falls with speed: allow a margin, and the way to brake.

    Examples
    --------
    >>> time, way = pull_time_and_distance(44.4692 / 3.6, 100.0556 / 3.6, 1.2)
    >>> round(time, 3), round(way, 2)
    (12.867, 258.28)

    References
    ----------
    Uniform acceleration.
    """
    require("speed at the end", speed_end, 0.0, FASTEST, "m/s")
    require("speed at the start", speed_start, 0.0, speed_end, "m/s")
    a = require("acceleration", acceleration, 0.01, 20.0, "m/s2")
    return (speed_end - speed_start) / a, (speed_end**2 - speed_start**2) / (2.0 * a)
