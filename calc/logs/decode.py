"""Bytes to lines of text: what is too large, empty or no text is refused at once."""

import re
from codecs import BOM_UTF16_BE, BOM_UTF16_LE

from calc.errors import UnreadableLog

MAX_BYTES = 32_000_000
MAX_LINE = 65_536
LOOKED_AT = 65_536
MOST_CONTROL_SIGNS = 0.002  # share of signs below the space, other than tab and line ends
KNOWN_FILES = {
    b"PK\x03\x04": "a spreadsheet or archive; save the table as text (CSV)",
    b"%PDF": "a PDF",
    b"\x1f\x8b": "a compressed file; unpack it first",
    b"\x89PNG": "a picture",
    b"\xff\xd8\xff": "a picture",
    b"\xd0\xcf\x11\xe0": "an old spreadsheet; save the table as text (CSV)",
    b"SQLite format 3": "a database",
}
_CONTROL = re.compile(r"[\x00-\x08\x0e-\x1a\x1c-\x1f\x7f]")


def decode(data: bytes) -> str:
    """Text of a log with line feeds alone at its line ends: UTF-8, UTF-16 with a mark, or Windows-1252.

    Raises UnreadableLog for what is empty, above 32 MB, binary, or has a line above 64 KB.
    """
    if len(data) > MAX_BYTES:
        raise UnreadableLog(f"the file has over {MAX_BYTES // 10**6} MB; a log may have as much")
    for mark, what in KNOWN_FILES.items():
        if data.startswith(mark):
            raise UnreadableLog(f"the file is {what}, not a text table")
    if not data.startswith((BOM_UTF16_LE, BOM_UTF16_BE)):
        _refuse_long_lines(data)
    text = _decoded(data).replace("\r\n", "\n").replace("\r", "\n")
    if not text.strip():
        raise UnreadableLog("the file is empty")
    if len(_CONTROL.findall(text[:LOOKED_AT])) > MOST_CONTROL_SIGNS * min(len(text), LOOKED_AT):
        raise UnreadableLog("the file is binary, not a text table")
    return text


def _refuse_long_lines(data: bytes) -> None:
    at = data.find(b"\0")
    if at >= 0:
        raise UnreadableLog(f"the file is binary, not a text table (a zero byte at {at})")
    line_end = b"\n" if b"\n" in data else b"\r"
    start, number = 0, 1
    while len(data) - start > MAX_LINE:
        end = data.rfind(line_end, start, start + MAX_LINE)
        if end < 0:
            number += data.count(line_end, 0, start)
            raise UnreadableLog(f"line {number} is longer than {MAX_LINE // 1024} KB: not a text table")
        start = end + 1


def _decoded(data: bytes) -> str:
    if data.startswith((BOM_UTF16_LE, BOM_UTF16_BE)):
        try:
            return data.decode("utf-16")
        except UnicodeDecodeError:
            raise UnreadableLog("the file says that it is UTF-16 and is not") from None
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", errors="replace")
