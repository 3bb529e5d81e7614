"""Rounding on the way out, so that the same job gives the same bytes everywhere."""

from collections.abc import Sequence
from math import floor, fsum

PLACES = 10_000


def significant(value: float | None, digits: int) -> float | None:
    """The value to so many significant digits; None stays None, minus nought becomes nought."""
    return None if value is None else float(f"{value:.{digits}g}") + 0.0


def shares(probabilities: Sequence[float]) -> list[float]:
    """Probabilities to 4 places by largest remainder: they sum to 1 exactly, as counted in ten-thousandths.

    >>> shares([0.33333, 0.33333, 0.33334])
    [0.3333, 0.3333, 0.3334]
    """
    total = fsum(probabilities)
    exact = [share / total * PLACES for share in probabilities]
    whole = [floor(share) for share in exact]
    order = sorted(range(len(exact)), key=lambda index: (whole[index] - exact[index], index))
    for index in order[: PLACES - int(fsum(whole))]:
        whole[index] += 1
    return [count / PLACES for count in whole]
