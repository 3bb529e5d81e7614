"""Sign-in, sessions and passwords (OWASP ASVS 5.0: 3.3, 6.2, 6.3, 7.2 to 7.5)."""

import re
import threading
from contextlib import closing

import pytest

from api.people import passwords
from api.store import people
from tests.security.visitor import PASSWORD, Workshop

NEW = "eleven blue ladders sing"
REAL_HASHER = passwords._hasher  # before the tests put a quicker one in its place


def test_name_and_password_open_the_office(workshop: Workshop) -> None:
    visitor = workshop.visitor()
    answer = visitor.get("/office/jobs?words=x")
    assert (answer.status_code, answer.location) == (302, "/sign-in?next=/office/jobs?words%3Dx")
    assert visitor.sign_in("Technician").location == "/office/"
    assert visitor.get("/office/jobs").status_code == 200


@pytest.mark.parametrize("name", ["technician", "nobody of this name"])
def test_a_wrong_name_and_a_wrong_password_get_the_same_answer(workshop: Workshop, name: str) -> None:
    answer = workshop.visitor().sign_in(name, "wrong")
    assert answer.status_code == 401
    assert "This name and this password do not belong together." in answer.text


def test_the_cookie_is_bound_to_this_origin_and_hidden_from_script(workshop: Workshop) -> None:
    (cookie,) = workshop.visitor().sign_in("owner").headers.getlist("Set-Cookie")
    assert cookie.startswith("__Host-teepiece=")
    assert {"Secure", "HttpOnly", "SameSite=Strict", "Path=/"} <= set(cookie.split("; "))
    assert "Domain" not in cookie


def test_signing_in_leaves_no_earlier_session(workshop: Workshop) -> None:
    """Session fixation: what the browser held before is not signed in afterwards (7.2.4)."""
    visitor = workshop.signed_in("office")
    before = visitor.cookies()
    visitor.sign_in("owner")
    thief = workshop.visitor()
    thief.take_over(before)
    assert not thief.is_signed_in()
    assert visitor.is_signed_in()


@pytest.mark.parametrize(
    "leads", ["https://evil.example/", "//evil.example", "/\\evil.example", "javascript:1"]
)
def test_signing_in_leads_nowhere_else(workshop: Workshop, leads: str) -> None:
    answer = workshop.visitor().fill("/sign-in", {"person": "owner", "password": PASSWORD, "next": leads})
    assert answer.location == "/office/"


def test_ten_wrong_passwords_lock_the_account_for_a_quarter_of_an_hour(workshop: Workshop) -> None:
    visitor = workshop.visitor()
    answers = [visitor.sign_in("owner", "wrong").status_code for _ in range(11)]
    assert answers == [401] * 10 + [429]
    assert visitor.sign_in("owner").status_code == 429
    workshop.clock.pass_by(minutes=15, seconds=1)
    assert visitor.sign_in("owner").status_code == 302


def test_guesses_at_many_accounts_lock_the_address(workshop: Workshop) -> None:
    visitor = workshop.visitor(REMOTE_ADDR="192.0.2.7")
    answers = [visitor.sign_in(f"guess {number}", "wrong").status_code for number in range(31)]
    assert answers == [401] * 30 + [429]
    assert workshop.visitor(REMOTE_ADDR="192.0.2.8").sign_in("owner").status_code == 302


def test_an_ipv6_network_counts_as_one_address(workshop: Workshop) -> None:
    visitors = [workshop.visitor(REMOTE_ADDR=f"2001:db8::{number:x}") for number in range(1, 32)]
    answers = [one.sign_in(f"guess {number}", "wrong").status_code for number, one in enumerate(visitors)]
    assert answers[-2:] == [401, 429]


def test_a_stranger_cannot_lock_a_paired_phone_out(workshop: Workshop) -> None:
    phone = workshop.phone("technician")
    phone.fill("/pair", to="/sign-out")
    stranger = workshop.visitor(REMOTE_ADDR="192.0.2.9")
    while stranger.sign_in("technician", "wrong").status_code != 429:
        pass
    assert phone.sign_in("technician").status_code == 302


def test_attempts_made_at_once_are_all_counted(workshop: Workshop) -> None:
    answers: list[int] = []
    visitors = [workshop.visitor(REMOTE_ADDR=f"192.0.2.{number}") for number in range(14)]

    def guess(number: int) -> None:
        answers.append(visitors[number].sign_in("owner", "wrong").status_code)

    threads = [threading.Thread(target=guess, args=(number,)) for number in range(14)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert answers.count(401) <= 10
    assert set(answers) == {401, 429}


@pytest.mark.parametrize(
    ("idle", "lasts", "role"), [(12, 24 * 7, "desk"), (24 * 30, 24 * 90, "phone")], ids=["desk", "phone"]
)
def test_a_session_ends_when_idle_and_when_old(workshop: Workshop, idle: int, lasts: int, role: str) -> None:
    def begin() -> object:
        return workshop.phone() if role == "phone" else workshop.signed_in("technician")

    left_alone, in_use = begin(), begin()
    workshop.clock.pass_by(hours=idle - 1)
    assert in_use.is_signed_in()
    workshop.clock.pass_by(hours=2)
    assert not left_alone.is_signed_in()
    for _ in range(0, lasts - idle - 2, idle - 1):
        assert in_use.is_signed_in()
        workshop.clock.pass_by(hours=idle - 1)
    workshop.clock.pass_by(hours=2)
    assert not in_use.is_signed_in()


def test_signing_out_ends_the_session_on_the_server(workshop: Workshop) -> None:
    visitor = workshop.signed_in("owner")
    cookies = visitor.cookies()
    assert visitor.fill("/office/jobs", to="/sign-out").status_code == 302
    visitor.take_over(cookies)
    assert not visitor.is_signed_in()


def test_another_password_ends_every_other_session(workshop: Workshop) -> None:
    here, elsewhere = workshop.signed_in("office"), workshop.signed_in("office")
    form = {"present": PASSWORD, "password": NEW, "again": NEW}
    assert here.fill("/office/account", form).status_code == 302
    assert here.is_signed_in()
    assert not elsewhere.is_signed_in()
    assert workshop.visitor().sign_in("office").status_code == 401
    assert workshop.visitor().sign_in("office", NEW).status_code == 302


def test_another_password_needs_the_present_one(workshop: Workshop) -> None:
    visitor = workshop.signed_in("office")
    form = {"present": "wrong", "password": NEW, "again": NEW}
    assert visitor.fill("/office/account", form).status_code == 403
    assert workshop.visitor().sign_in("office").status_code == 302


def test_ones_own_sessions_are_listed_and_ended(workshop: Workshop) -> None:
    here, lost = workshop.signed_in("office"), workshop.phone("office")
    page = here.get("/office/account").text
    session = re.search(r"the pit&#39;s phone.*?name=\"session\" value=\"([^\"]+)\"", page, re.DOTALL)
    assert session
    here.fill("/office/account", {"session": session[1]}, to="/office/account/end-session")
    assert not lost.is_signed_in()
    assert here.is_signed_in()


def test_nobody_ends_another_persons_session(workshop: Workshop) -> None:
    owner, office = workshop.signed_in("owner"), workshop.signed_in("office")
    with closing(workshop.connect()) as connection:
        (session,) = connection.execute("SELECT id FROM sessions WHERE person = 'owner'").fetchone()
    office.fill("/office/account", {"session": session}, to="/office/account/end-session")
    assert owner.is_signed_in()


def test_a_closed_account_is_out_at_once(workshop: Workshop) -> None:
    technician = workshop.signed_in("technician")
    form = {"role": "technician", "left": "closed", "password": ""}
    workshop.signed_in("owner").fill("/office/people/technician", form)
    assert not technician.is_signed_in()
    assert workshop.visitor().sign_in("technician").status_code == 401


def test_the_last_owner_stays_one(workshop: Workshop) -> None:
    owner = workshop.signed_in("owner")
    answer = owner.fill("/office/people/owner", {"role": "office", "left": "", "password": ""})
    assert "This is the last owner" in answer.text
    answer = owner.fill("/office/people/owner", {"role": "owner", "left": "closed", "password": ""})
    assert "This is the last owner" in answer.text
    assert owner.get("/office/people").status_code == 200


@pytest.mark.parametrize(
    "password",
    ["short", "x" * 129, "aaaaaaaaaaaaaa", "123456789012", "passwordpassword", "Hill Lane Garage"],
)
def test_a_password_that_is_guessed_early_is_refused(workshop: Workshop, password: str) -> None:
    form = {"person": "Kim", "role": "technician", "password": password}
    assert workshop.signed_in("owner").fill("/office/people", form).status_code == 200
    with closing(workshop.connect()) as connection:
        assert people.named(connection, "Kim") is None


def test_passwords_are_kept_as_argon2id_of_the_strength_recommended() -> None:
    """RFC 9106, section 4, second recommended option: t=3, p=4, m=64 MiB, 128-bit salt, 256-bit tag."""
    kept = REAL_HASHER.hash(PASSWORD)
    assert kept.startswith("$argon2id$v=19$m=65536,t=3,p=4$")
    salt, tag = kept.split("$")[-2:]
    assert len(salt) * 6 // 8 * 8 >= 128
    assert len(tag) * 6 // 8 * 8 >= 256
    assert REAL_HASHER.hash(PASSWORD) != kept


def test_no_password_and_no_token_lies_in_the_database(workshop: Workshop) -> None:
    phone = workshop.phone()
    secret = phone.cookies()["__Host-teepiece-phone"]
    with closing(workshop.connect()) as connection:
        dump = "\n".join(connection.iterdump())
    assert PASSWORD not in dump
    assert secret not in dump


def test_what_is_shown_of_people_is_kept_by_no_cache(workshop: Workshop) -> None:
    visitor = workshop.signed_in("owner")
    for page in ("/office/jobs", "/office/people", "/sign-in", "/api/session"):
        assert "no-store" in visitor.get(page).headers["Cache-Control"]
