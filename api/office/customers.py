"""A customer's data: which jobs hold it, all of it in one file, and its erasure for good."""

import io
import json
import zipfile
from typing import Any

from flask import Response, flash, redirect, render_template, url_for
from wtforms import BooleanField, SelectMultipleField, SubmitField
from wtforms.fields import SelectChoice
from wtforms.validators import InputRequired
from wtforms.widgets import CheckboxInput, ListWidget

from api import erasure
from api.context import connection, context
from api.erasure import Eraser
from api.errors import Problem
from api.guard import SANDBOX_POLICY
from api.job import blob_names
from api.office.forms import OfficeForm
from api.office.pages import Answer, blueprint
from api.people import trail
from api.people.language import Later, tell
from api.store import erasures, jobs, reports
from api.store.jobs import KeptJob

office_customers = blueprint("office_customers")

MOST_JOBS = 200
FEWEST_DIGITS = 6  # fewer are an extension, or a slip, and shared by strangers


class Ticks(SelectMultipleField):
    """Several choices, each with its box."""

    widget = ListWidget(prefix_label=False)
    option_widget = CheckboxInput()


class EraseForm(OfficeForm):
    """Which jobs, and whether their photos too."""

    jobs = Ticks(Later("customer.jobs"), validators=[InputRequired(Later("customer.tick_one"))])
    photos = BooleanField(Later("customer.photos"))
    sure = BooleanField(Later("customer.sure"), validators=[InputRequired()])
    erase = SubmitField(Later("customer.erase_these"))


@office_customers.get("/customers/<job_id>")
def found(job_id: str) -> Answer:
    """The jobs that hold the same customer."""
    return _page(job_id, _form(_jobs_of(job_id)))


@office_customers.get("/customers/<job_id>/export.zip")
def export(job_id: str) -> Response:
    """All that the workshop keeps of the customer, for the customer: jobs as JSON, photos as they came."""
    held = _jobs_of(job_id)
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_STORED) as archive:
        for job in held:
            archive.writestr(f"{job.id}/job.json", json.dumps(job.document, ensure_ascii=False, indent=1))
            for name in blob_names(job.document):
                if path := context().blobs.find(name):
                    archive.write(path, f"{job.id}/{name}")
            for given in reports.of_job(connection(), job.id):
                if path := context().blobs.find(given.sha256):
                    archive.write(path, f"{job.id}/{given.made_at[:10]}-{given.sha256[:8]}.pdf")
    trail.note("did.exported", about=job_id, count=len(held))
    response = Response(packed.getvalue(), mimetype="application/zip")
    response.headers["Content-Disposition"] = 'attachment; filename="customer-data.zip"'
    response.headers["Content-Security-Policy"] = SANDBOX_POLICY
    return response


@office_customers.post("/customers/<job_id>/erase")
def erase(job_id: str) -> Any:
    """Erase the customer from the ticked jobs; measurements stay, without the person."""
    held = _jobs_of(job_id)
    form = _form(held)
    if not form.validate_on_submit():
        return _page(job_id, form)
    ticked = [job for job in held if job.id in form.jobs.data]
    key = erasures.own_key(connection())
    records = [
        record
        for job in ticked
        for record in erasure.of_customer(key, job.id, _photos(job, form.photos.data))
    ]
    Eraser(context().data, context().blobs).merge(connection(), records)
    for job in ticked:
        trail.note("did.erased_photos" if form.photos.data else "did.erased", about=job.id)
    flash(tell("customer.erased", count=len(ticked)))
    return redirect(url_for("office_jobs.search"))


def _jobs_of(job_id: str) -> list[KeptJob]:
    """The job, and those whose customer has the same e-mail, telephone, or name and registration."""
    first = jobs.find(connection(), job_id)
    if first is None:
        raise Problem(404, "no_job", tell("jobs.none"))
    marks = _marks(first)
    others = (job for job in jobs.latest_first(connection()) if job.id != first.id and marks & _marks(job))
    return [first, *(job for _, job in zip(range(MOST_JOBS), others, strict=False))]


def _marks(job: KeptJob) -> set[str]:
    customer, vehicle = job.document.get("customer") or {}, job.document.get("vehicle") or {}
    email = str(customer.get("email") or "").strip().casefold()
    digits = "".join(filter(str.isdigit, str(customer.get("phone") or "")))
    plate = "".join(str(vehicle.get("registration") or "").split()).casefold()
    name = " ".join(str(customer.get("name") or "").split()).casefold()
    marks = {
        f"mail {email}" if "@" in email else "",
        f"phone {digits}" if len(digits) >= FEWEST_DIGITS else "",
        f"name {name} {plate}" if name and plate else "",
    }
    return marks - {""}


def _form(held: list[KeptJob]) -> EraseForm:
    form = EraseForm()
    form.jobs.choices = [SelectChoice(job.id, _line(job)) for job in held]
    return form


def _line(job: KeptJob) -> str:
    document = job.document
    registration = (document.get("vehicle") or {}).get("registration") or tell("shared.no_registration")
    name = (document.get("customer") or {}).get("name") or tell("customer.no_name")
    return f"{str(document.get('opened_at') or '')[:10]} · {registration} · {name}"


def _photos(job: KeptJob, wanted: bool) -> list[str]:
    return [str(photo["id"]) for photo in job.document.get("photos") or [] if "id" in photo] if wanted else []


def _page(job_id: str, form: EraseForm) -> Answer:
    return render_template("office/customer.html", form=form, job_id=job_id)
