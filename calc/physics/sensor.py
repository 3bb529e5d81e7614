"""Charge pressure sensor: its signal, and what a comparison with a real gauge says of it.

[ISO13528] ISO 13528, "Statistical methods for use in proficiency testing", E_n score, from memory.
"""

import math

from calc.errors import OutOfRange
from calc.physics.bounds import require

LOW_SHARE, HIGH_SHARE = 0.1, 0.9  # of the reference voltage; common practice, no source
LARGEST_VOLTAGE = 100.0  # V
LARGEST_PRESSURE = 1.0e7  # Pa


def ratiometric_pressure(signal: float, reference: float, p_low: float, p_high: float) -> float:
    """Pressure that a linear ratiometric sensor means by its signal.

    p = p_low + (U/U_ref − 0.1) / 0.8 · (p_high − p_low)

    Parameters
    ----------
    signal : float
        Signal voltage, 0.1 to 0.9 of the reference. [V]
    reference : float
        Reference supply, 1 to 100. [V]
    p_low : float
        Pressure at a tenth of the reference, 0 to 1e7. [Pa]
    p_high : float
        Pressure at nine tenths of the reference, p_low to 1e7. [Pa]

    Returns
    -------
    float
        Pressure; absolute where the range is absolute. [Pa]

    Notes
    -----
    The range comes from the vehicle's data. Never extrapolated: beyond a tenth and nine tenths of the
    reference the sensor says that it is at fault.

    Examples
    --------
    >>> round(ratiometric_pressure(1.913, 5.0, 20_000.0, 250_000.0), 1)
    101247.5

    References
    ----------
    Usual form of linear automotive pressure sensors; common practice, no source.
    """
    require("reference voltage", reference, 1.0, LARGEST_VOLTAGE, "V")
    require("signal", signal, LOW_SHARE * reference, HIGH_SHARE * reference, "V")
    span = _span(p_low, p_high)
    return p_low + (signal / reference - LOW_SHARE) / (HIGH_SHARE - LOW_SHARE) * span


def ratiometric_signal(pressure: float, reference: float, p_low: float, p_high: float) -> float:
    """Signal of a linear ratiometric sensor at a pressure: the inverse of `ratiometric_pressure`.

    U = U_ref · (0.1 + 0.8 · (p − p_low) / (p_high − p_low))

    Parameters
    ----------
    pressure : float
        Pressure, p_low to p_high. [Pa]
    reference : float
        Reference supply, 1 to 100. [V]
    p_low : float
        Pressure at a tenth of the reference, 0 to 1e7. [Pa]
    p_high : float
        Pressure at nine tenths of the reference, p_low to 1e7. [Pa]

    Returns
    -------
    float
        Signal voltage. [V]

    Examples
    --------
    >>> round(ratiometric_signal(101_325.0, 5.0, 20_000.0, 250_000.0), 6)
    1.914348

    References
    ----------
    Usual form of linear automotive pressure sensors; common practice, no source.
    """
    require("reference voltage", reference, 1.0, LARGEST_VOLTAGE, "V")
    span = _span(p_low, p_high)
    share = (require("pressure", pressure, p_low, p_high, "Pa") - p_low) / span
    return reference * (LOW_SHARE + (HIGH_SHARE - LOW_SHARE) * share)


def _span(p_low: float, p_high: float) -> float:
    require("lower end of the range", p_low, 0.0, LARGEST_PRESSURE, "Pa")
    require("upper end of the range", p_high, p_low, LARGEST_PRESSURE, "Pa")
    if p_high == p_low:
        raise OutOfRange(f"range {p_low:g} to {p_high:g} Pa has no width")
    return p_high - p_low


def two_point_gain_offset(
    gauge_low: float, sensor_low: float, gauge_high: float, sensor_high: float
) -> tuple[float, float]:
    """Gain and offset of a sensor against a gauge at two pressures.

    G = (s2 − s1) / (g2 − g1),  O = s1 − G·g1

    Parameters
    ----------
    gauge_low, gauge_high : float
        Absolute pressure by the gauge, 0 to 1e7 and not equal. [Pa]
    sensor_low, sensor_high : float
        What the sensor said at the same moments, 0 to 1e7. [Pa]

    Returns
    -------
    tuple of float
        Gain [-] and offset [Pa]; a true sensor has 1 and 0.

    Examples
    --------
    Reads 3 kPa high at rest and 3 kPa low under boost:

    >>> gain, offset = two_point_gain_offset(101e3, 104e3, 221e3, 218e3)
    >>> round(gain, 6), round(offset, 3)
    (0.95, 8050.0)

    References
    ----------
    Straight line through two points.
    """
    for name, value in (
        ("gauge", gauge_low),
        ("gauge", gauge_high),
        ("sensor", sensor_low),
        ("sensor", sensor_high),
    ):
        require(f"pressure by the {name}", value, 0.0, LARGEST_PRESSURE, "Pa")
    if gauge_high == gauge_low:
        raise OutOfRange(f"both points lie at {gauge_low:g} Pa")
    gain = (sensor_high - sensor_low) / (gauge_high - gauge_low)
    return gain, sensor_low - gain * gauge_low


def gain_uncertainty(point_uncertainty: float, gauge_span: float) -> float:
    """Standard uncertainty of a gain from two points of equal and independent doubt.

    u(G) = √2 · u / (g2 − g1)

    Parameters
    ----------
    point_uncertainty : float
        Standard uncertainty of sensor minus gauge at each point, 0 to 1e7. [Pa]
    gauge_span : float
        Distance of the two points, 1e-3 to 1e7. [Pa]

    Returns
    -------
    float
        Standard uncertainty of the gain. [-]

    Examples
    --------
    >>> round(gain_uncertainty(4_000.0, 120_000.0), 3)
    0.047

    References
    ----------
    JCGM 100:2008, 5.1.2, from memory.
    """
    require("uncertainty", point_uncertainty, 0.0, LARGEST_PRESSURE, "Pa")
    return math.sqrt(2.0) * point_uncertainty / require("span", gauge_span, 1.0e-3, LARGEST_PRESSURE, "Pa")


def en_number(difference: float, u_first: float, u_second: float) -> float:
    """Difference of two readings over its own expanded uncertainty.

    E_n = |d| / (2·sqrt(u1² + u2²))

    Parameters
    ----------
    difference : float
        First reading minus second, -1e7 to 1e7. [Pa]
    u_first, u_second : float
        Standard uncertainties of the two, 0 to 1e7 and not both 0. [Pa]

    Returns
    -------
    float
        E_n; above 1 the two do not agree. [-]

    Examples
    --------
    >>> round(en_number(-3_500.0, 1_500.0, 500.0), 3)
    1.107

    References
    ----------
    [ISO13528], E_n score with k = 2.
    """
    require("difference", difference, -LARGEST_PRESSURE, LARGEST_PRESSURE, "Pa")
    require("uncertainty", u_first, 0.0, LARGEST_PRESSURE, "Pa")
    require("uncertainty", u_second, 0.0, LARGEST_PRESSURE, "Pa")
    expanded = 2.0 * math.hypot(u_first, u_second)
    if expanded == 0.0:
        raise OutOfRange("both uncertainties are 0 Pa")
    return abs(difference) / expanded
