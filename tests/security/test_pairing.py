"""Phones: paired by a code, listed, shut out (OWASP ASVS 5.0: 6.5.4, 6.5.5, 6.6.3)."""

import html
import json
import math
from contextlib import closing

import pytest
import segno

from api.people import tokens
from api.store import phones
from tests.api.phone import new_id, operation
from tests.security.visitor import CODE, Workshop

TEXT = json.dumps(operation(new_id(), "/vehicle/registration", "AB 12 CDE"))


def test_a_code_has_more_than_20_bits() -> None:
    assert tokens.CODE_LENGTH * math.log2(len(set(tokens.SIGNS))) >= 20
    codes = {tokens.code() for _ in range(500)}
    assert len(codes) == 500
    assert {sign for code in codes for sign in code} == set(tokens.SIGNS) | {"-"}


def test_a_paired_phone_syncs(workshop: Workshop) -> None:
    phone = workshop.phone()
    answer = phone.sync(TEXT)
    assert answer.json["answers"][0]["answer"] == "applied"
    assert phone.get("/api/session").json["phone"]["name"] == "the pit's phone"


def test_a_browser_that_is_only_signed_in_hands_nothing_in(workshop: Workshop) -> None:
    answer = workshop.signed_in("technician").sync(TEXT)
    assert (answer.status_code, answer.json["error"]) == (403, "not_paired")


def test_a_code_is_good_once(workshop: Workshop) -> None:
    code = workshop.signed_in("owner").pairing_code("technician")
    assert workshop.visitor().pair(code).status_code == 302
    assert workshop.visitor().pair(code).status_code == 403


@pytest.mark.parametrize(("seconds", "status"), [(599, 302), (600, 403)])
def test_a_code_is_good_for_ten_minutes(workshop: Workshop, seconds: int, status: int) -> None:
    code = workshop.signed_in("owner").pairing_code("technician")
    workshop.clock.pass_by(seconds=seconds)
    assert workshop.visitor().pair(code).status_code == status


def test_a_code_may_be_typed_carelessly(workshop: Workshop) -> None:
    code = workshop.signed_in("owner").pairing_code("technician")
    assert workshop.visitor().pair(f" {code.lower().replace('-', ' ')} ").status_code == 302


def test_a_newer_code_takes_the_place_of_an_older_one(workshop: Workshop) -> None:
    owner = workshop.signed_in("owner")
    older, newer = owner.pairing_code("technician"), owner.pairing_code("technician")
    assert workshop.visitor().pair(older).status_code == 403
    assert workshop.visitor().pair(newer).status_code == 302


def test_guessing_codes_locks_the_address(workshop: Workshop) -> None:
    guesser = workshop.visitor(REMOTE_ADDR="192.0.2.7")
    answers = [guesser.pair("AAAA-AAAA").status_code for _ in range(31)]
    assert answers == [403] * 30 + [429]


def test_a_phone_away_for_six_weeks_syncs_after_signing_in_again(workshop: Workshop) -> None:
    phone = workshop.phone()
    assert phone.sync().status_code == 200
    workshop.clock.pass_by(weeks=6)
    answer = phone.sync(TEXT)
    assert (answer.status_code, answer.json["error"]) == (401, "sign_in")
    phone.sign_in("technician")
    assert phone.sync(TEXT).json["answers"][0]["answer"] == "applied"


def test_a_revoked_phone_is_shut_out_and_its_person_is_not(workshop: Workshop) -> None:
    phone, owner = workshop.phone(), workshop.signed_in("owner")
    workshop.revoke("the pit's phone")
    assert phone.sync(TEXT).status_code == 401
    assert phone.sign_in("technician").status_code == 302
    assert phone.sync(TEXT).json["error"] == "not_paired"
    assert phone.pair(owner.pairing_code("technician")).status_code == 302
    assert phone.sync(TEXT).status_code == 200


def test_the_last_sync_is_listed(workshop: Workshop) -> None:
    phone, owner = workshop.phone(), workshop.signed_in("owner")
    assert "2026-11-25 11:30" not in owner.get("/office/phones").text
    workshop.clock.pass_by(hours=2, minutes=30)
    phone.sync()
    assert "2026-11-25 11:30" in owner.get("/office/phones").text


def test_a_technician_sees_and_pairs_their_own_phones_only(workshop: Workshop) -> None:
    workshop.phone("office")
    technician = workshop.signed_in("technician")
    assert "the pit&#39;s phone" not in technician.get("/office/phones").text
    with closing(workshop.connect()) as connection:
        (foreign,) = phones.every(connection)
    for form, to in (({"person": "owner"}, "code"), ({"phone": foreign.id}, "revoke")):
        answer = technician.fill("/office/phones", form, to=f"/office/phones/{to}")
        assert answer.status_code == 404
    assert workshop.phone("technician").sync().status_code == 200


def test_the_code_stands_in_no_address_that_a_server_logs(workshop: Workshop) -> None:
    """ASVS 14.2.1: the QR code carries it behind the #, which browsers keep to themselves (RFC 3986, 3.5)."""
    owner = workshop.signed_in("owner")
    page = html.unescape(owner.fill("/office/phones", {"person": "office"}, to="/office/phones/code").text)
    code = CODE.search(page)
    assert code
    expected = segno.make(f"https://teepiece.home.arpa:8443/pair#{code[0]}", error="m")
    assert expected.svg_data_uri(scale=6, border=3, dark="#16213a", light="#ffffff") in page
