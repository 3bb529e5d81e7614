"""The price list."""

import uuid
from typing import Any

from flask import flash, redirect, render_template, url_for
from wtforms import DecimalField, SelectField, SubmitField
from wtforms.fields import SelectChoice
from wtforms.validators import InputRequired, NumberRange

from api.context import connection
from api.errors import Problem
from api.office.forms import OfficeForm, line, percent
from api.office.pages import blueprint
from api.people import trail
from api.people.language import Later, tell
from api.store import database, settings
from api.store import prices as store
from api.store.prices import Price, PriceNameTakenError

office_prices = blueprint("office_prices")

KINDS = [SelectChoice(kind, Later(f"prices.kind_{kind}")) for kind in ("part", "labour", "other")]
HIGHEST = 1_000_000


class PriceForm(OfficeForm):
    """One line of the list."""

    kind = SelectField(Later("prices.kind"), choices=KINDS)
    name = line("shared.name", most=120, hint="prices.name_hint")
    unit = line("prices.unit", most=20, hint="prices.unit_hint")
    price = DecimalField(
        Later("prices.price"), places=None, validators=[InputRequired(), NumberRange(0, HIGHEST)]
    )
    tax_pct = percent("shared.tax")
    send = SubmitField(Later("prices.keep"))


@office_prices.route("/prices", methods=["GET", "POST"])
def prices() -> Any:
    """The list, and a form for one more line."""
    workshop = settings.read(connection(), "workshop")
    form = PriceForm(tax_pct=workshop.get("tax_pct"), unit=tell("prices.piece"))
    if form.validate_on_submit() and _keep(form, str(uuid.uuid4())):
        return redirect(url_for("office_prices.prices"))
    rows = store.every(connection())
    return render_template(
        "office/prices.html", form=form, prices=rows, currency=workshop.get("currency", "")
    )


@office_prices.route("/prices/<price_id>", methods=["GET", "POST"])
def price(price_id: str) -> Any:
    """Change one line."""
    found = _find(price_id)
    form = PriceForm(obj=found)
    if form.validate_on_submit() and _keep(form, found.id):
        return redirect(url_for("office_prices.prices"))
    return render_template("office/price.html", form=form, price=found)


@office_prices.post("/prices/<price_id>/remove")
def remove(price_id: str) -> Any:
    """Take one line off. Estimates that were made keep what they said."""
    found = _find(price_id)
    with database.writing(connection()):
        store.remove(connection(), found.id)
        trail.note("did.removed_price", about=found.name)
    return redirect(url_for("office_prices.prices"))


def _find(price_id: str) -> Price:
    found = store.find(connection(), price_id)
    if found is None:
        raise Problem(404, "no_price", tell("prices.none"))
    return found


def _keep(form: PriceForm, price_id: str) -> bool:
    figures = (f"{form.price.data:f}", f"{form.tax_pct.data:f}")
    made = Price(price_id, form.kind.data, form.name.data, form.unit.data, *figures)
    try:
        with database.writing(connection()):
            store.keep(connection(), made)
            trail.note("did.kept_price", about=made.name)
    except PriceNameTakenError:
        form.name.errors = [tell("prices.name_taken")]
        return False
    flash(tell("shared.kept"))
    return True
