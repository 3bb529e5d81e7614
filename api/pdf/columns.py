"""Columns of about equal height, made here: the typesetter's own balancing takes several times as long."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import accumulate
from math import ceil, fsum
from typing import TypeVar

from api.pdf.readings import Section, Table

Item = TypeVar("Item")
LABEL_SIGNS, VALUE_SIGNS = 26, 20  # that fit on a line of the narrowest column
HEADING_LINES = 2.0
LONGEST = 14  # rows of a table that stay together


def columns(items: Iterable[Item], count: int, lines: Callable[[Item], float]) -> list[list[Item]]:
    """The items in `count` columns of about equal height, each column in the order given.

    The tallest is placed first, each goes to the column that is shortest so far.

    >>> columns([1, 3, 1, 1, 3], 3, float)
    [[3], [3], [1, 1, 1]]
    """
    listed = list(items)
    places: list[list[int]] = [[] for _ in range(count)]
    heights = [0.0] * count
    for place in sorted(range(len(listed)), key=lambda place: -lines(listed[place])):
        shortest = heights.index(min(heights))
        places[shortest].append(place)
        heights[shortest] += lines(listed[place])
    return [[listed[place] for place in sorted(column)] for column in places]


def halves(items: Sequence[Item], lines: Callable[[Item], float]) -> list[Sequence[Item]]:
    """The items in two columns, read down the first and then the second.

    >>> halves(["a", "b", "c"], len)
    [['a', 'b'], ['c']]
    """
    half = fsum(lines(item) for item in items) / 2
    before = accumulate((lines(item) for item in items), initial=0.0)
    first = sum(1 for height in list(before)[:-1] if height < half)
    return [items[:first], items[first:]]


def pieces(sections: Iterable[Section]) -> Iterator[Section]:
    """The sections with their long tables set apart, so that no piece is taller than a column should be."""
    for section in sections:
        short = [table for table in section.tables if len(table.rows) <= LONGEST]
        yield Section(section.title, section.rows, short)
        for table in section.tables:
            if len(table.rows) > LONGEST:
                yield from _parts(section.title, table)


def _parts(title: str, table: Table) -> Iterator[Section]:
    for start in range(0, len(table.rows), LONGEST):
        part = Table(table.title, table.head, table.rows[start : start + LONGEST])
        yield Section(title, [], [part])


def section_lines(section: Section) -> float:
    """About how many lines a section takes in a narrow column."""
    rows = [
        max(ceil(len(name) / LABEL_SIGNS), ceil(len(value) / VALUE_SIGNS)) for name, value in section.rows
    ]
    return HEADING_LINES + float(sum(rows)) + sum(len(table.rows) + HEADING_LINES for table in section.tables)


def packed_lines(section: Section) -> float:
    """Likewise where its readings stand one behind the other."""
    signs = sum(len(name) + len(value) + 5 for name, value in section.rows)
    tables = sum(len(table.rows) + HEADING_LINES for table in section.tables)
    return HEADING_LINES + ceil(signs / (LABEL_SIGNS + VALUE_SIGNS)) + float(tables)


def text_lines(text: str) -> float:
    """About how many lines a text takes in half of the page."""
    return float(ceil(len(text) / 48))
