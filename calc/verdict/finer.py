"""Which gauge would settle an undecided finding: the coarsest class that would decide on the same reading."""

from collections.abc import Mapping
from typing import Any

from calc.checks import BY_NAME
from calc.checks.evidence import Evidence
from calc.checks.finding import Finding

CLASSES = (1.0, 0.6, 0.25, 0.1)  # EN 837-1, finer than the workshop's usual 1.6


def finer_class(found: Finding, evidence: Evidence) -> float | None:
    """The class of gauge that would have decided, or None where none would or no gauge was read."""
    if found.outcome != "undecided":
        return None
    used = [gauge for gauge in evidence.gauges.values() if gauge.get("class_pct") is not None]
    if not used:
        return None
    coarsest = max(float(gauge["class_pct"]) for gauge in used)
    finer = [class_pct for class_pct in CLASSES if class_pct < coarsest]
    if not finer or not _would_decide(found, evidence, finer[-1]):  # where the finest would not, none would
        return None
    return next(class_pct for class_pct in finer if _would_decide(found, evidence, class_pct))


def _would_decide(found: Finding, evidence: Evidence, class_pct: float) -> bool:
    check = BY_NAME[found.check]
    again = check.examine(Evidence(_with_class(evidence.job, class_pct)), check)
    return again.outcome in ("within", "outside")


def _with_class(job: Mapping[str, Any], class_pct: float) -> dict[str, Any]:
    gauges = [
        {**gauge, "class_pct": min(class_pct, gauge["class_pct"])}
        if gauge is not None and gauge.get("class_pct") is not None
        else gauge
        for gauge in job.get("gauges") or ()
    ]
    return {**job, "gauges": gauges}
