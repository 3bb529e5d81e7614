"""Fields and rules that several forms share."""

from typing import Any

from flask_wtf import FlaskForm
from wtforms import DecimalField, PasswordField, SelectField, StringField
from wtforms.fields import Field, SelectChoice
from wtforms.i18n import get_translations
from wtforms.validators import EqualTo, InputRequired, Length, NumberRange, Optional, Regexp, ValidationError

import calc
from api import words
from api.context import connection
from api.people import passwords
from api.people.language import Later, language, tell
from api.store import settings

ROUNDINGS = [
    SelectChoice("total", Later("workshop.rounding_total")),
    SelectChoice("line", Later("workshop.rounding_line")),
]
SPOKEN = [SelectChoice(one, name) for one, name in words.NAMES.items()]


class OfficeForm(FlaskForm):
    """A form whose rules speak the language of whoever fills it in."""

    class Meta(FlaskForm.Meta):
        """Where a rule's own sentences come from."""

        def get_translations(self, _form: Any) -> Any:
            """WTForms' catalogue of the request's language."""
            return get_translations([language()])


class Plain:
    """Refuses control characters: they have no place in a line of text, and split headers and rows."""

    def __call__(self, form: FlaskForm, field: Field) -> None:
        if any(ord(sign) < 32 or ord(sign) == 127 for sign in field.data or ""):
            raise ValidationError(tell("rule.one_line"))


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


def line(label: str, *, most: int = 120, needed: bool = True, hint: str = "") -> StringField:
    """One line of text; label and hint by their names."""
    rules = [InputRequired() if needed else Optional(), Length(max=most), Plain()]
    description = Later(hint) if hint else ""
    return StringField(Later(label), filters=[trimmed], validators=rules, description=description)


def percent(label: str) -> DecimalField:
    """A share from 0 to 100, exact."""
    return DecimalField(Later(label), places=None, validators=[InputRequired(), NumberRange(0, 100)])


def new_password(label: str) -> PasswordField:
    """A password that is to be kept."""
    says = Later("password.hint", shortest=passwords.SHORTEST)
    return PasswordField(Later(label), validators=[InputRequired(), Guessable()], description=says)


def repeated(label: str, field: str) -> PasswordField:
    """The same password once more."""
    return PasswordField(Later(label), validators=[EqualTo(field, Later("password.differ"))])


class WorkshopFields(OfficeForm):
    """What stands on every report, and how figures are shown."""

    name = line("workshop.name")
    street = line("workshop.street", needed=False)
    town = line("workshop.town", needed=False)
    phone = line("workshop.phone", needed=False)
    email = line("workshop.email", needed=False)
    currency = StringField(
        Later("workshop.currency"),
        filters=[trimmed],
        validators=[InputRequired(), Regexp(r"[A-Z]{3}\Z", message=Later("workshop.currency_rule"))],
        description=Later("workshop.currency_hint"),
    )
    tax_pct = percent("shared.tax")
    rounding = SelectField(Later("workshop.rounding"), choices=ROUNDINGS, default="total")
    unit = SelectField(Later("workshop.unit"), choices=calc.PRESSURE_UNITS, default="bar")
    language = SelectField(
        Later("workshop.language"), choices=SPOKEN, description=Later("workshop.language_hint")
    )

    WORKSHOP = ("name", "street", "town", "phone", "email", "currency", "tax_pct", "unit", "language")

    def workshop(self) -> dict[str, str]:
        """The settings as they are kept: texts, the tax exact."""
        return {name: "" if self[name].data is None else str(self[name].data) for name in self.WORKSHOP}
