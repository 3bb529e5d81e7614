"""Mail settings, and a message to see whether they work."""

import smtplib
import ssl
from email.message import EmailMessage
from email.policy import SMTP
from pathlib import Path
from typing import Any

from flask import flash, redirect, render_template, request, url_for
from flask_wtf import FlaskForm
from wtforms import FileField, IntegerField, PasswordField, SelectField, SubmitField
from wtforms.fields import SelectChoice
from wtforms.validators import InputRequired, Length, NumberRange, Optional, ValidationError

from api.clock import stamp
from api.context import connection, context
from api.mail import account, bounces
from api.mail.account import PASSWORD_FILE, account_of, plain_address
from api.office.forms import line
from api.office.pages import Answer, blueprint
from api.people import trail
from api.secret import keep_secret
from api.store import database, outbox, settings

office_mail = blueprint("office_mail")

MOST_LETTERS = 200
LARGEST_BOUNCE = 16 * 1024 * 1024
PROTECTION = [
    SelectChoice("starttls", "STARTTLS (port 587)"),
    SelectChoice("tls", "TLS from the start (port 465)"),
]


class PlainAddress:
    """One address and nothing else: no name, no second address, no line break (RFC 5322, 3.4.1)."""

    def __call__(self, form: FlaskForm, field: Any) -> None:
        try:
            plain_address(field.data or "")
        except ValueError:
            raise ValidationError("One plain address, as in office@workshop.example.") from None


class MailForm(FlaskForm):
    """The account that reports are sent from."""

    host = line("Server", most=253)
    port = IntegerField("Port", validators=[InputRequired(), NumberRange(1, 65535)])
    protection = SelectField("Protected by", choices=PROTECTION)
    user = line("User name", most=200, needed=False)
    password = PasswordField(
        "Password",
        validators=[Optional(), Length(max=500)],
        description="Leave empty to keep the present one.",
    )
    sender = line("Sent from", most=254)
    send = SubmitField("Save")

    def validate_sender(self, field: Any) -> None:
        """The sender is an address."""
        PlainAddress()(self, field)


class TestForm(FlaskForm):
    """Where the test message goes."""

    to = line("Send a test message to", most=254)
    test = SubmitField("Send it")

    def validate_to(self, field: Any) -> None:
        """The receiver is an address."""
        PlainAddress()(self, field)


class BounceForm(FlaskForm):
    """A message that came back, as the mail program saved it."""

    message = FileField("A returned message (.eml)", validators=[InputRequired()])
    take = SubmitField("Take it in")


@office_mail.route("/mail", methods=["GET", "POST"])
def mail() -> Any:
    """Show and change the settings."""
    form = MailForm(data={"port": 587, **settings.read(connection(), "mail")})
    if form.validate_on_submit():
        kept = {name: form[name].data for name in ("host", "port", "protection", "user", "sender")}
        if form.password.data:
            keep_secret(context().data / PASSWORD_FILE, form.password.data.encode())
        with database.writing(connection()):
            settings.write(connection(), "mail", kept)
            trail.note("changed the mail settings", about=form.host.data)
        flash("Saved.")
        return redirect(url_for("office_mail.mail"))
    return _page(form, TestForm(formdata=None))


@office_mail.post("/mail/test")
def test() -> Any:
    """Send one message and say what came of it."""
    form, kept = TestForm(), settings.read(connection(), "mail")
    if not (kept and form.validate_on_submit()):
        return _page(MailForm(formdata=None, data=kept), form)
    problem = send_test(kept, form.to.data, context().data)
    trail.note("sent a test message" if problem is None else "tried to send a test message")
    flash("The server took the message." if problem is None else f"It was not sent. {problem}")
    return redirect(url_for("office_mail.mail"))


@office_mail.get("/letters")
def letters() -> Answer:
    """What became of each e-mail, the one that changed last first."""
    found = outbox.latest(connection(), MOST_LETTERS)
    return render_template("office/letters.html", letters=found, form=BounceForm(formdata=None))


@office_mail.post("/letters/bounced")
def bounced() -> Any:
    """Mark the e-mail that a returned message speaks of as not delivered."""
    request.max_content_length = LARGEST_BOUNCE
    form = BounceForm()
    given = form.message.data.read() if form.validate_on_submit() else b""
    found = bounces.read(given)
    at = stamp(context().clock())
    if found and outbox.bounce(connection(), found.message_id, found.says, at):
        trail.note("took in a returned message", about=found.message_id)
        flash("Marked as not delivered.")
    else:
        flash("This message does not say that one of our e-mails was not delivered.")
    return redirect(url_for("office_mail.letters"))


def send_test(kept: dict[str, Any], to: str, data: Path) -> str | None:
    """Send a test message by these settings; what went wrong in plain words, or None."""
    message = EmailMessage(policy=SMTP)
    message["From"], message["To"] = plain_address(kept["sender"]), plain_address(to)
    message["Subject"] = "Teepiece: the mail settings work"
    message.set_content(
        "This message was sent from the workshop's mail settings page. Nothing is to be done.\n"
    )
    try:
        with account.connect(account_of(kept, data)) as server:
            server.send_message(message)
    except ssl.SSLError:
        return "The server's certificate is not one that this machine trusts, or it does not speak TLS here."
    except smtplib.SMTPAuthenticationError:
        return "The server does not take this user name and password."
    except smtplib.SMTPException as error:
        return f"The server refused: {type(error).__name__}."
    except OSError as error:
        return f"The server cannot be reached: {error.strerror or 'no answer'}."
    return None


def _page(form: MailForm, test_form: TestForm) -> Answer:
    has_settings = bool(settings.read(connection(), "mail"))
    return render_template("office/mail.html", form=form, test_form=test_form, has_settings=has_settings)
