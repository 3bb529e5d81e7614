"""What the verdict says, as rows for the report."""

from dataclasses import dataclass
from typing import Any

from api.pdf.figures import limit
from api.pdf.words import EXPLAINS, OUTCOMES, STANDINGS, label

# The verdict's units as endings of keys, so that a limit is printed like any other.
ENDINGS = {
    "kPa": "_kpa",
    "kPa_abs": "_kpa_abs",
    "kPa/min": "_kpa_per_min",
    "mm": "_mm",
    "ohm": "_ohm",
    "V": "_v",
    "degC": "_c",
    "pct": "_pct",
    "g/s": "_gps",
}


@dataclass(frozen=True)
class FindingRow:
    """One check as printed; `shape` names the mark that stands for its outcome."""

    title: str
    figure: str
    limit: str
    outcome: str
    shape: str
    says: str
    source: str


@dataclass(frozen=True)
class FaultRow:
    """One fault as printed, with what speaks for and against it."""

    title: str
    standing: str
    probability: str
    explains: str
    says: str
    speaks_for: list[str]
    speaks_against: list[str]
    alike: list[str]


def finding_rows(verdict: dict[str, Any], unit: str, *, examined_only: bool = False) -> list[FindingRow]:
    """The checks in the contract's order."""
    found = verdict.get("findings", [])
    return [_finding(one, unit) for one in found if one.get("value") is not None or not examined_only]


def fault_rows(verdict: dict[str, Any]) -> list[FaultRow]:
    """The faults, the most probable first; those that nothing bears on are left to `not_tested`."""
    titles = {one["check"]: one.get("title", label(one["check"])) for one in verdict.get("findings", [])}
    names = {one["fault"]: one.get("title", label(one["fault"])) for one in verdict.get("faults", [])}
    return [_fault(one, titles, names) for one in verdict.get("faults", [])]


def _finding(finding: dict[str, Any], unit: str) -> FindingRow:
    outcome = finding["outcome"]
    return FindingRow(
        title=finding.get("title") or label(finding["check"]),
        figure=finding.get("figure") or "–",
        limit=_limit(finding, unit),
        outcome=OUTCOMES[outcome],
        shape=outcome.replace("_", "-"),
        says=finding.get("says") or "",
        source=finding.get("source") or "",
    )


def _limit(finding: dict[str, Any], unit: str) -> str:
    ends = finding.get("limit")
    if not ends or finding.get("unit") == "flag":
        return "–"
    return limit(ENDINGS.get(finding.get("unit", ""), ""), ends, unit)


def _fault(fault: dict[str, Any], titles: dict[str, str], names: dict[str, str]) -> FaultRow:
    return FaultRow(
        title=names[fault["fault"]],
        standing=STANDINGS[fault["standing"]],
        probability=f"{fault['probability'] * 100:.1f} %",
        explains=EXPLAINS[fault["explains_complaint"]],
        says=fault.get("says") or "",
        speaks_for=[titles.get(check, label(check)) for check in fault.get("for", [])],
        speaks_against=[titles.get(check, label(check)) for check in fault.get("against", [])],
        alike=[names.get(other, label(other)) for other in fault.get("alike", [])],
    )
