"""The library of vehicle limits: each with its source and who typed it. Taken in and given out as CSV."""

import uuid
from typing import Any

from flask import Response, flash, redirect, render_template, url_for
from flask_wtf import FlaskForm
from flask_wtf.file import FileField, FileRequired
from wtforms import SelectField, StringField, SubmitField
from wtforms.fields import SelectChoice
from wtforms.validators import Length

from api.clock import stamp
from api.context import connection, context
from api.errors import Problem
from api.office import quantities, sheet
from api.office.forms import line, trimmed
from api.office.pages import Answer, blueprint
from api.people import session, trail
from api.store import database, vehicle_limits
from api.store.vehicle_limits import VehicleLimit

office_limits = blueprint("office_limits")

COLUMNS = ("make", "model", "engine", "quantity", "least", "most", "source", "typed_by", "typed_at")
TYPED = COLUMNS[:7]  # who typed a limit, and when, is what this server knows, not what a file says
MOST_ROWS = 5_000
TITLES = [
    SelectChoice(quantity.key, f"{quantity.title}, {quantity.unit}") for quantity in quantities.QUANTITIES
]


class LimitForm(FlaskForm):
    """One limit of one engine, from the maker's data."""

    make = line("Make", most=60)
    model = line("Model", most=60)
    engine = line("Engine", most=60, description="As the maker names it, so that the phone finds it again.")
    quantity = SelectField("Quantity", choices=TITLES)
    least = StringField("At least", filters=[trimmed], validators=[Length(max=12)])
    most = StringField("At most", filters=[trimmed], validators=[Length(max=12)])
    source = line("Source", most=200, description="Where the maker says so: manual, page, date.")
    send = SubmitField("Keep the limit")


class FileForm(FlaskForm):
    """A file of limits."""

    file = FileField("CSV file", validators=[FileRequired()])
    take_in = SubmitField("Take it in")


@office_limits.route("/limits", methods=["GET", "POST"])
def library() -> Any:
    """All limits, and a form for one more."""
    form = LimitForm()
    if form.validate_on_submit() and _keep(form, str(uuid.uuid4())):
        return redirect(url_for("office_limits.library"))
    return _page(form)


@office_limits.route("/limits/<limit_id>", methods=["GET", "POST"])
def limit(limit_id: str) -> Any:
    """Change one limit."""
    found = _find(limit_id)
    form = LimitForm(obj=found)
    if form.validate_on_submit() and _keep(form, found.id):
        return redirect(url_for("office_limits.library"))
    return render_template("office/limit.html", form=form, limit=found)


@office_limits.post("/limits/<limit_id>/remove")
def remove(limit_id: str) -> Any:
    """Take one out."""
    found = _find(limit_id)
    with database.writing(connection()):
        vehicle_limits.remove(connection(), found.id)
        trail.note("removed a vehicle limit", about=_name(found))
    return redirect(url_for("office_limits.library"))


@office_limits.get("/limits.csv")
def export() -> Response:
    """The library as CSV."""
    rows = ([getattr(one, column) for column in COLUMNS] for one in vehicle_limits.every(connection()))
    response = Response(sheet.written(COLUMNS, rows), mimetype="text/csv; charset=utf-8")
    response.headers["Content-Disposition"] = 'attachment; filename="vehicle-limits.csv"'
    return response


@office_limits.post("/limits/take-in")
def take_in() -> Any:
    """Take a CSV file in: all of it, or nothing and why."""
    form = FileForm()
    if not form.validate_on_submit():
        raise Problem(400, "no_file", "No file was chosen.")
    limits, wrong = _read(form.file.data.read())
    if wrong:
        return _page(LimitForm(formdata=None), wrong)
    with database.writing(connection()):
        for one in limits:
            vehicle_limits.keep(connection(), one)
        trail.note(f"took {len(limits)} vehicle limits in from a file")
    flash(f"{len(limits)} limits are in the library.")
    return redirect(url_for("office_limits.library"))


def _page(form: LimitForm, wrong: list[str] | None = None) -> Answer:
    page = render_template(
        "office/limits.html",
        form=form,
        file_form=FileForm(formdata=None),
        limits=vehicle_limits.every(connection()),
        quantities=quantities.BY_KEY,
        wrong=wrong,
    )
    return page, 422 if wrong else 200


def _find(limit_id: str) -> VehicleLimit:
    found = vehicle_limits.find(connection(), limit_id)
    if found is None:
        raise Problem(404, "no_limit", "There is no such limit in the library.")
    return found


def _keep(form: LimitForm, limit_id: str) -> bool:
    try:
        made = _limit(limit_id, {name: form[name].data or "" for name in TYPED})
    except ValueError as wrong:
        form.least.errors = [f"{wrong}."]
        return False
    with database.writing(connection()):
        vehicle_limits.keep(connection(), made)
        trail.note("kept a vehicle limit", about=_name(made))
    flash("Kept.")
    return True


def _read(data: bytes) -> tuple[list[VehicleLimit], list[str]]:
    """The limits of a file, and what is wrong with its rows."""
    try:
        rows = sheet.read(data, TYPED, MOST_ROWS)
    except sheet.NoSheetError as error:
        return [], [str(error)]
    limits, wrong = [], []
    for number, row in enumerate(rows, start=2):
        try:
            limits.append(_limit(str(uuid.uuid4()), row))
        except ValueError as error:
            wrong.append(f"Row {number}: {error}.")
    return limits, wrong


def _limit(limit_id: str, row: dict[str, str]) -> VehicleLimit:
    texts = {name: row[name].strip() for name in TYPED}
    for name in ("make", "model", "engine", "source"):
        if not 1 <= len(texts[name]) <= 200 or any(ord(sign) < 32 for sign in texts[name]):
            raise ValueError(f"{name} is not one line of 1 to 200 characters")
    least, most = quantities.check(texts["quantity"], texts["least"], texts["most"])
    person = session.person()
    return VehicleLimit(
        id=limit_id,
        make=texts["make"],
        model=texts["model"],
        engine=texts["engine"],
        quantity=texts["quantity"],
        least=least,
        most=most,
        source=texts["source"],
        typed_by=person.name if person else "",
        typed_at=stamp(context().clock()),
    )


def _name(limit: VehicleLimit) -> str:
    return f"{limit.make} {limit.model} {limit.engine}: {limit.quantity}"
