"""The gauge register: what each gauge can tell, when it was calibrated, and when it is due."""

import uuid
from datetime import date, timedelta
from typing import Any

from flask import flash, redirect, render_template, url_for
from wtforms import DateField, DecimalField, SelectField, SubmitField
from wtforms.fields import SelectChoice
from wtforms.validators import NumberRange, Optional

import calc
from api.clock import stamp
from api.context import connection, context
from api.errors import Problem
from api.office.forms import OfficeForm, line
from api.office.pages import Answer, blueprint
from api.people import trail
from api.people.language import Later, language, tell
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


KINDS = [SelectChoice(kind, Later(f"gauge.kind_{kind}")) for kind in ("analogue", "digital")]
READ_TO = [SelectChoice(part, Later(f"gauge.read_to_{part}")) for part in ("half", "whole", "fifth")]


def figure(label: str, least: float | None = None, most: float = 10_000) -> DecimalField:
    """A number that may be left out."""
    return DecimalField(Later(label), places=None, validators=[Optional(), NumberRange(least, most)])


class GaugeForm(OfficeForm):
    """A gauge by its face or its data sheet."""

    label = line("gauges.label", most=60, hint="gauges.label_hint")
    kind = SelectField(Later("gauge.kind"), choices=KINDS)
    span_from = figure("gauge.span_from", least=-100)
    span_to = figure("gauge.span_to", least=-100)
    class_pct = figure("gauge.class", least=0, most=10)
    division_kpa = figure("gauge.division", least=0)
    read_to = SelectField(Later("gauge.read_to"), choices=READ_TO)
    accuracy_pct_reading = figure("gauge.accuracy", least=0, most=100)
    accuracy_counts = figure("gauge.counts", least=0)
    resolution_kpa = figure("gauge.resolution", least=0)
    zero_kpa = figure("gauge.zero", least=-1000)
    hose_m = figure("gauge.hose", least=0, most=100)
    hose_bore_mm = figure("gauge.bore", least=0, most=100)
    calibrated_on = DateField(Later("gauge.calibrated_on"), validators=[Optional()])
    due_on = DateField(Later("gauge.due_on"), validators=[Optional()])
    send = SubmitField(Later("gauges.keep"))

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
    return render_template("office/gauges.html", form=form, rows=rows, described=described)


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
        trail.note("did.retired_gauge", about=found.label)
    return redirect(url_for("office_gauges.register_page"))


def described(gauge: dict[str, Any]) -> str:
    """What a gauge can tell, in a line."""
    parts = []
    if span := gauge.get("span_kpa"):
        parts.append(tell("gauges.span", low=f"{span[0]:g}", high=f"{span[1]:g}"))
    parts += [
        tell(f"gauges.{name}", value=f"{gauge[key]:g}")
        for name, key in (("class", "class_pct"), ("division", "division_kpa"))
        if key in gauge
    ]
    if gauge.get("kind") == "digital":
        parts.append(tell("gauges.digital"))
    return ", ".join(parts)


def calibration(one: RegisteredGauge, today: date) -> str:
    """What is to be said of its calibration, or nothing."""
    if one.retired_at:
        return tell("gauges.out_of_use")
    if one.due_on is None:
        return tell("gauges.no_due_date" if one.calibrated_on else "gauges.never")
    due = date.fromisoformat(one.due_on)
    if due < today:
        return tell("gauges.overdue", days=(today - due).days)
    return tell("gauges.due_in", days=(due - today).days) if due - today <= DUE_SOON else ""


def _find(gauge_id: str) -> RegisteredGauge:
    found = register.find(connection(), gauge_id)
    if found is None:
        raise Problem(404, "no_gauge", tell("gauges.none"))
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
        form.span_from.errors = [tell("limits.broken", reason=calc.told_broken(str(broken), language()))]
        return False
    due = form.due_on.data.isoformat() if form.due_on.data else None
    one = RegisteredGauge(gauge_id, form.label.data, made, made.get("calibrated_on"), due, None)
    try:
        with database.writing(connection()):
            register.keep(connection(), one)
            trail.note("did.kept_gauge", about=one.label)
    except LabelTakenError:
        form.label.errors = [tell("gauges.label_taken")]
        return False
    flash(tell("shared.kept"))
    return True
