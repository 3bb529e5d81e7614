"""Everything that a report's template shows, worked out from the job and its verdict."""

import re
from typing import Any

from markupsafe import Markup

from api.job import title
from api.pdf import charts, readings, run_chart, story
from api.pdf.airline import air_line
from api.pdf.columns import columns, halves, packed_lines, pieces, section_lines, text_lines
from api.pdf.estimates import estimate
from api.pdf.figures import Printer
from api.pdf.findings import (
    FindingRow,
    could_show,
    fault_rows,
    finding_rows,
    not_examined,
    not_weighed,
)
from api.pdf.pulls import pulls
from api.pdf.request import ReportRequest
from api.pdf.words import words_for

USUAL_TOLERANCE_KPA = 10.0  # the contract's, where none is given
HALF_WIDTH, WHOLE_WIDTH = 330.0, 690.0
SENTENCE_END = re.compile(r"(?<=[.!?]) (?=\S)")


def page(request: ReportRequest) -> dict[str, Any]:
    """The values of the template, by name."""
    document, verdict = request.document, request.findings
    printer = Printer(request.unit, words_for(request.language))
    names = readings.names_of(document, printer)
    is_customers = request.form != "technical"
    heading, address = _workshop(document, request, printer)
    return {
        "form": request.form,
        "paper": request.paper,
        "language": request.language,
        "say": printer.words.say,
        "arranged": lambda sections: columns(
            pieces(sections), 3, packed_lines if is_customers else section_lines
        ),
        "halves": lambda items: halves(items, text_lines),
        "said": lambda rows: halves(rows, _lines_said),
        "heading": heading,
        "address": address,
        "title": f"{heading}: {title(document, printer.words.say('no_car'))}",
        **_head(document, printer),
        **_sentences(verdict, printer, customer=is_customers),
        "air_line": Markup(air_line(document, verdict, printer.words, customer=is_customers)),  # noqa: S704
        "charts": _charts(document, verdict, printer),
        "findings": finding_rows(verdict, printer),
        "not_examined": not_examined(verdict),
        "could_show": could_show(verdict),
        "faults": fault_rows(verdict, printer),
        "not_weighed": not_weighed(verdict),
        "pulls": [(pull.title, pull.cells(printer)) for pull in pulls(document, printer)],
        "pulls_note": printer.words.say("pulls_note", unit=printer.unit),
        "estimate": estimate(document, printer),
        "codes": story.codes(document, printer),
        "gauges_used": story.gauges(document, printer),
        **_runs(request, printer),
        "photos": _photos(document, request, printer),
        "verdict": verdict,
        **_noted(document, names, request),
        **_versions(verdict, request, printer),
    }


def _lines_said(row: FindingRow) -> float:
    return 1 + text_lines(" ".join([row.says, *row.beside, row.source]))


def _workshop(document: dict[str, Any], request: ReportRequest, printer: Printer) -> tuple[str, str]:
    """The workshop's name and address: as the job has them, else as the server's settings do."""
    own, set_up = document.get("workshop") or {}, request.workshop
    if own.get("name"):
        return own["name"], own.get("address") or ""
    lines = (set_up.get("street"), set_up.get("town"))
    return set_up.get("name") or printer.words.say("heading"), ", ".join(line for line in lines if line)


def _head(document: dict[str, Any], printer: Printer) -> dict[str, Any]:
    vehicle, customer = document.get("vehicle") or {}, document.get("customer") or {}
    facts = [title(document, printer.words.say("no_car")), vehicle.get("registration")]
    if vehicle.get("odometer_km") is not None:
        facts.append(printer.figure("odometer_km", vehicle["odometer_km"]))
    return {
        "date": printer.day(document.get("opened_at")),
        "number": document["id"][:13],
        "car": [fact for fact in facts if fact],
        "customer": customer.get("name") or "",
        "technician": document.get("technician") or "",
        "complaint": _complaint(document, printer),
    }


def _complaint(document: dict[str, Any], printer: Printer) -> str:
    complaint = document.get("complaint") or {}
    return complaint.get("text") or ", ".join(printer.word(one) for one in complaint.get("symptoms") or [])


def _sentences(verdict: dict[str, Any], printer: Printer, *, customer: bool) -> dict[str, Any]:
    """The first sentence stands large; what follows it, and what it means, below."""
    said = verdict["customer"]["says"] if customer else verdict["says"]
    headline, *more = SENTENCE_END.split(said, maxsplit=1)
    proof = verdict.get("repair_proof") or {}
    cure = verdict.get("adjustment") or {}
    return {
        "headline": headline,
        "lead": more[0] if more else "",
        "means": verdict["customer"]["means"] if customer else "",
        "proposal": story.proposal(verdict, printer),
        "unpriced": story.unpriced(verdict, printer),
        "cure": cure.get("says") or "",
        "proof": proof.get("says") or "",
    }


def _charts(document: dict[str, Any], verdict: dict[str, Any], printer: Printer) -> list[dict[str, Any]]:
    """How we know, at a glance: the readings that speak for it, and the road."""
    say = printer.words.say
    tolerance = float((document.get("spec") or {}).get("boost_tolerance_kpa") or USUAL_TOLERANCE_KPA)
    drawn = (
        _evidence(document, verdict, printer),
        (say("road_chart"), charts.road(pulls(document, printer), tolerance, printer)),
    )
    return [{"title": name, "svg": Markup(svg)} for name, svg in drawn if svg]  # noqa: S704 - drawn by us


def _evidence(document: dict[str, Any], verdict: dict[str, Any], printer: Printer) -> tuple[str, str | None]:
    """The actuator on its pump, or where the fault lies elsewhere, what speaks for that."""
    say, location = printer.words.say, (verdict.get("conclusion") or {}).get("location")
    if location not in (None, "none", "actuator"):
        svg = charts.evidence(verdict, printer)
        if svg:
            return say("evidence_chart"), svg
    return say("actuator_chart"), charts.actuator(document, verdict, printer)


def _runs(request: ReportRequest, printer: Printer) -> dict[str, Any]:
    """The logged pulls over time: each of them for the technician, the clearest of each phase for others."""
    shown = run_chart.panels(request.courses, printer, every=request.form == "technical")
    width = HALF_WIDTH if len(shown) > 1 else WHOLE_WIDTH
    drawn = run_chart.drawn(shown, width, printer)
    return {
        "runs": [{"title": title, "svg": Markup(svg)} for title, svg in drawn],  # noqa: S704 - drawn by us
        "runs_legend": Markup(run_chart.legend(shown, WHOLE_WIDTH, printer)) if drawn else "",  # noqa: S704
    }


def _photos(document: dict[str, Any], request: ReportRequest, printer: Printer) -> list[dict[str, str]]:
    photos = []
    for number, photo in enumerate(document.get("photos") or [], 1):
        name = photo.get("sha256", "")
        photos.append(
            {
                "name": printer.words.say("photo", number=str(number)).capitalize(),
                "sha256": name,
                "file": f"photo-{name}" if name in request.photos else "",
                "missing": printer.words.say(
                    "photo_unreadable" if name in request.unreadable else "photo_missing"
                ),
                "caption": photo.get("caption") or "",
                "taken": printer.day(photo.get("taken_at")),
            }
        )
    return photos


def _noted(document: dict[str, Any], names: readings.Names, request: ReportRequest) -> dict[str, Any]:
    ranges = {course["run"]: course["ranges"] for course in request.courses}
    return {
        "vehicle": readings.part(document, "vehicle", names),
        "complaint_noted": readings.part(document, "complaint", names),
        "boost_control": readings.part(document, "boost_control", names),
        "limits": readings.part(document, "spec", names),
        "site": readings.part(document, "site", names),
        "gauges": readings.gauges(document, names),
        "tests": readings.tests(document, names),
        "road": readings.road(document, names, ranges),
        "steps": readings.steps(document, names),
    }


def _versions(verdict: dict[str, Any], request: ReportRequest, printer: Printer) -> dict[str, Any]:
    moment = request.moment
    made = f"{printer.day(request.made_at)}, {moment:%H:%M} {moment:%Z}"
    engine, short = verdict["engine"], request.job_hash[:16]
    return {
        "engine": engine,
        "job_hash": request.job_hash,
        "judged": printer.words.say("judged", engine=engine, hash=short, made=made),
    }
