"""The workshop's own settings: what stands on reports, currency, tax, units."""

from typing import Any

from flask import flash, g, redirect, render_template, url_for
from wtforms import SubmitField

from api.context import connection, context
from api.office.forms import WorkshopFields
from api.office.pages import blueprint
from api.people import trail
from api.people.language import Later, asked_for, tell
from api.store import database, job_words, settings

office_workshop = blueprint("office_workshop")


class WorkshopForm(WorkshopFields):
    """The settings, to be saved."""

    send = SubmitField(Later("shared.save"))


@office_workshop.route("/workshop", methods=["GET", "POST"])
def workshop() -> Any:
    """Show and change the settings."""
    form = WorkshopForm(data={"language": asked_for(), **settings.read(connection(), "workshop")})
    if form.validate_on_submit():
        with database.writing(connection()):
            settings.write(connection(), "workshop", form.workshop())
            job_words.forget(connection())
            trail.note("did.changed_workshop")
        g.pop("language", None)
        flash(tell("shared.saved"))
        return redirect(url_for("office_workshop.workshop"))
    return render_template("office/workshop.html", form=form, context=context())
