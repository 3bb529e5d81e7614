"""How good the verdicts are: `python3 -m tests.verdict [--cars N] [--seed S] [--only DEPTH]` prints tables.

Simulated cars of fixtures/simulator, every fault of the contract's table in turn, half the sound ones aged.
"""

import argparse
import sys
from collections.abc import Iterator, Sequence
from concurrent.futures import Executor, ProcessPoolExecutor
from dataclasses import dataclass

from calc.checks.evidence import Kind
from calc.faults import faults_of
from tests.verdict.score import SOUND, TEST_SEEDS, Judged, Score, judged, upper_bound

DEPTHS = ("full", "road", "typed")
KINDS = ("pressure", "vacuum_wastegate", "vacuum_vgt", "electric")
GAUGES = ("coarse", "fine")


@dataclass(frozen=True, slots=True)
class Car:
    """One car to be simulated."""

    seed: int
    fault: str | None
    kind: str
    depth: str
    gauges: str
    aged: bool


def run(car: Car) -> Judged:
    """Simulate and judge one car."""
    from fixtures.simulator import simulate

    job, _ = simulate(
        car.seed, fault=car.fault, aged=car.aged, depth=car.depth, kind=car.kind, gauges=car.gauges
    )
    name = SOUND if car.fault is None else "other_cause" if car.fault.startswith("other:") else car.fault
    return judged(job, name, car.gauges)


def cars(count: int, seed: int, depth: str, kinds: Sequence[str], *, sound: bool) -> Iterator[Car]:
    """So many cars, faults and kinds and gauges in turn."""
    for index in range(count):
        kind = kinds[index % len(kinds)]
        names = [fault.name for fault in faults_of(kind_of(kind)) if fault.name not in (SOUND, "other_cause")]
        fault = None if sound else names[(index // len(kinds)) % len(names)]
        yield Car(seed + index, fault, kind, depth, GAUGES[index // 7 % 2], aged=index % 2 == 0)


def strange_cars(count: int, seed: int, depth: str, kind: str) -> Iterator[Car]:
    """So many cars whose cause stands outside the contract's table, each cause in turn."""
    from fixtures.simulator import possible

    names = [name for name in possible(kind) if name.startswith("other:")]
    for index in range(count):
        fault = names[index % len(names)]
        yield Car(seed + index, fault, kind, depth, GAUGES[index // 7 % 2], aged=index % 2 == 0)


def kind_of(name: str) -> Kind:
    """The boost control that the simulator calls by this name."""
    device = "variable_geometry" if name == "vacuum_vgt" else "wastegate"
    actuator = name if name in ("pressure", "electric") else "vacuum"
    return Kind(device, actuator, "unknown", None)


def main(argv: Sequence[str]) -> int:
    parser = argparse.ArgumentParser(prog="python3 -m tests.verdict")
    parser.add_argument("--cars", type=int, default=400)
    parser.add_argument("--seed", type=int, default=TEST_SEEDS)
    parser.add_argument("--only", choices=DEPTHS)
    parser.add_argument("--kind", choices=KINDS, action="append")
    parser.add_argument("--faults", action="store_true", help="a row a fault")
    choice = parser.parse_args(argv)
    kinds = choice.kind or ["pressure"]
    with ProcessPoolExecutor(2) as pool:
        for depth in [choice.only] if choice.only else DEPTHS:
            show(depth, *scores(pool, choice.cars, choice.seed, depth, kinds), by_fault=choice.faults)
    return 0


def scores(pool: Executor, count: int, seed: int, depth: str, kinds: Sequence[str]) -> tuple[Score, Score]:
    """Faulty and sound cars at one depth of evidence, judged."""
    faulty, sound = (
        Score(list(pool.map(run, cars(count, seed, depth, kinds, sound=is_sound), chunksize=8)))
        for is_sound in (False, True)
    )
    return faulty, sound


def as_the_priors_have_it(faulty: Score, sound: Score) -> Score:
    """The faulty cars, and as many sound ones as any one fault has: shipped priors are equal over both."""
    each = max(1, len(faulty.cars) // max(1, len(faulty.by_truth())))
    return Score(faulty.cars + sound.cars[:each])


def show(depth: str, faulty: Score, sound: Score, *, by_fault: bool) -> None:
    """One depth of evidence."""
    error, rows = as_the_priors_have_it(faulty, sound).calibration()
    print(f"\n{depth}: {len(faulty.cars)} faulty, {len(sound.cars)} sound cars")
    print(f"  first right {faulty.right_first:.3f}, in its group {faulty.right_group:.3f}")
    print(f"  mean size of a group {faulty.group_size:.2f}")
    print(f"  concluded right {faulty.right_conclusion:.3f}, sound {sound.right_conclusion:.3f}")
    print(f"  wrong: {counted(faulty)}; false alarms: {counted(sound)}")
    print(f"  calibration error {error:.3f}, Brier {faulty.brier:.3f}")
    for said, right, count in rows:
        print(f"    said {said:.2f} right {right:.2f} of {count}")
    for car in (faulty.wrong + sound.wrong)[:12]:
        print(f"    truth {car.truth}: {car.concluded} ({car.standing}), proved {', '.join(car.proved)}")
    for truth, score in sorted(faulty.by_truth().items()) if by_fault else ():
        others = ", ".join(f"{name} {count}" for name, count in score.mistaken_for().most_common(3))
        shares = f"first {score.right_first:.2f} group {score.right_group:.2f}"
        print(f"    {truth:32} {shares} concluded {score.right_conclusion:.2f}  {others}")


def counted(score: Score) -> str:
    """Wrong proofs and conclusions, with the upper bound of their share."""
    return f"{len(score.wrong)} (at most {upper_bound(len(score.wrong), len(score.cars)):.4f})"


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
