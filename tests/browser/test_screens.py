"""Every screen by axe-core: WCAG 2.2 AA with target sizes, light, dark, narrow and with double text.

axe-core 4.14.1, MPL-2.0, as published; its rules are W3C's success criteria, not ours.
"""

import hashlib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.technician import Technician

AXE = Path(__file__).resolve().parents[1] / "vendor/axe-core/axe.min.js"
AXE_SHA256 = "29348999450cdf2849a8e70b7912fc2da85a849da39c0d0d5394f51d4a9ed95c"
CHECK = """async () => {
  const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
  const rules = { "target-size": { enabled: true } };
  const options = { runOnly: { type: "tag", values: tags }, rules, resultTypes: ["violations"] };
  const { violations } = await axe.run(document, options);
  const says = (id) => ({ target, failureSummary }) => `${id} ${target} ${failureSummary}`;
  return violations.flatMap(({ id, nodes }) => nodes.map(says(id)));
}"""
TEST_PAGES = """async () => {
  const { TEST_PAGES } = await import("/parts/test_pages.js");
  return TEST_PAGES.map(({ id }) => id);
}"""
OVERFLOW = "() => document.documentElement.scrollWidth - document.documentElement.clientWidth"
HEIGHT = "() => document.documentElement.scrollHeight"
JOB_OF_LONG_NAMES = """async (name) => {
  const { openWorkbook } = await import("/store/workbook.js");
  const keys = ["vehicle/registration", "vehicle/make", "vehicle/model", "customer/name", "complaint/text"];
  const places = Object.fromEntries(keys.map((key) => [`/${key}`, name]));
  return (await openWorkbook()).newJob({ places });
}"""
SETTLED = """() => new Promise((resolve) => {
  scrollTo(0, 0);
  requestAnimationFrame(() => requestAnimationFrame(() => resolve(location.hash)));
})"""
FIRST_PAGES = ("", "new", "settings", "changes", "job/not-here")
JOB_PAGES = ("", "card", "limits", "gauges", "verdict", "customer", "estimate")
LOOKS = {
    "light": {"theme": "light", "width": 390, "text": "1"},
    "dark, narrow": {"theme": "dark", "width": 320, "text": "1"},
    "double text": {"theme": "light", "width": 390, "text": "2"},
}


@pytest.fixture(scope="module")
def page(browser: Any, demo_server: Any) -> Iterator[Page]:
    """The app with the demo job on it, judged."""
    assert hashlib.sha256(AXE.read_bytes()).hexdigest() == AXE_SHA256
    context = browser.new_context(locale="en-GB", bypass_csp=True, has_touch=True)
    page = context.new_page()
    page.goto(f"{demo_server.url}/")
    page.add_script_tag(path=AXE)
    page.locator("ul.jobs a").click()
    expect(page.locator(".conclusion")).to_be_visible(timeout=120_000)
    yield page
    context.close()


def job_of(page: Page) -> str:
    page.evaluate("() => { location.hash = '#/'; }")
    href = page.locator("ul.jobs a").first.get_attribute("href")
    assert href is not None
    return href.removeprefix("#/")


def go(page: Page, place: str) -> None:
    page.evaluate("(hash) => { location.hash = hash; }", f"#/{place}")
    page.evaluate(SETTLED)


def dress(page: Page, look: dict[str, Any]) -> None:
    page.set_viewport_size({"width": look["width"], "height": 844})
    page.evaluate(
        """({ theme, text }) => {
          document.documentElement.dataset.theme = theme;
          document.documentElement.dataset.large = String(text === "2");
          document.documentElement.style.setProperty("--text-size", text);
        }""",
        look,
    )


def places(page: Page) -> list[str]:
    job = job_of(page)
    run = page.evaluate(
        """async () => {
          const { openWorkbook } = await import("/store/workbook.js");
          return (await openWorkbook()).jobs()[0].document.tests.road[0].id;
        }"""
    )
    of_the_job = [*JOB_PAGES, *page.evaluate(TEST_PAGES), f"road/{run}"]
    return [*FIRST_PAGES, *(f"{job}/{place}" for place in of_the_job)]


def found(page: Page, place: str) -> list[str]:
    """axe's findings on the whole page at once, so that the bar at the bottom covers nothing."""
    width = page.viewport_size["width"] if page.viewport_size else 390
    page.set_viewport_size({"width": width, "height": max(844, page.evaluate(HEIGHT))})
    faults: list[str] = page.evaluate(CHECK)
    page.set_viewport_size({"width": width, "height": 844})
    if page.evaluate(OVERFLOW) > 0:
        faults.append("wider than the screen")
    return [f"{place}: {fault}" for fault in faults]


@pytest.mark.parametrize("look", LOOKS, ids=lambda name: name.replace(", ", "-").replace(" ", "-"))
def test_every_screen_is_for_everyone(page: Page, look: str) -> None:
    dress(page, LOOKS[look])
    faults = []
    for place in places(page):
        go(page, place)
        faults += found(page, place)
    go(page, f"{job_of(page)}/actuator")
    page.locator("button.reading").first.click()
    faults += found(page, "the pad")
    assert faults == []


@pytest.mark.parametrize("look", LOOKS, ids=lambda name: name.replace(", ", "-").replace(" ", "-"))
def test_a_name_without_end_makes_no_screen_wider(
    new_page: Callable[..., Page], standing_server: Any, look: str
) -> None:
    page = new_page(standing_server, "/")
    job = page.evaluate(JOB_OF_LONG_NAMES, "Donaudampfschifffahrtsgesellschaft" * 3)
    dress(page, LOOKS[look])
    wide = []
    for place in ("", *(f"job/{job}/{name}" for name in JOB_PAGES)):
        go(page, place)
        if page.evaluate(OVERFLOW) > 0:
            wide.append(place)
    assert wide == []


def test_a_reading_by_the_keyboard_alone(new_page: Callable[..., Page], standing_server: Any) -> None:
    page = new_page(standing_server, "/")
    hand = Technician(page)
    hand.tap("New job")
    press = page.keyboard.press
    page.get_by_label("Registration").focus()
    page.keyboard.type("EX 4321")
    page.get_by_role("button", name="Open the job").focus()
    press("Enter")
    hand.is_at("EX 4321")
    page.get_by_role("link", name="Actuator by hand pump").focus()
    press("Enter")
    hand.is_at("Actuator by hand pump")
    page.locator("footer .main").focus()
    press("Enter")
    page.keyboard.type("0.96")
    press("Enter")
    hand.sees("0.96 bar")
    page.keyboard.type("1.71")
    press("Enter")
    press("Escape")
    expect(page.locator("button.reading").filter(has_text="Full travel")).to_contain_text("1.71 bar")
    expect(page.get_by_role("form")).to_have_count(0)
