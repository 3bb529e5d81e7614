"""A first job, walked through: on the real screens, offline, taken up again, put aside, and never sent."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, Playwright, expect

from tests.browser.conftest import Phone, Server
from tests.browser.test_screens import AXE, found

DEMO = Path(__file__).resolve().parents[2] / "fixtures/demo/job.json"
FIGURES = """async () => {
  const { GAUGE, PLACES, SHOWN } = await import("/parts/practice_car.js");
  return { gauge: GAUGE, places: PLACES, shown: SHOWN };
}"""
POINTED = "[data-pointed]"


@pytest.fixture
def page(browser: Any, standing_server: Server) -> Iterator[Page]:
    context = browser.new_context(
        viewport={"width": 390, "height": 844}, has_touch=True, locale="en-GB", bypass_csp=True
    )
    page = context.new_page()
    page.goto(f"{standing_server.url}/")
    yield page
    context.close()


def begin(page: Page) -> None:
    page.locator('[data-key="first job begins"]').click()
    expect(page.locator("#guide")).to_be_visible()


def step(page: Page, number: int) -> None:
    expect(page.locator("#guide .count")).to_contain_text(f"{number} of 7")
    expect(page.locator(POINTED)).to_have_count(1)


def read(page: Page, figure: str) -> None:
    page.locator("#pad-line").fill(figure)
    page.locator('.pad [data-key="keep"]').click()


def walk(page: Page) -> None:
    """From the air line to the verdict, by touching what is pointed at."""
    for number, act in enumerate(("line", "page", "first", "second", "close", "line", "verdict"), start=1):
        step(page, number)
        if act in ("first", "second"):
            read(page, "0.96" if act == "first" else "1.71")
        elif act == "verdict":
            expect(page.locator(".turns")).to_contain_text("3.6 turns")
        else:
            page.locator(POINTED).click()
        if act == "close":
            step(page, 5)
            page.locator(POINTED).click()
            expect(page.locator(".conclusion")).to_be_visible(timeout=120_000)


def test_it_is_walked_with_no_network_and_never_reaches_the_workshop(
    playwright: Playwright, server: Server, tmp_path: Path
) -> None:
    phone = Phone(playwright, tmp_path / "phone", server.url)
    page = phone.open("/")
    expect(page.get_by_text("ready without signal")).to_be_visible(timeout=120_000)
    server.stop()
    begin(page)
    walk(page)
    page.get_by_role("button", name="Done").click()
    expect(page.locator("#guide")).to_be_hidden()
    expect(page.locator(".first-job")).to_have_count(0)
    server.start()
    page.goto(f"{server.url}/#/settings")
    page.get_by_role("button", name="Send and fetch now").click()
    assert page.evaluate("async () => (await fetch('/api/jobs')).json()") == []
    expect(page.get_by_role("button", name="Walk through a first job")).to_be_visible()
    phone.close()


def test_it_is_taken_up_where_it_was_left(page: Page) -> None:
    begin(page)
    page.locator(POINTED).click()
    page.locator(POINTED).click()
    read(page, "0.96")
    step(page, 4)
    page.reload()
    step(page, 4)
    page.evaluate("() => { location.hash = '#/'; }")
    expect(page.locator("#guide")).to_be_hidden()
    page.get_by_role("button", name="Go on with the first job").click()
    page.locator('[data-key="next test"]').wait_for()
    expect(page.locator("#guide")).to_be_visible()
    page.evaluate("() => { location.hash += '/limits'; }")
    expect(page.locator("#guide")).to_contain_text("Look around")


def test_it_is_ended_at_any_step_and_put_aside_before_it_begins(page: Page) -> None:
    begin(page)
    page.get_by_role("button", name="End the walk").click()
    expect(page.locator("#guide")).to_be_hidden()
    expect(page.get_by_role("heading", level=1)).to_have_text("Jobs")
    expect(page.locator(".first-job")).to_have_count(0)
    expect(page.locator(POINTED)).to_have_count(0)


@pytest.mark.parametrize(
    ("language", "width", "theme", "size"),
    [("en-GB", 390, "light", "1"), ("de-AT", 320, "dark", "1"), ("de-AT", 390, "light", "2")],
)
def test_every_step_is_for_everyone(
    browser: Any, standing_server: Server, language: str, width: int, theme: str, size: str
) -> None:
    context = browser.new_context(
        viewport={"width": width, "height": 844},
        locale=language,
        color_scheme=theme,
        reduced_motion="reduce",
        bypass_csp=True,
    )
    page = context.new_page()
    page.goto(f"{standing_server.url}/")
    begin(page)
    page.add_script_tag(path=AXE)
    if size != "1":
        page.evaluate("(size) => document.documentElement.style.setProperty('--text-size', size)", size)
        page.evaluate("() => { document.documentElement.dataset.large = 'true'; }")
    faults = []
    for act in ("touch", "touch", "pad"):
        expect(page.locator(POINTED)).to_have_count(1)
        faults += found(page, act)
        if act == "touch":
            page.locator(POINTED).click()
    context.close()
    assert faults == []


def test_the_car_is_the_demo_jobs(page: Page) -> None:
    """One fact in one place: the phone carries these figures, and here they are held to the demo."""
    demo = json.loads(DEMO.read_text())
    here = page.evaluate(FIGURES)
    for place, value in here["places"].items():
        found = demo
        for name in place.strip("/").split("/"):
            found = found[name]
        assert found == value, place
    assert here["gauge"].items() <= demo["gauges"][0].items()
    actuator = demo["tests"]["actuator"]
    assert here["shown"] == {"first": actuator["first_movement_kpa"], "full": actuator["full_travel_kpa"]}
