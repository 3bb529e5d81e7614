"""How new jobs are judged: whether the workshop's own proved jobs weigh, and its own minutes a test."""

from decimal import Decimal
from typing import Any

from flask import flash, redirect, render_template, url_for
from wtforms import BooleanField, DecimalField, FormField, SubmitField
from wtforms.form import Form
from wtforms.validators import NumberRange, Optional

import calc
from api import judging
from api.context import connection
from api.office.forms import OfficeForm
from api.office.jobs import read_new_jobs
from api.office.pages import Answer, blueprint
from api.people import trail
from api.people.language import Later, language, tell
from api.store import database

office_judging = blueprint("office_judging")

LONGEST = 600  # minutes


def _minutes_form(spoken: str) -> type[Form]:
    """A field a test; empty means the usual minutes, which stand in it."""
    fields = {
        test: DecimalField(
            title,
            validators=[Optional(), NumberRange(1, LONGEST)],
            places=None,
            render_kw={"placeholder": f"{usual:g}"},
        )
        for test, (title, usual) in calc.proposed_tests(language=spoken).items()
    }
    return type("Minutes", (Form,), fields)


def _form(spoken: str, kept: dict[str, Any]) -> OfficeForm:
    class JudgingForm(OfficeForm):
        """The switch, the minutes, and the button."""

        proved_weigh = BooleanField(
            Later("judging.proved_weigh"), description=Later("judging.proved_weigh_hint")
        )
        minutes = FormField(_minutes_form(spoken))
        send = SubmitField(Later("shared.save"))

    minutes = {test: Decimal(f"{value:g}") for test, value in kept["minutes"].items()}
    return JudgingForm(data={"proved_weigh": kept["proved_weigh"], "minutes": minutes})


@office_judging.route("/judging", methods=["GET", "POST"])
def show() -> Answer | Any:
    """Show and change it; what the workshop has proved so far stands beside it."""
    unread = read_new_jobs()
    form = _form(language(), judging.read(connection()))
    if form.validate_on_submit():
        minutes = {test: float(value) for test, value in form.minutes.data.items() if value is not None}
        with database.writing(connection()):
            judging.write(connection(), proved_weigh=form.proved_weigh.data, minutes=minutes)
            trail.note("did.changed_judging")
        flash(tell("shared.saved"))
        return redirect(url_for("office_judging.show"))
    return render_template("office/judging.html", form=form, proved=_proved(), unread=unread)


def _proved() -> list[tuple[str, int, float]]:
    """Title, number of jobs, and weight of every fault proved so far, the commonest first."""
    counts = judging.proved_jobs(connection())
    weights = calc.prior_weights(counts)
    return [
        (calc.fault_title(fault, language=language()), counts[fault], weights[fault])
        for fault in sorted(counts, key=lambda one: -counts[one])
    ]
