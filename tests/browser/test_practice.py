"""Cars to practise with: there with no server in reach, marked, never sent, taken over only when wanted."""

from collections.abc import Callable

from playwright.sync_api import expect

from fixtures.demo import practice
from tests.browser.machines import Phone, Server
from tests.browser.technician import Technician

READY = "ready without signal"
HELD = """async (name) => {
  const { openWorkbook } = (await import("/packed.js")).modules["store/workbook.js"];
  const workbook = await openWorkbook(name);
  const { unlistedRows } = workbook.book;
  const jobs = workbook.jobs().map(({ document }) => document.vehicle.registration);
  return { jobs, unsent: unlistedRows.length };
}"""


def test_the_app_carries_the_demo_jobs_as_they_are() -> None:
    """Made by `python3 -m fixtures.demo.practice`."""
    assert practice.CARS.read_text(encoding="utf-8") == practice.cars()


def test_practice_without_a_server_is_marked_and_never_sent(
    server: Server, new_phone: Callable[[Server], Phone]
) -> None:
    page = new_phone(server).open("/")
    hand = Technician(page)
    expect(page.locator(".engine-state")).to_contain_text(READY, timeout=120_000)
    server.stop()
    hand.tap("Cars to practise with")
    expect(page.locator("ul.jobs li")).to_have_count(len(practice.documents()))
    page.get_by_role("link", name="EX 3305").click()
    hand.is_at("EX 3305 \u00b7 Brindle Hatch")
    hand.sees("Nothing here goes to the workshop")
    expect(page.locator(".conclusion")).to_contain_text("too little vacuum", timeout=60_000)
    page.reload()
    hand.is_at("EX 3305 \u00b7 Brindle Hatch")
    page.get_by_role("link", name="Vacuum supply").first.click()
    hand.sees("Nothing here goes to the workshop")
    hand.read("Supply, engine idling", "0.7")
    hand.sees("\u22120.70 bar")
    assert page.evaluate(HELD, "teepiece") == {"jobs": [], "unsent": 0}
    server.start()
    page.goto(f"{server.url}/#/practice")
    hand.tap("Put the cars back as they were")
    page.get_by_role("link", name="EX 3305").click()
    expect(page.locator(".conclusion")).to_contain_text("\u22120.34", timeout=120_000)
    hand.tap("Take this car into my jobs")
    expect(page.locator(".practice-mark")).to_have_count(0)
    held = page.evaluate(HELD, "teepiece")
    assert held["jobs"] == ["EX 3305"]
