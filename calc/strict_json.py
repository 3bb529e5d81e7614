"""JSON text into values, every break kept at its place, so that the first in document order can be named.

A break is not raised but left standing in the value: `Broken` where a value is none, `Pairs` where a key
stands twice, `Torn` where the text stops making sense and the rest of it is unknown. `calc.walk` names them.
"""

import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import accumulate, chain

from calc.contract import MAX_BYTES, MAX_DEPTH
from calc.errors import BrokenDocument

_MARK = b"\xef\xbb\xbf"
_LONGEST_DIGITS = 310  # the largest finite float has 309 digits before the point
_DIGITS = bytes.maketrans(b"0123456789", b"0" * 10)
_NOT_BRACKETS = bytes(byte for byte in range(256) if byte not in b'"[]{}')
_STEP = {ord("["): 1, ord("{"): 1, ord("]"): -1, ord("}"): -1}
_SPACE = re.compile(r"[ \t\r\n]*")
_TEXT_OR_BRACKET = re.compile(r'"[^"\\]*+(?:\\.[^"\\]*+)*+"?|[\[\]{}]', re.DOTALL)
_TEXT_OR_RUN = re.compile(rb'"[^"]*"?|([^"]+)')
_ESCAPE = re.compile(
    r"\\(?:u[dD][89abAB][0-9a-fA-F]{2}\\u[dD][c-fC-F][0-9a-fA-F]{2}|(u[dD][89a-fA-F][0-9a-fA-F]{2})|.)"
)


@dataclass(frozen=True)
class Broken:
    """Stands where a value should be; the reason is named at its place."""

    reason: str


@dataclass(frozen=True)
class Torn:
    """Last in an object or list whose rest is unknown; the reason is named at the object or list."""

    reason: str


@dataclass(frozen=True)
class Pairs:
    """An object as it stands in the text: with keys that stand twice, or whose rest is unknown."""

    pairs: list[tuple[str, object]]
    torn: bool = False


class TornList(list[object]):
    """A list whose rest is unknown."""


def parse(data: bytes) -> tuple[object, str]:
    """Read a JSON text in UTF-8.

    Returns the value, breaks marked in it, and what is wrong behind it ("" for nothing).
    Raises BrokenDocument where there is no text at all, or too much of it.
    """
    if len(data) > MAX_BYTES:
        raise BrokenDocument("", f"larger than {MAX_BYTES // 1_000_000} MB")
    text, cut = _decoded(data.removeprefix(_MARK))
    if not text.strip(" \t\r\n") and not cut:
        raise BrokenDocument("", "empty: there is no job document in it")
    if "\\u" in text:
        text = _ESCAPE.sub(_without_lone_surrogate, text)
    if not cut and _deeper_than_allowed(data):
        text, cut = _cut_at_depth(text)
    if cut:
        return _Salvage(text, cut).document()
    try:
        return _decoder(data).decode(text), ""
    except (ValueError, RecursionError):
        return _Salvage(text, "").document()


def _decoded(data: bytes) -> tuple[str, str]:
    """Return the text, and why it is cut short where it is not UTF-8."""
    try:
        return data.decode(), ""
    except UnicodeDecodeError as error:
        text = data[: error.start].decode()
        return text, f"not UTF-8 text {_line_and_column(text, len(text))}"


def _without_lone_surrogate(escape: re.Match[str]) -> str:
    """Write half a surrogate pair, which no output can carry, as the replacement character."""
    return "\\ufffd" if escape[1] else escape[0]


def _deeper_than_allowed(data: bytes) -> bool:
    """Tell without recursion whether objects and lists lie too deep in each other."""
    bare = data.replace(b"\\\\", b"").replace(b'\\"', b"").translate(None, _NOT_BRACKETS)
    runs = _TEXT_OR_RUN.finditer(bare.replace(b'""', b""))
    brackets = chain.from_iterable(run[1] or b"" for run in runs)
    return any(depth > MAX_DEPTH for depth in accumulate(map(_STEP.__getitem__, brackets)))


def _cut_at_depth(text: str) -> tuple[str, str]:
    """Cut the text before the first bracket that lies too deep, and say why."""
    depth = 0
    for match in _TEXT_OR_BRACKET.finditer(text):
        at = match.start()
        depth += _STEP.get(ord(text[at]), 0)
        if depth > MAX_DEPTH:
            return text[:at], f"nested deeper than {MAX_DEPTH} levels {_line_and_column(text, at)}"
    return text, ""


def _line_and_column(text: str, at: int) -> str:
    line_start = text.rfind("\n", 0, at) + 1
    return f"(line {text.count(chr(10), 0, at) + 1}, column {at - line_start + 1})"


def _object(pairs: list[tuple[str, object]]) -> object:
    members = dict(pairs)
    return members if len(members) == len(pairs) else Pairs(pairs)


def _not_finite(_: str) -> Broken:
    return Broken("not a finite number")


def _whole_number(digits: str) -> object:
    length = len(digits.lstrip("-"))
    if length < _LONGEST_DIGITS:
        return int(digits)
    return Broken(f"not a finite number: a whole number of {length} digits is too large")


_QUICK = json.JSONDecoder(object_pairs_hook=_object, parse_constant=_not_finite)
_PATIENT = json.JSONDecoder(object_pairs_hook=_object, parse_constant=_not_finite, parse_int=_whole_number)


def _decoder(data: bytes) -> json.JSONDecoder:
    """Python reads very long numbers slowly or not at all; only where there is one is each looked at."""
    has_long_number = b"0" * _LONGEST_DIGITS in data.translate(_DIGITS)
    return _PATIENT if has_long_number else _QUICK


class _Salvage:
    """Reads what it can of a text that is not JSON, down to the deepest place that can be told.

    Each value is first tried whole by the quick decoder; only the values around the break are taken apart.
    """

    def __init__(self, text: str, cut: str) -> None:
        self.text = text
        self.cut = cut

    def document(self) -> tuple[object, str]:
        value, end = self._value(self._skip(0))
        if end is None:
            return value, ""
        end = self._skip(end)
        whole = end == len(self.text) and not self.cut
        return value, "" if whole else self._reason(end, "text after the end of the document")

    def _skip(self, at: int) -> int:
        space = _SPACE.match(self.text, at)
        return space.end() if space else at

    def _reason(self, at: int, what: str) -> str:
        if at < len(self.text):
            return f"not JSON: {what} {_line_and_column(self.text, at)}"
        return self.cut or f"not JSON: the document breaks off {_line_and_column(self.text, at)}"

    def _value(self, at: int) -> tuple[object, int | None]:
        """Return a value and where it ends; None where the text stops making sense in it."""
        try:
            value, end = _PATIENT.raw_decode(self.text, at)
        except (ValueError, RecursionError) as error:
            return self._broken_value(at, error)
        if isinstance(value, dict | list | Pairs) or self.text[end : end + 1] in "\t\n\r ,]}":
            return value, end
        return Broken(self._reason(at, "no value can be read here")), None

    def _broken_value(self, at: int, error: Exception) -> tuple[object, int | None]:
        opening = self.text[at : at + 1]
        if opening == "{":
            return self._object(at + 1)
        if opening == "[":
            return self._list(at + 1)
        if opening != '"':
            return Broken(self._reason(at, "no value can be read here")), None
        if str(error).startswith("Unterminated"):
            return Broken(self.cut or self._reason(at, "text without its closing quotation mark")), None
        return Broken(self._reason(at, "text with a character or escape that JSON does not allow")), None

    def _object(self, at: int) -> tuple[object, int | None]:
        return Pairs(list(self._members(at)), torn=True), None

    def _members(self, at: int) -> Iterator[tuple[str, object]]:
        """Yield the members up to the break; the last value is the break."""
        while True:
            at = self._skip(at)
            key, at = self._name(at)
            if isinstance(key, Torn):
                yield "", key
                return
            if self.text[at : at + 1] != ":":
                yield key, Broken(self._reason(at, "a colon is missing after the name"))
                return
            value, end = self._value(self._skip(at + 1))
            yield key, value
            if end is None:
                return
            at = self._skip(end)
            if self.text[at : at + 1] != ",":
                yield "", Torn(self._reason(at, "a comma is missing"))
                return
            at += 1

    def _name(self, at: int) -> tuple[str | Torn, int]:
        """Return the name of a member and where its colon should stand."""
        if self.text[at : at + 1] != '"':
            return Torn(self._reason(at, "a name in quotation marks belongs here")), at
        try:
            name, end = _PATIENT.raw_decode(self.text, at)
        except ValueError:
            return Torn(self.cut or self._reason(at, "a name that JSON does not allow")), at
        return name, self._skip(end)

    def _list(self, at: int) -> tuple[object, int | None]:
        items = TornList()
        while True:
            value, end = self._value(self._skip(at))
            items.append(value)
            if end is None:
                return items, None
            at = self._skip(end)
            if self.text[at : at + 1] != ",":
                items.append(Torn(self._reason(at, "a comma is missing")))
                return items, None
            at += 1
