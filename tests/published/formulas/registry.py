"""The formulas that a row may name, and what they share."""

from collections.abc import Callable

from calc.physics import orifice

Formula = Callable[..., float | str]

FORMULAS: dict[str, Formula] = {}
P0 = 101_325.0  # Pa, the atmosphere that the rows take unless they name one
BAR, LITRE, MM = 1.0e5, 1.0e-3, 1.0e-3


def formula(function: Formula) -> Formula:
    FORMULAS[function.__name__] = function
    return function


def absolute(bar_gauge: float) -> float:
    return bar_gauge * BAR + P0


def hole(d_mm: float, cd: float = 0.62) -> float:
    return cd * orifice.hole_area(d_mm * MM)
