"""One refusal for every formula: a number outside the range that the formula describes."""

import sys

from calc.errors import OutOfRange

TINIEST = sys.float_info.min  # smallest normal float: "more than nothing"
LARGEST = sys.float_info.max


def require(name: str, value: float, low: float, high: float, unit: str = "") -> float:
    """Hand the value on, or refuse it because it lies outside a range.

    low <= value <= high

    Parameters
    ----------
    name : str
        What the value is, as the message shall call it. [-]
    value : float
        The number to look at. [any]
    low, high : float
        The ends of the range; both belong to it. [as value]
    unit : str, optional
        Printed behind the numbers of the message. [-]

    Returns
    -------
    float
        The value as a float. [as value]

    Notes
    -----
    Raises OutOfRange with the number and the limits; not-a-number and infinity never lie inside a
    finite range.

    Examples
    --------
    >>> require("temperature", 293.15, 150.0, 2000.0, "K")
    293.15

    References
    ----------
    A rule of this house, no outside source.
    """
    if low <= value <= high:
        return float(value)
    raise OutOfRange(
        f"{name} {_shown(value)} {unit}".rstrip() + f" is outside {low:g} to {high:g} {unit}".rstrip()
    )


def _shown(value: float) -> str:
    if abs(value) <= LARGEST:
        return f"{value:.9g}"
    return "(too large a number)" if abs(value) > LARGEST else "(not a number)"
