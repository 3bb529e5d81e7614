"""The doubt of the checks against simulation: Monte Carlo (JCGM 101) and coverage."""

import math
import random
from collections.abc import Iterator
from statistics import stdev

from tests.calc.uncertainty.simulated import CASES, Case, Shop
from tests.full.registry import Row, full_run

AGREE = 0.05
COVER, WIDEST = 0.945, 1.5
SLOW = ("actuator_start, sweep", "actuator_rate, sweep", "actuator_hysteresis")
# Where the propagated doubt is more than 5 % wider than the simulated one: why, and by how much at most.
WIDER = {
    "actuator_start, sweep": ("at least one reading's own doubt stands for the scatter", 1.15),
    "actuator_rate, sweep": ("half of the class error may tilt the scale; one fixed error does not", 1.4),
    "actuator_hysteresis": ("the opening line between two points is smoother than one of them", 1.35),
}


@full_run("monte-carlo", "Simulated spread of the checks' values beside the propagated standard uncertainty")
def monte_carlo(small: bool) -> Iterator[Row]:
    for case in CASES:
        draws = {(True, True): 150, (True, False): 1_000, (False, True): 2_000}.get(
            (small, case.name in SLOW), 10_000
        )
        yield agreement(case, draws)


def agreement(case: Case, draws: int) -> Row:
    """Standard deviation of the value over draws of every input from its stated distribution."""
    rng = random.Random(f"monte carlo {case.name}")
    values, doubts, key = [], [], "area_m2" if case.check == "charge_leak_hole" else None
    for _ in range(draws):
        truth = dict(case.nominal)
        if "cd" in truth:
            truth["cd"] = rng.gauss(truth["cd"], 0.03)
        found = case.examined(truth, Shop(rng, rounded=False))
        assert found.value is not None
        values.append(found.facts[key] if key else found.value)
        doubts.append(found.uncertainty or 0.0)
    u = math.sqrt(math.fsum(each * each for each in doubts) / draws)  # a fit takes its doubt from its scatter
    if case.name not in SLOW:
        nominal = case.examined(case.nominal, Shop(rng, exact=True))
        u = nominal.facts["area_u_m2"] if key else (nominal.uncertainty or 0.0)
    ratio = u / stdev(values)
    reason, most = WIDER.get(case.name, ("", 1.0 + AGREE))
    noise = 2.0 / math.sqrt(2.0 * draws)  # of the simulated spread itself, two standard deviations
    allowed = f"{1.0 - AGREE:.2f} to {most:.2f}" + (f": {reason}" if reason else "")
    return Row(
        case.name,
        f"propagated / simulated {ratio:.3f} in {draws} draws",
        allowed,
        holds=1.0 - AGREE - noise <= ratio <= most + noise,
    )


@full_run("coverage", "How often the expanded interval covers the true value, and how wide it is")
def coverage(small: bool) -> Iterator[Row]:
    for case in CASES:
        yield covered(case, 120 if small else 2_000)


def covered(case: Case, jobs: int) -> Row:
    """Jobs with one fixed error a gauge; width against the shortest interval that covers 95 %."""
    rng = random.Random(f"coverage {case.name}")
    misses = []
    for _ in range(jobs):
        truth = case.drawn(rng)
        found = case.examined(truth, Shop(rng))
        assert found.value is not None, found
        assert found.expanded_uncertainty, found
        misses.append((found.value - case.true(truth)) / found.expanded_uncertainty)
    share = sum(1 for miss in misses if abs(miss) <= 1.0) / jobs
    width = 2.0 / shortest(misses, 0.95)
    chance = 2.0 * math.sqrt(COVER * (1.0 - COVER) / jobs) if jobs < 2_000 else 0.0
    return Row(
        case.name,
        f"{100 * share:.1f} % of {jobs}, {width:.2f} times the shortest",
        f"at least {100 * (COVER - chance):.1f} %, at most {WIDEST} times",
        holds=share >= COVER - chance and width <= WIDEST,
    )


def shortest(values: list[float], share: float) -> float:
    """Width of the shortest interval that holds a share of the values."""
    ordered = sorted(values)
    inside = math.ceil(share * len(ordered))
    return min(ordered[at + inside - 1] - ordered[at] for at in range(len(ordered) - inside + 1))
