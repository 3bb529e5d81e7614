"""What a fit says when the readings do not carry it."""

from calc.errors import CalcError


class CannotFit(CalcError):
    """The readings do not carry the fit asked for; the text says which and why."""
