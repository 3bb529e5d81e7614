"""Mail settings, and a message to see whether they work."""

import smtplib
import ssl
from email.headerregistry import Address as MailAddress
from email.message import EmailMessage
from email.policy import SMTP
from pathlib import Path
from typing import Any

from flask import flash, redirect, render_template, url_for
from flask_wtf import FlaskForm
from wtforms import IntegerField, PasswordField, SelectField, SubmitField
from wtforms.fields import SelectChoice
from wtforms.validators import InputRequired, Length, NumberRange, Optional, ValidationError

from api.context import connection, context
from api.office.forms import line
from api.office.pages import Answer, blueprint
from api.people import trail
from api.secret import keep_secret, read_secret
from api.store import database, settings

office_mail = blueprint("office_mail")

PASSWORD_FILE = "mail.password"  # noqa: S105  (its name)
SECONDS = 15.0
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


def plain_address(text: str) -> str:
    """The text, if it is one plain address; a ValueError otherwise."""
    if any(ord(sign) < 33 or ord(sign) > 126 for sign in text):
        raise ValueError("not one line of plain letters")
    found = MailAddress(addr_spec=text)
    if not found.username or "." not in found.domain:
        raise ValueError("no address")
    return found.addr_spec


def send_test(kept: dict[str, Any], to: str, data: Path) -> str | None:
    """Send a test message by these settings; what went wrong in plain words, or None."""
    message = EmailMessage(policy=SMTP)
    message["From"], message["To"] = plain_address(kept["sender"]), plain_address(to)
    message["Subject"] = "Teepiece: the mail settings work"
    message.set_content(
        "This message was sent from the workshop's mail settings page. Nothing is to be done.\n"
    )
    try:
        with _server(kept) as server:
            if kept.get("user"):
                server.login(kept["user"], read_secret(data / PASSWORD_FILE).decode())
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


def _server(kept: dict[str, Any]) -> smtplib.SMTP:
    """A protected connection; nothing is ever sent in the clear."""
    trust = ssl.create_default_context()
    if kept["protection"] == "tls":
        return smtplib.SMTP_SSL(kept["host"], kept["port"], timeout=SECONDS, context=trust)
    server = smtplib.SMTP(kept["host"], kept["port"], timeout=SECONDS)
    try:
        server.starttls(context=trust)
    except BaseException:
        server.close()
        raise
    return server


def _page(form: MailForm, test_form: TestForm) -> Answer:
    has_settings = bool(settings.read(connection(), "mail"))
    return render_template("office/mail.html", form=form, test_form=test_form, has_settings=has_settings)
