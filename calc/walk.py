"""Reads a parsed value by the contract: names the first broken place, leaves out what is null.

A place comes before what is in it, and members come in the order in which they are written.
"""

import json
import math
import operator
import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any, NoReturn

from calc import contract
from calc.contract import MAX_DEPTH, Kind
from calc.errors import BrokenDocument
from calc.strict_json import Broken, Pairs, Torn, TornList

_NUMBERS_AND_GAPS = {int, float, type(None)}
_LONE_SURROGATE = re.compile("[\ud800-\udfff]")
_AMOUNT = re.compile(r"-?[0-9]{1,9}(\.[0-9]{1,6})?")
_LONGEST_SHOWN = 40
_ENDS = contract.Group({"min": contract.NUMBER, "max": contract.NUMBER})
_FREE = contract.Group({})


def pointer_of(path: Iterable[str | int]) -> str:
    """Return the JSON Pointer (RFC 6901) of a path of names and positions."""
    return "".join("/" + tidy(str(step)).replace("~", "~0").replace("/", "~1") for step in path)


def tidy(text: str) -> str:
    """Write halves of surrogate pairs, which no output can carry, as the replacement character."""
    return text if text.isascii() else _LONE_SURROGATE.sub("\ufffd", text)


def on_one_line(text: str) -> str:
    """Write signs that cannot be printed, line feeds among them, as their escapes."""
    return text if text.isprintable() else "".join(map(_printable, text))


def _printable(sign: str) -> str:
    return sign if sign.isprintable() else repr(sign)[1:-1]


def is_object(value: object) -> bool:
    """Tell whether a parsed value is an object, breaks in it or not."""
    return isinstance(value, Mapping | Pairs)


def members_of(value: object) -> Iterable[tuple[Any, object]]:
    """Return the members of an object in document order, repeated ones too; none for anything else."""
    if isinstance(value, Pairs):
        return value.pairs
    return value.items() if isinstance(value, Mapping) else ()


def shown(value: object) -> str:
    """Return a value as a reason quotes it: short, on one line."""
    if is_object(value):
        return "an object {…}"
    if isinstance(value, list):
        return "a list […]"
    if isinstance(value, int) and not _is_finite(value):
        return "a very large number"
    try:
        text = on_one_line(tidy(json.dumps(value, ensure_ascii=False)))
    except TypeError:
        return "a value that JSON does not have"
    return text if len(text) <= _LONGEST_SHOWN else text[: _LONGEST_SHOWN - 1] + "…"


def _is_finite(number: float) -> bool:
    try:
        return math.isfinite(number)
    except OverflowError:
        return False


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def _all_good_numbers(values: list[Any]) -> bool:
    """Tell quickly whether a list holds finite numbers and null alone."""
    if not set(map(type, values)) <= _NUMBERS_AND_GAPS:
        return False
    try:
        return all(map(math.isfinite, filter(None, values)))
    except OverflowError:
        return False


class Walk:
    """One reading of one value.

    `gauge_ids` holds the gauges registered in the job; None where they cannot be known: any id is taken.
    """

    def __init__(self, gauge_ids: set[str] | None, path: Iterable[str | int] = ()) -> None:
        self.gauge_ids = gauge_ids
        self.path: list[str | int] = list(path)
        self.first_channel: tuple[str | int, int] | None = None

    def read(self, value: object, kind: Kind) -> object:
        """Return the value without what is null in it (None where nothing is left of it)."""
        if value is None:
            return None
        self._not_broken(value)
        return _READERS[type(kind)](self, value, kind)

    def fail(self, reason: str) -> NoReturn:
        """Name the place where the walk stands as broken."""
        raise BrokenDocument(pointer_of(self.path), reason)

    def _not_broken(self, value: object) -> None:
        if isinstance(value, Broken):
            self.fail(value.reason)

    def _not_too_deep(self) -> None:
        if len(self.path) >= MAX_DEPTH:
            self.fail(f"nested deeper than {MAX_DEPTH} levels")

    # Objects

    def group(self, value: object, kind: contract.Group, seen: set[str] | None = None) -> dict[str, object]:
        """Read an object; `seen` holds the ids of the items before it in its list."""
        self._has(kind.required, value)
        whole: dict[str, object] = {}
        for name, member in self._members(value):
            known = kind.members.get(name)
            if known is None:
                self._anything(member)
                whole[name] = member
            elif (read := self.read(member, known)) is not None:
                whole[name] = read
            if name == "id" and seen is not None and isinstance(member, str):
                self._unique(member, seen)
        return whole

    def _has(self, required: tuple[str, ...], value: object) -> None:
        if not required or not is_object(value) or (isinstance(value, Pairs) and value.torn):
            return
        present = {name for name, member in members_of(value) if member is not None}
        for name in required:
            if name not in present:
                self.fail(f'"{name}" is missing')

    def _members(self, value: object) -> Iterator[tuple[str, object]]:
        """Yield each member while the walk stands on it."""
        if not is_object(value):
            self.fail(f"{shown(value)} where an object {{…}} belongs")
        self._not_too_deep()
        before: set[str] = set()
        for name, member in members_of(value):
            if isinstance(member, Torn):
                self.fail(member.reason)
            if not isinstance(name, str):
                self.fail(f"{shown(name)} as a name, where text belongs")
            self.path.append(name)
            if name in before:
                self.fail("this name stands twice in its object")
            before.add(name)
            yield name, member
            self.path.pop()

    def _unique(self, item_id: str, seen: set[str]) -> None:
        if item_id in seen:
            self.fail(f"the id {shown(item_id)} stands twice in this list")
        seen.add(item_id)

    def _channels(self, value: object, kind: contract.ChannelGroup) -> dict[str, object]:
        self.first_channel = None
        return self.group(value, kind)

    def _limit(self, value: object, kind: contract.Limit) -> dict[str, object]:
        if kind.number_is_max and not is_object(value):
            return {"max": self._number(value)}
        limit: dict[str, Any] = self.group(value, _ENDS)
        if "min" in limit and "max" in limit and limit["min"] > limit["max"]:
            self.fail(f"min {shown(limit['min'])} lies above max {shown(limit['max'])}")
        return limit

    def _free_map(self, value: object, _: contract.FreeMap) -> dict[str, object]:
        return {name: member for name, member in self.group(value, _FREE).items() if member is not None}

    def _weights(self, value: object, kind: contract.Weights) -> dict[str, object]:
        weights: dict[str, object] = {}
        for name, member in self._members(value):
            if member is None:
                continue
            if name not in kind.words:
                self.fail(f"unknown {kind.what} {shown(name)}")
            weights[name] = self.read(member, contract.NUMBER)
        return weights

    # Lists

    def _items(self, value: object, kind: contract.Items) -> list[object]:
        seen: set[str] = set()
        return [None if item is None else self._item(item, kind, seen) for item in self._each(value)]

    def _item(self, item: object, kind: contract.Items, seen: set[str]) -> dict[str, object]:
        self._not_broken(item)
        return self.group(item, kind.item, seen)

    def _each(self, value: object) -> Iterator[object]:
        """Yield each item of a list while the walk stands on it."""
        for position, item in enumerate(self._list(value)):
            if isinstance(item, Torn):
                self.fail(item.reason)
            self.path.append(position)
            yield item
            self.path.pop()

    def _list(self, value: object) -> list[Any]:
        if not isinstance(value, list):
            self.fail(f"{shown(value)} where a list […] belongs")
        self._not_too_deep()
        return value

    def _numbers(self, value: object, _: contract.Numbers) -> list[Any]:
        values = self._list(value)
        if not _all_good_numbers(values):
            for item in self._each(values):
                self.read(item, contract.NUMBER)
        return values

    def _series(self, value: object, kind: contract.Series) -> list[Any]:
        values = self._list(value)
        self._equal_length(values)
        self._numbers(values, kind)
        if kind.rises:
            self._never_back(values)
        return values

    def _equal_length(self, values: list[Any]) -> None:
        if isinstance(values, TornList):
            return
        if self.first_channel is None:
            self.first_channel = (self.path[-1], len(values))
        name, length = self.first_channel
        if len(values) != length:
            self.fail(f"{len(values)} values, but {name} has {length}")

    def _never_back(self, times: list[Any]) -> None:
        known = [time for time in times if time is not None]
        if all(map(operator.le, known, known[1:])):
            return
        latest = known[0]
        for time in self._each(times):
            if time is None:
                continue
            if time < latest:
                self.fail(f"time goes back: {shown(time)} s after {shown(latest)} s")
            latest = time

    def _span(self, value: object, _: contract.Span) -> list[Any] | None:
        ends = self._numbers(value, contract.Numbers())
        if len(ends) != 2:
            self.fail(f"a list of {len(ends)}, where the lowest and the highest pressure of the scale belong")
        low, high = ends
        if low is None or high is None:
            return None
        if not low < high:
            self.fail(f"a scale from {shown(low)} to {shown(high)} does not rise")
        return ends

    def _texts(self, value: object, _: contract.Texts) -> list[object]:
        return [self._text(item) for item in self._each(value) if item is not None]

    def _word_list(self, value: object, kind: contract.WordList) -> list[object]:
        return [self._word(item, kind) for item in self._each(value) if item is not None]

    # Single values

    def _number(self, value: Any, _: object = None) -> float:
        self._not_broken(value)
        if not _is_number(value):
            self.fail(f"{shown(value)} where a number belongs")
        if not _is_finite(value):
            self.fail("not a finite number")
        return value  # type: ignore[no-any-return]

    def _text(self, value: object, _: object = None) -> str:
        self._not_broken(value)
        if not isinstance(value, str):
            self.fail(f"{shown(value)} where text belongs")
        return tidy(value)

    def _amount(self, value: object, _: object = None) -> str:
        amount = self._text(value)
        if not _AMOUNT.fullmatch(amount):
            self.fail(f"{shown(amount)} where an amount as text belongs, as in 12.50")
        return amount

    def _flag(self, value: object, _: object = None) -> bool:
        if not isinstance(value, bool):
            self.fail(f"{shown(value)} where true or false belongs")
        return value

    def _word(self, value: object, kind: contract.Word | contract.WordList) -> str:
        word = self._text(value)
        if word not in kind.words:
            self.fail(f"unknown word {shown(word)}, known are: {', '.join(kind.words)}")
        return word

    def _gauge_id(self, value: object, _: object = None) -> str:
        gauge_id = self._text(value)
        if self.gauge_ids is not None and gauge_id not in self.gauge_ids:
            self.fail(f"unknown gauge {shown(gauge_id)}: no gauge of the job has this id")
        return gauge_id

    # What the contract does not know is kept as it stands, as long as it is JSON

    def _anything(self, value: object) -> None:
        self._not_broken(value)
        if value is None or isinstance(value, str | bool):
            return
        if isinstance(value, list):
            self._any_list(value)
        elif is_object(value):
            for _, member in self._members(value):
                self._anything(member)
        else:
            self._number(value)

    def _any_list(self, value: list[object]) -> None:
        self._not_too_deep()
        if _all_good_numbers(value):
            return
        for item in self._each(value):
            self._anything(item)


_READERS: dict[type, Callable[[Walk, Any, Any], object]] = {
    contract.Number: Walk._number,
    contract.Text: Walk._text,
    contract.Amount: Walk._amount,
    contract.Flag: Walk._flag,
    contract.Word: Walk._word,
    contract.GaugeId: Walk._gauge_id,
    contract.Limit: Walk._limit,
    contract.Span: Walk._span,
    contract.Numbers: Walk._numbers,
    contract.Series: Walk._series,
    contract.Texts: Walk._texts,
    contract.WordList: Walk._word_list,
    contract.FreeMap: Walk._free_map,
    contract.Weights: Walk._weights,
    contract.Group: Walk.group,
    contract.ChannelGroup: Walk._channels,
    contract.Items: Walk._items,
}
