"""Fields and rules that several forms share."""

from typing import Any

from flask_wtf import FlaskForm
from wtforms import DecimalField, PasswordField, SelectField, StringField
from wtforms.fields import Field, SelectChoice
from wtforms.validators import EqualTo, InputRequired, Length, NumberRange, Optional, Regexp, ValidationError

from api.context import connection
from api.people import passwords
from api.store import settings

ROUNDINGS = [SelectChoice("total", "once on each rate's sum"), SelectChoice("line", "on each line")]
PRESSURE_UNITS = ("bar", "kPa", "psi", "mbar", "inHg")


class Plain:
    """Refuses control characters: they have no place in a line of text, and split headers and rows."""

    def __call__(self, form: FlaskForm, field: Field) -> None:
        if any(ord(sign) < 32 or ord(sign) == 127 for sign in field.data or ""):
            raise ValidationError("Only one line of plain text, please.")


class Guessable:
    """Refuses a new password that a guesser tries early."""

    def __call__(self, form: FlaskForm, field: Field) -> None:
        names = [form.person.data or ""] if "person" in form else []
        workshop = settings.read(connection(), "workshop").get("name", "")
        if says := passwords.weakness(field.data or "", workshop, *names):
            raise ValidationError(says)


def trimmed(text: Any) -> Any:
    """Without blanks at the ends."""
    return text.strip() if isinstance(text, str) else text


def line(label: str, *, most: int = 120, needed: bool = True, description: str = "") -> StringField:
    """One line of text."""
    rules = [InputRequired() if needed else Optional(), Length(max=most), Plain()]
    return StringField(label, filters=[trimmed], validators=rules, description=description)


def percent(label: str) -> DecimalField:
    """A share from 0 to 100, exact."""
    return DecimalField(label, places=None, validators=[InputRequired(), NumberRange(0, 100)])


def new_password(label: str) -> PasswordField:
    """A password that is to be kept."""
    says = f"{passwords.SHORTEST} characters or more; three or four odd words do well."
    return PasswordField(label, validators=[InputRequired(), Guessable()], description=says)


def repeated(label: str, field: str) -> PasswordField:
    """The same password once more."""
    return PasswordField(label, validators=[EqualTo(field, "The two passwords are not the same.")])


class WorkshopFields(FlaskForm):
    """What stands on every report, and how figures are shown."""

    name = line("Workshop's name")
    street = line("Street", needed=False)
    town = line("Post code and town", needed=False)
    phone = line("Telephone", needed=False)
    email = line("E-mail", needed=False)
    currency = StringField(
        "Currency",
        filters=[trimmed],
        validators=[InputRequired(), Regexp(r"[A-Z]{3}\Z", message="Three capital letters, as in EUR.")],
        description="Three letters by ISO 4217: EUR, GBP, USD.",
    )
    tax_pct = percent("Tax, %")
    rounding = SelectField("Tax is rounded", choices=ROUNDINGS, default="total")
    unit = SelectField("Pressure shown in", choices=PRESSURE_UNITS)

    WORKSHOP = ("name", "street", "town", "phone", "email", "currency", "tax_pct", "unit")

    def workshop(self) -> dict[str, str]:
        """The settings as they are kept: texts, the tax exact."""
        return {name: "" if self[name].data is None else str(self[name].data) for name in self.WORKSHOP}
