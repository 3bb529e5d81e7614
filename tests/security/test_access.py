"""Every address × everybody: the table `access.txt`, held against the server's own map of addresses.

`phone` is a technician's paired phone, `revoked` the same after it was shut out, `other` a browser with the
cookies of another workshop (OWASP ASVS 5.0: 8.2.1, 8.3.1).
"""

import re
from functools import cache
from pathlib import Path

import pytest
from werkzeug.test import TestResponse

from api.app import create_app
from api.people import access
from tests.security.visitor import Visitor, Workshop

TABLE = Path(__file__).with_name("access.txt")
WHO = ("nobody", "technician", "office", "owner", "phone", "revoked", "other")
PLACE = re.compile(r"<[^>]+>")
SOMETHING = "019ac0de-0000-7000-8000-000000000001"


@cache
def rows() -> dict[str, dict[str, str]]:
    lines = [line for line in TABLE.read_text().splitlines() if line and not line.startswith("#")]
    cells = [line.split() for line in lines]
    return {f"{method} {rule}": dict(zip(WHO, words, strict=True)) for method, rule, *words in cells}


def served(data: Path) -> set[str]:
    rules = create_app(data).url_map.iter_rules()
    return {
        f"{method} {rule.rule}"
        for rule in rules
        for method in rule.methods or set()
        if method not in ("HEAD", "OPTIONS")
    }


def test_every_address_has_its_row(tmp_path: Path) -> None:
    assert served(tmp_path) == set(rows())


def ask(visitor: Visitor, route: str) -> TestResponse:
    method, rule = route.split()
    return visitor.send(method, PLACE.sub(SOMETHING, rule))


def outcome(answer: TestResponse) -> str:
    if answer.status_code == 401 or "/sign-in" in (answer.location or ""):
        return "sign"
    return "no" if answer.status_code == 403 else "in"


@pytest.fixture
def visitors(workshop: Workshop, tmp_path: Path, pwa: Path) -> dict[str, Visitor]:
    found = {role: workshop.signed_in(role) for role in ("technician", "office", "owner")}
    found |= {name: workshop.visitor() for name in ("nobody", "other")}
    found |= {"phone": workshop.phone(), "revoked": workshop.phone(name="lost in the yard")}
    workshop.revoke("lost in the yard")
    found["other"].take_over(Workshop(tmp_path / "other", pwa).phone("owner").cookies())
    return found


def test_everybody_gets_in_where_they_may_and_nowhere_else(visitors: dict[str, Visitor]) -> None:
    """Signing out comes last, since it ends what the others need."""
    found = {
        route: {who: outcome(ask(visitors[who], route)) for who in WHO}
        for route in sorted(rows(), key=lambda route: route == "POST /sign-out")
    }
    wrong = {route: words for route, words in found.items() if words != rows()[route]}
    assert wrong == {}


def test_what_nobody_thought_of_is_the_owners(workshop: Workshop) -> None:
    workshop.app.add_url_rule("/api/forgotten", "forgotten", lambda: {"secret": 1})
    assert workshop.signed_in("office").get("/api/forgotten").status_code == 403
    assert workshop.visitor().get("/api/forgotten").status_code == 401
    assert workshop.signed_in("owner").get("/api/forgotten").status_code == 200


def test_the_access_table_names_addresses_that_exist(workshop: Workshop) -> None:
    assert set(access.RULES) - set(workshop.app.view_functions) == set()
