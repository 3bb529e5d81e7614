"""The data rows of a table to columns: numbers for channels, text for times; odd rows told apart."""

import csv
from collections.abc import Container, Sequence
from itertools import islice

from calc.errors import UnreadableLog
from calc.logs.left_out import LeftOut
from calc.logs.numbers import is_gap, number, quick
from calc.logs.table import Table

CHUNK = 1024


class Columns:
    """The columns asked for, filled chunk by chunk so that a long log never stands in memory as text."""

    def __init__(
        self, table: Table, numeric: Sequence[int], text: Sequence[int], left_out: LeftOut, *, pad: bool
    ) -> None:
        self.table, self.left_out, self.pad = table, left_out, pad
        self.numbers: dict[int, list[float | None]] = {column: [] for column in numeric}
        self.texts: dict[int, list[str]] = {column: [] for column in text}
        self.odd: list[tuple[int, int, str]] = []  # column, row and text of cells that hold no number
        self._read()

    def _read(self) -> None:
        lines, width = self.table.body, len(self.table.headers)
        if any('"' in line for line in lines):
            self._read_quoted(width)
            return
        sign = self.table.delimiter
        for start in range(0, len(lines), CHUNK):
            chunk, line = lines[start : start + CHUNK], self.table.first_line + start
            if {one.count(sign) for one in chunk} == {width - 1}:
                cells = sign.join(chunk).split(sign)
                self._take([cells[column::width] for column in range(width)])
            else:
                self._take_rows([one.split(sign) if one else [] for one in chunk], width, line)

    def _read_quoted(self, width: int) -> None:
        rows, line = self.table.rows(), self.table.first_line
        try:
            while chunk := list(islice(rows, CHUNK)):
                self._take_rows(chunk, width, line)
                line += len(chunk)
        except csv.Error as error:
            raise UnreadableLog(f"the table breaks off near line {line}: {error}") from None

    def _take_rows(self, rows: list[list[str]], width: int, line: int) -> None:
        good = self._fitted(rows, width, line)
        if good:
            self._take(list(zip(*good, strict=True)))

    def _take(self, columns: Sequence[Sequence[str]]) -> None:
        for column, values in self.numbers.items():
            values.extend(self._numbers(columns[column], column))
        for column, texts in self.texts.items():
            texts.extend(columns[column])

    def account_for_odd_cells(self, kept: Container[int] | None) -> None:
        """Count the cells that hold no number, in the rows that were kept; None for all rows."""
        for column, row, text in self.odd:
            if kept is None or row in kept:
                name = self.table.headers[column].name
                why = "a mark for no value" if is_gap(text) else "text in a number cell"
                self.left_out.add("cell", why, 1, name, first=text[:40])

    def _numbers(self, cells: Sequence[str], column: int) -> Sequence[float | None]:
        if self.table.quoted_comma:
            cells = [cell.replace(",", ".") for cell in cells]
        clean = None if self.table.careful else quick(cells)
        if clean is not None:
            return clean
        first = len(self.numbers[column])
        return [self._number(cell, column, row) for row, cell in enumerate(cells, first)]

    def _number(self, cell: str, column: int, row: int) -> float | None:
        text = cell.strip()
        if not text:
            return None
        found = number(text)
        if found is None:
            self.odd.append((column, row, text))
        return found

    def _fitted(self, chunk: list[list[str]], width: int, line: int) -> list[list[str]]:
        """Rows of the right width; the others cut, filled up or left out, with why."""
        good = []
        for place, row in enumerate(chunk):
            if len(row) == width:
                good.append(row)
                continue
            if not any(cell.strip() for cell in row):
                self.left_out.add("row", "empty line", 1, first_line=line + place)
            elif len(row) > width and not any(cell.strip() for cell in row[width:]):
                good.append(row[:width])
            elif len(row) < width and len(row) > 1 and self.pad:
                good.append([*row, *[""] * (width - len(row))])
            else:
                why = "fewer cells than the header" if len(row) < width else "more cells than the header"
                self.left_out.add("row", why, 1, first_line=line + place, first=" ".join(row)[:60])
        return good
