"""One's own account: another password, and where one is signed in."""

from typing import Any

from flask import flash, redirect, render_template, request, url_for
from flask_wtf import FlaskForm
from wtforms import PasswordField, SubmitField
from wtforms.validators import InputRequired, Length

from api.context import connection
from api.errors import Problem
from api.office.forms import new_password, repeated
from api.office.pages import Answer, blueprint
from api.people import session, sign_in, trail
from api.store import phones, sessions

office_own = blueprint("office_own")


class PasswordForm(FlaskForm):
    """The present password and the next."""

    present = PasswordField("Present password", validators=[InputRequired(), Length(max=1000)])
    password = new_password("New password")
    again = repeated("New password once more", "password")
    send = SubmitField("Change the password")


@office_own.route("/account", methods=["GET", "POST"])
def account() -> Any:
    """The person's own page."""
    person = _signed_in()
    form, says = PasswordForm(), None
    if form.validate_on_submit():
        try:
            sign_in.change_password(person, form.present.data, form.password.data)
        except Problem as problem:
            says = "The present password is not right." if problem.word == "wrong" else problem.says
        else:
            flash("The password is changed. Every other session of yours has ended.")
            return redirect(url_for("office_own.account"))
    return _page(form, says)


@office_own.post("/account/end-session")
def end_session() -> Any:
    """End one of one's own sessions, as on a phone left somewhere."""
    if sessions.end(connection(), request.form.get("session", ""), _signed_in().id):
        trail.note("ended a session of their own")
        flash("The session has ended.")
    return redirect(url_for("office_own.account"))


def _signed_in() -> Any:
    person = session.person()
    if person is session.AT_THE_MACHINE or person is None:
        raise Problem(
            404, "no_account", "Nobody is signed in: this machine's own address asks for no account."
        )
    return person


def _page(form: PasswordForm, says: str | None) -> Answer:
    found = sessions.of_person(connection(), _signed_in().id)
    names = {phone.id: phone.name for phone in phones.every(connection())}
    here = session.current()
    page = render_template(
        "office/account.html", form=form, says=says, sessions=found, phones=names, here=here
    )
    return page, 403 if says else 200
