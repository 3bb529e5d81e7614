"""Cells to numbers: the quick way for clean columns, cell by cell where a column is not."""

import re
from collections.abc import Sequence

BEYOND = 1.0e12  # no reading is as large; times in microseconds since 1970 are read apart
GAP_MARKS = frozenset(
    (
        "-",
        "--",
        "---",
        "----",
        "n/a",
        "na",
        "nan",
        "null",
        "none",
        "#n/a",
        "#nv",
        "#n/v",
        "k.a.",
        "n.v.",
        "?",
        ".",
    )
)
PLAIN = re.compile(r"[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d+)?\Z")
_GROUPED = re.compile(r"[+-]?\d{1,3}(?:([ '\u00a0\u202f.,])\d{3})(?:\1\d{3})*(?:[.,]\d+)?\Z")
_WITH_UNIT = re.compile(
    r"([+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d+)?)(?:\s+[^\W\d_][\w°/%.]*|\s*%|\s*°\w?)\Z"
)
_APART = re.compile("[ '\u00a0\u202f]")


def is_number(cell: str) -> bool:
    """Whether a cell holds a number: with point or comma, in groups, with a unit behind it."""
    return PLAIN.match(cell) is not None or number(cell) is not None


def is_gap(cell: str) -> bool:
    """Whether a cell is empty or holds a mark for 'nothing'."""
    return not cell or cell.casefold() in GAP_MARKS


def quick(cells: Sequence[str]) -> list[float] | None:
    """A column of clean cells; None where one of them is no number within reach.

    Not for text with `_` or `nan` in it, which `float` takes for numbers: see `needs_care`.
    """
    try:
        found = list(map(float, cells))
    except ValueError:
        return None
    return found if max(found) < BEYOND and min(found) > -BEYOND else None


def needs_care(text: str) -> bool:
    """Whether a text holds something that `float` would take for a number and a reader would not."""
    return any(sign in text for sign in ("_", "nan", "NaN", "NAN", "Nan"))


def number(cell: str) -> float | None:
    """One cell: grouped thousands, a unit behind the number, a decimal comma; None for anything else."""
    text = cell.strip().replace("\N{MINUS SIGN}", "-")
    if _GROUPED.match(text):
        text = _ungrouped(text)
    elif (found := _WITH_UNIT.match(text)) is not None:
        text = found[1]
    if not PLAIN.match(text):
        return None
    value = float(text.replace(",", "."))
    return value if abs(value) < BEYOND else None


def _ungrouped(text: str) -> str:
    """Thousands' signs out: of points and commas the last that is not followed by three digits stays."""
    text = _APART.sub("", text)
    signs = [sign for sign in text if sign in ".,"]
    if len(set(signs)) == 2:
        return text.replace(signs[0], "")
    return text.replace(signs[0], "") if len(signs) > 1 else text
