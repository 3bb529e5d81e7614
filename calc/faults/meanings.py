"""What each result of a test would mean: which faults it would point to, which it would speak against."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import fsum

from calc.faults.information import Outlook

POINTS_TO = 0.10  # a fault less probable than this after a result is not named for it
RISES = 1.5  # nor one that the result makes less than so many times as probable
FALLS = 0.4  # a fault that keeps no more than this share of its probability is spoken against
SELDOM = 0.004  # a result that fewer cars show is not spoken of
NAMED = 3  # faults named for a result
RESULTS = 4  # results spoken of, beside the one where all is in order
ASIDE = ("no_fault_found", "other_cause")


@dataclass(frozen=True, slots=True)
class Meaning:
    """One result of a test: the check and its state, the faults it speaks of; no check: all is in order."""

    check: str | None
    state: str
    faults: tuple[str, ...]
    more: int = 0  # faults beside those named


def meanings(test: str, names: Sequence[str], outlook: Outlook) -> tuple[Meaning, ...]:
    """The results that a test may have, the most probable first, and last that all is in order."""
    found: list[tuple[float, Meaning]] = []
    now = outlook.probabilities
    for name in names:
        for state in ("low", "high"):
            chance, then = outlook.after(test, name, state)
            risen = [
                fault.name
                for fault, share in then
                if share >= max(POINTS_TO, RISES * now[fault.name]) and fault.name not in ASIDE
            ]
            if chance >= SELDOM and risen:
                found.append((chance, Meaning(name, state, tuple(risen[:NAMED]))))
    found.sort(key=lambda one: -round(one[0], 9))
    return (*(meaning for _, meaning in found[:RESULTS]), *_all_in_order(test, names, outlook, now))


def _all_in_order(
    test: str, names: Sequence[str], outlook: Outlook, now: Mapping[str, float]
) -> tuple[Meaning, ...]:
    inside = outlook.all_inside(test, names)
    whole = fsum(now[fault] * share for fault, share in inside.items())
    fallen = [fault for fault, share in inside.items() if share <= FALLS * whole and fault not in ASIDE]
    fallen.sort(key=lambda fault: -round(now[fault], 9))
    if not fallen:
        return ()
    return (Meaning(None, "inside", tuple(fallen[:NAMED]), max(0, len(fallen) - NAMED)),)
