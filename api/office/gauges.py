"""The gauge register: what each gauge can tell, when it was calibrated, and when it is due."""

import uuid
from datetime import date, timedelta
from typing import Any

from flask import flash, redirect, render_template, url_for
from flask_wtf import FlaskForm
from wtforms import DateField, DecimalField, SelectField, SubmitField
from wtforms.validators import NumberRange, Optional

import calc
from api.clock import stamp
from api.context import connection, context
from api.errors import Problem
from api.office.forms import line
from api.office.pages import Answer, blueprint
from api.people import trail
from api.store import database, register
from api.store.register import LabelTakenError, RegisteredGauge

office_gauges = blueprint("office_gauges")

DUE_SOON = timedelta(days=30)
NUMBERS = (
    "class_pct",
    "division_kpa",
    "accuracy_pct_reading",
    "accuracy_counts",
    "resolution_kpa",
    "zero_kpa",
    "hose_m",
    "hose_bore_mm",
)


def figure(label: str, least: float | None = None, most: float = 10_000) -> DecimalField:
    """A number that may be left out."""
    return DecimalField(label, places=None, validators=[Optional(), NumberRange(least, most)])


class GaugeForm(FlaskForm):
    """A gauge by its face or its data sheet."""

    label = line("Label", most=60, description="What is written on the gauge: a number, a colour, a name.")
    kind = SelectField("Kind", choices=["analogue", "digital"])
    span_from = figure("Span from, kPa", least=-100)
    span_to = figure("Span to, kPa", least=-100)
    class_pct = figure("Class by EN 837-1", least=0, most=10)
    division_kpa = figure("One division, kPa", least=0)
    read_to = SelectField("Read to", choices=["half", "whole", "fifth"])
    accuracy_pct_reading = figure("Digital: accuracy, % of reading", least=0, most=100)
    accuracy_counts = figure("Digital: and counts", least=0)
    resolution_kpa = figure("Digital: resolution, kPa", least=0)
    zero_kpa = figure("Shows at nought, kPa", least=-1000)
    hose_m = figure("Its hose, m", least=0, most=100)
    hose_bore_mm = figure("Bore of the hose, mm", least=0, most=100)
    calibrated_on = DateField("Calibrated on", validators=[Optional()])
    due_on = DateField("Due on", validators=[Optional()])
    send = SubmitField("Keep the gauge")

    def gauge(self) -> dict[str, Any]:
        """The gauge as a job holds it."""
        found: dict[str, Any] = {"kind": self.kind.data, "read_to": self.read_to.data}
        if self.span_from.data is not None and self.span_to.data is not None:
            found["span_kpa"] = [float(self.span_from.data), float(self.span_to.data)]
        if self.calibrated_on.data:
            found["calibrated_on"] = self.calibrated_on.data.isoformat()
        return found | {name: float(self[name].data) for name in NUMBERS if self[name].data is not None}


@office_gauges.route("/gauges", methods=["GET", "POST"])
def register_page() -> Any:
    """All gauges with what their calibration says, and a form for one more."""
    form = GaugeForm()
    if form.validate_on_submit() and _keep(form, str(uuid.uuid4())):
        return redirect(url_for("office_gauges.register_page"))
    rows = [(one, calibration(one, context().clock().date())) for one in register.every(connection())]
    return render_template("office/gauges.html", form=form, rows=rows)


@office_gauges.route("/gauges/<gauge_id>", methods=["GET", "POST"])
def gauge(gauge_id: str) -> Any:
    """Change one gauge, as after a calibration."""
    found = _find(gauge_id)
    form = GaugeForm(data=_form_data(found))
    if form.validate_on_submit() and _keep(form, found.id):
        return redirect(url_for("office_gauges.register_page"))
    return _page(found, form)


@office_gauges.post("/gauges/<gauge_id>/retire")
def retire(gauge_id: str) -> Any:
    """Take a gauge out of use."""
    found = _find(gauge_id)
    with database.writing(connection()):
        register.retire(connection(), found.id, stamp(context().clock()))
        trail.note("took a gauge out of use", about=found.label)
    return redirect(url_for("office_gauges.register_page"))


def calibration(one: RegisteredGauge, today: date) -> str:
    """What is to be said of its calibration, or nothing."""
    if one.retired_at:
        return "out of use"
    if one.due_on is None:
        return "no due date" if one.calibrated_on else "never calibrated"
    due = date.fromisoformat(one.due_on)
    if due < today:
        return f"overdue for {(today - due).days} days"
    return f"due in {(due - today).days} days" if due - today <= DUE_SOON else ""


def _find(gauge_id: str) -> RegisteredGauge:
    found = register.find(connection(), gauge_id)
    if found is None:
        raise Problem(404, "no_gauge", "There is no such gauge in the register.")
    return found


def _form_data(found: RegisteredGauge) -> dict[str, Any]:
    ends = dict(zip(("span_from", "span_to"), found.gauge.get("span_kpa", ()), strict=False))
    days = {
        name: date.fromisoformat(text)
        for name in ("calibrated_on", "due_on")
        if (text := getattr(found, name))
    }
    return {"label": found.label, **found.gauge, **ends, "calibrated_on": None, **days}


def _page(found: RegisteredGauge, form: GaugeForm) -> Answer:
    return render_template("office/gauge.html", form=form, gauge=found)


def _keep(form: GaugeForm, gauge_id: str) -> bool:
    made = form.gauge()
    try:
        calc.check_place("/gauges/-", made)
    except calc.BrokenPlace as broken:
        form.span_from.errors = [f"{broken}."]
        return False
    due = form.due_on.data.isoformat() if form.due_on.data else None
    one = RegisteredGauge(gauge_id, form.label.data, made, made.get("calibrated_on"), due, None)
    try:
        with database.writing(connection()):
            register.keep(connection(), one)
            trail.note("kept a gauge", about=one.label)
    except LabelTakenError:
        form.label.errors = ["Another gauge has this label."]
        return False
    flash("Kept.")
    return True
