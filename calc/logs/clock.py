"""Times as instruments write them, to seconds: numbers, clock times, dates with clock times."""

import re
from collections.abc import Sequence
from datetime import date
from itertools import pairwise
from math import inf
from statistics import median

from calc.errors import UnreadableLog
from calc.logs.numbers import number, quick
from calc.logs.units import UNITS, Unit

DAY_S = 86_400.0
_CLOCK = re.compile(
    r"(?:(?P<date>\d{4}-\d{1,2}-\d{1,2}|\d{1,2}[./]\d{1,2}[./]\d{2,4})[T ,]+)?"
    r"(?:(?P<h>\d{1,3}):)?(?P<m>\d{1,3}):(?P<s>\d{1,2})(?:[.,:](?P<f>\d{1,9}))?"
    r"\s*(?P<half>[AaPp][Mm])?\s*(?:Z|[+-]\d{2}:?\d{2})?\Z"
)


def is_clock(cell: str) -> bool:
    """Whether a cell holds a clock time, a date before it or not."""
    return ":" in cell and _CLOCK.match(cell) is not None


def seconds(cells: Sequence[str], unit: Unit | None) -> tuple[list[float | None], str, float]:
    """A column of times in seconds, the unit it was read in, and how certain that is.

    Cells that hold no time are None. Raises UnreadableLog where no cell does.
    """
    if any(is_clock(cell.strip()) for cell in cells[:20]):
        return _over_midnight([_clock(cell) for cell in cells]), "clock", 0.98
    values: Sequence[float | None] = quick(cells) or [number(cell) for cell in cells]
    known = [value for value in values if value is not None]
    if not known:
        raise UnreadableLog("the column of times holds no time")
    chosen, certainty = (unit, 0.98) if unit is not None and unit.name != "clock" else _by_steps(known)
    if chosen.factor == 1.0:
        return list(values), chosen.name, certainty
    return [None if value is None else value * chosen.factor for value in values], chosen.name, certainty


def _clock(cell: str) -> float | None:
    found = _CLOCK.match(cell.strip())
    if found is None:
        return None
    hours = int(found["h"] or 0)
    if found["half"]:
        hours = hours % 12 + (12 if found["half"].casefold() == "pm" else 0)
    fraction = float(f"0.{found['f']}") if found["f"] else 0.0
    whole = 3600 * hours + 60 * int(found["m"]) + int(found["s"])
    return _day(found["date"]) * DAY_S + whole + fraction


def _day(text: str | None) -> int:
    if text is None:
        return 0
    parts = [int(part) for part in re.split(r"[-./]", text)]
    try:
        year, month, day = parts if parts[0] > 31 else reversed(parts)
        return date(year + 2000 if year < 100 else year, month, day).toordinal()
    except ValueError:
        return 0


def _over_midnight(times: list[float | None]) -> list[float | None]:
    """A clock that falls by nearly a day has passed midnight."""
    found: list[float | None] = []
    add, last = 0.0, -inf
    for when in times:
        if when is not None:
            if when + add < last - DAY_S / 2.0:
                add += DAY_S
            last = when + add
            found.append(last)
        else:
            found.append(None)
    return found


def _by_steps(known: Sequence[float]) -> tuple[Unit, float]:
    """The unit by the usual step: a log has some rows a second."""
    steps = [b - a for a, b in pairwise(known) if b > a]
    step = median(steps) if steps else 1.0
    if step >= 5_000.0:
        return UNITS["us"], 0.7
    if step >= 5.0:
        return UNITS["ms"], 0.9 if step >= 10.0 else 0.6
    if step < 5e-4 and known[0] > 20_000.0:
        return UNITS["days"], 0.7
    return UNITS["s"], 0.9 if step <= 2.0 else 0.6
