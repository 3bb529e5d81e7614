"""What the verdict says, as rows for the report."""

from dataclasses import dataclass
from typing import Any

from api.pdf.figures import NO_BREAK, Printer

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
    beside: list[str]


@dataclass(frozen=True)
class FaultRow:
    """One fault as printed, with what speaks for and against it."""

    title: str
    standing: str
    is_ruled_out: bool
    probability: str
    explains: str
    says: str
    speaks_for: list[str]
    speaks_against: list[str]
    alike: list[str]


def finding_rows(verdict: dict[str, Any], printer: Printer) -> list[FindingRow]:
    """The checks that were examined, in the contract's order."""
    return [_finding(one, printer) for one in verdict["findings"] if one.get("value") is not None]


def not_examined(verdict: dict[str, Any]) -> list[tuple[str, str]]:
    """Why checks were not examined, each reason once, with the titles of its checks."""
    reasons: dict[str, list[str]] = {}
    for one in verdict["findings"]:
        if one.get("value") is None:
            reasons.setdefault(one["says"], []).append(one["title"])
    return [(reason, ", ".join(titles)) for reason, titles in reasons.items()]


def fault_rows(verdict: dict[str, Any], printer: Printer) -> list[FaultRow]:
    """The faults that something bears on, the most probable first."""
    titles = {one["check"]: one["title"] for one in verdict["findings"]}
    names = {one["fault"]: one["title"] for one in verdict["faults"]}
    weighed = [one for one in verdict["faults"] if one["standing"] != "not_examined"]
    return [_fault(one, titles, names, printer) for one in weighed]


def not_weighed(verdict: dict[str, Any]) -> str:
    """The titles of the faults that nothing bears on."""
    return ", ".join(one["title"] for one in verdict["faults"] if one["standing"] == "not_examined")


def _finding(finding: dict[str, Any], printer: Printer) -> FindingRow:
    outcome = finding["outcome"]
    return FindingRow(
        title=finding["title"],
        figure=finding["figure"] or printer.words.say("looked_at"),
        limit=limit_of(finding, printer),
        outcome=printer.words.outcomes[outcome],
        shape=outcome.replace("_", "-"),
        says=finding["says"],
        source=finding["source"] or "",
        beside=beside(finding),
    )


def beside(finding: dict[str, Any]) -> list[str]:
    """What more the reading says, a sentence each: the same hole on the road, the smallest defect shown."""
    more = [value for key, value in finding.items() if key != "smallest_shown" and isinstance(value, dict)]
    return [one["says"] for one in more if one.get("says")] + _shown(finding)


def could_show(verdict: dict[str, Any]) -> list[tuple[str, str]]:
    """Checks that were not examined and whose gauges are known: title, and what they would show at least."""
    missing = [one for one in verdict["findings"] if one.get("value") is None]
    return [(one["title"], " ".join(_shown(one))) for one in missing if _shown(one)]


def _shown(finding: dict[str, Any]) -> list[str]:
    """The smallest defect that this job's instruments show; nothing where no size is measured."""
    shown = finding.get("smallest_shown") or {}
    has_size = shown.get("low") is not None or shown.get("high") is not None
    return [shown["says"]] if has_size else []


def limit_of(finding: dict[str, Any], printer: Printer) -> str:
    """The limit that a finding was judged against, as printed; a dash where there is none to show."""
    ends = finding.get("limit")
    if not ends or finding["unit"] == "flag":
        return "–"
    low, high = ends.get("min"), ends.get("max")
    ending = ENDINGS.get(finding["unit"], "")
    if finding["unit"] == "mm/kPa":
        return _rate(ends, printer)
    if low is not None and low == -(high or 0.0):
        return f"± {printer.figure(ending, high)}"
    return printer.limit(ending, ends)


def _rate(ends: dict[str, Any], printer: Printer) -> str:
    """A limit of travel by pressure, per unit of the pressure asked for."""
    per_unit = {
        end: round(value / printer.pressure.per_kpa, 4) for end, value in ends.items() if value is not None
    }
    return f"{printer.limit('', per_unit)} mm/{printer.unit}"


def _fault(
    fault: dict[str, Any], titles: dict[str, str], names: dict[str, str], printer: Printer
) -> FaultRow:
    return FaultRow(
        title=names[fault["fault"]],
        standing=printer.words.standings[fault["standing"]],
        is_ruled_out=fault["standing"] == "ruled_out",
        probability=f"{printer.plain(round(fault['probability'] * 100, 1), 1)}{NO_BREAK}%",
        explains=printer.words.explains[fault["explains_complaint"]],
        says=fault["says"],
        speaks_for=[titles[check] for check in fault["for"]],
        speaks_against=[titles[check] for check in fault["against"]],
        alike=[names[other] for other in fault["alike"]],
    )
