"""Gauge or absolute, and in which unit: by the resting value, the barometer and the size of the peaks."""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

from calc.logs.units import UNITS, Unit

STOPPED_RPM, IDLE_RPM, RELEASED_PCT = 100.0, 1_150.0, 8.0
NEAR_KPA = 12.0  # a resting charge pressure lies this near to the barometer, by gauge to nought
BELOW_KPA = -3.0  # an absolute pressure is never negative
LEAST_ABSOLUTE_KPA = 20.0  # no engine draws its manifold lower
ASSUMED_KPA = 101.3
MOST_SORTED = 10_000
SURE, LIKELY, UNSURE = 0.95, 0.8, 0.55

Column = Sequence[float | None]


@dataclass(frozen=True, slots=True)
class Levels:
    """Of one column in its own unit: lowest, resting value (None without one), top."""

    low: float
    rest: float | None
    top: float


def levels(values: Column, resting: Sequence[int]) -> Levels | None:
    """Lowest and highest without their outermost per cent, and the median over resting rows."""
    known = sorted(value for value in values[:: 1 + len(values) // MOST_SORTED] if value is not None)
    if not known:
        return None
    spare = len(known) // 100
    still = [value for row in resting if (value := values[row]) is not None]
    return Levels(known[spare], median(still) if still else None, known[-1 - spare])


def resting_rows(rpm: Column | None, pedal: Column | None) -> list[int]:
    """Rows with the engine stopped, else idling with the pedal released."""
    if rpm is None:
        return []
    stopped = [row for row, turns in enumerate(rpm) if turns is not None and turns < STOPPED_RPM]
    if stopped:
        return stopped
    return [
        row
        for row, turns in enumerate(rpm)
        if turns is not None
        and turns < IDLE_RPM
        and (pedal is None or ((pressed := pedal[row]) is not None and pressed <= RELEASED_PCT))
    ]


def unit_by_size(seen: Levels) -> tuple[Unit, float]:
    """The unit of a boost column that carries none, by its resting value, else by its peak."""
    at_rest = (("hPa", 1000.0), ("kPa", 100.0), ("psi", 14.6), ("inHg", 29.8), ("bar", 1.0))
    if seen.rest is not None:
        for name, expected in at_rest:
            if 0.8 * expected <= seen.rest <= 1.1 * expected and seen.top > seen.rest * 1.1:
                return UNITS[name.casefold()], LIKELY
    for name, least in (("hPa", 450.0), ("kPa", 45.0), ("psi", 5.0), ("bar", 0.0)):
        if seen.top >= least:
            return UNITS[name.casefold()], UNSURE
    return UNITS["kpa"], UNSURE


def gauge_or_absolute(seen: Levels, barometric: float) -> tuple[str, float]:
    """`gauge` or `absolute` for levels in kPa, with its certainty."""
    if seen.low < BELOW_KPA:
        return "gauge", SURE
    if seen.rest is not None:
        if abs(seen.rest - barometric) <= NEAR_KPA:
            return "absolute", SURE
        if abs(seen.rest) <= NEAR_KPA:
            return "gauge", SURE
    if seen.low < LEAST_ABSOLUTE_KPA:
        return "gauge", LIKELY if seen.rest is None else UNSURE
    if abs(seen.low - barometric) <= NEAR_KPA:
        return "absolute", LIKELY
    return "absolute", LIKELY if seen.top > 1.6 * barometric else UNSURE


def kind_beside(top: float, other_top: float, barometric: float) -> tuple[str, float]:
    """Kind of a column whose peaks go with those of another, known in absolute kPa."""
    as_absolute, as_gauge = abs(top - other_top), abs(top + barometric - other_top)
    apart = abs(as_absolute - as_gauge) / barometric
    return ("absolute" if as_absolute < as_gauge else "gauge"), LIKELY + (SURE - LIKELY) * min(1.0, apart)


def barometric_at_rest(absolute: Column, resting: Sequence[int]) -> float | None:
    """The air pressure that an absolute sensor shows with the engine at rest, where it can be one. [kPa]"""
    still = [value for row in resting if (value := absolute[row]) is not None]
    if not still:
        return None
    value = median(still)
    return value if 60.0 <= value <= 108.0 else None
