"""`/desk` and `/desk/jobs/<id>`: which jobs there are, and everything about one of them."""

import json
from functools import cache
from pathlib import Path
from typing import Any

import jinja2
from flask import Response, request
from werkzeug import Response as AnyResponse

import calc
from api import logs, pictures, shown
from api.context import connection, context
from api.errors import Problem
from api.guard import SANDBOX_POLICY
from api.job import NotWholeError, judged, photo_names, title
from api.office import pages as office
from api.pdf.course import courses
from api.pdf.figures import Printer
from api.pdf.page import page
from api.pdf.request import ReportRequest
from api.pdf.words import words_for
from api.people.language import language, tell, tell_marked
from api.routes.jobs import asked, find, not_whole
from api.shelf import Book
from api.store import jobs, reports, settings
from api.store.blobs import NAME
from api.store.changes import last_change
from api.store.jobs import KeptJob

blueprint = office.blueprint("desk", prefix="")

USUAL_UNIT = "bar"
MOST_LISTED = 100
STYLE = Path(__file__).parent / "desk.css"


@blueprint.get("/desk")
def overview() -> str:
    """The jobs that changed last, with what is known of each."""
    printer = Printer(_unit(), words_for(language()))
    latest = jobs.latest_first(connection(), MOST_LISTED)
    rows = [_row(job, printer) for job in latest]
    return _filled("jobs.html", rows=rows, unit=printer.unit, units=calc.PRESSURE_UNITS, most=MOST_LISTED)


@blueprint.get("/desk/jobs/<job_id>")
def job_page(job_id: str) -> str:
    """One job: verdict, air line, findings, every reading, photos, and the ways to its PDFs."""
    job, unit = find(job_id), _unit()
    try:
        values = page(_material(job, unit))
    except NotWholeError as reason:
        raise not_whole(reason) from None
    return _filled(
        "job.html",
        **values,
        job=job,
        unit=unit,
        units=calc.PRESSURE_UNITS,
        remaining=values["verdict"]["remaining"],
        registration=(job.document.get("vehicle") or {}).get("registration") or "",
        given=reports.of_job(connection(), job.id),
    )


@blueprint.get("/desk/check")
def check() -> str:
    """Whether a copy of a PDF, by its SHA-256, is one that left this workshop."""
    copy = request.args.get("sha256", "").strip().lower()
    is_sum = bool(NAME.fullmatch(copy))
    known = reports.of_sum(connection(), copy) if is_sum else None
    return _filled("check.html", asked=copy, is_sum=is_sum, known=known, unit=_unit(), units=())


@blueprint.get("/desk/photos/<name>.jpg")
def photo(name: str) -> AnyResponse:
    """A photo as it is shown: decoded and written anew, never the bytes that came."""
    try:
        copy = shown.copy_of(name)
    except pictures.UnreadableError:
        copy = None
    if copy is None:
        raise Problem(404, "no_photo", tell("desk.no_photo"))
    response = Response(copy, mimetype="image/jpeg")
    response.headers["Content-Security-Policy"] = SANDBOX_POLICY
    response.headers["Cache-Control"] = "no-cache"
    response.set_etag(name[:32])
    return response.make_conditional(request)


@blueprint.get("/desk/desk.css")
def style() -> AnyResponse:
    """The pages' look."""
    book = Book("desk.css", STYLE.read_bytes())
    response = Response(book.data, mimetype=book.kind)
    response.headers["Cache-Control"] = "no-cache"
    response.set_etag(book.sha256[:32])
    return response.make_conditional(request)


def _unit() -> str:
    return asked("unit", calc.PRESSURE_UNITS, USUAL_UNIT)


def _material(job: KeptJob, unit: str) -> ReportRequest:
    """What the technician's report is made from, without the photos' bytes: the page fetches them itself."""
    there = [name for name in photo_names(job.document) if context().blobs.find(name)]
    return ReportRequest(
        job=job.text,
        verdict=judged(job.text, unit=unit, language=language(), read_log=logs.read),
        form="technical",
        language=language(),
        paper="a4",
        unit=unit,
        made_at=last_change(connection(), job.id),
        workshop=settings.read(connection(), "workshop"),
        photos=dict.fromkeys(there, b""),
        courses=courses(calc.read_job(job.text.encode()), logs.read),
    )


def _row(job: KeptJob, printer: Printer) -> dict[str, Any]:
    document = job.document
    return {
        "id": job.id,
        "title": title(document, tell("desk.unnamed")),
        "registration": (document.get("vehicle") or {}).get("registration") or "",
        "customer": (document.get("customer") or {}).get("name") or "",
        "opened": printer.day(document.get("opened_at")),
        "conflicts": len(job.conflicts),
        **_said(job, printer),
    }


def _said(job: KeptJob, printer: Printer) -> dict[str, str]:
    """The verdict in a line, and how sure it is; a job that is not whole yet says where."""
    try:
        verdict = json.loads(
            judged(job.text, unit=printer.unit, language=printer.words.language, read_log=logs.read)
        )
    except NotWholeError as reason:
        return {"says": str(reason), "standing": ""}
    conclusion = verdict["conclusion"] or {}
    standing = printer.words.standings.get(conclusion.get("standing", ""), "")
    return {"says": verdict["says"], "standing": standing}


def _filled(name: str, **values: Any) -> str:
    return _templates().get_template(name).render({"tell": tell_marked, "language": language(), **values})


@cache
def _templates() -> jinja2.Environment:
    """The desk's own templates, and the report's under `report/`, for the tables that both show."""
    own = jinja2.PackageLoader("api.desk", "templates")
    of_report = jinja2.PackageLoader("api.pdf", "templates")
    loader = jinja2.ChoiceLoader([own, jinja2.PrefixLoader({"report": of_report})])
    return jinja2.Environment(
        loader=loader,
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
