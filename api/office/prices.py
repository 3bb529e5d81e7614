"""The price list."""

import uuid
from typing import Any

from flask import flash, redirect, render_template, url_for
from flask_wtf import FlaskForm
from wtforms import DecimalField, SelectField, SubmitField
from wtforms.validators import InputRequired, NumberRange

from api.context import connection
from api.errors import Problem
from api.office.forms import line, percent
from api.office.pages import blueprint
from api.people import trail
from api.store import database, settings
from api.store import prices as store
from api.store.prices import Price, PriceNameTakenError

office_prices = blueprint("office_prices")

KINDS = ("part", "labour", "other")
HIGHEST = 1_000_000


class PriceForm(FlaskForm):
    """One line of the list."""

    kind = SelectField("Kind", choices=KINDS)
    name = line("Name", most=120, description="As the customer reads it.")
    unit = line("Unit", most=20, description="piece, hour, metre")
    price = DecimalField(
        "Price without tax", places=None, validators=[InputRequired(), NumberRange(0, HIGHEST)]
    )
    tax_pct = percent("Tax, %")
    send = SubmitField("Keep the price")


@office_prices.route("/prices", methods=["GET", "POST"])
def prices() -> Any:
    """The list, and a form for one more line."""
    workshop = settings.read(connection(), "workshop")
    form = PriceForm(tax_pct=workshop.get("tax_pct"), unit="piece")
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
        trail.note("removed a price", about=found.name)
    return redirect(url_for("office_prices.prices"))


def _find(price_id: str) -> Price:
    found = store.find(connection(), price_id)
    if found is None:
        raise Problem(404, "no_price", "There is no such line in the price list.")
    return found


def _keep(form: PriceForm, price_id: str) -> bool:
    figures = (f"{form.price.data:f}", f"{form.tax_pct.data:f}")
    made = Price(price_id, form.kind.data, form.name.data, form.unit.data, *figures)
    try:
        with database.writing(connection()):
            store.keep(connection(), made)
            trail.note("kept a price", about=made.name)
    except PriceNameTakenError:
        form.name.errors = ["Another line has this name."]
        return False
    flash("Kept.")
    return True
