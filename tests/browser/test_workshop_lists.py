"""The workshop's register of gauges and its library of limits on a phone, with the server out of reach."""

from collections.abc import Callable
from contextlib import closing
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from api.store import database, register, vehicle_limits
from api.store.register import RegisteredGauge
from api.store.vehicle_limits import VehicleLimit
from tests.browser.technician import Technician
from tests.browser.test_store_sync import NEW_JOB, RUN, START

GAUGE = {
    "kind": "analogue",
    "span_kpa": [0, 400],
    "class_pct": 1.6,
    "division_kpa": 10,
    "read_to": "half",
    "calibrated_on": "2024-11-01",
}
MADE = """async ([places, online]) => {
  const { openWorkbook } = (await import("/packed.js")).modules["store/workbook.js"];
  const { sync } = (await import("/packed.js")).modules["store/sync.js"];
  self.workbook = await openWorkbook();
  if (online) await self.workbook.fetchWorkshop();
  return self.workbook.newJob({ places });
}"""
CAR = {"/vehicle/make": "Alder", "/vehicle/model": "Kestrel", "/vehicle/engine": "K4T"}


def limit(quantity: str, least: str | None, most: str | None, engine: str = "K4T") -> VehicleLimit:
    where = "Workshop book, page 12"
    day = "2026-11-20T08:00:00+00:00"
    return VehicleLimit(
        f"{engine} {quantity}", "Alder", "Kestrel", engine, quantity, least, most, where, "Ada", day
    )


@pytest.fixture
def phone(new_page: Callable[..., Page], server: Any) -> tuple[Page, str]:
    """A phone that was in the workshop once and is out of its reach now, with a job of that engine."""
    with closing(database.connect(server.data / "workshop.sqlite3")) as connection:
        register.keep(connection, RegisteredGauge("g-7", "Blue 7", GAUGE, "2024-11-01", "2025-11-01", None))
        register.keep(connection, RegisteredGauge("g-8", "Old 8", GAUGE, None, None, None))
        register.retire(connection, "g-8", "2026-01-01T00:00:00+00:00")
        vehicle_limits.keep(connection, limit("actuator_start_kpa", "60", "80"))
        vehicle_limits.keep(connection, limit("rod_thread_pitch_mm", None, "1.25"))
        vehicle_limits.keep(connection, limit("actuator_full_kpa", "140", "160", engine="other"))
    page = new_page(server, "/")
    expect(page.get_by_role("heading", level=1)).to_be_visible()
    job = page.evaluate(MADE, [CAR, True])
    page.reload()
    page.context.set_offline(True)
    return page, job


def shown(page: Page, job: str, screen: str) -> Technician:
    page.evaluate("(hash) => { location.hash = hash; }", f"#/job/{job}/{screen}")
    return Technician(page)


def document(page: Page, job: str) -> Any:
    return page.evaluate(
        """async (id) => {
          const { openWorkbook } = (await import("/packed.js")).modules["store/workbook.js"];
          return (await openWorkbook()).job(id).document;
        }""",
        job,
    )


def test_a_registered_gauge_is_taken_with_its_calibration(phone: tuple[Page, str]) -> None:
    page, job = phone
    hand = shown(page, job, "gauges")
    hand.sees("In the workshop's register")
    hand.sees("Its calibration was due on 2025-11-01.")
    expect(page.locator("#app")).not_to_contain_text("Old 8")
    hand.tap_first("Use Blue 7")
    hand.sees("On this job")
    (taken,) = document(page, job)["gauges"]
    assert taken == GAUGE | {"id": "g-7", "rank": "zg-7"}
    expect(page.get_by_role("button", name="Use Blue 7")).to_have_count(0)


def test_the_librarys_limits_of_this_engine_are_taken_and_typed_ones_stay(phone: tuple[Page, str]) -> None:
    page, job = phone
    hand = shown(page, job, "limits")
    hand.limit("First movement of the rod", "0.5", "0.7")
    hand.tap("Take 1 limit of Alder Kestrel K4T")
    expect(page.locator(".kept")).to_contain_text("kept: limits of Alder Kestrel")
    assert document(page, job)["spec"] == {
        "actuator_start_kpa": {"min": 50, "max": 70},
        "rod_thread_pitch_mm": 1.25,
        "source": "Workshop book, page 12 (typed by Ada, 2026-11-20)",
    }
    expect(page.get_by_text("In the workshop's library")).to_have_count(0)


def test_both_ends_of_a_limit_are_kept_however_fast_they_are_typed(phone: tuple[Page, str]) -> None:
    page, job = phone
    shown(page, job, "limits")
    group = page.get_by_role("group", name="Full travel", exact=True)
    expect(group).to_be_visible()
    group.evaluate(
        """(group) => [...group.querySelectorAll("input")].forEach((input, end) => {
          input.value = ["1.4", "1.6"][end];
          input.dispatchEvent(new Event("change", { bubbles: true }));
        })"""
    )
    expect(page.locator(".kept")).to_contain_text("kept: Full travel")
    expect(group.get_by_label("from")).to_have_value("1.40")
    expect(group.get_by_label("to")).to_have_value("1.60")
    assert document(page, job)["spec"]["actuator_full_kpa"] == {"min": 140, "max": 160}


def test_a_job_that_comes_after_its_page_was_opened_is_shown(
    phone: tuple[Page, str], new_page: Callable[..., Page], server: Any
) -> None:
    """A colleague's phone has made it; this one opens its address before the job is there."""
    page, _ = phone
    colleague = new_page(server)
    colleague.evaluate(START)
    late = colleague.evaluate(NEW_JOB, CAR)
    colleague.evaluate(RUN)
    shown(page, late, "limits").sees("not on this phone")
    page.context.set_offline(False)
    expect(page.get_by_role("group", name="Full travel", exact=True)).to_be_visible(timeout=30_000)
