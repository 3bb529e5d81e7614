"""JSON read strictly, and compared as values."""

import json
import math
from typing import Any

DEEPEST = 64
SURELY_FINITE = 300  # digits of a whole number; a double reaches 308


class BrokenTextError(ValueError):
    """The text is not JSON as we take it; the message says what is wrong, in one clause."""


def parse(text: str) -> Any:
    """The value of a JSON text.

    Refused beside plain syntax errors: duplicate keys, NaN and numbers beyond a double's range (the phone
    reads every number as a double), nesting deeper than 64, halves of surrogate pairs.
    """
    try:
        value = _decoded(text)
    except RecursionError:
        raise BrokenTextError(f"nested deeper than {DEEPEST}") from None
    except json.JSONDecodeError as error:
        raise BrokenTextError(f"not JSON: {error.msg} at character {error.pos}") from None
    if not _is_plain(text):
        _check(value, DEEPEST)
    return value


def _decoded(text: str) -> Any:
    """The decoder's value; most texts hold the value alone, which spares looking for blanks around it."""
    if text.startswith("{"):
        value, end = _DECODER.raw_decode(text)
        if end == len(text):
            return value
    return _DECODER.decode(text)


def same(left: Any, right: Any) -> bool:
    """Whether two JSON values are equal: 96 equals 96.0, true is not 1, the order of keys is nothing."""
    if isinstance(left, bool) or isinstance(right, bool):
        return left is right
    if isinstance(left, int | float) and isinstance(right, int | float):
        return float(left) == float(right)
    if isinstance(left, dict) and isinstance(right, dict):
        return left.keys() == right.keys() and all(same(left[key], right[key]) for key in left)
    if isinstance(left, list) and isinstance(right, list):
        return len(left) == len(right) and all(map(same, left, right))
    return type(left) is type(right) and bool(left == right)


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) != len(pairs):
        raise BrokenTextError("a key stands twice in one object")
    return found


def _no_constant(word: str) -> Any:
    raise BrokenTextError(f"{word} is not a number")


def _finite(digits: str) -> float:
    number = float(digits)
    if not math.isfinite(number):
        raise BrokenTextError("a number is too large")
    return number


def _whole(digits: str) -> int:
    if len(digits) > SURELY_FINITE:
        _finite(digits)
    return int(digits)


_DECODER = json.JSONDecoder(
    object_pairs_hook=_object, parse_constant=_no_constant, parse_float=_finite, parse_int=_whole
)


def _is_plain(text: str) -> bool:
    """Whether a text cannot hold halves of surrogate pairs or nest too deep: most texts, seen at a glance."""
    return text.isascii() and "\\u" not in text and text.count("{") + text.count("[") <= DEEPEST


def _check(value: Any, depth: int) -> None:
    if isinstance(value, str):
        _check_text(value)
    elif isinstance(value, dict | list):
        if depth == 0:
            raise BrokenTextError(f"nested deeper than {DEEPEST}")
        for inner in [*value, *value.values()] if isinstance(value, dict) else value:
            _check(inner, depth - 1)


def _check_text(value: str) -> None:
    try:
        value.encode()
    except UnicodeEncodeError:
        raise BrokenTextError("a text holds half of a surrogate pair") from None
