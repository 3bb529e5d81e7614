"""Jobs in the office: found by registration, name, day or fault."""

import contextlib
import json
from datetime import date
from typing import Any

from flask import redirect, render_template, request, url_for

import calc
from api import logs
from api.context import connection
from api.errors import Problem
from api.job import NotWholeError, judged, title
from api.office.pages import Answer, blueprint
from api.people.language import language, of_workshop, retell, tell
from api.store import job_words, jobs, outbox, reports, settings
from api.store.job_words import JobWords
from api.store.jobs import KeptJob
from api.words import USUAL, text

office_jobs = blueprint("office_jobs")

# A job is judged for its fault; the rest follows with the next look at the list.
READ_AT_ONCE = 20
LONGEST_SEARCH = 100
MOST_OF_A_CAR = 20
USUAL_UNIT = "bar"


@office_jobs.get("/")
def home() -> Any:
    """The office begins with its jobs."""
    return redirect(url_for("office_jobs.search"))


@office_jobs.get("/jobs")
def search() -> Answer:
    """Jobs by what was typed: every word must be in the job."""
    unread = read_new_jobs()
    asked = {name: request.args.get(name, "").strip() for name in ("words", "since", "until", "fault")}
    found = job_words.search(
        connection(),
        asked["words"][:LONGEST_SEARCH].split(),
        _day(asked["since"]),
        _day(asked["until"]),
        asked["fault"],
    )
    faults = [(one, calc.fault_title(one, language=language())) for one in job_words.faults(connection())]
    return render_template(
        "office/jobs.html", found=found, asked=asked, faults=faults, unread=unread, said=_said
    )


@office_jobs.get("/jobs/<job_id>")
def job(job_id: str) -> Answer:
    """One job: whose car, what the verdict says, its report and its customer's data."""
    kept = jobs.find(connection(), job_id)
    if kept is None:
        raise Problem(404, "no_job", tell("jobs.none"))
    words = words_of(kept)
    vin = str((kept.document.get("vehicle") or {}).get("vin") or "")
    same_car = jobs.of_the_car(connection(), words.registration, vin)
    return render_template(
        "office/job.html",
        kept=kept,
        document=kept.document,
        words=words,
        letters=outbox.of_job(connection(), kept.id),
        given=reports.of_job(connection(), kept.id),
        said=_said,
        retell=retell,
        before=[words_of(other) for other in same_car[:MOST_OF_A_CAR] if other.id != kept.id],
    )


def read_new_jobs() -> int:
    """Read some of the jobs that the search does not know yet; how many are left."""
    jobs.catch_up(connection())
    for job_id in job_words.missing(connection(), READ_AT_ONCE):
        if kept := jobs.find(connection(), job_id):
            job_words.keep(connection(), words_of(kept))
    return len(job_words.missing(connection(), READ_AT_ONCE + 1))


def words_of(kept: KeptJob) -> JobWords:
    """What a job is found by."""
    document = kept.document
    vehicle, customer = document.get("vehicle") or {}, document.get("customer") or {}
    registration = str(vehicle.get("registration") or "")
    fault, says, proved = _conclusion(kept, of_workshop() or USUAL)
    texts = [
        registration,
        "".join(registration.split()),  # found with and without its blanks
        *(str(customer.get(key) or "") for key in ("name", "email", "phone")),
        str(vehicle.get("vin") or ""),
        title(document),
        str(document.get("technician") or ""),
        str((document.get("complaint") or {}).get("text") or ""),
        fault.replace("_", " "),
        *(calc.fault_title(fault, language=one) for one in calc.LANGUAGES if fault),
    ]
    return JobWords(
        job=kept.id,
        registration=registration,
        customer=str(customer.get("name") or ""),
        opened_on=str(document.get("opened_at") or "")[:10],
        fault=fault,
        says=says,
        words="\n".join(texts).casefold(),
        proved=proved,
    )


def _said(found: JobWords) -> str:
    """What the job's verdict says, in the language of whoever looks."""
    if language() == (of_workshop() or USUAL):
        return found.says
    kept = jobs.find(connection(), found.job)
    return _conclusion(kept, language())[1] if kept else ""


def _conclusion(kept: KeptJob, spoken: str) -> tuple[str, str, str]:
    """The fault, the sentence in the language `spoken`, and the fault once more where the job proved it."""
    unit = settings.read(connection(), "workshop").get("unit", USUAL_UNIT)
    try:
        verdict = json.loads(judged(kept.text, unit=unit, language=spoken, read_log=logs.read))
    except NotWholeError:
        return "", text(spoken, "jobs.not_whole"), ""
    fault = str((verdict["conclusion"] or {}).get("fault") or "")
    return fault, str(verdict["says"]), fault if _is_proved(verdict) else ""


def _is_proved(verdict: dict[str, Any]) -> bool:
    """Whether the conclusion is a proof, and the run after the repair, where there is one, bears it out."""
    repaired = (verdict.get("repair_proof") or {}).get("proved")
    return (verdict["conclusion"] or {}).get("standing") == "proved" and repaired is not False


def _day(text: str) -> str:
    """The day as it is compared; what is no day does not narrow the search."""
    with contextlib.suppress(ValueError):
        return date.fromisoformat(text).isoformat()
    return ""
