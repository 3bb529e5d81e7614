"""Lines to a table: delimiter, decimal sign, preamble, header, units, where the data begin."""

import csv
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice
from math import fsum

from calc.errors import UnreadableLog
from calc.logs.clock import is_clock
from calc.logs.numbers import is_gap, is_number, needs_care
from calc.logs.units import trailing_unit, unit_of
from calc.logs.words import Header

DELIMITERS = (";", "\t", ",")
SAMPLE_LINES = 600
MAX_COLUMNS, MAX_ROWS = 1_000, 1_000_000
HEADER_LINES = 4
_BRACKETS = re.compile(r"\s*[\[({<]([^\[\](){}<>]*(?:\([^()]*\))?)[\])}>]\s*")
_POINT, _COMMA = re.compile(r"\d\.\d"), re.compile(r"\d,\d")


@dataclass(frozen=True, slots=True)
class Table:
    """A table found in a text.

    headers : one a column, names made different where two are the same. [-]
    careful : whether the text holds what `float` would wrongly take for a number. [-]
    preamble : the lines before the header. [-]
    first_line : number of the first data line in the file. [-]
    """

    headers: list[Header]
    preamble: list[str]
    delimiter: str
    comma: bool
    grouped: bool
    quoted_comma: bool
    careful: bool
    body: list[str]
    first_line: int

    def rows(self) -> Iterator[list[str]]:
        """The data rows as cells, decimal commas still in them where they stand in quotes."""
        return csv.reader(self.body, delimiter=self.delimiter)


def find_table(text: str) -> Table:
    """The table in a text; raises UnreadableLog where there is none, or it has no header."""
    lines = text.split("\n")
    if len(lines) > MAX_ROWS:
        raise UnreadableLog(f"the file has {len(lines)} lines; a log may have {MAX_ROWS}")
    sample = lines[:SAMPLE_LINES]
    delimiter, rows, first = _best_reading(sample)
    header_row, unit_row, top = _header(rows, first)
    width = len(rows[first])
    if width > MAX_COLUMNS:
        raise UnreadableLog(f"the table has {width} columns; a log may have {MAX_COLUMNS}")
    names = _names(rows, header_row, top, width)
    units = rows[unit_row] if unit_row is not None else []
    headers = [
        _headed(name, units[column] if column < len(units) else "") for column, name in enumerate(names)
    ]
    body = lines[first:]
    while not body[-1].strip():
        body.pop()
    comma, grouped = _decimal_comma(rows[first:], delimiter)
    if comma and delimiter != ",":
        joined = "\n".join(body)
        body = (joined.replace(".", "") if grouped else joined).replace(",", ".").split("\n")
    return Table(
        headers=_made_different(headers),
        preamble=lines[: min(top, header_row)],
        delimiter=delimiter,
        comma=comma,
        grouped=grouped,
        quoted_comma=comma and delimiter == ",",
        careful=needs_care(text),
        body=body,
        first_line=first + 1,
    )


def _best_reading(sample: list[str]) -> tuple[str, list[list[str]], int]:
    """Delimiter, the sample's rows by it, and the first data row."""
    best: tuple[float, str, list[list[str]], int] | None = None
    for delimiter in DELIMITERS:
        rows = _split(sample, delimiter)
        if rows is None:
            continue
        first, score = _data_start(rows)
        if first is not None and (best is None or score > best[0]):
            best = (score, delimiter, rows, first)
    if best is None:
        raise UnreadableLog(
            "no table of numbers was found: columns parted by comma, semicolon or tab are read"
        )
    return best[1:]


def _split(sample: list[str], delimiter: str) -> list[list[str]] | None:
    """Each line by itself, so that a stray quote mark costs one line."""
    rows = []
    for line in sample:
        try:
            rows.append([cell.strip() for cell in next(csv.reader([line], delimiter=delimiter), [])])
        except csv.Error:
            rows.append([])
    return rows if any(len(row) > 1 for row in rows) else None


def _data_start(rows: list[list[str]]) -> tuple[int | None, float]:
    """First row of data, and how well the rows read: share of numbers, squared, summed."""
    shares = [_share(row) for row in rows]
    widths = Counter(
        len(row) for row, share in zip(rows, shares, strict=True) if share >= 0.5 and len(row) > 1
    )
    if not widths:
        return None, 0.0
    width = max(widths, key=lambda size: (widths[size], size))
    good = [
        share >= 0.5 and len(row) in (width, width + 1, width - 1) and len(row) > 1
        for row, share in zip(rows, shares, strict=True)
    ]
    if sum(1 for one in good if one) < 2:
        return None, 0.0
    first = next(
        at
        for at, one in enumerate(good)
        if one and len(rows[at]) == width and _goes_on(good[at + 1 : at + 8])
    )
    score = max(shares) ** 2 * 1e-9 + fsum(share**2 for share, one in zip(shares, good, strict=True) if one)
    return first, score


def _goes_on(following: list[bool]) -> bool:
    return not following or sum(1 for one in following if one) * 2 >= len(following)


def _share(row: list[str]) -> float:
    """Share of a row's filled cells that are numbers or clock times; gap marks count for neither."""
    filled = [cell for cell in row if not is_gap(cell)]
    if not filled:
        return 0.0
    return sum(1 for cell in filled if is_number(cell) or is_clock(cell)) / len(filled)


def _header(rows: list[list[str]], first: int) -> tuple[int, int | None, int]:
    """Row of names, row of units or None, and the uppermost row that belongs to the header."""
    above = [at for at in range(first - 1, -1, -1) if any(rows[at])][:HEADER_LINES]
    width, unit_row, header_row = len(rows[first]), None, None
    for at in above:
        if len(rows[at]) * 2 < width or _share(rows[at]) > 0.5:
            break
        if header_row is None and unit_row is None and _are_units(rows[at]):
            unit_row = at
        elif header_row is None:
            header_row = at
        else:
            return header_row, unit_row, _group_row(rows, at, header_row, width)
    if header_row is None:
        raise UnreadableLog("the table has no header row: the names of its columns are needed")
    if unit_row is None and header_row + 1 < first:
        unit_row = None
    return header_row, unit_row, header_row


def _group_row(rows: list[list[str]], at: int, header_row: int, width: int) -> int:
    """A row of groups above the names, where it is as wide as the table and names fewer than all."""
    filled = sum(1 for cell in rows[at] if cell)
    twice = len(set(rows[header_row])) < len(rows[header_row])
    return at if len(rows[at]) >= width - 1 and filled >= 2 and twice and filled < width else header_row


def _are_units(row: list[str]) -> bool:
    filled = [cell for cell in row if cell]
    return bool(filled) and sum(1 for cell in filled if unit_of(cell) is not None) * 2 >= len(filled)


def _names(rows: list[list[str]], header_row: int, top: int, width: int) -> list[str]:
    names = [*rows[header_row], *[""] * width][: max(width, len(rows[header_row]))][:width]
    if top < header_row:
        group, groups = "", []
        for cell in [*rows[top], *[""] * width][:width]:
            group = cell or group
            groups.append(group)
        names = [f"{group} {name}".strip() for group, name in zip(groups, names, strict=True)]
    return [name or f"column {number}" for number, name in enumerate(names, start=1)]


def _headed(name: str, unit_cell: str) -> Header:
    """A column's name and unit: from the row of units, else from brackets, else from its last word."""
    unit = unit_of(unit_cell) if unit_cell else None
    bare = name
    for found in _BRACKETS.finditer(name):
        inside = unit_of(found[1])
        if inside is not None:
            bare = " ".join((name[: found.start()] + " " + name[found.end() :]).split())
            unit = unit or inside
            break
    else:
        shorter, behind = trailing_unit(name)
        if behind is not None and (unit is None or unit.family == behind.family):
            bare, unit = shorter, unit or behind
    return Header(name, Header.of(bare, unit).words, unit)


def _made_different(headers: list[Header]) -> list[Header]:
    seen: Counter[str] = Counter()
    found = []
    for header in headers:
        seen[header.name] += 1
        name = header.name if seen[header.name] == 1 else f"{header.name} ({seen[header.name]})"
        found.append(Header(name, header.words, header.unit))
    return found


def _decimal_comma(rows: list[list[str]], delimiter: str) -> tuple[bool, bool]:
    """Whether numbers have a decimal comma, and whether points group their thousands."""
    cells = [
        cell for row in islice(rows, 200) for cell in row if is_number(cell) or re.match(r"[\d.,]+\Z", cell)
    ]
    commas = sum(1 for cell in cells if _COMMA.search(cell))
    points = sum(1 for cell in cells if _POINT.search(cell))
    both = sum(1 for cell in cells if re.fullmatch(r"\d{1,3}(?:\.\d{3})+,\d+", cell))
    return commas > points - both and commas > 0, both > 0
