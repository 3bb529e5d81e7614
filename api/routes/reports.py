"""`/api/jobs/<id>/report.pdf`: a job on paper."""

import hashlib
import re

from flask import Blueprint, Response, current_app, request

from api import limits, logs, report, shown
from api.context import connection
from api.errors import Problem
from api.guard import SANDBOX_POLICY
from api.job import NotWholeError
from api.pdf import process
from api.pdf.request import FORMS, PAPERS, ReportRequest
from api.pdf.words import LANGUAGES
from api.routes.jobs import asked, asked_unit, find, not_whole
from api.store import settings
from api.store.changes import last_change
from api.store.jobs import KeptJob

blueprint = Blueprint("reports", __name__)

NOT_PLAIN = re.compile(r"[^A-Za-z0-9]+")
LONGEST_NAME = 30


@blueprint.get("/api/jobs/<job_id>/report.pdf")
def report_pdf(job_id: str) -> Response:
    """The report; the same job gives the same bytes until something in it changes."""
    wanted = _request_for(find(job_id))
    response = Response(mimetype="application/pdf")
    response.set_etag(hashlib.sha256(wanted.to_json().encode()).hexdigest()[:32])
    response.headers["Content-Disposition"] = f'attachment; filename="{_file_name(wanted)}"'
    response.headers["Content-Security-Policy"] = SANDBOX_POLICY
    response.make_conditional(request)
    if response.status_code != 304:
        response.set_data(_drawn(wanted))
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
            photo=shown.copy_of,
            read_log=logs.read,
        )
    except NotWholeError as reason:
        raise not_whole(reason) from None


def _drawn(wanted: ReportRequest) -> bytes:
    try:
        return process.draw(wanted)
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
