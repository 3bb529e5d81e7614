"""Values as written to values in the contract's units, with what had to be guessed for it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from calc.logs import pressure
from calc.logs.columns import Choice
from calc.logs.left_out import LeftOut
from calc.logs.pressure import (
    Column,
    Levels,
    gauge_or_absolute,
    kind_beside,
    levels,
    resting_rows,
    unit_by_size,
)
from calc.logs.units import UNITS, Unit
from calc.logs.words import Header
from calc.physics.engine_air import mass_flow_from_stroke

BOOST = ("boost_actual_kpa_abs", "boost_specified_kpa_abs", "boost_request_kpa_abs")
DECIMALS = 4
FIRST_SHOWN = 3
LEAST_KELVIN, MOST_LITRE_FLOW = 200.0, 400.0
Chosen = Mapping[str, tuple[Choice, Column]]


@dataclass(frozen=True, slots=True)
class Facts:
    """What is known beside the columns: air pressure from where, and the engine."""

    given: float | None
    preamble: float | None
    column: Column | None
    column_unit: Unit | None
    litres: float | None
    cylinders: int | None


@dataclass(slots=True)
class _Boost:
    """One pressure column while its unit and kind are being found."""

    choice: Choice
    values: Column
    unit: Unit
    kind: str | None
    certainty: float


def converted(
    chosen: Chosen, facts: Facts, headers: Sequence[Header], left_out: LeftOut
) -> tuple[dict[str, list[float | None]], list[dict[str, Any]]]:
    """Channels in the contract's units, and a guess for each."""
    channels: dict[str, list[float | None]] = {}
    guesses: dict[str, dict[str, Any]] = {}
    boosts, barometric, source = _boosts(chosen, facts)
    for name, (choice, values) in chosen.items():
        header = headers[choice.column].name
        more: dict[str, Any] = {}
        if name in boosts:
            found = boosts[name]
            unit, kind, certainty = found.unit, found.kind, found.certainty
            add = barometric if kind == "gauge" else 0.0
            made: list[float | None] | None = _scaled(values, unit.factor, add)
            if kind == "gauge":
                more = {"barometric_kpa_abs": round(barometric, 3), "barometric_from": source}
        else:
            kind = None
            unit, certainty = _unit(name, choice, values)
            made = _made(name, unit, values, chosen, facts)
        if made is None:
            left_out.add(
                "column", "air mass a stroke needs the engine's displacement and cylinders", 1, header
            )
            continue
        if choice.fixed:
            certainty = 1.0
        channels[name] = made
        guesses[name] = {
            "channel": name,
            "column": header,
            "unit": unit.name,
            "kind": kind,
            "certainty": round(certainty, 2),
            "first": [value for value in made[:200] if value is not None][:FIRST_SHOWN],
            **more,
        }
    return channels, list(guesses.values())


def _scaled(values: Column, factor: float, add: float) -> list[float | None]:
    if factor == 1.0 and add == 0.0:
        return values if isinstance(values, list) else list(values)
    if None in values:
        return [None if value is None else round(value * factor + add, DECIMALS) for value in values]
    return [round(value * factor + add, DECIMALS) for value in values if value is not None]


def _made(name: str, unit: Unit, values: Column, chosen: Chosen, facts: Facts) -> list[float | None] | None:
    if unit.family != "stroke":
        return _scaled(values, unit.factor, unit.offset)
    speed = chosen.get("engine_rpm")
    if facts.cylinders is None or speed is None:
        return None
    a_turn = 1e3 * mass_flow_from_stroke(unit.factor * 1e-6, 1.0, int(facts.cylinders))
    turns = _scaled(speed[1], _unit("engine_rpm", *speed)[0].factor, 0.0)
    return [
        None if value is None or rpm is None else round(value * rpm * a_turn, DECIMALS)
        for value, rpm in zip(values, turns, strict=True)
    ]


def _unit(name: str, choice: Choice, values: Column) -> tuple[Unit, float]:
    """The unit of a column that is no boost: as written, else the usual one, by the size of the values."""
    if choice.unit is not None and choice.unit.family != "fraction":
        return choice.unit, choice.certainty
    seen = levels(values, [])
    top = 0.0 if seen is None else seen.top
    if name.endswith("_pct"):
        small = choice.unit is not None or 0.0 < top <= 1.0
        return (
            (UNITS["ratio"], 0.7 * choice.certainty)
            if small and top <= 1.5
            else (UNITS["%"], choice.certainty)
        )
    if name.endswith("_c"):
        kelvins = seen is not None and seen.low > LEAST_KELVIN
        return (UNITS["kelvin"] if kelvins else UNITS["degc"]), choice.certainty
    if name == "air_mass_gps":
        return (UNITS["g/s"] if top <= MOST_LITRE_FLOW else UNITS["kg/h"]), 0.6 * choice.certainty
    if name == "boost_correction_kpa":
        return (UNITS["hpa"] if top > 100.0 else UNITS["kpa"]), 0.6 * choice.certainty
    return UNITS["rpm" if name == "engine_rpm" else "km/h"], choice.certainty


def _boosts(chosen: Chosen, facts: Facts) -> tuple[dict[str, _Boost], float, str]:
    """Unit and kind of the pressure columns, the barometric pressure, and where it is from."""
    rpm, pedal = (chosen[name][1] if name in chosen else None for name in ("engine_rpm", "pedal_pct"))
    resting = resting_rows(rpm, pedal)
    found = {name: _with_unit(chosen[name], resting) for name in BOOST if name in chosen}
    expected, source = _barometric(facts)
    guess = expected if expected is not None else pressure.ASSUMED_KPA
    tops: dict[str, float] = {}
    for name, boost in found.items():
        seen = _levels_kpa(boost, resting)
        if seen is None:
            continue
        if boost.kind is None and tops:
            boost.kind, sure = kind_beside(seen.top, next(iter(tops.values())), guess)
            boost.certainty *= sure
        elif boost.kind is None:
            boost.kind, sure = gauge_or_absolute(seen, guess)
            boost.certainty *= sure
        tops[name] = seen.top + (guess if boost.kind == "gauge" else 0.0)
    if expected is None:
        expected, source = _at_rest(found, resting)
    return found, expected, source


def _with_unit(chosen: tuple[Choice, Column], resting: Sequence[int]) -> _Boost:
    choice, values = chosen
    unit, certainty = choice.unit, choice.certainty
    if unit is None:
        seen = levels(values, resting)
        unit, sure = (UNITS["kpa"], 0.5) if seen is None else unit_by_size(seen)
        certainty *= sure
    return _Boost(choice, values, unit, choice.kind or unit.kind, certainty)


def _barometric(facts: Facts) -> tuple[float | None, str]:
    if facts.given is not None:
        return float(facts.given), "given"
    if facts.preamble is not None:
        return facts.preamble, "preamble"
    seen = None if facts.column is None else levels(facts.column, [])
    if seen is not None:
        unit = facts.column_unit or unit_by_size(Levels(seen.low, seen.low, 2.0 * seen.low))[0]
        value = seen.top * unit.factor
        if 50.0 <= value <= 112.0:
            return value, "column"
    return None, ""


def _at_rest(found: Mapping[str, _Boost], resting: Sequence[int]) -> tuple[float, str]:
    for boost in found.values():
        if boost.kind == "absolute":
            still = _rest_kpa(boost, resting)
            if still is not None:
                return still, "at rest"
    return pressure.ASSUMED_KPA, "assumed"


def _rest_kpa(boost: _Boost, resting: Sequence[int]) -> float | None:
    still = [boost.values[row] for row in resting]
    return pressure.barometric_at_rest(_scaled(still, boost.unit.factor, 0.0), range(len(still)))


def _levels_kpa(boost: _Boost, resting: Sequence[int]) -> Levels | None:
    seen, factor = levels(boost.values, resting), boost.unit.factor
    if seen is None:
        return None
    return Levels(seen.low * factor, None if seen.rest is None else seen.rest * factor, seen.top * factor)
