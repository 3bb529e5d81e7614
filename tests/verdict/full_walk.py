"""The next test against the order of the trade: minutes to a proof, and whether faults alike are told apart.

The simulated cars are those of fixtures/simulator; nothing here speaks of real ones. 'Minutes' is the mean
over the faults of the minutes to the end of the walk; the mean of the faults' own ratios stands beside it.
"""

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass

from fixtures.simulator import KINDS, faults_of, make
from tests.full.registry import Row, full_run
from tests.verdict.walk import Group, Walk, by_fixed_order, by_next_test, walk

CARS, FEW = 6, 10  # cars a fault in the whole run; in the small form one car of the table's first ten faults
GAUGES = ("fine", "coarse", "medium")
AT_MOST, PARTED = 0.8, 0.95


@dataclass(frozen=True, slots=True)
class Both:
    """One car walked both ways."""

    fault: str
    ours: Walk
    fixed: Walk


@full_run("walk", "The next test followed to a proof, against the order of the trade stopped at proof too")
def walks(small: bool) -> Iterator[Row]:
    seeds = "calibration walk" if small else "test walk"
    with ProcessPoolExecutor(2) as pool:
        for kind in ("pressure",) if small else tuple(KINDS):
            names = [name for name in faults_of(kind) if name != "other_cause"]
            names = names[:FEW] if small else names
            cars = [(f"{seeds} {n}", name, kind, n) for name in names for n in range(1 if small else CARS)]
            yield from rows(kind, list(pool.map(both, cars, chunksize=2)))


def both(car: tuple[str, str, str, int]) -> Both:
    """Walk one car both ways."""
    seed, fault, kind, number = car
    made = make(seed, fault, kind=kind, gauges=GAUGES[number % len(GAUGES)], aged=number % 2 == 0)
    return Both(fault, walk(made, by_next_test), walk(made, by_fixed_order))


def rows(kind: str, cars: Sequence[Both]) -> Iterator[Row]:
    """The rows of one kind of boost control."""
    ours, fixed = (minutes([(car.fault, way(car)) for car in cars]) for way in (_ours, _fixed))
    total = sum(ours.values()) / sum(fixed.values())
    shown = (
        f"{sum(ours.values()) / len(ours):.0f} against {sum(fixed.values()) / len(fixed):.0f}, {total:.2f}"
    )
    yield Row(f"{kind}: minutes to a proof", shown, f"at most {AT_MOST} times", holds=total <= AT_MOST)
    ratios = {fault: ours[fault] / fixed[fault] for fault in ours}
    worst = max(ratios, key=lambda fault: ratios[fault])
    mean = sum(ratios.values()) / len(ratios)
    yield Row(f"{kind}: mean of the faults' ratios", f"{mean:.2f}", "stated", holds=True)
    figures = f"{worst} {ratios[worst]:.2f} ({ours[worst]:.0f} against {fixed[worst]:.0f} minutes)"
    yield Row(f"{kind}: worst fault", figures, "stated", holds=True)
    right, wrong = (counted(cars, is_wrong=is_wrong) for is_wrong in (False, True))
    yield Row(
        f"{kind}: concluded right", f"{right[0]} against {right[1]} of {len(cars)}", "stated", holds=True
    )
    yield Row(
        f"{kind}: concluded wrong", f"{wrong[0]} against {wrong[1]}", "no more", holds=wrong[0] <= wrong[1]
    )
    yield from parted(kind, [group for car in cars for group in car.ours.groups])


def parted(kind: str, met: Sequence[Group]) -> Iterator[Row]:
    """Groups in which nothing was concluded: told apart by the test proposed, where a listed test can."""
    able = [group for group in met if group.can]
    told = sum(group.parted for group in able)
    missed = Counter(f"{_named(group)} by {group.test}" for group in able if not group.parted)
    found = "".join([f"{told} of {len(able)}", *(f"; not: {name}" for name in missed)])
    holds = told >= PARTED * len(able)
    yield Row(f"{kind}: alikes told apart by the next test", found, f"at least {PARTED:.0%}", holds)
    never = Counter(_named(group) for group in met if not group.can)
    for name, count in never.most_common():
        yield Row(
            f"{kind}: alikes that no test left could part", f"{name}, {count} times", "listed", holds=True
        )


def _named(group: Group) -> str:
    return " / ".join(sorted(group.faults))


def minutes(walked: Sequence[tuple[str, Walk]]) -> Mapping[str, float]:
    """Mean minutes of each fault's walks."""
    filed: dict[str, list[int]] = defaultdict(list)
    for fault, way in walked:
        filed[fault].append(way.minutes)
    return {fault: sum(spent) / len(spent) for fault, spent in filed.items()}


def counted(cars: Sequence[Both], *, is_wrong: bool) -> tuple[int, int]:
    """Right, or wrong, conclusions of both ways."""
    ways = [[(car.fault, way(car).concluded) for car in cars] for way in (_ours, _fixed)]
    judged = [[(found == truth) != is_wrong for truth, found in way if found is not None] for way in ways]
    return sum(judged[0]), sum(judged[1])


def _ours(car: Both) -> Walk:
    return car.ours


def _fixed(car: Both) -> Walk:
    return car.fixed
