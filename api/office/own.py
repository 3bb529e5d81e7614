"""One's own account: language, another password, and where one is signed in."""

from typing import Any

from flask import flash, redirect, render_template, request, url_for
from wtforms import PasswordField, SelectField, SubmitField
from wtforms.fields import SelectChoice
from wtforms.validators import InputRequired, Length

from api.context import connection
from api.errors import Problem
from api.office.forms import SPOKEN, OfficeForm, new_password, repeated
from api.office.pages import Answer, blueprint
from api.people import language, session, sign_in, trail
from api.people.language import Later, tell
from api.store import database, phones, sessions

office_own = blueprint("office_own")


class LanguageForm(OfficeForm):
    """The person's own language, or the workshop's."""

    spoken = SelectField(
        Later("language"),
        choices=[SelectChoice("", Later("account.language_workshop")), *SPOKEN],
        description=Later("account.language_hint"),
    )
    choose = SubmitField(Later("shared.save"))


class PasswordForm(OfficeForm):
    """The present password and the next."""

    present = PasswordField(Later("account.present"), validators=[InputRequired(), Length(max=1000)])
    password = new_password("account.new")
    again = repeated("account.new_again", "password")
    send = SubmitField(Later("account.change"))


@office_own.route("/account", methods=["GET", "POST"])
def account() -> Any:
    """The person's own page."""
    person = _signed_in()
    if "choose" in request.form:
        return _choose_language(person.id)
    form, says = PasswordForm(), None
    if form.validate_on_submit():
        try:
            sign_in.change_password(person, form.present.data, form.password.data)
        except Problem as problem:
            says = tell("account.wrong") if problem.word == "wrong" else problem.says
        else:
            flash(tell("account.changed"))
            return redirect(url_for("office_own.account"))
    return _page(form, says)


@office_own.post("/account/end-session")
def end_session() -> Any:
    """End one of one's own sessions, as on a phone left somewhere."""
    if sessions.end(connection(), request.form.get("session", ""), _signed_in().id):
        trail.note("did.ended_own_session")
        flash(tell("session.ended"))
    return redirect(url_for("office_own.account"))


def _signed_in() -> Any:
    person = session.person()
    if person is session.AT_THE_MACHINE or person is None:
        raise Problem(404, "no_account", tell("account.nobody"))
    return person


def _choose_language(person: str) -> Any:
    form = LanguageForm()
    if form.validate_on_submit():
        with database.writing(connection()):
            language.choose(person, form.spoken.data)
            trail.note("did.chose_language")
        flash(tell("shared.saved"))
    return redirect(url_for("office_own.account"))


def _page(form: PasswordForm, says: str | None) -> Answer:
    found = sessions.of_person(connection(), _signed_in().id)
    names = {phone.id: phone.name for phone in phones.every(connection())}
    here = session.current()
    page = render_template(
        "office/account.html",
        form=form,
        says=says,
        language_form=LanguageForm(formdata=None, spoken=language.of_person(_signed_in().id)),
        sessions=found,
        phones=names,
        here=here,
    )
    return page, 403 if says else 200
