"""`/api/jobs/<id>/report.pdf`: a job on paper."""

import re
from typing import Any

from flask import Blueprint, Response, current_app, request

from api import given, limits, logs, report, shown
from api.context import connection, context
from api.errors import Problem
from api.guard import SANDBOX_POLICY
from api.job import NotWholeError
from api.pdf import process
from api.pdf.request import FORMS, PAPERS, ReportRequest
from api.pdf.words import LANGUAGES
from api.people.language import tell
from api.routes.jobs import asked, asked_unit, find, not_whole
from api.store import reports, settings
from api.store.changes import last_change
from api.store.jobs import KeptJob

blueprint = Blueprint("reports", __name__)

NOT_PLAIN = re.compile(r"[^A-Za-z0-9]+")
LONGEST_NAME = 30


@blueprint.get("/api/jobs/<job_id>/report.pdf")
def report_pdf(job_id: str) -> Response:
    """The report; the same job gives the same bytes until something in it changes."""
    job = find(job_id)
    wanted = _request_for(job)
    response = _paper(_file_name(wanted), given.sum_of(wanted))
    if response.status_code != 304:
        response.set_data(_drawn(job, wanted))
    return response


@blueprint.get("/api/jobs/<job_id>/reports")
def given_out(job_id: str) -> dict[str, Any]:
    """Each PDF of the job that was given out, the latest first, with the SHA-256 of its bytes."""
    return {
        "reports": [
            {
                "sha256": one.sha256,
                "form": one.form,
                "paper": one.paper,
                "unit": one.unit,
                "language": one.language,
                "made_at": one.made_at,
                "given_at": one.given_at,
            }
            for one in reports.of_job(connection(), find(job_id).id)
        ]
    }


@blueprint.get("/api/jobs/<job_id>/reports/<sha256>.pdf")
def earlier(job_id: str, sha256: str) -> Response:
    """A PDF as it was given out, byte for byte."""
    known = next((one for one in reports.of_job(connection(), job_id) if one.sha256 == sha256), None)
    path = context().blobs.find(sha256) if known else None
    if known is None or path is None:
        raise Problem(404, "no_report", tell("papers.none"))
    response = _paper(f"{known.made_at[:10]}-{known.form}.pdf", sha256)
    if response.status_code != 304:
        response.set_data(path.read_bytes())
    return response


def _paper(file_name: str, tag: str) -> Response:
    """An answer that no browser runs as a page of ours; 304 where the client has it."""
    response = Response(mimetype="application/pdf")
    response.set_etag(tag[:32])
    response.headers["Content-Disposition"] = f'attachment; filename="{file_name}"'
    response.headers["Content-Security-Policy"] = SANDBOX_POLICY
    response.make_conditional(request)
    return response


def _request_for(job: KeptJob) -> ReportRequest:
    try:
        return report.prepare(
            job.text,
            form=asked("form", FORMS, "customer"),
            paper=asked("paper", PAPERS, "a4"),
            unit=asked_unit(),
            language=asked("language", LANGUAGES, "en"),
            made_at=last_change(connection(), job.id),
            workshop=settings.read(connection(), "workshop"),
            photo=shown.printed,
            read_log=logs.read,
        )
    except NotWholeError as reason:
        raise not_whole(reason) from None


def _drawn(job: KeptJob, wanted: ReportRequest) -> bytes:
    try:
        return given.give(connection(), context().blobs, context().clock, job.id, wanted)
    except process.BusyError:
        raise Problem(503, "busy", "Other reports are being drawn. Try again in a moment.") from None
    except limits.ChildFailedError as failed:
        current_app.logger.error("a report could not be drawn: %s", failed.why)
        raise Problem(500, "not_drawn", "The report could not be drawn. Nothing was changed.") from None


def _file_name(wanted: ReportRequest) -> str:
    """A name of plain letters and digits, by the registration where there is one."""
    registration = (wanted.document.get("vehicle") or {}).get("registration") or ""
    plain = NOT_PLAIN.sub("-", registration).strip("-")[:LONGEST_NAME] or "job"
    return f"{plain}-{wanted.form}.pdf"
