"""`/api/jobs`: the jobs that the workshop holds, their receipts and verdicts."""

import hashlib
from collections.abc import Sequence
from typing import Any

from flask import Blueprint, Response, request

import calc
from api import exchange, logs
from api.context import connection, context
from api.errors import Problem
from api.fold.receipt import receipt_lines, receipt_sum
from api.job import NotWholeError, blob_names, judged, title
from api.people.language import tell
from api.store import jobs, operations
from api.store.jobs import KeptJob

blueprint = Blueprint("jobs", __name__)

JOBS_A_PAGE = 100
MOST_JOBS_A_PAGE = 500
END_OF_LIST = 2**53


@blueprint.get("/api/jobs")
def overview() -> list[dict[str, Any]]:
    """Jobs, the one that changed last first: at most `limit`, below the `last_number` given as `before`."""
    limit = _whole_number("limit", JOBS_A_PAGE, most=MOST_JOBS_A_PAGE)
    before = _whole_number("before", END_OF_LIST, most=END_OF_LIST)
    return [_summary(job) for job in jobs.latest_first(connection(), limit, before)]


@blueprint.get("/api/jobs/<job_id>")
def document(job_id: str) -> Response:
    """The job document, the fold of its operations."""
    job = find(job_id)
    response = Response(job.text, mimetype="application/json")
    response.headers["X-Document-SHA256"] = hashlib.sha256(job.text.encode()).hexdigest()
    return response


@blueprint.get("/api/jobs/<job_id>/receipt")
def receipt(job_id: str) -> dict[str, Any]:
    """What the phone compares with its own sum before it calls the job safe."""
    job = find(job_id)
    listed = _receipt_operations(job_id)
    there = [name for name in blob_names(job.document) if context().blobs.find(name)]
    return {
        "sha256": receipt_sum(receipt_lines(listed, there)),
        "operations": len(listed),
        "blobs": len(there),
        "server_time": exchange.server_time(),
    }


@blueprint.get("/api/jobs/<job_id>/verdict")
def verdict(job_id: str) -> Response:
    """What the readings say, in the unit asked for."""
    return Response(judge(find(job_id), asked_unit()), mimetype="application/json")


def find(job_id: str) -> KeptJob:
    """The job of that id; a clear answer where there is none."""
    job = jobs.find(connection(), job_id)
    if job is None:
        raise Problem(404, "no_job", tell("jobs.none"))
    return job


def judge(job: KeptJob, unit: str) -> str:
    """The verdict's text; a clear answer where the job is not whole yet."""
    try:
        return judged(job.text, unit=unit, read_log=logs.read)
    except NotWholeError as reason:
        raise not_whole(reason) from None


def asked_unit() -> str:
    """The unit of pressure that the request names, kPa where it names none."""
    return asked("unit", calc.PRESSURE_UNITS, "kPa")


def asked(name: str, known: Sequence[str], usual: str) -> str:
    """One of the words that the request may name, the usual one where it names none."""
    given = request.args.get(name, usual)
    if given not in known:
        raise Problem(400, f"unknown_{name}", f"{name} is none of {', '.join(known)}.")
    return given


def not_whole(reason: NotWholeError) -> Problem:
    """What is answered where a job breaks the contract: the place and what is wrong there."""
    return Problem(422, "broken_document", tell("problem.not_judged", reason=reason))


def _whole_number(name: str, absent: int, most: int) -> int:
    text = request.args.get(name, str(absent))
    if not text.isdecimal() or not 1 <= int(text[:20]) <= most:
        raise Problem(400, "no_number", f"{name} is not a whole number from 1 to {most}.")
    return int(text)


def _receipt_operations(job_id: str) -> list[tuple[int, str, str]]:
    return operations.sums_of_job(connection(), job_id)


def _summary(job: KeptJob) -> dict[str, Any]:
    document = job.document
    return {
        "id": job.id,
        "title": title(document),
        "opened_at": document.get("opened_at"),
        "registration": document.get("vehicle", {}).get("registration"),
        "conflicts": len(job.conflicts),
        "waiting": len(job.waiting),
        "last_number": job.last_number,
    }
