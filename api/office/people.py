"""People: accounts opened and closed, roles, new passwords, sessions ended. For the owner."""

from typing import Any

from flask import flash, redirect, render_template, request, url_for
from wtforms import PasswordField, SelectField, SubmitField
from wtforms.fields import SelectChoice
from wtforms.validators import Optional

from api.clock import stamp
from api.context import connection, context
from api.errors import Problem
from api.office.forms import Guessable, OfficeForm, line, new_password
from api.office.pages import Answer, blueprint
from api.people import passwords, trail
from api.people.access import OWNER, ROLES
from api.people.language import Later, tell
from api.people.set_up import new_person
from api.store import database, people, phones, sessions
from api.store.people import NameTakenError, Person

office_people = blueprint("office_people")

ROLE_CHOICES = [SelectChoice(role, Later(f"role.{role}")) for role in ROLES]


class NewPersonForm(OfficeForm):
    """A new account; the person changes the password themselves."""

    person = line("shared.name", most=80)
    role = SelectField(Later("people.role"), choices=ROLE_CHOICES, default="technician")
    password = new_password("people.first_password")
    send = SubmitField(Later("people.open_account"))


class PersonForm(OfficeForm):
    """What the owner can change of an account."""

    role = SelectField(Later("people.role"), choices=ROLE_CHOICES)
    password = PasswordField(
        Later("person.new_password"),
        validators=[Optional(), Guessable()],
        description=Later("person.new_password_hint"),
    )
    left = SelectField(
        Later("people.account"),
        choices=[
            SelectChoice("", Later("people.open")),
            SelectChoice("closed", Later("people.closed")),
        ],
    )
    send = SubmitField(Later("shared.save"))


@office_people.route("/people", methods=["GET", "POST"])
def overview() -> Any:
    """Everyone, and a form for one more."""
    form = NewPersonForm()
    if form.validate_on_submit():
        made = new_person(form.person.data, form.role.data, form.password.data)
        try:
            with database.writing(connection()):
                people.add(connection(), made)
                trail.note("did.opened_account", about=made.name, role=made.role)
        except NameTakenError:
            form.person.errors = [tell("people.name_taken")]
        else:
            flash(tell("people.can_sign_in", name=made.name))
            return redirect(url_for("office_people.overview"))
    return render_template("office/people.html", form=form, people=people.everyone(connection()))


@office_people.route("/people/<person_id>", methods=["GET", "POST"])
def person(person_id: str) -> Any:
    """One person's account."""
    found = _find(person_id)
    form = PersonForm(role=found.role, left="closed" if found.left_at else "")
    if form.validate_on_submit():
        return _change(found, form) or _page(found, form)
    return _page(found, form)


@office_people.post("/people/<person_id>/end-session")
def end_session(person_id: str) -> Any:
    """End one session of a person."""
    found = _find(person_id)
    if sessions.end(connection(), request.form.get("session", ""), found.id):
        trail.note("did.ended_session", about=found.name)
        flash(tell("session.ended"))
    return redirect(url_for("office_people.person", person_id=found.id))


def _find(person_id: str) -> Person:
    found = people.find(connection(), person_id)
    if found is None:
        raise Problem(404, "no_person", tell("people.none"))
    return found


def _page(found: Person, form: PersonForm) -> Answer:
    kept = sessions.of_person(connection(), found.id)
    names = {phone.id: phone.name for phone in phones.every(connection())}
    return render_template("office/person.html", form=form, person=found, sessions=kept, phones=names)


def _change(found: Person, form: PersonForm) -> Any:
    """Do what the form asks; None where it cannot be done."""
    closes = form.left.data == "closed"
    stays_owner = form.role.data == OWNER and not closes
    password = passwords.hashed(form.password.data) if form.password.data else None
    with database.writing(connection()):
        is_last = found.role == OWNER and not found.left_at and people.owners(connection()) == 1
        if is_last and not stays_owner:
            form.role.errors = [tell("people.last_owner")]
            return None
        people.set_role(connection(), found.id, form.role.data)
        people.set_left(connection(), found.id, stamp(context().clock()) if closes else None)
        if password:
            people.set_password(connection(), found.id, password)
        if password or closes or form.role.data != found.role:
            sessions.end_of_person(connection(), found.id)
        for deed in _deeds(found, form):
            trail.note(deed, about=found.name, role=form.role.data)
    flash(tell("people.changed", name=found.name))
    return redirect(url_for("office_people.overview"))


def _deeds(found: Person, form: PersonForm) -> list[str]:
    """What the form changes, each by its name in the audit trail."""
    deeds = []
    if form.role.data != found.role:
        deeds.append("did.gave_role")
    if form.password.data:
        deeds.append("did.set_password")
    if bool(form.left.data) != bool(found.left_at):
        deeds.append("did.closed_account" if form.left.data else "did.opened_again")
    return deeds or ["did.saved_account"]
