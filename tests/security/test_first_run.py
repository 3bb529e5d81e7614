"""The first run: no default password, and no stranger is first."""

from pathlib import Path

import pytest

from api.app import create_app
from tests.security.visitor import PASSWORD, TOKEN, WORKSHOP, Visitor, Workshop

FORM = WORKSHOP | {"person": "Robin", "password": PASSWORD, "again": PASSWORD, "code": "abcd efgh"}


def test_everything_leads_to_the_set_up(new_workshop: Workshop) -> None:
    visitor = new_workshop.visitor()
    for page in ("/office/jobs", "/sign-in"):
        assert visitor.get(page).location.startswith("/set-up")
    assert visitor.get("/api/jobs").status_code == 401


def test_the_set_up_opens_the_first_account_and_signs_it_in(new_workshop: Workshop) -> None:
    visitor = new_workshop.visitor()
    assert visitor.fill("/set-up", FORM).status_code == 302
    assert visitor.get("/api/session").json["person"]["name"] == "Robin"
    assert visitor.get("/api/session").json["person"]["role"] == "owner"
    assert visitor.get("/api/workshop").json["settings"]["tax_pct"] == "19"


@pytest.mark.parametrize("code", ["", "ABCD-EFGJ", "0"])
def test_without_the_servers_code_nobody_is_first(new_workshop: Workshop, code: str) -> None:
    visitor = new_workshop.visitor()
    assert visitor.fill("/set-up", FORM | {"code": code}).status_code == 403
    assert not visitor.is_signed_in()


def test_the_code_cannot_be_tried_for_ever(new_workshop: Workshop) -> None:
    visitor = new_workshop.visitor()
    answers = {visitor.fill("/set-up", FORM | {"code": "x"}).status_code for _ in range(31)}
    assert answers == {403, 429}


def test_there_is_no_second_first_run(new_workshop: Workshop) -> None:
    first, second = new_workshop.visitor(), new_workshop.visitor()
    page = second.get("/set-up").text
    first.fill("/set-up", FORM)
    token = TOKEN.search(page)
    assert token
    second.send("POST", "/set-up", data=FORM | {"csrf_token": token[1], "person": "Mallory"})
    assert not second.is_signed_in()


@pytest.mark.parametrize(
    "change", [{"password": "password1234"}, {"again": "other"}, {"currency": "euro"}, {"name": ""}]
)
def test_what_is_missing_or_weak_is_asked_for_again(new_workshop: Workshop, change: dict[str, str]) -> None:
    visitor = new_workshop.visitor()
    if "password" in change:
        change = change | {"again": change["password"]}
    assert visitor.fill("/set-up", FORM | change).status_code == 200
    assert not visitor.is_signed_in()


def test_no_account_is_there_before(new_workshop: Workshop) -> None:
    """No default password exists anywhere: there is nobody to have one."""
    connection = new_workshop.connect()
    assert connection.execute("SELECT COUNT(*) FROM people").fetchone() == (0,)
    connection.close()


def test_on_loopback_nobody_signs_in_until_an_account_is_opened(tmp_path: Path, pwa: Path) -> None:
    app = create_app(tmp_path / "here", pwa=pwa)
    visitor = Visitor(app.test_client(), "http://127.0.0.1:8000")
    assert visitor.get("/office/jobs").status_code == 200
    assert visitor.sync().status_code == 200
    assert visitor.fill("/set-up", FORM).status_code == 302
    stranger = Visitor(app.test_client(), "http://127.0.0.1:8000")
    assert stranger.get("/office/jobs").status_code == 302
    assert stranger.sync().status_code == 401
    assert visitor.is_signed_in()
