"""Everything that a report's template shows, worked out from the job and its verdict."""

from datetime import datetime
from typing import Any

from markupsafe import Markup

from api.job import title
from api.pdf import charts, readings
from api.pdf.airline import air_line
from api.pdf.figures import figure, plain
from api.pdf.findings import fault_rows, finding_rows
from api.pdf.pulls import pulls
from api.pdf.request import ReportRequest
from api.pdf.words import VALUES

NOT_KNOWN = "The readings so far do not say where the fault is."
NOTHING_YET = "Nothing has been measured on this car yet."
MONTHS = (
    "January February March April May June July August September October November December".split()
)


def page(request: ReportRequest) -> dict[str, Any]:
    """The values of the template, by name."""
    document, verdict, unit = request.document, request.findings, request.unit
    names = readings.names_of(document, unit)
    is_customers = request.form != "technical"
    return {
        "form": request.form,
        "paper": request.paper,
        "language": request.language,
        "unit": unit,
        "title": f"{_heading(document)}: {title(document)}",
        **_head(document, request),
        "headline": _headline(verdict, customer=is_customers),
        "means": _conclusion(verdict, "customer_means"),
        "air_line": Markup(air_line(document, verdict, customer=is_customers)),  # noqa: S704 - drawn by us
        "charts": _charts(document, verdict, unit),
        "findings": finding_rows(verdict, unit, examined_only=is_customers),
        "faults": fault_rows(verdict),
        "pulls": [(pull.title, pull.cells(unit)) for pull in pulls(document)],
        "photos": _photos(document, request),
        "verdict": verdict,
        **_noted(document, names),
        **_versions(verdict, request),
    }


def day(text: str | None) -> str:
    """A date in words, `25 November 2026`; empty where there is none or it cannot be read."""
    try:
        moment = datetime.fromisoformat(text or "")
    except ValueError:
        return text or ""
    return f"{moment.day} {MONTHS[moment.month - 1]} {moment.year}"


def _heading(document: dict[str, Any]) -> str:
    workshop = document.get("workshop") or {}
    return str(workshop.get("name") or "Boost-control diagnosis")


def _head(document: dict[str, Any], request: ReportRequest) -> dict[str, Any]:
    vehicle, customer = document.get("vehicle") or {}, document.get("customer") or {}
    facts = [title(document), vehicle.get("registration")]
    if vehicle.get("odometer_km") is not None:
        facts.append(figure("odometer_km", vehicle["odometer_km"], request.unit))
    return {
        "heading": _heading(document),
        "date": day(document.get("opened_at")),
        "number": document["id"][:13],
        "car": [str(fact) for fact in facts if fact],
        "customer": customer.get("name") or "",
        "technician": document.get("technician") or "",
        "complaint": _complaint(document),
    }


def _complaint(document: dict[str, Any]) -> str:
    complaint = document.get("complaint") or {}
    symptoms = [VALUES.get(one, one.replace("_", " ")) for one in complaint.get("symptoms") or []]
    return complaint.get("text") or ", ".join(symptoms)


def _conclusion(verdict: dict[str, Any], key: str) -> str:
    return (verdict.get("conclusion") or {}).get(key) or ""


def _headline(verdict: dict[str, Any], *, customer: bool) -> str:
    said = _conclusion(verdict, "customer_says" if customer else "says") or _conclusion(verdict, "says")
    if said:
        return said
    is_measured = any(one["outcome"] != "not_examined" for one in verdict.get("findings", []))
    return NOT_KNOWN if is_measured else NOTHING_YET


def _charts(document: dict[str, Any], verdict: dict[str, Any], unit: str) -> list[dict[str, Any]]:
    drawn = (
        ("The actuator on the hand pump", charts.actuator(document, verdict, unit)),
        ("The road run", charts.road(pulls(document), unit)),
    )
    return [{"title": name, "svg": Markup(svg)} for name, svg in drawn if svg]  # noqa: S704 - drawn by us


def _photos(document: dict[str, Any], request: ReportRequest) -> list[dict[str, str]]:
    photos = []
    for number, photo in enumerate(document.get("photos") or [], 1):
        name = photo.get("sha256", "")
        photos.append(
            {
                "number": str(number),
                "file": f"photo-{name}" if name in request.photos else "",
                "caption": photo.get("caption") or "",
                "taken": day(photo.get("taken_at")),
            }
        )
    return photos


def _noted(document: dict[str, Any], names: readings.Names) -> dict[str, Any]:
    return {
        "vehicle": readings.part(document, "vehicle", names),
        "complaint_noted": readings.part(document, "complaint", names),
        "boost_control": readings.part(document, "boost_control", names),
        "limits": readings.part(document, "spec", names),
        "site": readings.part(document, "site", names),
        "gauges": readings.gauges(document, names),
        "tests": readings.tests(document, names),
        "road": readings.road(document, names),
        "steps": readings.steps(document, names),
    }


def _versions(verdict: dict[str, Any], request: ReportRequest) -> dict[str, Any]:
    moment = request.moment
    adjustment = verdict.get("adjustment") or {}
    return {
        "engine": verdict.get("engine", ""),
        "job_hash": request.job_hash,
        "made": f"{day(request.made_at)}, {moment:%H:%M} {moment:%Z}",
        "turns": plain(adjustment["rod_turns"]) if adjustment.get("rod_turns") is not None else "",
    }
