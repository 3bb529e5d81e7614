"""The verdicts on simulated cars with a known fault: how often right, how often wrong, by depth of evidence.

The bars are those that the project set itself; a row says plainly where one is not met. A car whose fault
moved nothing that was tested is called free of faults by the contract's own rule: those are counted apart
from parts that were named wrongly.
"""

from collections.abc import Iterator
from concurrent.futures import Executor, ProcessPoolExecutor

from tests.full.registry import Row, full_run
from tests.verdict.__main__ import GAUGES, KINDS, as_the_priors_have_it, run, scores, strange_cars
from tests.verdict.score import CALIBRATION_SEEDS, TEST_SEEDS, Score, upper_bound

SMALL, WHOLE, OTHER_KINDS, STRANGE = 66, 2_000, 600, 300
FIRST_RIGHT = {"full": 0.93, "road": 0.65, "typed": 0.40}
IN_GROUP = {"full": 0.97, "road": 0.85, "typed": 0.0}
GROUP_SIZE = {"full": 2.0, "road": 4.0}
CONCLUDED = {"fine": 0.92, "coarse": 0.60}
STRANGE_FIRST = 0.90
WRONG, CALIBRATED = 0.003, 0.05


@full_run("verdicts", "Pressure wastegates with a known fault: the verdict right, wrong, and honest about it")
def verdicts(small: bool) -> Iterator[Row]:
    count, seed = (SMALL, CALIBRATION_SEEDS) if small else (WHOLE, TEST_SEEDS)
    with ProcessPoolExecutor(2) as pool:
        for depth in ("full",) if small else tuple(FIRST_RIGHT):
            faulty, sound = scores(pool, count, seed, depth, ["pressure"])
            yield from rows(depth, faulty, sound, small=small)
        if not small:
            yield from strange(pool, "pressure")


@full_run("verdicts: other kinds", "Vacuum and electric boost control through the same table, the same bars")
def other_kinds(small: bool) -> Iterator[Row]:
    count, seed = (SMALL, CALIBRATION_SEEDS) if small else (OTHER_KINDS, TEST_SEEDS)
    kinds = [kind for kind in KINDS if kind != "pressure"]
    with ProcessPoolExecutor(2) as pool:
        for kind in kinds[:1] if small else kinds:
            for depth in ("full",) if small else ("full", "road"):
                faulty, sound = scores(pool, count, seed, depth, [kind])
                yield from rows(f"{kind}, {depth}", faulty, sound, small=small)
            if not small:
                yield from strange(pool, kind)


def rows(name: str, faulty: Score, sound: Score, *, small: bool) -> Iterator[Row]:
    """The rows of one depth; in the small form only what a handful of cars can show."""
    depth = name.rsplit(" ", 1)[-1]
    slack = 0.10 if small else 0.0
    cars = f"{len(faulty.cars)} faulty cars"
    yield at_least(f"{name}: first right of {cars}", faulty.right_first, FIRST_RIGHT[depth] - slack)
    size = GROUP_SIZE.get(depth)
    group = f"{name}: right in its group of {faulty.group_size:.2f}, at most {size}"
    fits = size is None or faulty.group_size <= size
    yield at_least(group, faulty.right_group, IN_GROUP[depth] - slack, holds=fits)
    yield from conclusions(name, faulty, is_full=depth == "full" and not small)
    for what, wrong, of, most in (
        ("a part named wrongly", faulty.named_wrongly, faulty, WRONG),
        ("called free of faults by the contract's rule, nothing being outside", quiet(faulty), faulty, None),
        ("false alarms on sound cars", sound.wrong, sound, WRONG),
    ):
        yield counted(f"{name}: {what}", len(wrong), len(of.cars), 0.05 if small and most else most)
    if not small:  # a handful of cars says nothing of calibration
        error, _ = as_the_priors_have_it(faulty, sound).calibration()
        what = f"{name}: calibration error (Brier score {faulty.brier:.3f})"
        yield Row(what, f"{error:.3f}", f"at most {CALIBRATED}", holds=error <= CALIBRATED)


def conclusions(name: str, faulty: Score, *, is_full: bool) -> Iterator[Row]:
    """How often the conclusion is right; where the tests leave one fault, by the gauge that was used."""
    yield Row(f"{name}: concluded right", f"{faulty.right_conclusion:.3f}", "stated", holds=True)
    for gauges in GAUGES if is_full else ():
        left = faulty.with_gauges(gauges).one_left()
        what = f"{name}, gauges {gauges}: concluded right where one fault is left, {len(left.cars)} cars"
        undecided = sum(car.undecided for car in left.cars) / max(1, len(left.cars))
        what += f" ({undecided:.1%} of their checks undecided)"
        yield at_least(what, left.right_conclusion, CONCLUDED[gauges])


def quiet(faulty: Score) -> list[object]:
    """Cars on which no part was named and yet something was concluded."""
    return [car for car in faulty.wrong if car not in faulty.named_wrongly]


def strange(pool: Executor, kind: str) -> Iterator[Row]:
    """Causes outside the table: never proved, and known for what they are."""
    seen = Score(list(pool.map(run, strange_cars(STRANGE, TEST_SEEDS, "full", kind), chunksize=8)))
    what = f"{kind}: a cause outside the table first, or alike to what is first, of {len(seen.cars)}"
    yield at_least(what, seen.right_group, STRANGE_FIRST)
    yield counted(f"{kind}: a part named of such a car", len(seen.named_wrongly), len(seen.cars), WRONG)


def at_least(name: str, share: float, least: float, *, holds: bool = True) -> Row:
    """A share against its bar."""
    return Row(name, f"{share:.3f}", f"at least {least:.2f}", holds=holds and share >= least)


def counted(name: str, count: int, of: int, most: float | None) -> Row:
    """So many of so many, with the upper 95 % bound of the share, against a bar or stated."""
    found = f"{count} of {of} (at most {upper_bound(count, of):.4f})"
    required = "stated" if most is None else f"at most {most:.1%}"
    return Row(name, found, required, holds=most is None or count <= most * of)
