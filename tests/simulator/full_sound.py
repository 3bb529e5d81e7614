"""Sound cars, half of them aged: how often a check says `outside` although nothing is.

The cars and their readings are the project's own simulator's (fixtures/simulator/README.md).
"""

from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor

import calc
from fixtures.simulator import KINDS, simulate
from tests.full.registry import Row, full_run

WHOLE, SMALL = 1_000, 40
NEVER = 0.99
SETS = ("coarse", "medium", "fine", "digital")
Outcomes = dict[str, str]


@full_run("sound cars", "Simulated sound cars, half of them aged: how often a check says outside")
def sound_cars(small: bool) -> Iterator[Row]:
    count = SMALL if small else WHOLE
    with ProcessPoolExecutor(2) as pool:
        cars = list(pool.map(outcomes, range(count), chunksize=10))
    outside = Counter(check for car in cars for check, outcome in car.items() if outcome == "outside")
    examined = Counter(check for car in cars for check, outcome in car.items() if outcome != "not_examined")
    clean = sum("outside" not in car.values() for car in cars)
    slack = 1 if small else 0
    yield Row(
        f"cars on which no check says outside, {count // 2} of {count} aged",
        f"{clean} of {count}, {100.0 * clean / count:.1f} %",
        "at least 99 %",
        holds=clean + slack >= NEVER * count,
    )
    if not small:
        for check in examined:
            never = 1.0 - outside[check] / examined[check]
            found = f"never in {100.0 * never:.1f} % of {examined[check]}"
            yield Row(check, found, "at least 99 %", holds=never >= NEVER)


def outcomes(number: int) -> Outcomes:
    """One sound car of each kind in turn, by each set of gauges in turn: outcome by check."""
    kind = tuple(KINDS)[number // 2 % len(KINDS)]
    gauges = SETS[number // 8 % len(SETS)]
    job, truth = simulate(f"sound {number}", None, aged=number % 2 == 1, kind=kind, gauges=gauges)
    assert truth["fault"] == "no_fault_found"
    return {found["check"]: found["outcome"] for found in calc.judge(job)["findings"]}
