"""The workshop's own settings: what stands on reports, currency, tax, units."""

from typing import Any

from flask import flash, redirect, render_template, url_for
from wtforms import SubmitField

from api.context import connection, context
from api.office.forms import WorkshopFields
from api.office.pages import blueprint
from api.people import trail
from api.store import database, settings

office_workshop = blueprint("office_workshop")


class WorkshopForm(WorkshopFields):
    """The settings, to be saved."""

    send = SubmitField("Save")


@office_workshop.route("/workshop", methods=["GET", "POST"])
def workshop() -> Any:
    """Show and change the settings."""
    form = WorkshopForm(data=settings.read(connection(), "workshop"))
    if form.validate_on_submit():
        with database.writing(connection()):
            settings.write(connection(), "workshop", form.workshop())
            trail.note("changed the workshop's settings")
        flash("Saved.")
        return redirect(url_for("office_workshop.workshop"))
    return render_template("office/workshop.html", form=form, context=context())
