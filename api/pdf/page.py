"""Everything that a report's template shows, worked out from the job and its verdict."""

import re
from typing import Any

from markupsafe import Markup

from api.job import title
from api.pdf import charts, readings
from api.pdf.airline import air_line
from api.pdf.columns import columns, halves, pieces, section_lines, text_lines
from api.pdf.estimates import estimate
from api.pdf.figures import Printer
from api.pdf.findings import FindingRow, fault_rows, finding_rows, not_examined, not_weighed
from api.pdf.pulls import pulls
from api.pdf.request import ReportRequest
from api.pdf.words import words_for

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
        "arranged": lambda sections: columns(pieces(sections), 3, section_lines),
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
        "faults": fault_rows(verdict, printer),
        "not_weighed": not_weighed(verdict),
        "pulls": [(pull.title, pull.cells(printer)) for pull in pulls(document, printer)],
        "pulls_note": printer.words.say("pulls_note", unit=printer.unit),
        "estimate": estimate(document, printer),
        "codes": _codes(document, printer),
        "photos": _photos(document, request, printer),
        "verdict": verdict,
        **_noted(document, names),
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
        "proposal": printer.words.say("cure_customer") if cure and proof.get("proved") is not True else "",
        "cure": cure.get("says") or "",
        "proof": proof.get("says") or "",
    }


def _codes(document: dict[str, Any], printer: Printer) -> list[tuple[str, str]]:
    """Codes before, whether they were cleared, and what was read again: only once there is an after."""
    after, words = document.get("after_repair") or {}, printer.words
    if not after:
        return []
    before = (document.get("complaint") or {}).get("codes") or []
    rows = [(words.say("codes_before"), ", ".join(before) or words.say("codes_none"))]
    for key in ("codes_cleared", "learned_values_reset"):
        if key in after:
            rows.append((printer.label(key), words.answers[after[key]]))
    if "codes_reread" in after:
        rows.append((words.say("codes_after"), ", ".join(after["codes_reread"]) or words.say("codes_none")))
    return rows


def _charts(document: dict[str, Any], verdict: dict[str, Any], printer: Printer) -> list[dict[str, Any]]:
    drawn = (
        (printer.words.say("actuator_chart"), charts.actuator(document, verdict, printer)),
        (printer.words.say("road_chart"), charts.road(pulls(document, printer), printer)),
    )
    return [{"title": name, "svg": Markup(svg)} for name, svg in drawn if svg]  # noqa: S704 - drawn by us


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


def _versions(verdict: dict[str, Any], request: ReportRequest, printer: Printer) -> dict[str, Any]:
    moment = request.moment
    made = f"{printer.day(request.made_at)}, {moment:%H:%M} {moment:%Z}"
    engine, short = verdict["engine"], request.job_hash[:16]
    return {
        "engine": engine,
        "job_hash": request.job_hash,
        "judged": printer.words.say("judged", engine=engine, hash=short, made=made),
    }
