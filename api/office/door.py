"""The doors: sign in, sign out, pair a phone, and the first run's set-up. They fit a phone's screen."""

from pathlib import Path
from typing import Any

from flask import make_response, redirect, render_template, request, send_from_directory, url_for
from wtforms import HiddenField, PasswordField, StringField, SubmitField
from wtforms.validators import InputRequired, Length

from api.errors import Problem
from api.office.forms import OfficeForm, WorkshopFields, line, new_password, repeated, trimmed
from api.office.pages import Answer, blueprint, safe_next
from api.people import pairing, session, set_up, trail
from api.people.language import Later, asked_for
from api.people.sign_in import sign_in as begin_session

door = blueprint("door", prefix="")

STYLE = Path(__file__).parent / "static"


class SignInForm(OfficeForm):
    """Name and password."""

    person = StringField(
        Later("shared.name"), filters=[trimmed], validators=[InputRequired(), Length(max=120)]
    )
    password = PasswordField(Later("shared.password"), validators=[InputRequired(), Length(max=1000)])
    next = HiddenField()
    send = SubmitField(Later("sign_in.title"))


class PairForm(OfficeForm):
    """The code from the desk, and what the phone is to be called."""

    code = StringField(Later("pair.code"), validators=[InputRequired(), Length(max=40)])
    phone = line("pair.phone", most=60, hint="pair.phone_hint")
    send = SubmitField(Later("pair.title"))


class SetUpForm(WorkshopFields):
    """The workshop and its first account."""

    code = StringField(Later("set_up.code"), description=Later("set_up.code_hint"))
    person = line("set_up.your_name", most=80)
    password = new_password("shared.password")
    again = repeated("set_up.password_again", "password")
    send = SubmitField(Later("set_up.title"))


@door.route("/sign-in", methods=["GET", "POST"])
def sign_in() -> Any:
    """Sign in by name and password."""
    if set_up.is_needed():
        return redirect(url_for("door.first_run"))
    form = SignInForm(next=request.args.get("next"))
    if form.validate_on_submit():
        try:
            begin_session(form.person.data, form.password.data)
        except Problem as problem:
            return _page("sign_in", form, problem)
        return redirect(safe_next(form.next.data))
    return _page("sign_in", form)


@door.post("/sign-out")
def sign_out() -> Any:
    """End this session. The phone stays paired and keeps what it has not sent."""
    trail.note("did.signed_out")
    session.end_current()
    return redirect(url_for("door.sign_in"))


@door.route("/pair", methods=["GET", "POST"])
def pair() -> Any:
    """Pair this phone by the code from the office."""
    form = PairForm()
    if form.validate_on_submit():
        try:
            secret = pairing.pair(form.code.data, form.phone.data)
        except Problem as problem:
            return _page("pair", form, problem)
        response = make_response(redirect("/"))
        session.remember_phone(response, secret)
        return response
    return _page("pair", form)


@door.route("/set-up", methods=["GET", "POST"])
def first_run() -> Any:
    """The first run: the workshop, its first account, and no way back here after it."""
    if not set_up.is_needed():
        return redirect(url_for("office_jobs.home"))
    form = SetUpForm(currency="EUR", tax_pct="20", language=asked_for())
    if form.validate_on_submit():
        try:
            set_up.check_code(form.code.data or "")
            set_up.set_up(form.workshop(), form.person.data, form.password.data)
        except Problem as problem:
            return _page("set_up", form, problem)
        return redirect(url_for("office_phones.overview"))
    return _page("set_up", form)


@door.get("/office/style/<name>")
def style(name: str) -> Any:
    """The office's style sheet and its few lines of script."""
    return send_from_directory(STYLE, name, max_age=0)


def _page(name: str, form: OfficeForm, problem: Problem | None = None) -> Answer:
    says = problem.says if problem else None
    page = render_template(f"office/{name}.html", form=form, says=says, needs_code=set_up.needs_code())
    return page, problem.status if problem else 200
