"""What one check found, and the two ways to make a finding: against a limit, or yes and no."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import Any

from calc.checks.evidence import Evidence
from calc.uncertainty.decision import Chances, Limit, chances, outcome

MISREAD = 0.01  # a yes-or-no reading noted the wrong way round; common practice, no source


@dataclass(frozen=True, slots=True)
class Finding:
    """One row of the contract's table of checks.

    chances : probabilities that the true value is below, inside, above the limit; None where not judged.
        For a yes-or-no check 'low' means not in order.
    facts : what the sentence needs beside value and limit (a key of words and plain values).
    extras : further keys of ours for the verdict's finding, plain values only.
    typical : whether the limit is a default of the contract and not the maker's.
    lower_bound : whether the true value is at least the value given.
    """

    check: str
    unit: str
    outcome: str = "not_examined"
    value: float | None = None
    uncertainty: float | None = None
    limit: Limit | None = None
    chances: Chances | None = None
    read_from: tuple[str, ...] = ()
    source: str = ""
    typical: bool = False
    lower_bound: bool = False
    expanded: float | None = None
    facts: dict[str, Any] = field(default_factory=dict)
    extras: dict[str, Any] = field(default_factory=dict)

    @property
    def examined(self) -> bool:
        """Whether a reading was judged."""
        return self.outcome != "not_examined"

    @property
    def side(self) -> str | None:
        """Where an outside value lies: `low` or `high`; None otherwise."""
        if self.outcome != "outside" or self.chances is None:
            return None
        return "low" if self.chances.low >= self.chances.high else "high"

    @property
    def spoken_side(self) -> str | None:
        """The side as it is said: by depth for a vacuum actuator, whose pressures are negative."""
        if self.side is None or not self.facts.get("by_depth"):
            return self.side
        return "low" if self.side == "high" else "high"

    @property
    def expanded_uncertainty(self) -> float | None:
        """U = 2 u, unless the check gives a wider one of its own."""
        if self.expanded is not None:
            return self.expanded
        return None if self.uncertainty is None else 2.0 * self.uncertainty


@dataclass(frozen=True, slots=True)
class Check:
    """One row of the contract: its name, its unit, where its figures come from, and how it is examined."""

    name: str
    unit: str
    source: str
    examine: Callable[[Evidence, "Check"], Finding]

    def missing(self, because: str = "no_reading", **facts: Any) -> Finding:
        """`not_examined`, with the reason's key."""
        return Finding(self.name, self.unit, source=self.source, facts={"because": because, **facts})

    def judged(
        self,
        value: float,
        uncertainty: float,
        limit: Limit | None,
        read_from: tuple[str, ...],
        *,
        may_acquit: bool = True,
        typical: bool = False,
        **facts: Any,
    ) -> Finding:
        """A value against its limit; `not_examined` with the value where there is no limit."""
        if limit is None:
            return Finding(
                self.name,
                self.unit,
                value=value,
                uncertainty=uncertainty,
                read_from=read_from,
                source=self.source,
                facts={"because": "no_limit", **facts},
            )
        seen = chances(value, uncertainty, limit)
        return Finding(
            self.name,
            self.unit,
            outcome=outcome(value, limit, seen, may_acquit=may_acquit),
            value=value,
            uncertainty=uncertainty,
            limit=limit,
            chances=seen,
            read_from=read_from,
            source=self.source,
            typical=typical,
            facts=facts,
        )

    def flag(self, in_order: bool, read_from: tuple[str, ...], **facts: Any) -> Finding:
        """A yes-or-no reading: 1 for in order, 0 for not."""
        seen = Chances(MISREAD, 1.0 - MISREAD, 0.0) if in_order else Chances(1.0 - MISREAD, MISREAD, 0.0)
        return Finding(
            self.name,
            "flag",
            outcome="within" if in_order else "outside",
            value=1.0 if in_order else 0.0,
            uncertainty=0.0,
            limit=Limit(low=1.0),
            chances=seen,
            read_from=read_from,
            source=self.source,
            facts=facts,
        )


def all_true(check: Check, evidence: Evidence, places: tuple[tuple[str, bool], ...], **facts: Any) -> Finding:
    """A yes-or-no check over several places, each with the answer that means 'in order'.

    One wrong answer is not in order. Without a wrong answer, the answers given decide.
    """
    answers = [(place, evidence.get(place), right) for place, right in places]
    given = [(place, said == right) for place, said, right in answers if said is not None]
    if not given:
        return check.missing()
    wrong = tuple(place for place, right in given if not right)
    return check.flag(not wrong, wrong or tuple(place for place, _ in given), **facts)


def worse(findings: Iterable[Finding]) -> Finding | None:
    """Of several findings of one check the one least likely to be inside its limit; None without any."""
    judged = [found for found in findings if found.chances is not None]
    return min(judged, key=lambda found: found.chances.inside if found.chances else 1.0, default=None)
