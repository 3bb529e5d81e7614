"""Which column is which channel: guessed by words and units, or as the technician fixed it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from calc.errors import UnreadableLog
from calc.logs.units import Unit, unit_of
from calc.logs.words import BAROMETER, FAMILIES, Header, fit, time_fit

KINDS = ("absolute", "gauge")
LEAST_FIT = 0.25


@dataclass(frozen=True, slots=True)
class Choice:
    """One column for one channel. `kind` and `unit` are None where the values have to tell them."""

    channel: str
    column: int
    unit: Unit | None
    kind: str | None
    certainty: float
    fixed: bool = False


def choose(headers: Sequence[Header], wishes: Mapping[str, Any] | None) -> list[Choice]:
    """The columns of the channels, in the contract's order; what the technician fixed comes first.

    Raises UnreadableLog for a wish that names a channel, column, unit or kind that is not known.
    """
    fixed = {channel: _fixed(channel, wish, headers) for channel, wish in (wishes or {}).items() if wish}
    unwanted = {channel for channel, wish in (wishes or {}).items() if not wish}
    for channel in (*fixed, *unwanted):
        if channel not in FAMILIES and channel != "t_s":
            raise UnreadableLog(f"columns: {channel!r} is not a channel of a road run")
    taken = {choice.column for choice in fixed.values()}
    scored = sorted(
        (
            (-score, column, place, channel)
            for place, channel in enumerate(FAMILIES)
            if channel not in fixed and channel not in unwanted
            for column, header in enumerate(headers)
            if column not in taken and (score := fit(channel, header)) >= LEAST_FIT
        ),
    )
    chosen = {channel: choice for channel, choice in fixed.items() if channel != "t_s"}
    for minus_score, column, _, channel in scored:
        if channel not in chosen and column not in taken:
            rivals = [
                -s
                for s, other, _, name in scored
                if name == channel and other != column and other not in taken
            ]
            certainty = -minus_score if not rivals else min(-minus_score, 0.5 + (-minus_score - max(rivals)))
            unit = headers[column].unit
            chosen[channel] = Choice(channel, column, unit, unit.kind if unit else None, max(0.1, certainty))
            taken.add(column)
    return [chosen[channel] for channel in FAMILIES if channel in chosen]


def time_columns(headers: Sequence[Header], wishes: Mapping[str, Any] | None) -> list[Choice]:
    """The columns that hold times, best first where several stand side by side."""
    wish = (wishes or {}).get("t_s")
    if wish:
        return [_fixed("t_s", wish, headers)]
    scored = [(time_fit(header), column) for column, header in enumerate(headers)]
    return [
        Choice("t_s", column, headers[column].unit, None, score) for score, column in scored if score > 0.0
    ]


def barometer_column(headers: Sequence[Header]) -> int | None:
    """The column of a barometric sensor, or None."""
    for column, header in enumerate(headers):
        if header.has(BAROMETER) and (header.unit is None or header.unit.family == "pressure"):
            return column
    return None


def _fixed(channel: str, wish: Any, headers: Sequence[Header]) -> Choice:
    if not isinstance(wish, Mapping) or not isinstance(wish.get("column"), str):
        raise UnreadableLog(f"columns: {channel}: an object with the name of a column is needed")
    column = _column_named(channel, wish["column"], headers)
    unit = headers[column].unit
    if wish.get("unit") is not None:
        unit = unit_of(str(wish["unit"]))
        families = FAMILIES.get(channel, ("time",))
        if unit is None or unit.family not in families:
            raise UnreadableLog(f"columns: {channel}: unit {wish['unit']!r} does not fit this channel")
    kind = wish.get("kind")
    if kind is not None and kind not in KINDS:
        raise UnreadableLog(f"columns: {channel}: kind {kind!r} is not one of {', '.join(KINDS)}")
    return Choice(channel, column, unit, kind or (unit.kind if unit else None), 1.0, fixed=True)


def _column_named(channel: str, name: str, headers: Sequence[Header]) -> int:
    for column, header in enumerate(headers):
        if header.name == name:
            return column
    close = [
        column
        for column, header in enumerate(headers)
        if header.name.strip().casefold() == name.strip().casefold()
    ]
    if close:
        return close[0]
    if name.startswith("#") and name[1:].isdecimal() and 1 <= int(name[1:]) <= len(headers):
        return int(name[1:]) - 1
    raise UnreadableLog(f"columns: {channel}: the log has no column {name!r}")
