"""Times that rise: rows without one, with the same one again, or with one that goes back are left out."""

import operator
from bisect import bisect_left
from collections.abc import Sequence
from itertools import pairwise

from calc.logs.left_out import LeftOut

WHOLE_SECONDS_SHARE = 0.25  # so many rows at the second of the one before: the clock shows seconds alone


def rising_rows(times: Sequence[float | None], left_out: LeftOut, what: str = "row") -> list[int] | None:
    """The rows to keep, None for all of them."""
    known = [row for row, when in enumerate(times) if when is not None]
    clean = [when for when in times if when is not None]
    if len(clean) == len(times) and all(map(operator.lt, clean, clean[1:])):
        return None
    left_out.add(what, "no time", len(times) - len(known))
    kept = _longest_rising(clean)
    rows = [known[place] for place in kept]
    seen = {times[row] for row in rows}
    again = sum(1 for row in known if times[row] in seen) - len(rows)
    left_out.add(what, "the same time again", again)
    left_out.add(what, "time goes back", len(known) - len(rows) - again)
    return rows


def spread_whole_seconds(times: list[float | None]) -> tuple[list[float | None], bool]:
    """Rows that share one whole second are spread evenly over it, where the clock shows no fractions."""
    known = [when for when in times if when is not None]
    same = sum(1 for a, b in pairwise(known) if a == b)
    if len(set(known)) < 2 or same < WHOLE_SECONDS_SHARE * len(known) or any(when % 1.0 for when in known):
        return times, False
    found = list(times)
    start = 0
    for row in range(1, len(times) + 1):
        if row == len(times) or times[row] != times[start]:
            count = row - start
            for place in range(count):
                when = times[start]
                found[start + place] = None if when is None else when + place / count
            start = row
    return found, True


def _longest_rising(values: Sequence[float]) -> list[int]:
    """Places of the longest strictly rising part (patience sorting): one wrong time costs one row."""
    tails: list[float] = []
    at: list[int] = []
    before: list[int] = []
    for place, value in enumerate(values):
        pile = bisect_left(tails, value)
        before.append(at[pile - 1] if pile else -1)
        if pile == len(tails):
            tails.append(value)
            at.append(place)
        else:
            tails[pile], at[pile] = value, place
    chain, place = [], at[-1] if at else -1
    while place >= 0:
        chain.append(place)
        place = before[place]
    return chain[::-1]
