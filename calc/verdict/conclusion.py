"""What may be concluded: one fault, a pair, or nothing yet."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from math import fsum, log

from calc.checks.evidence import Kind
from calc.faults.model import Findings
from calc.faults.weigh import Weighed, expected, likelihood, seen_as

EXPLAINS_MOST = ("yes", "partly", "unknown")  # a proof that explains nothing is never the conclusion
ACCOUNTED_FOR = 0.08  # of a hundred cars with a fault, so many must show a finding for it to be explained
ASIDE = ("no_fault_found", "other_cause")


@dataclass(frozen=True, slots=True)
class Pair:
    """Two faults that together explain every finding that is outside."""

    first: str
    second: str


def conclude(weighed: Sequence[Weighed]) -> Weighed | None:
    """The proved fault that explains most, else the likely one, else no fault found, else None.

    `weighed` is in the table's order, so of two that explain alike the earlier location comes first.
    """
    for explains in EXPLAINS_MOST:
        for item in weighed:
            if item.standing == "proved" and item.explains == explains:
                return item
    if any(item.standing == "proved" for item in weighed):
        return None
    likely = [item for item in weighed if item.standing == "likely"]
    parts = [item for item in likely if item.fault.name != "no_fault_found"]
    return next(iter(parts or likely), None)


def is_settled(conclusion: Weighed | None) -> bool:
    """Whether nothing more needs to be tested: proved, and it explains the complaint."""
    return conclusion is not None and conclusion.standing == "proved" and conclusion.explains == "yes"


def pairs(weighed: Sequence[Weighed], findings: Findings, kind: Kind) -> list[Pair]:
    """The most probable pair where no single fault accounts for every finding outside; else nothing."""
    odd = [name for name, found in findings.items() if found.outcome == "outside"]
    running = [item for item in weighed if item.fault.name not in ASIDE and item.standing != "ruled_out"]
    made_by = {
        item.fault.name: {name for name in odd if _accounts(item, name, findings, kind)} for item in running
    }
    if len(odd) < 2 or any(len(made) == len(odd) for made in made_by.values()):
        return []
    fitting = [
        (_weight(one, other, findings, kind, odd), Pair(one.fault.name, other.fault.name))
        for one, other in combinations(running, 2)
        if len(made_by[one.fault.name] | made_by[other.fault.name]) == len(odd)
    ]
    if not fitting:
        return []
    return [max(fitting, key=lambda pair: pair[0])[1]]


def _accounts(item: Weighed, name: str, findings: Findings, kind: Kind) -> bool:
    if name in item.proof:
        return True
    return likelihood(seen_as(name, findings[name], kind), expected(item.fault, name, kind)) >= ACCOUNTED_FOR


def _weight(one: Weighed, other: Weighed, findings: Findings, kind: Kind, odd: Sequence[str]) -> float:
    """Proofs first, then how well both together make the findings that are outside."""
    proved = fsum(1.0 for item in (one, other) if item.standing == "proved")
    made = fsum(
        log(max(likelihood(seen_as(name, findings[name], kind), expected(item.fault, name, kind))
                for item in (one, other)))
        for name in odd
    )  # fmt: skip
    return 100.0 * proved + made
