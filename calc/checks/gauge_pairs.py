"""Two gauges of a job at the same pressure: do they agree within both doubts?

They are compared on one T-piece (`tests.gauges_compared`), or where two gauges were read at the same place of
the road run at the same moment. Gauges that disagree may both accuse and neither clears, until a third says
which of them is off.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations
from math import hypot, sqrt
from typing import Any

from calc.uncertainty.gauge import Pressure, read

TEST = "/tests/gauges_compared"
SAME_MOMENT_S, SAME_MOMENT_RPM = 0.3, 50.0
READ_APART_KPA = (
    4.0  # standard, of two needles read one after the other in a pull; common practice, no source
)
Gauges = Mapping[str, Mapping[str, Any]]
Reading = tuple[str, Mapping[str, Any]]


@dataclass(frozen=True, slots=True)
class Pair:
    """Two readings of one pressure, how far the second lies above the first, and U of that. [kPa]"""

    first: str
    second: str
    p_kpa: float
    apart: float
    expanded: float
    places: tuple[str, str]

    @property
    def agree(self) -> bool:
        """Whether both doubts together reach over the distance."""
        return abs(self.apart) <= self.expanded

    def of(self, gauge: str, other: str) -> bool:
        """Whether this pair compares these two, in whichever order."""
        return {gauge, other} == {self.first, self.second}


def gauge_pairs(job: Mapping[str, Any], gauges: Gauges) -> list[Pair]:
    """Every comparison of two of the job's gauges, those on the bench first."""
    tests = job.get("tests") or {}
    return [*_on_the_bench(tests, gauges), *_on_the_road(tests, gauges)]


def disputed(pairs: Sequence[Pair]) -> dict[str, float]:
    """The gauges that cannot clear anything, with how far another one lies from each. [kPa]

    One that agrees with a third gauge, with which its opponent does not agree, is no longer in doubt.
    """
    found: dict[str, float] = {}
    for pair in pairs:
        if pair.agree:
            continue
        for gauge, opponent in ((pair.first, pair.second), (pair.second, pair.first)):
            if not _spoken_for(gauge, opponent, pairs):
                found[gauge] = max(found.get(gauge, 0.0), abs(pair.apart))
    return found


def in_dispute(reading: Pressure, apart: float) -> Pressure:
    """A reading of a disputed gauge: its shared error may be as large as the distance to the other one."""
    return replace(reading, shared=hypot(reading.shared, apart / sqrt(3.0)), disputed=True)


def _spoken_for(gauge: str, opponent: str, pairs: Sequence[Pair]) -> bool:
    friends = {
        other for pair in pairs if pair.agree for other in (pair.first, pair.second) if pair.of(gauge, other)
    }
    against = {
        other
        for pair in pairs
        if not pair.agree
        for other in (pair.first, pair.second)
        if pair.of(opponent, other)
    }
    return bool((friends & against) - {gauge, opponent})


def _on_the_bench(tests: Mapping[str, Any], gauges: Gauges) -> Iterator[Pair]:
    said = tests.get("gauges_compared") or {}
    rows = [
        (f"{TEST}/{key}", {"gauge": said.get(gauge), "p_kpa": said[key]})
        for gauge, key in (("gauge", "p_kpa"), ("other_gauge", "other_kpa"))
        if said.get(key) is not None
    ]
    if len(rows) == 2:
        yield from _pair(rows[0], rows[1], gauges, 0.0)


def _on_the_road(tests: Mapping[str, Any], gauges: Gauges) -> Iterator[Pair]:
    for run_at, run in enumerate(tests.get("road") or ()):
        rows: list[Reading] = [
            (f"/tests/road/{run_at}/readings/{at}/p_kpa", item)
            for at, item in enumerate((run or {}).get("readings") or ())
            if item and item.get("p_kpa") is not None and not item.get("peak")
        ]
        for first, second in combinations(rows, 2):
            if _same_moment(first[1], second[1]):
                yield from _pair(first, second, gauges, READ_APART_KPA)


def _same_moment(first: Mapping[str, Any], second: Mapping[str, Any]) -> bool:
    if (first.get("at") or "charge_circuit") != (second.get("at") or "charge_circuit"):
        return False
    if first.get("pull") != second.get("pull"):
        return False
    for key, reach in (("t_s", SAME_MOMENT_S), ("engine_rpm", SAME_MOMENT_RPM)):
        if first.get(key) is not None and second.get(key) is not None:
            return abs(float(first[key]) - float(second[key])) <= reach
    return False


def _pair(first: Reading, second: Reading, gauges: Gauges, apart_kpa: float) -> Iterator[Pair]:
    names = [str(item.get("gauge")) for _, item in (first, second)]
    if names[0] == names[1] or not set(names) <= set(gauges):
        return
    one, other = (
        read(float(item["p_kpa"]), gauges[name])
        for (_, item), name in zip((first, second), names, strict=True)
    )
    if one.known and other.known:
        doubt = hypot(one.uncertainty, other.uncertainty, apart_kpa)
        middle = (one.value + other.value) / 2.0
        yield Pair(names[0], names[1], middle, other.value - one.value, 2.0 * doubt, (first[0], second[0]))
