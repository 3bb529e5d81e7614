"""`/api/jobs/<id>/history`: other jobs of the same car, for a phone that holds only the latest ones."""

import json
from typing import Any

from flask import Blueprint

from api import logs
from api.context import connection
from api.job import NotWholeError, judged
from api.pdf.words import LANGUAGES
from api.routes.jobs import asked, asked_unit, find
from api.store import jobs
from api.store.jobs import KeptJob

blueprint = Blueprint("history", __name__)

MOST = 20


@blueprint.get("/api/jobs/<job_id>/history")
def of_car(job_id: str) -> dict[str, Any]:
    """Jobs by the same registration or VIN, the one that changed last first, with what each came to."""
    job = find(job_id)
    unit, language = asked_unit(), asked("language", LANGUAGES, "en")
    vehicle = job.document.get("vehicle") or {}
    marks = (str(vehicle.get(key) or "") for key in ("registration", "vin"))
    others = [one for one in jobs.of_the_car(connection(), *marks) if one.id != job.id]
    return {"jobs": [_line(one, unit, language) for one in others[:MOST]]}


def _line(job: KeptJob, unit: str, language: str) -> dict[str, Any]:
    return {
        "id": job.id,
        "opened_at": job.document.get("opened_at") or "",
        "complaint": (job.document.get("complaint") or {}).get("text") or "",
        "says": _said(job, unit, language),
    }


def _said(job: KeptJob, unit: str, language: str) -> str:
    """The verdict in a sentence; empty where the job is not whole yet."""
    try:
        return str(json.loads(judged(job.text, unit=unit, language=language, read_log=logs.read))["says"])
    except NotWholeError:
        return ""
