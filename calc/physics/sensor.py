"""Charge pressure sensor: the pressure that its signal means, and the signal that a pressure calls for."""

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
