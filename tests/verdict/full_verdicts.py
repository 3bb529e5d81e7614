"""The verdicts on simulated cars with a known fault: how often right, how often wrong, by depth of evidence.

The bars are those that the project set itself; a row says plainly where one is not met. Some wrong ones are
the contract's own: a fault that moves nothing which was tested leaves `no_fault_found`.
"""

from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor

from tests.full.registry import Row, full_run
from tests.verdict.__main__ import as_the_priors_have_it, scores
from tests.verdict.score import CALIBRATION_SEEDS, TEST_SEEDS, Score, upper_bound

SMALL, WHOLE = 66, 2_000
FIRST_RIGHT = {"full": 0.93, "road": 0.65, "typed": 0.40}
IN_GROUP = {"full": 0.97, "road": 0.85, "typed": 0.0}


@full_run("verdicts", "Pressure wastegates with a known fault: the verdict right, wrong, and honest about it")
def verdicts(small: bool) -> Iterator[Row]:
    count, seed = (SMALL, CALIBRATION_SEEDS) if small else (WHOLE, TEST_SEEDS)
    with ProcessPoolExecutor(2) as pool:
        for depth in ("full",) if small else tuple(FIRST_RIGHT):
            faulty, sound = scores(pool, count, seed, depth, ["pressure"])
            yield from rows(depth, faulty, sound, small=small)


def rows(depth: str, faulty: Score, sound: Score, *, small: bool) -> Iterator[Row]:
    """The rows of one depth; in the small form only what a handful of cars can show."""
    slack = 0.10 if small else 0.0
    first, group = faulty.right_first, faulty.right_group
    yield row(f"{depth}: first right", first, FIRST_RIGHT[depth] - slack)
    yield row(f"{depth}: right in its group of {faulty.group_size:.2f}", group, IN_GROUP[depth] - slack)
    yield Row(f"{depth}: concluded right", f"{faulty.right_conclusion:.3f}", "stated", holds=True)
    for name, score in (("wrong", faulty), ("false alarms on sound cars", sound)):
        wrong, of = len(score.wrong), len(score.cars)
        found = f"{wrong} of {of} (at most {upper_bound(wrong, of):.4f})"
        yield Row(
            f"{depth}: {name}", found, "at most 3 in 1,000", holds=wrong <= (3 if small else 0.003 * of)
        )
    if not small:  # a handful of cars says nothing of calibration
        error, _ = as_the_priors_have_it(faulty, sound).calibration()
        yield Row(f"{depth}: calibration error", f"{error:.3f}", "at most 0.05", holds=error <= 0.05)


def row(name: str, share: float, least: float) -> Row:
    """A share against its bar."""
    return Row(name, f"{share:.3f}", f"at least {least:.2f}", holds=share >= least)
