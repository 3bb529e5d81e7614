"""How a boost circuit answers a step: first and second order.

[OGATA] K. Ogata, "Modern Control Engineering", section 5-3, from memory.
[IEEE181] IEEE Std 181-2011, transitions and settling, from memory.
"""

import math

from calc.physics.bounds import TINIEST, require
from calc.physics.roots import crossing

LONGEST = 1.0e6  # s


def first_order_step(step: float, time: float, time_constant: float) -> float:
    """Answer of a first-order system to a step.

    y = K · (1 − e^(−t/τ))

    Parameters
    ----------
    step : float
        Final value K, -1e9 to 1e9. [any]
    time : float
        Time since the step, 0 to 1e6. [s]
    time_constant : float
        Time constant τ, 1e-9 to 1e6. [s]

    Returns
    -------
    float
        Value. [as step]

    Examples
    --------
    >>> round(first_order_step(0.9, 0.8, 0.8), 6)
    0.568909

    References
    ----------
    [OGATA].
    """
    require("step", step, -1.0e9, 1.0e9)
    require("time", time, 0.0, LONGEST, "s")
    return -step * math.expm1(-time / require("time constant", time_constant, 1.0e-9, LONGEST, "s"))


def first_order_time_to(share: float, time_constant: float) -> float:
    """Time in which a first-order system has gone a share of its step.

    t = −τ · ln(1 − share)

    Parameters
    ----------
    share : float
        Share of the step, 0 to 0.999999. [-]
    time_constant : float
        Time constant τ, 1e-9 to 1e6. [s]

    Returns
    -------
    float
        Time. [s]

    Notes
    -----
    10 to 90 % takes ln 9 = 2.197 time constants.

    Examples
    --------
    >>> round(first_order_time_to(0.98, 1.0), 6)
    3.912023

    References
    ----------
    [OGATA].
    """
    require("time constant", time_constant, 1.0e-9, LONGEST, "s")
    return -time_constant * math.log1p(-require("share", share, 0.0, 0.999999))


def two_point_time_constant(time_28: float, time_63: float) -> float:
    """Time constant from the times at 28.3 % and 63.2 % of a step, a pure delay left out.

    τ = 1.5 · (t63 − t28)

    Parameters
    ----------
    time_28 : float
        Time at 28.3 % of the step, 0 to time_63. [s]
    time_63 : float
        Time at 63.2 % of the step, up to 1e6. [s]

    Returns
    -------
    float
        Time constant. [s]

    Notes
    -----
    The factor 1.5 is exact to 0.05 % for a first-order system.

    Examples
    --------
    >>> round(two_point_time_constant(0.3327, 1.0), 2)
    1.0

    References
    ----------
    C. L. Smith, "Digital Computer Process Control", 1972, from memory.
    """
    require("time at 63 %", time_63, 0.0, LONGEST, "s")
    return 1.5 * (time_63 - require("time at 28 %", time_28, 0.0, time_63, "s"))


def overshoot(damping: float) -> float:
    """Overshoot of a second-order system, as a share of the step.

    Mp = e^(−π·ζ / sqrt(1 − ζ²))

    Parameters
    ----------
    damping : float
        Damping ratio ζ, 0 to 0.999. [-]

    Returns
    -------
    float
        Overshoot over step. [-]

    Examples
    --------
    >>> round(100 * overshoot(0.5), 4)
    16.3034

    References
    ----------
    [OGATA], maximum overshoot.
    """
    z = require("damping", damping, 0.0, 0.999)
    return math.exp(-math.pi * z / math.sqrt(1.0 - z * z))


def damping_from_overshoot(share: float) -> float:
    """Damping ratio that belongs to an overshoot: the inverse of `overshoot`.

    ζ = −ln Mp / sqrt(π² + ln² Mp)

    Parameters
    ----------
    share : float
        Overshoot over step, above 0 up to 1. [-]

    Returns
    -------
    float
        Damping ratio. [-]

    Examples
    --------
    >>> round(damping_from_overshoot(0.10), 6)
    0.591155

    References
    ----------
    [OGATA], maximum overshoot.
    """
    depth = -math.log(require("overshoot", share, TINIEST, 1.0))
    return depth / math.hypot(math.pi, depth)


def peak_time(damping: float, natural_frequency: float) -> float:
    """Time of the first peak of a second-order system after a step.

    t = π / (ωn · sqrt(1 − ζ²))

    Parameters
    ----------
    damping : float
        Damping ratio ζ, 0 to 0.999. [-]
    natural_frequency : float
        Natural frequency ωn, 1e-6 to 1e9. [rad/s]

    Returns
    -------
    float
        Time. [s]

    Examples
    --------
    >>> round(peak_time(0.5, 1.0), 4)
    3.6276

    References
    ----------
    [OGATA], peak time.
    """
    z = require("damping", damping, 0.0, 0.999)
    return math.pi / (
        require("natural frequency", natural_frequency, 1.0e-6, 1.0e9, "rad/s") * math.sqrt(1.0 - z * z)
    )


def rise_time(damping: float, natural_frequency: float) -> float:
    """Time of a second-order system from 10 to 90 % of a step.

    t = t90 − t10, each the first time at which the step answer has gone that share

    Parameters
    ----------
    damping : float
        Damping ratio ζ, 0 to 0.999. [-]
    natural_frequency : float
        Natural frequency ωn, 1e-6 to 1e9. [rad/s]

    Returns
    -------
    float
        Time. [s]

    Examples
    --------
    >>> round(rise_time(0.5, 1.0), 4)
    1.6376

    References
    ----------
    [IEEE181], transition duration.
    """
    peak = peak_time(damping, natural_frequency) * natural_frequency
    tenth, ninetieth = (_first_time(damping, left, peak) for left in (0.9, 0.1))
    return (ninetieth - tenth) / natural_frequency


def _first_time(damping: float, left: float, peak: float) -> float:
    return crossing(lambda phase: _deficit(damping, phase) - left, 0.0, peak)


def settling_time(damping: float, natural_frequency: float, band: float) -> float:
    """Time from which a second-order system stays within a band about its final value.

    the last t with |y(t) − 1| = band

    Parameters
    ----------
    damping : float
        Damping ratio ζ, 0.01 to 0.999. [-]
    natural_frequency : float
        Natural frequency ωn, 1e-6 to 1e9. [rad/s]
    band : float
        Half of the band as a share of the step, 0.001 to 0.5. [-]

    Returns
    -------
    float
        Time. [s]

    Notes
    -----
    The true time, not the envelope 4/(ζ·ωn), which is up to a third longer.

    Examples
    --------
    >>> round(settling_time(0.5, 1.0, 0.02), 4)
    8.0763

    References
    ----------
    [IEEE181], settling.
    """
    z = require("damping", damping, 0.01, 0.999)
    half = require("band", band, 0.001, 0.5)
    swing = peak_time(z, natural_frequency) * natural_frequency
    swings = math.floor(
        -math.log(half) * math.sqrt(1.0 - z * z) / (math.pi * z)
    )  # the last that leaves the band
    sign = 1.0 if swings % 2 == 0 else -1.0
    last = crossing(lambda t: sign * _deficit(z, t) - half, swings * swing, (swings + 1) * swing)
    return last / natural_frequency


def _deficit(damping: float, phase: float) -> float:
    """1 − y of the step answer at ωn·t = phase."""
    root = math.sqrt(1.0 - damping * damping)
    angle = root * phase
    return math.exp(-damping * phase) * (math.cos(angle) + damping / root * math.sin(angle))
