"""Vehicle identification number: its letters and its check digit.

[49CFR565] US Code of Federal Regulations, 49 CFR 565.15(c), Tables III to V; public copies seen.
[ISO3779] ISO 3779:2009, structure of the number, from memory.
"""

from math import fsum

from calc.errors import OutOfRange

LENGTH = 17
CHECK_PLACE = 8
WEIGHTS = (8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2)
VALUES = {
    **{str(digit): digit for digit in range(10)},
    **{letter: value for value, letter in enumerate("ABCDEFGH", start=1)},
    **{letter: value for value, letter in enumerate("JKLMN", start=1)},
    "P": 7,
    "R": 9,
    **{letter: value for value, letter in enumerate("STUVWXYZ", start=2)},
}


def weighted_sum(vin: str) -> int:
    """Sum of the products of values and weights over a number.

    S = Σ value_i · weight_i

    Parameters
    ----------
    vin : str
        17 capital letters and digits without I, O and Q. [-]

    Returns
    -------
    int
        The sum. [-]

    Notes
    -----
    Raises OutOfRange for another length or letter.

    Examples
    --------
    >>> weighted_sum("11111111111111111")
    89

    References
    ----------
    [49CFR565], Tables III and IV.
    """
    if len(vin) != LENGTH:
        raise OutOfRange(f"vehicle identification number of {len(vin)} characters is not of {LENGTH}")
    strangers = sorted({letter for letter in vin if letter not in VALUES})
    if strangers:
        raise OutOfRange(f"vehicle identification number holds {' '.join(strangers)}, which no number holds")
    return round(fsum(VALUES[letter] * weight for letter, weight in zip(vin, WEIGHTS, strict=True)))


def check_digit(vin: str) -> str:
    """The check digit that belongs at the ninth place of a number.

    S mod 11, written X for 10

    Parameters
    ----------
    vin : str
        17 capital letters and digits without I, O and Q; what stands at the ninth place does not count. [-]

    Returns
    -------
    str
        One of 0 to 9 and X. [-]

    Examples
    --------
    >>> check_digit("11111111111111111")
    '1'

    References
    ----------
    [49CFR565], Table V.
    """
    return "0123456789X"[weighted_sum(vin) % 11]


def check_digit_fits(vin: str) -> bool:
    """Whether a number carries its own check digit.

    vin[9] = check digit

    Parameters
    ----------
    vin : str
        17 capital letters and digits without I, O and Q. [-]

    Returns
    -------
    bool
        True where it does. [-]

    Notes
    -----
    Obligatory in North America only ([ISO3779] asks for none): elsewhere a mismatch is a hint, no error.

    Examples
    --------
    >>> check_digit_fits("11111111111111111")
    True

    References
    ----------
    [49CFR565], Table V.
    """
    return vin[CHECK_PLACE : CHECK_PLACE + 1] == check_digit(vin)
