"""CSV (RFC 4180) that a spreadsheet may open: text that looks like a formula is quoted, numbers are not."""

import csv
import io
import re
from collections.abc import Iterable, Sequence

from api.people.language import tell

# What a spreadsheet starts to calculate at (OWASP ASVS 5.0, 1.2.10), and the sign that tells it not to.
FORMULA = re.compile(r"[=+\-@\t\r\n\0]|\s+[=+\-@]")
NUMBER = re.compile(r"-?\d+(\.\d+)?")
TEXT_MARK = "'"
BYTE_ORDER_MARK = "\ufeff"  # by which spreadsheets know UTF-8
LONGEST_FIELD = 10_000


class NoSheetError(ValueError):
    """The bytes are no table of the columns wanted."""


def written(columns: Sequence[str], rows: Iterable[Sequence[str | None]]) -> bytes:
    """The table's bytes. `-0.35` is a reading and stays as it is; `-0.35+cmd` is text and is quoted."""
    lines = (",".join(_written(cell or "") for cell in row) for row in (columns, *rows))
    return (BYTE_ORDER_MARK + "".join(f"{line}\r\n" for line in lines)).encode()


def read(data: bytes, columns: Sequence[str], most_rows: int) -> list[dict[str, str]]:
    """The rows by column; more columns than wanted are passed over.

    Raises
    ------
    NoSheetError
    """
    try:
        lines = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise NoSheetError(tell("sheet.not_utf8")) from None
    try:
        return _rows(lines, columns, most_rows)
    except csv.Error as error:
        raise NoSheetError(tell("sheet.no_table", why=error)) from None


def _rows(lines: str, columns: Sequence[str], most_rows: int) -> list[dict[str, str]]:
    if "\0" in lines:
        raise NoSheetError(tell("sheet.no_text"))
    csv.field_size_limit(LONGEST_FIELD)
    reader = csv.DictReader(io.StringIO(lines, newline=""), strict=True)
    missing = [column for column in columns if column not in (reader.fieldnames or ())]
    if missing:
        raise NoSheetError(tell("sheet.columns", columns=", ".join(missing)))
    rows: list[dict[str, str]] = []
    for row in reader:
        if len(rows) == most_rows:
            raise NoSheetError(tell("sheet.rows", most=most_rows))
        rows.append({column: _plain(row[column] or "") for column in columns})
    return rows


def _written(cell: str) -> str:
    """A number bare, any other text in quotes: some spreadsheets part a bare one at its semicolons too."""
    if NUMBER.fullmatch(cell):
        return cell
    marked = TEXT_MARK + cell if FORMULA.match(cell) else cell
    return '"' + marked.replace('"', '""') + '"'


def _plain(cell: str) -> str:
    return cell[1:] if cell.startswith(TEXT_MARK) and FORMULA.match(cell[1:]) else cell
