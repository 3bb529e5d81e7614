"""Pressure units and kelvin. Nothing here ever adds a barometer inside a unit conversion.

[SP811] NIST Special Publication 811 (2008), Appendix B, factors, from memory.
[ISO80000-4] ISO 80000-4:2019, Mechanics, from memory.
"""

from calc.errors import OutOfRange
from calc.physics.air import ICE_POINT, STANDARD_GRAVITY, STANDARD_PRESSURE
from calc.physics.bounds import require

INCH = 0.0254  # m, exact
POUND = 0.45359237  # kg, exact
MERCURY = 13_595.1  # kg/m3, conventional, by which the conventional mmHg is defined
WATER = 1_000.0  # kg/m3, conventional

PASCAL_PER = {
    "Pa": 1.0,
    "hPa": 100.0,
    "mbar": 100.0,
    "kPa": 1_000.0,
    "bar": 100_000.0,
    "MPa": 1_000_000.0,
    "psi": POUND * STANDARD_GRAVITY / INCH**2,
    "kgf/cm2": STANDARD_GRAVITY * 10_000.0,
    "atm": STANDARD_PRESSURE,
    "torr": STANDARD_PRESSURE / 760.0,
    "mmHg": MERCURY * STANDARD_GRAVITY * 0.001,
    "inHg": MERCURY * STANDARD_GRAVITY * INCH,
    "inHg 60 degF": 3_376.85,
    "inH2O": WATER * STANDARD_GRAVITY * INCH,
}
LARGEST = 1.0e12  # Pa: beyond this a number is no pressure


def convert(value: float, from_unit: str, to_unit: str) -> float:
    """The same pressure in another unit.

    value · (pascal per from_unit) / (pascal per to_unit)

    Parameters
    ----------
    value : float
        Pressure, -1e12 to 1e12; gauge stays gauge and absolute stays absolute. [from_unit]
    from_unit, to_unit : str
        Names in `PASCAL_PER`. [-]

    Returns
    -------
    float
        Pressure. [to_unit]

    Notes
    -----
    Raises OutOfRange for an unknown unit. `mmHg` and `inHg` are the conventional ones (0 degC), which
    differ from the torr in the seventh digit and from the 60 degF inch in the third.

    Examples
    --------
    >>> round(convert(1.5, "bar", "psi"), 8)
    21.75566066

    References
    ----------
    [SP811] Appendix B.8 and B.9; [ISO80000-4] item 4-14.1.
    """
    require("pressure", value, -LARGEST, LARGEST, from_unit)
    return value * _pascal_per(from_unit) / _pascal_per(to_unit)


def _pascal_per(unit: str) -> float:
    if unit not in PASCAL_PER:
        raise OutOfRange(f"unit {unit!r} is not one of {', '.join(PASCAL_PER)}")
    return PASCAL_PER[unit]


def kelvin(celsius: float) -> float:
    """Thermodynamic temperature from degrees Celsius.

    T = t + 273.15

    Parameters
    ----------
    celsius : float
        Temperature, -273.15 to 5 000. [degC]

    Returns
    -------
    float
        Temperature. [K]

    Examples
    --------
    >>> kelvin(20.0)
    293.15

    References
    ----------
    [SP811] Appendix B.8, exact.
    """
    return require("temperature", celsius, -ICE_POINT, 5_000.0, "degC") + ICE_POINT
