"""The office in two languages: catalogues alike, every text from them, and whose language a page speaks."""

import ast
import html
import re
from collections.abc import Callable
from pathlib import Path

import pytest

import calc
from api import words
from api.serve.page import Welcome
from api.serve.welcome import create_welcome
from api.words.english import TEXTS as ENGLISH
from tests.api.office.test_lists import GAUGE, LIMIT, PRICE
from tests.security.visitor import PASSWORD, WORKSHOP, Visitor, Workshop

API = Path(__file__).resolve().parents[3] / "api"
OTHERS = [language for language in words.LANGUAGES if language != words.USUAL]
PAGES = [
    "jobs",
    "gauges",
    "limits",
    "prices",
    "phones",
    "people",
    "mail",
    "letters",
    "backups",
    "workshop",
    "trail",
    "account",
    "people/technician",
]
ASKS_GERMAN = {"Accept-Language": "de-AT,de;q=0.9,en;q=0.5"}
ASKING = "tell|tell_marked|Later|text|line|figure|percent|new_password|repeated|note"
NAME = re.compile(rf'(?:{ASKING})\(\s*"([a-z_]+(?:\.\w+)?)"')
# Words that are the same in both languages, and what the tests themselves typed.
ALIKE = re.compile(r"[\d\W_]*|Name|Port|Server|Person|Website|Teepiece|STARTTLS.*|PDF|.*\bkPa\b.*")


@pytest.mark.parametrize("language", OTHERS)
def test_the_catalogues_have_the_same_names_and_placeholders(language: str) -> None:
    other = words.CATALOGUES[language]
    assert list(other) == list(ENGLISH)
    holes = {name: set(words.PLACEHOLDER.findall(text)) for name, text in ENGLISH.items()}
    assert {name: set(words.PLACEHOLDER.findall(text)) for name, text in other.items()} == holes
    assert words.NAMES.keys() == words.CATALOGUES.keys()


def test_every_name_that_is_asked_for_is_there() -> None:
    asked = {name for path in API.rglob("*.py") for name in NAME.findall(path.read_text()) if "." in name}
    asked |= {
        name for path in API.rglob("*.html") for name in re.findall(r'tell\("([\w.]+)"[,)]', path.read_text())
    }
    assert len(asked) > 150
    assert asked - set(ENGLISH) == set()


def test_no_template_holds_a_text_of_its_own() -> None:
    for path in [
        *API.glob("office/templates/**/*.html"),
        *API.glob("serve/templates/*.html"),
        *API.glob("desk/templates/*.html"),
    ]:
        bare = re.sub(
            r"\{%.*?%\}|\{\{.*?\}\}|\{#.*?#\}|<code>.*?</code>|<!doctype html>",
            "",
            path.read_text(),
            flags=re.DOTALL,
        )
        shown = re.sub(r"<[^>]*>", "", bare) + " ".join(
            re.findall(r'(?:alt|aria-label|title|placeholder)="([^"]*)"', bare)
        )
        left = set(re.findall(r"[A-Za-z]{2,}", shown)) - {"Teepiece", "PDF", "job", "verdict", "json", "pair"}
        assert left == set(), path.name


def test_a_sentence_that_was_kept_is_told_anew() -> None:
    kept = words.text("en", "did.gave_role", role="technician")
    assert words.retold("de", kept, "did") == "hat die Rolle Techniker gegeben"
    assert words.retold("en", kept, "did") == kept
    assert words.retold("de", "nothing that we wrote", "did") == "nothing that we wrote"
    assert words.retold("de", kept, "post") == kept


def sentences(path: str) -> set[str]:
    """The sentences of a module, outside of its docstrings; what an f-string fills in is an X."""
    tree = ast.parse((API / path).read_text())
    kinds = (ast.Module, ast.ClassDef, ast.FunctionDef)
    docs = {ast.get_docstring(node, clean=False) for node in ast.walk(tree) if isinstance(node, kinds)}
    found = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr):
            found.add(
                "".join(str(one.value) if isinstance(one, ast.Constant) else "X" for one in node.values)
            )
        elif isinstance(node, ast.Constant) and isinstance(node.value, str):
            found.add(node.value)
    return {one for one in found - docs if re.fullmatch(r"[A-Z][^\n]* [^\n]*[.X]", one)}


@pytest.mark.parametrize(
    ("path", "room"),
    [
        ("intake.py", "copy"),
        ("mail/handing_over.py", "post"),
        ("mail/postman.py", "post"),
        ("mail/bounces.py", "post"),
    ],
)
def test_what_is_said_in_english_elsewhere_is_in_the_catalogue(path: str, room: str) -> None:
    said = sentences(path) - {"E-mail for job X: X. X"}  # for whoever reads the server's log
    assert said
    assert {one for one in said if words.retold("de", one, room) == one} == set()


def shown(page: str) -> set[str]:
    """The texts of a page, each as it stands between two tags."""
    body = page.partition("<body")[2]
    return {html.unescape(part).strip() for part in re.findall(r">([^<]+)<", body)}


@pytest.fixture
def filled(owner: Visitor, bring: Callable[..., str]) -> Visitor:
    bring({"/vehicle/registration": "AB 12 CDE", "/tests/smoke/leak_seen": True})
    owner.fill("/office/gauges", GAUGE)
    owner.fill("/office/limits", LIMIT)
    owner.fill("/office/prices", PRICE)
    owner.get("/office/jobs")  # shows what was said of the last form
    return owner


@pytest.mark.parametrize("page", PAGES)
def test_no_english_is_left_on_a_german_page(filled: Visitor, page: str) -> None:
    german = filled.get(f"/office/{page}", headers=ASKS_GERMAN)
    assert german.status_code == 200
    assert '<html lang="de"' in german.text
    assert english_left(german.text) == set()
    assert {
        one for one in shown(german.text) & shown(filled.get(f"/office/{page}").text) if not known(one)
    } == set()


def english_left(page: str) -> set[str]:
    """English texts of the catalogue on a German page; people of the tests are called by their roles."""
    sentences = (
        set(ENGLISH.values()) - set(words.CATALOGUES["de"].values()) - {"owner", "technician", "office"}
    )
    return shown(page) & sentences


TYPED = ("AB 12 CDE", "Own make", "the pit's phone", "owner", "python3 -m api", "Werkzeug", "/data/backups")
UNITS = {*calc.PRESSURE_UNITS, *words.NAMES.values()}


def known(one: str) -> bool:
    """Whether a text may be the same in both languages: figures, units, commands, what the test typed."""
    typed = {*GAUGE.values(), *LIMIT.values(), *PRICE.values(), *WORKSHOP.values(), "technician", "office"}
    is_alike = bool(ALIKE.fullmatch(one)) or one in typed | UNITS
    return is_alike or any(part in one for part in TYPED)


def test_own_language_comes_before_the_workshops_and_that_before_the_browsers(owner: Visitor) -> None:
    def spoken() -> str:
        return owner.get("/office/jobs", headers=ASKS_GERMAN).text.partition('<html lang="')[2][:2]

    assert spoken() == "de"
    owner.fill("/office/workshop", {**WORKSHOP, "language": "en"})
    assert spoken() == "en"
    owner.fill("/office/account", {"spoken": "de", "choose": "1"})
    assert spoken() == "de"
    owner.fill("/office/account", {"spoken": "", "choose": "1"})
    assert spoken() == "en"
    assert owner.fill("/office/account", {"spoken": "xx", "choose": "1"}).status_code == 302
    assert spoken() == "en"


def test_one_persons_language_is_not_anothers(owner: Visitor, office: Visitor) -> None:
    owner.fill("/office/account", {"spoken": "de", "choose": "1"})
    assert '<html lang="de"' in owner.get("/office/jobs").text
    assert '<html lang="en"' in office.get("/office/jobs").text


def test_the_workshops_language_is_set_at_the_first_run(tmp_path: Path, pwa: Path) -> None:
    new = Workshop(tmp_path / "data", pwa, is_set_up=False)
    visitor = new.visitor()
    assert '<option selected value="de">' in visitor.get("/set-up", headers=ASKS_GERMAN).text
    form = {**WORKSHOP, "rounding": "total", "language": "de", "code": "ABCD-EFGH", "person": "Ines"}
    assert visitor.fill("/set-up", form | {"password": "short", "again": "other"}).status_code == 200
    assert visitor.fill("/set-up", form | {"password": PASSWORD, "again": PASSWORD}).status_code == 302
    assert "Anmelden" in new.visitor().get("/sign-in").text


def test_refusals_and_rules_speak_the_language_of_the_page(workshop: Workshop) -> None:
    visitor = workshop.visitor()
    visitor.client.environ_base["HTTP_ACCEPT_LANGUAGE"] = "de"
    assert "Dieser Name und dieses Passwort gehören nicht zusammen." in visitor.sign_in("owner", "wrong").text
    assert "Dieses Feld wird benötigt." in visitor.fill("/sign-in", {"person": ""}).text
    visitor.sign_in("owner")
    weak = {"person": "New", "role": "office", "password": "password1234"}
    page = html.unescape(visitor.fill("/office/people", weak).text)
    assert any(words.CATALOGUES["de"][name] in page for name in ENGLISH if name.startswith("guess."))
    assert visitor.get("/api/jobs/none").json["says"] == words.text("de", "jobs.none")


def test_the_verdict_is_told_in_the_language_of_whoever_looks(filled: Visitor) -> None:
    english = filled.get("/office/jobs").text
    german = filled.get("/office/jobs", headers=ASKS_GERMAN).text
    assert "between compressor and engine" in english
    assert "entweicht Luft" in german
    job = re.search(r"/office/(jobs/[0-9a-f-]{36})", german)
    assert job
    desk = filled.get(f"/desk/{job[1]}", headers=ASKS_GERMAN).text
    assert '<html lang="de"' in desk
    assert english_left(desk) == set()


def test_the_page_for_new_phones_speaks_the_phones_language() -> None:
    welcome = Welcome("http://192.0.2.7:8080", "https://garage.home.arpa:8443", "Own name", "AB:CD", b"")
    client = create_welcome(welcome).test_client()
    german = client.get("/", headers=ASKS_GERMAN).text
    assert "Auf einem Android-Telefon" in german
    assert "<strong>Own name</strong>" in german
    assert "On an Android phone" in client.get("/").text
    assert english_left(german) == set()
