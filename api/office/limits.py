"""The library of vehicle limits: each with its source and who typed it. Taken in and given out as CSV."""

import uuid
from typing import Any

from flask import Response, flash, redirect, render_template, url_for
from flask_wtf.file import FileField, FileRequired
from wtforms import SelectField, StringField, SubmitField
from wtforms.fields import SelectChoice
from wtforms.validators import Length

from api.clock import stamp
from api.context import connection, context
from api.errors import Problem
from api.office import quantities, sheet
from api.office.forms import OfficeForm, line, trimmed
from api.office.pages import Answer, blueprint
from api.people import session, trail
from api.people.language import Later, tell
from api.store import database, vehicle_limits
from api.store.vehicle_limits import VehicleLimit

office_limits = blueprint("office_limits")

COLUMNS = ("make", "model", "engine", "quantity", "least", "most", "source", "typed_by", "typed_at")
TYPED = COLUMNS[:7]  # who typed a limit, and when, is what this server knows, not what a file says
MOST_ROWS = 5_000
TITLES = [
    SelectChoice(one.key, Later("limits.in_unit", quantity=Later(one.title), unit=one.unit))
    for one in quantities.QUANTITIES
]


class LimitForm(OfficeForm):
    """One limit of one engine, from the maker's data."""

    make = line("limit.make", most=60)
    model = line("limit.model", most=60)
    engine = line("limit.engine", most=60, hint="limit.engine_hint")
    quantity = SelectField(Later("limits.quantity"), choices=TITLES)
    least = StringField(Later("limits.least"), filters=[trimmed], validators=[Length(max=12)])
    most = StringField(Later("limits.most"), filters=[trimmed], validators=[Length(max=12)])
    source = line("limits.source", most=200, hint="limits.source_hint")
    send = SubmitField(Later("limits.keep"))


class FileForm(OfficeForm):
    """A file of limits."""

    file = FileField(Later("limits.file"), validators=[FileRequired()])
    take_in = SubmitField(Later("shared.take_in"))


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
        trail.note("did.removed_limit", about=_name(found))
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
        raise Problem(400, "no_file", tell("file.none"))
    limits, wrong = _read(form.file.data.read())
    if wrong:
        return _page(LimitForm(formdata=None), wrong)
    with database.writing(connection()):
        for one in limits:
            vehicle_limits.keep(connection(), one)
        trail.note("did.took_limits", count=len(limits))
    flash(tell("limits.taken_in", count=len(limits)))
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
        raise Problem(404, "no_limit", tell("limits.none"))
    return found


def _keep(form: LimitForm, limit_id: str) -> bool:
    try:
        made = _limit(limit_id, {name: form[name].data or "" for name in TYPED})
    except ValueError as wrong:
        form.least.errors = [f"{wrong}."]
        return False
    with database.writing(connection()):
        vehicle_limits.keep(connection(), made)
        trail.note("did.kept_limit", about=_name(made))
    flash(tell("shared.kept"))
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
            wrong.append(tell("limits.row", number=number, wrong=error))
    return limits, wrong


def _limit(limit_id: str, row: dict[str, str]) -> VehicleLimit:
    texts = {name: row[name].strip() for name in TYPED}
    for name in ("make", "model", "engine", "source"):
        if not 1 <= len(texts[name]) <= 200 or any(ord(sign) < 32 for sign in texts[name]):
            raise ValueError(tell("limits.one_line", name=name))
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
