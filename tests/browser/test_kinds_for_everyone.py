"""The screens of every kind of boost control, of practice and after the repair, by axe-core in every look."""

from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from fixtures.demo import practice
from tests.browser.conftest import Server
from tests.browser.technician import Technician
from tests.browser.test_screens import AXE, LOOKS, dress, found, go

OF_THE_KIND = {
    "vacuum": ("", "vacuum_supply", "actuator", "actuator_sweep", "solenoid_sweep", "limits", "verdict"),
    "electric": ("", "electric_actuator", "wastegate_inspection", "road", "card", "after_repair"),
}
RUNS = """async (id) => {
  const { openWorkbook } = await import("/store/workbook.js");
  return (await openWorkbook("teepiece-practice")).job(id).document.tests.road.map((run) => run.id);
}"""


@pytest.fixture(scope="module")
def page(browser: Any, standing_server: Server) -> Iterator[Page]:
    """A phone with the practice cars, judged."""
    context = browser.new_context(locale="en-GB", bypass_csp=True, has_touch=True)
    page = context.new_page()
    page.goto(f"{standing_server.url}/#/practice")
    page.add_script_tag(path=AXE)
    page.locator("ul.jobs a").first.click()
    expect(page.locator(".conclusion")).to_be_visible(timeout=120_000)
    go(page, f"job/{cars()['electric']}/road")
    hand = Technician(page)
    hand.tap("New run")
    hand.choose("Who reads?", "a second person")
    expect(page.locator("table.plan")).to_be_visible(timeout=120_000)
    yield page
    context.close()


def cars() -> dict[str, str]:
    return {job["boost_control"]["actuator"]: job["id"] for job in practice.documents()}


def run_of(page: Page) -> str:
    """The place of the run that was opened by the fixture."""
    ids = page.evaluate(RUNS, cars()["electric"])
    return f"job/{cars()['electric']}/road/{ids[-1]}"


def places(page: Page) -> list[str]:
    ids = cars()
    own = [f"job/{ids[kind]}/{place}" for kind, places in OF_THE_KIND.items() for place in places]
    return ["practice", *own, run_of(page)]


@pytest.mark.parametrize("look", LOOKS, ids=lambda name: name.replace(", ", "-").replace(" ", "-"))
def test_every_kind_is_for_everyone(page: Page, look: str) -> None:
    dress(page, LOOKS[look])
    faults = []
    for place in places(page):
        go(page, place)
        expect(page.locator("main")).to_be_visible()
        faults += found(page, place)
    go(page, f"job/{cars()['vacuum']}/vacuum_supply")
    page.locator("button.reading").nth(1).click()
    expect(page.locator("form.pad")).to_be_visible()
    faults += found(page, "the pad, below the atmosphere")
    assert faults == []


def test_the_plan_is_shown_before_setting_off_and_keeps_to_the_limit(page: Page) -> None:
    """4500 rev/min, 205/55 R16, 1.32 by 3.55: 111 km/h (ISO 4000-1, ETRTO factor 3.05); 0.98 gives 150."""
    dress(page, LOOKS["light"])
    go(page, run_of(page))
    plan = page.locator("table.plan")
    expect(plan.locator("tbody tr").nth(2)).to_contain_text("37 to 111")
    expect(plan.locator("tr.over").first).to_contain_text("50 to 150")
    expect(page.locator("main")).to_contain_text("Gear 3: up to 111 km/h")
    expect(page.locator("main")).to_contain_text("a plan, not a permit")
    page.get_by_label("Stay below").fill("30")
    page.get_by_label("Stay below").blur()
    expect(page.locator("main")).to_contain_text("In no gear does the whole pull", timeout=60_000)
    page.get_by_label("Stay below").fill("120")
    page.get_by_label("Stay below").blur()
    page.get_by_role("button", name="Take gear 3").click(timeout=60_000)
    expect(page.get_by_role("heading", level=1)).to_contain_text("Gear 3")
