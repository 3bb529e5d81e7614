"""Does a defect of the size measured make the boost error measured?

The error is real boost against specified, by gauge, else by the car's own sensor. Where the loop hides the
error, the trim that hides it stands in its place. `yes` within the doubt of both, `partly` for half.
"""

from dataclasses import dataclass
from math import isinf

from calc.checks.evidence import Evidence
from calc.checks.finding import Finding
from calc.faults.model import Fault, Findings

PARTLY = 0.5


@dataclass(frozen=True, slots=True)
class BoostError:
    """What the road run showed: signed (more boost positive), with its doubt and its check. [kPa]"""

    value: float
    expanded: float
    check: str


def boost_error(findings: Findings) -> BoostError | None:
    """The error that a defect has to explain, or None where the road run shows none or was not made."""
    for name in ("road_real_boost", "road_tracking"):
        found = findings[name]
        if found.outcome == "outside" and found.value is not None:
            return BoostError(found.value, found.expanded_uncertainty or 0.0, name)
    trim = findings["road_correction"]
    if trim.outcome == "outside" and trim.value is not None and trim.facts.get("unit") == "kPa":
        return BoostError(-trim.value, trim.expanded_uncertainty or 0.0, "road_correction")
    return None


def explains(fault: Fault, evidence: Evidence, findings: Findings) -> str:
    """`yes`, `partly`, `no` or `unknown`."""
    error = _by_gauge(findings) if fault.location == "input_signal" else boost_error(findings)
    if error is None:
        return "no" if _nothing_to_explain(findings) and fault.effect(evidence, findings) else "unknown"
    effect = fault.effect(evidence, findings)
    if effect is None:
        return "unknown"
    if effect.boost_kpa * error.value <= 0.0:
        return "no"
    if isinf(effect.boost_kpa):
        return "yes"
    reach, needed = abs(effect.boost_kpa) + effect.expanded, abs(error.value)
    if reach >= needed - error.expanded:
        return "yes"
    return "partly" if reach >= PARTLY * needed else "no"


def _by_gauge(findings: Findings) -> BoostError | None:
    """The error by a real gauge alone: what a lying sensor says, or makes the loop trim, is its lie."""
    found = boost_error(findings)
    return found if found is not None and found.check == "road_real_boost" else None


def _nothing_to_explain(findings: Findings) -> bool:
    """Boost right and no lasting trim: a defect that does nothing to boost explains no complaint about it."""
    boost = _examined(findings, "road_real_boost", "road_tracking")
    trim = _examined(findings, "road_correction", "road_authority")
    return bool(boost and trim) and all(found.outcome == "within" for found in boost + trim)


def _examined(findings: Findings, *names: str) -> list[Finding]:
    return [findings[name] for name in names if findings[name].examined]
