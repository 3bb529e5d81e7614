"""Two answers to one question, on the phone's own screens: named, printed and settled in its language."""

import re
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from calc.contract import JOB, Group, Items, Kind, Word, WordList
from tests.browser.test_store_sync import NEW_JOB, RUN, START

PLACES = """() => Promise.all(["en", "de"].map((one) =>
  import(`/words/${one}_places.js`).then(({ places }) => places)))"""
FIRST = "/tests/actuator/first_movement_kpa"
ANSWERS = (
    {
        FIRST: 90,
        "/spec/actuator_start_kpa": {"min": 60, "max": 80},
        "/vehicle/fuel": "petrol",
        "/tests/road/r1/gear": 3,
    },
    {
        FIRST: 104,
        "/spec/actuator_start_kpa": {"min": 65, "max": 85},
        "/vehicle/fuel": "diesel",
        "/tests/road/r1/gear": 4,
    },
)
SHOWN = {
    "en": {
        "Actuator by hand pump, Rod just moves at": ("0.90 bar", "1.04 bar"),
        "The maker's limits, Actuator, first movement": ("0.60 to 0.80 bar", "0.65 to 0.85 bar"),
        "Vehicle, Fuel": ("petrol", "diesel"),
        "Road run with gauges 1, Gear": ("3", "4"),
    },
    "de": {
        "Druckdose an der Handpumpe, Stange bewegt sich erstmals bei": ("0,90 bar", "1,04 bar"),
        "Grenzwerte, Druckdose, Öffnungsbeginn": ("0,60 bis 0,80 bar", "0,65 bis 0,85 bar"),
        "Fahrzeug, Kraftstoff": ("Benzin", "Diesel"),
        "Probefahrt mit Manometern 1, Gang": ("3", "4"),
    },
}
HEADING = {"en": "Two answers to one question", "de": "Zwei Antworten auf eine Frage"}
KEEP = {"en": r"^Keep {} \(", "de": r"^{} \(.*\) behalten$"}  # behind the answer: who, when


def named(kind: Kind) -> Iterator[tuple[str, Kind]]:
    """Every key of the job document with what it is, groups and lists among them."""
    if isinstance(kind, Items):
        yield from named(kind.item)
    if isinstance(kind, Group):
        for name, member in kind.members.items():
            yield name, member
            yield from named(member)


def test_every_place_and_word_of_a_job_has_a_name(
    standing_server: Any, new_page: Callable[..., Page]
) -> None:
    keys = {name for name, _ in named(JOB)} - {"format", "id", "tests"}  # never written by an operation
    spoken = {word for name, kind in named(JOB) for word in words_of(kind) if name != "format"}
    for places in new_page(standing_server).evaluate(PLACES):
        assert set(places["names"]) == keys
        assert set(places["values"]) >= spoken | {"true", "false"}
        assert all(text and "_" not in text for part in places.values() for text in part.values())


def words_of(kind: Kind) -> tuple[str, ...]:
    return kind.words if isinstance(kind, Word | WordList) else ()


@pytest.mark.parametrize("language", ["en", "de"])
def test_a_conflict_is_named_printed_and_settled(
    new_page: Callable[..., Page], server: Any, language: str
) -> None:
    one, other = new_page(server), new_page(server)
    job = quarrel(one, other)
    one.evaluate("(language) => localStorage.setItem('teepiece-language', language)", language)
    one.goto(f"{server.url}/#/job/{job}")

    def button(answer: str) -> re.Pattern[str]:
        return re.compile(KEEP[language].format(re.escape(answer)))

    for place, answers in SHOWN[language].items():
        told = one.locator(".told").filter(has=one.get_by_text(place, exact=True))
        for answer in answers:
            expect(told.get_by_role("button", name=button(answer))).to_be_visible()
        told.get_by_role("button", name=button(answers[1])).click()
        expect(told).to_have_count(0)
    expect(one.get_by_role("heading", name=HEADING[language])).to_have_count(0)


def quarrel(one: Page, other: Page) -> str:
    """Two phones that answer the same questions differently while they do not hear of each other."""
    for page in (one, other):
        page.evaluate(START)
    job: str = one.evaluate(NEW_JOB, {"/vehicle/make": "Alder"})
    one.evaluate("() => self.job.add('/tests/road', { rank: 'a' }, { id: 'r1' })")
    one.evaluate(RUN)
    other.evaluate(RUN)
    other.evaluate("(id) => { self.job = self.workbook.job(id); }", job)
    for page, answers in zip((one, other), ANSWERS, strict=True):
        page.evaluate("(pairs) => self.job.setMany(Object.entries(pairs))", answers)
    for page in (one, other, one):
        page.evaluate(RUN)
    assert len(one.evaluate("() => self.job.conflicts")) == len(ANSWERS[0])
    return job
