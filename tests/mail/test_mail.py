"""E-mail: one wish is one letter, headers hold, states are true, what came back is said so."""

from datetime import timedelta
from email import message_from_bytes
from email.policy import default
from pathlib import Path

import pytest

from api.erasure import Eraser, of_customer
from api.mail import bounces, letters
from api.mail.account import plain_address
from api.store import outbox
from api.store.erasures import own_key
from tests.mail.post_office import FAULTS, PostOffice
from tests.mail.workshop import BEGAN, REPORT, Mailing
from tests.security.hostile_inputs import HEADERS

NO_ADDRESSES = ["", "a@b", "a@example.com, b@example.com", "a@example.com\r\nBcc: b@example.com", "<", '"']
WRITTEN = {"From", "To", "Subject", "Date", "Message-ID", "MIME-Version", "Content-Type"}


@pytest.mark.parametrize("protection", ["starttls", "tls"])
def test_a_letter_arrives_over_tls_with_its_report(tmp_path: Path, protection: str) -> None:
    with PostOffice(protection) as office:
        mailing = Mailing(tmp_path, office)
        mailing.wish()
        mailing.take()
        assert mailing.post_until_settled().state == "sent"
    (raw,) = office.letters
    message = message_from_bytes(raw, policy=default)
    assert message["To"] == "a.sample@example.com"
    assert message["Subject"] == "What we found on your car EX 4321"
    (report,) = message.iter_attachments()
    assert (report.get_content_type(), report.get_content()) == ("application/pdf", REPORT)


def test_the_same_bytes_are_sent_again_and_the_report_is_drawn_once(tmp_path: Path) -> None:
    with PostOffice() as office:
        mailing = Mailing(tmp_path, office)
        mailing.wish()
        mailing.take()
        office.faults = ["greylisted", "dropped_before", "dropped_after", "fine"]
        assert mailing.post_until_settled().state == "sent"
    assert mailing.drawn == 1
    first, second = office.letters  # the break after the last dot: nobody can know, so it comes twice
    assert first == second
    assert list(office.taken.values()) == [2]


def test_pauses_double_and_nothing_is_tried_before_its_time(tmp_path: Path) -> None:
    with PostOffice() as office:
        mailing = Mailing(tmp_path, office)
        mailing.wish()
        mailing.take()
        office.faults = ["greylisted"] * 3
        pauses = []
        for _ in range(3):
            found = mailing.post()
            assert found is not None
            assert mailing.post() is None
            due = type(BEGAN).fromisoformat(found.due_at)
            pauses.append(due - mailing.now)
            mailing.now = due
    assert pauses == [timedelta(minutes=1), timedelta(minutes=2), timedelta(minutes=4)]
    assert "451" in found.says


def test_a_server_that_is_not_trusted_gets_nothing(tmp_path: Path) -> None:
    with PostOffice() as office, PostOffice() as other:
        office.trust = other.trust
        mailing = Mailing(tmp_path, office)
        mailing.wish()
        mailing.take()
        found = mailing.post()
    assert found is not None
    assert (found.state, found.says[:40]) == ("queued", "The mail server's certificate is not one")
    assert office.letters == []


def test_a_crash_while_handing_over_counts_as_unsure(tmp_path: Path) -> None:
    with PostOffice() as office:
        mailing = Mailing(tmp_path, office)
        _, one = mailing.wish()
        mailing.take()
        with mailing.connection() as connection:
            for _ in range(2):
                outbox.hand_over(connection, one)
                outbox.interrupted(connection)
        found = mailing.post()
    assert found is not None
    assert found.state == "failed"
    assert "may have arrived" in found.says
    assert office.letters == []


@pytest.mark.parametrize("to", NO_ADDRESSES)
def test_what_is_no_plain_address_fails_at_once(tmp_path: Path, to: str) -> None:
    with PostOffice() as office:
        mailing = Mailing(tmp_path, office)
        job, _ = mailing.wish(to)
        mailing.take()
        assert mailing.post() is None
        assert [(one.state, one.says) for one in mailing.letters(job)] == [
            ("failed", "This is not one plain e-mail address.")
        ]


@pytest.mark.parametrize("text", HEADERS, ids=ascii)
def test_no_text_makes_a_header_of_its_own(text: str) -> None:
    raw = letters.letter(
        identity=letters.message_id("j", text, "office@workshop.example"),
        sender="office@workshop.example",
        house=text,
        recipient="a@example.com",
        car=text,
        language="de",
        report=REPORT,
        at=BEGAN,
    )
    message = message_from_bytes(raw, policy=default)
    assert set(message.keys()) == WRITTEN
    assert [one.addr_spec for one in message["From"].addresses] == ["office@workshop.example"]
    with pytest.raises(ValueError, match=r"."):
        plain_address(f"a@example.com{text}")


def test_phone_hears_what_became_of_it_and_no_account_is_said(tmp_path: Path) -> None:
    with PostOffice() as office:
        mailing = Mailing(tmp_path, office, has_account=False)
        job, one = mailing.wish()
        mailing.take()
        mailing.post()
        (heard,) = mailing.app.test_client().get(f"/api/jobs/{job}/deliveries").json["deliveries"]
    del heard["at"]
    assert heard == {"id": one, "state": "queued", "says": "No mail account is set up yet."}


def test_a_returned_message_marks_its_letter(tmp_path: Path) -> None:
    """The form of RFC 3464's own examples (appendix E), with our addresses."""
    with PostOffice() as office:
        mailing = Mailing(tmp_path, office)
        job, _ = mailing.wish()
        mailing.take()
        sent = mailing.post_until_settled()
    returned = (
        'Content-Type: multipart/report; report-type=delivery-status; boundary="B"\r\n'
        "MIME-Version: 1.0\r\n\r\n"
        "--B\r\n\r\nYour message could not be delivered.\r\n"
        "--B\r\nContent-Type: message/delivery-status\r\n\r\nReporting-MTA: dns; mail.example\r\n\r\n"
        "Final-Recipient: rfc822; a.sample@example.com\r\nAction: failed\r\nStatus: 5.1.1\r\n"
        "Diagnostic-Code: smtp; 550 no such user\r\n\r\n"
        f"--B\r\nContent-Type: text/rfc822-headers\r\n\r\nMessage-ID: {sent.message_id}\r\n\r\n--B--\r\n"
    ).encode()
    found = bounces.read(returned)
    assert found == bounces.Bounce(sent.message_id, "It came back: smtp; 550 no such user")
    assert bounces.read(returned.replace(b"failed", b"delayed")) is None
    with mailing.connection() as connection:
        assert outbox.bounce(connection, found.message_id, found.says, sent.changed_at)
    assert [one.state for one in mailing.letters(job)] == ["bounced"]


def test_an_erased_customer_has_no_letter(tmp_path: Path) -> None:
    with PostOffice() as office:
        mailing = Mailing(tmp_path, office)
        job, _ = mailing.wish()
        mailing.take()
        context = mailing.app.extensions["teepiece"]
        with mailing.connection() as connection:
            Eraser(context.data, context.blobs).merge(connection, of_customer(own_key(connection), job))
        assert mailing.letters(job) == []
        assert mailing.take() == 0


def test_every_fault_is_one_that_the_long_run_knows() -> None:
    from tests.mail.full_mail import CANNOT_KNOW, patterns

    assert set(FAULTS) >= CANNOT_KNOW
    assert len(set(patterns(200))) > 100
