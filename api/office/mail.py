"""Mail settings, and a message to see whether they work."""

import re
import smtplib
import ssl
from email.message import EmailMessage
from email.policy import SMTP
from pathlib import Path
from typing import Any

from flask import flash, redirect, render_template, request, url_for
from wtforms import FileField, IntegerField, PasswordField, SelectField, SubmitField
from wtforms.fields import SelectChoice
from wtforms.validators import InputRequired, Length, NumberRange, Optional, ValidationError

from api.clock import stamp
from api.context import connection, context
from api.mail import account, bounces
from api.mail.account import PASSWORD_FILE, account_of, plain_address
from api.office.forms import OfficeForm, line
from api.office.pages import Answer, blueprint
from api.people import trail
from api.people.language import Later, retell, tell
from api.secret import keep_secret
from api.store import database, outbox, settings

office_mail = blueprint("office_mail")

MOST_LETTERS = 200
LARGEST_BOUNCE = 16 * 1024 * 1024
SERVER = re.compile(r"[A-Za-z0-9](?:[A-Za-z0-9.-]*[A-Za-z0-9])?|[0-9A-Fa-f:]*:[0-9A-Fa-f:.]+")
PROTECTION = [
    SelectChoice("starttls", Later("mail.starttls")),
    SelectChoice("tls", Later("mail.tls")),
]


class PlainAddress:
    """One address and nothing else: no name, no second address, no line break (RFC 5322, 3.4.1)."""

    def __call__(self, form: OfficeForm, field: Any) -> None:
        try:
            plain_address(field.data or "")
        except ValueError:
            raise ValidationError(tell("mail.one_address")) from None


class MailForm(OfficeForm):
    """The account that reports are sent from."""

    host = line("mail.server", most=253)
    port = IntegerField(Later("mail.port"), validators=[InputRequired(), NumberRange(1, 65535)])
    protection = SelectField(Later("mail.protection"), choices=PROTECTION)
    user = line("mail.user", most=200, needed=False)
    password = PasswordField(
        Later("shared.password"),
        validators=[Optional(), Length(max=500)],
        description=Later("mail.password_hint"),
    )
    sender = line("mail.sender", most=254)
    send = SubmitField(Later("shared.save"))

    def validate_host(self, field: Any) -> None:
        """The server is a name or a number, with nothing around it."""
        if not SERVER.fullmatch(field.data or ""):
            raise ValidationError(tell("mail.one_server"))

    def validate_sender(self, field: Any) -> None:
        """The sender is an address."""
        PlainAddress()(self, field)


class TestForm(OfficeForm):
    """Where the test message goes."""

    to = line("mail.test_to", most=254)
    test = SubmitField(Later("mail.test"))

    def validate_to(self, field: Any) -> None:
        """The receiver is an address."""
        PlainAddress()(self, field)


class BounceForm(OfficeForm):
    """A message that came back, as the mail program saved it."""

    message = FileField(Later("letters.file"), validators=[InputRequired()])
    take = SubmitField(Later("shared.take_in"))


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
            trail.note("did.changed_mail", about=form.host.data)
        flash(tell("shared.saved"))
        return redirect(url_for("office_mail.mail"))
    return _page(form, TestForm(formdata=None))


@office_mail.post("/mail/test")
def test() -> Any:
    """Send one message and say what came of it."""
    form, kept = TestForm(), settings.read(connection(), "mail")
    if not (kept and form.validate_on_submit()):
        return _page(MailForm(formdata=None, data=kept), form)
    problem = send_test(kept, form.to.data, context().data)
    trail.note("did.sent_test" if problem is None else "did.tried_test")
    flash(tell("mail.test_taken") if problem is None else tell("mail.test_failed", why=problem))
    return redirect(url_for("office_mail.mail"))


@office_mail.get("/letters")
def letters() -> Answer:
    """What became of each e-mail, the one that changed last first."""
    found = outbox.latest(connection(), MOST_LETTERS)
    return render_template(
        "office/letters.html", letters=found, retell=retell, form=BounceForm(formdata=None)
    )


@office_mail.post("/letters/bounced")
def bounced() -> Any:
    """Mark the e-mail that a returned message speaks of as not delivered."""
    request.max_content_length = LARGEST_BOUNCE
    form = BounceForm()
    given = form.message.data.read() if form.validate_on_submit() else b""
    found = bounces.read(given)
    at = stamp(context().clock())
    if found and outbox.bounce(connection(), found.message_id, found.says, at):
        trail.note("did.took_bounce", about=found.message_id)
        flash(tell("letters.marked"))
    else:
        flash(tell("letters.not_ours"))
    return redirect(url_for("office_mail.letters"))


def send_test(kept: dict[str, Any], to: str, data: Path) -> str | None:
    """Send a test message by these settings; what went wrong in plain words, or None."""
    message = EmailMessage(policy=SMTP)
    message["From"], message["To"] = plain_address(kept["sender"]), plain_address(to)
    message["Subject"] = tell("mail.test_subject")
    message.set_content(tell("mail.test_text") + "\n")
    try:
        with account.connect(account_of(kept, data)) as server:
            server.send_message(message)
    except ssl.SSLError:
        return tell("mail.no_trust")
    except smtplib.SMTPAuthenticationError:
        return tell("mail.no_login")
    except smtplib.SMTPException as error:
        return tell("mail.refused", kind=type(error).__name__)
    except OSError as error:
        return tell("mail.unreached", why=error.strerror or tell("mail.no_answer"))
    return None


def _page(form: MailForm, test_form: TestForm) -> Answer:
    has_settings = bool(settings.read(connection(), "mail"))
    return render_template("office/mail.html", form=form, test_form=test_form, has_settings=has_settings)
