"""People: accounts opened and closed, roles, new passwords, sessions ended. For the owner."""

from typing import Any

from flask import flash, redirect, render_template, request, url_for
from flask_wtf import FlaskForm
from wtforms import PasswordField, SelectField, SubmitField
from wtforms.fields import SelectChoice
from wtforms.validators import Optional

from api.clock import stamp
from api.context import connection, context
from api.errors import Problem
from api.office.forms import Guessable, line, new_password
from api.office.pages import Answer, blueprint
from api.people import passwords, trail
from api.people.access import OWNER, ROLES
from api.people.set_up import new_person
from api.store import database, people, phones, sessions
from api.store.people import NameTakenError, Person

office_people = blueprint("office_people")


class NewPersonForm(FlaskForm):
    """A new account; the person changes the password themselves."""

    person = line("Name", most=80)
    role = SelectField("Role", choices=ROLES, default="technician")
    password = new_password("First password")
    send = SubmitField("Open the account")


class PersonForm(FlaskForm):
    """What the owner can change of an account."""

    role = SelectField("Role", choices=ROLES)
    password = PasswordField(
        "New password",
        validators=[Optional(), Guessable()],
        description="Leave empty to keep the present one. Every session of the person ends.",
    )
    left = SelectField(
        "Account", choices=[SelectChoice("", "open"), SelectChoice("closed", "closed: cannot sign in")]
    )
    send = SubmitField("Save")


@office_people.route("/people", methods=["GET", "POST"])
def overview() -> Any:
    """Everyone, and a form for one more."""
    form = NewPersonForm()
    if form.validate_on_submit():
        made = new_person(form.person.data, form.role.data, form.password.data)
        try:
            with database.writing(connection()):
                people.add(connection(), made)
                trail.note(f"opened an account ({made.role})", about=made.name)
        except NameTakenError:
            form.person.errors = ["Somebody has this name already."]
        else:
            flash(f"{made.name} can sign in now.")
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
        trail.note("ended a session", about=found.name)
        flash("The session has ended.")
    return redirect(url_for("office_people.person", person_id=found.id))


def _find(person_id: str) -> Person:
    found = people.find(connection(), person_id)
    if found is None:
        raise Problem(404, "no_person", "There is no such person here.")
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
            form.role.errors = ["This is the last owner; make another person owner first."]
            return None
        people.set_role(connection(), found.id, form.role.data)
        people.set_left(connection(), found.id, stamp(context().clock()) if closes else None)
        if password:
            people.set_password(connection(), found.id, password)
        if password or closes or form.role.data != found.role:
            sessions.end_of_person(connection(), found.id)
        trail.note(_deed(found, form), about=found.name)
    flash(f"{found.name}'s account is changed.")
    return redirect(url_for("office_people.overview"))


def _deed(found: Person, form: PersonForm) -> str:
    deeds = []
    if form.role.data != found.role:
        deeds.append(f"gave the role {form.role.data}")
    if form.password.data:
        deeds.append("set a new password")
    if bool(form.left.data) != bool(found.left_at):
        deeds.append("closed the account" if form.left.data else "opened the account again")
    return ", ".join(deeds) or "saved an account unchanged"
