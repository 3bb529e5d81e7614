"""How good the verdicts are on simulated cars whose fault is known.

The cars come from fixtures/simulator, a mean-value model of our own; nothing here speaks of real cars.
Calibration seeds (below `TEST_SEEDS`) are for setting likelihoods, test seeds for stating results.
"""

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from math import sqrt
from typing import Any

import calc

CALIBRATION_SEEDS, TEST_SEEDS = 1_000, 1_000_000
SOUND = "no_fault_found"


@dataclass(slots=True)
class Judged:
    """One car: the truth, and what the verdict made of it."""

    truth: str
    first: str
    probability: float
    of_truth: float
    group: tuple[str, ...]
    concluded: str | None
    standing: str | None
    proved: tuple[str, ...]
    next_test: str | None
    undecided: float
    gauges: str = ""


def judged(job: dict[str, Any], truth: str, gauges: str = "") -> Judged:
    """The verdict on a job, its truth ('no_fault_found' of a sound car) and the set of gauges beside it."""
    verdict = calc.judge(job)
    rows = verdict["faults"]
    concluded = verdict["conclusion"] or {}
    return Judged(
        truth=truth,
        first=rows[0]["fault"],
        probability=rows[0]["probability"],
        of_truth=next((row["probability"] for row in rows if row["fault"] == truth), 0.0),
        group=(rows[0]["fault"], *rows[0]["alike"]),
        concluded=concluded.get("fault"),
        standing=concluded.get("standing"),
        proved=tuple(row["fault"] for row in rows if row["standing"] == "proved"),
        next_test=(verdict["next_test"] or {}).get("test"),
        undecided=_undecided([row["outcome"] for row in verdict["findings"]]),
        gauges=gauges,
    )


def _undecided(outcomes: Sequence[str]) -> float:
    """Share of the checks with a limit that could not be decided. [-]"""
    known = [outcome for outcome in outcomes if outcome != "not_examined"]
    return known.count("undecided") / max(1, len(known))


@dataclass(slots=True)
class Score:
    """Counts over a set of cars."""

    cars: list[Judged] = field(default_factory=list)

    def share(self, holds: Iterable[bool]) -> float:
        """Share of true among the values. [-]"""
        values = list(holds)
        return sum(values) / len(values) if values else 0.0

    @property
    def right_first(self) -> float:
        """Most probable fault is the truth. [-]"""
        return self.share(car.first == car.truth for car in self.cars)

    @property
    def right_group(self) -> float:
        """The truth is the most probable fault or looks like it. [-]"""
        return self.share(car.truth in car.group for car in self.cars)

    @property
    def group_size(self) -> float:
        """Mean size of the most probable fault's group. [-]"""
        return sum(len(car.group) for car in self.cars) / max(1, len(self.cars))

    @property
    def right_conclusion(self) -> float:
        """The conclusion is the truth. [-]"""
        return self.share(car.concluded == car.truth for car in self.cars)

    @property
    def wrong(self) -> list[Judged]:
        """Cars on which something was proved or concluded that is not the truth."""
        return [
            car
            for car in self.cars
            if (car.concluded not in (None, car.truth)) or any(name != car.truth for name in car.proved)
        ]

    @property
    def named_wrongly(self) -> list[Judged]:
        """Those of them on which a part was named: the others were called free of faults."""
        return [car for car in self.wrong if car.proved or car.concluded != SOUND]

    @property
    def brier(self) -> float:
        """Mean squared error of the truth's probability. [-]"""
        return sum((1.0 - car.of_truth) ** 2 for car in self.cars) / max(1, len(self.cars))

    def calibration(self, bins: int = 10) -> tuple[float, list[tuple[float, float, int]]]:
        """Expected calibration error of the most probable fault, and per bin: said, right, cars."""
        filed: dict[int, list[Judged]] = defaultdict(list)
        for car in self.cars:
            filed[min(bins - 1, int(car.probability * bins))].append(car)
        rows = [
            (
                sum(car.probability for car in cars) / len(cars),
                self.share(car.first == car.truth for car in cars),
                len(cars),
            )
            for _, cars in sorted(filed.items())
        ]
        error = sum(count * abs(said - right) for said, right, count in rows) / max(1, len(self.cars))
        return error, rows

    def with_gauges(self, gauges: str) -> "Score":
        """Those of the cars that were measured with this set of gauges."""
        return Score([car for car in self.cars if car.gauges == gauges])

    def one_left(self) -> "Score":
        """Those on which the tests done leave one fault: the most probable looks like no other."""
        return Score([car for car in self.cars if len(car.group) == 1])

    def by_truth(self) -> dict[str, "Score"]:
        """The same, apart by truth."""
        filed: dict[str, Score] = defaultdict(Score)
        for car in self.cars:
            filed[car.truth].cars.append(car)
        return dict(filed)

    def mistaken_for(self) -> Counter[str]:
        """What stood first where the truth did not."""
        return Counter(car.first for car in self.cars if car.first != car.truth)


def upper_bound(count: int, of: int, z: float = 1.645) -> float:
    """Wilson's upper 95 % bound (one-sided) of a share. [-]"""
    if of == 0:
        return 1.0
    share = count / of
    middle = share + z * z / (2 * of)
    half = z * sqrt(share * (1.0 - share) / of + z * z / (4 * of * of))
    return (middle + half) / (1.0 + z * z / of)
