"""Makes the tables of `calc/faults/shares_*.py`: `python3 -m tests.verdict.calibrate [--cars N] [--kind K]`.

So many simulated cars a fault, calibration seeds alone, half of them aged, all gauges in turn.
"""

import argparse
import sys
from bisect import bisect_right
from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path
from textwrap import wrap

from calc.checks.course import course
from calc.checks.evidence import Evidence
from calc.faults import faults_of
from calc.faults.traces import EDGES
from calc.job import without_nulls
from fixtures.simulator import OTHER_CAUSES, simulate
from tests.verdict.__main__ import KINDS, kind_of
from tests.verdict.score import CALIBRATION_SEEDS, SOUND

GAUGES = ("fine", "digital", "coarse", "medium")
FOLDER = Path(__file__).parents[2] / "calc" / "faults"
HEADER = '''"""How many of a hundred simulated cars lie in each range of `traces.EDGES`, fault by fault.

Made by `python3 -m tests.verdict.calibrate`, not by hand: {cars} cars a fault of fixtures/simulator, kind
`{kind}`, seeds from {seed}. A model of our own, no real cars.
"""

SHARES: dict[str, str] = {{
'''


def main(argv: Sequence[str]) -> int:
    parser = argparse.ArgumentParser(prog="python3 -m tests.verdict.calibrate")
    parser.add_argument("--cars", type=int, default=100)
    parser.add_argument("--kind", choices=KINDS, action="append")
    choice = parser.parse_args(argv)
    with ProcessPoolExecutor(2) as pool:
        for kind in choice.kind or KINDS:
            seen = pool.map(seen_of, cars(kind, choice.cars), chunksize=16)
            text = HEADER.format(cars=choice.cars, kind=kind, seed=CALIBRATION_SEEDS) + table(seen)
            (FOLDER / f"shares_{kind}.py").write_text(text, encoding="utf-8")
            print(kind)
    return 0


Car = tuple[int, str | None, str, str, bool]


def cars(kind: str, each: int) -> Iterator[Car]:
    """So many cars of each fault; each cause outside the table gives its part of `other_cause`."""
    faults = [fault.name for fault in faults_of(kind_of(kind)) if fault.name not in (SOUND, "other_cause")]
    plan: list[tuple[str | None, int]] = [(None, each), *((fault, each) for fault in faults)]
    plan += [(f"other:{cause}", each // len(OTHER_CAUSES)) for cause in OTHER_CAUSES]
    for fault, count in plan:
        for number in range(count):
            gauges = GAUGES[number % len(GAUGES)]
            yield CALIBRATION_SEEDS + number, fault, kind, gauges, number % 2 == 0


def seen_of(car: Car) -> tuple[str, dict[str, float]]:
    """The fault, and the course of its run."""
    seed, fault, kind, gauges, aged = car
    try:
        job, _ = simulate(seed, fault=fault, kind=kind, gauges=gauges, aged=aged)
    except ValueError:  # a cause that this kind cannot have
        return "", {}
    name = SOUND if fault is None else "other_cause" if fault.startswith("other:") else fault
    return name, course(Evidence(without_nulls(job)))


def table(seen: Iterator[tuple[str, dict[str, float]]]) -> str:
    """The rows of a table, a fault each."""
    counts: dict[str, dict[str, Counter[int]]] = defaultdict(lambda: defaultdict(Counter))
    for fault, numbers in seen:
        for name in EDGES:
            if name in numbers:
                counts[fault][name][bisect_right(EDGES[name], numbers[name])] += 1
    return "".join(row(fault, counts[fault]) for fault in counts if fault) + "}\n"


def row(fault: str, counts: Mapping[str, Counter[int]]) -> str:
    """One fault: every number's shares, in hundredths."""
    parts = []
    for name, found in counts.items():
        total = sum(found.values())
        shares = (str(round(100 * found[place] / total)) for place in range(len(EDGES[name]) + 1))
        parts.append(" ".join((name, *shares)))
    lines = wrap(", ".join(parts), width=96, drop_whitespace=False, break_long_words=False)
    quoted = "\n".join(f'        "{line}"' for line in lines)
    return f'    "{fault}": (\n{quoted}\n    ),\n'


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
