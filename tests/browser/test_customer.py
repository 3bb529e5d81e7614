"""For the customer on the phone: a PDF shared as a file, a price that is over, e-mails, its history."""

import hashlib
from collections.abc import Callable
from typing import Any

from playwright.sync_api import Page, expect

from api import demo
from tests.browser.technician import Technician
from tests.browser.test_estimate import sign

DEMO = str(demo.document()["id"])
SHARE_SHEET = """() => {
  window.shared = new Promise((resolve) => { window.tellShared = resolve; });
  navigator.canShare = ({ files }) => files.every((file) => file.type === "application/pdf");
  navigator.share = async ({ files }) => {
    const digest = await crypto.subtle.digest("SHA-256", await files[0].arrayBuffer());
    const hex = Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, "0")).join("");
    window.tellShared([files[0].name, hex]);
  };
}"""
OPEN = "(place) => { location.hash = place; }"
NEW_JOB = """async (places) => {
  const { openWorkbook } = await import("/store/workbook.js");
  const id = await (await openWorkbook()).newJob({ places });
  return id;
}"""
SYNC = """async () => (await import("/packed.js")).modules["store/sync.js"].sync.run()"""
SETTLED_MS = 120_000  # a busy machine draws slowly


def test_the_pdf_comes_to_the_phone_and_is_shared_with_no_network(
    new_page: Callable[..., Page], demo_server: Any
) -> None:
    page = new_page(demo_server, "/")
    hand = Technician(page)
    page.evaluate(SHARE_SHEET)
    expect(page.locator("ul.jobs a").first).to_be_visible(timeout=SETTLED_MS)
    page.evaluate(OPEN, f"#/job/{DEMO}/customer")
    expect(page.locator("footer")).to_contain_text("The PDF is on this phone", timeout=SETTLED_MS)
    page.context.set_offline(True)
    hand.tap("Share the PDF")
    name, sha256 = page.evaluate("window.shared")
    page.context.set_offline(False)
    given = page.request.get(f"{demo_server.url}/api/jobs/{DEMO}/reports").json()["reports"]
    assert name == "EX-4321-customer.pdf"
    assert sha256 in [one["sha256"] for one in given]
    kept = page.request.get(f"{demo_server.url}/api/jobs/{DEMO}/reports/{sha256}.pdf").body()
    assert hashlib.sha256(kept).hexdigest() == sha256


def test_a_price_that_is_over_is_asked_for_anew(new_page: Callable[..., Page], server: Any) -> None:
    page = new_page(server, "/")
    hand = Technician(page)
    places = {
        "/customer/name": "A. Sample",
        "/estimate/currency": "GBP",
        "/estimate/valid_until": "2020-01-31",
    }
    job = page.evaluate(NEW_JOB, places)
    page.reload()
    page.evaluate(OPEN, f"#/job/{job}/estimate")
    hand.tap("A line of one's own")
    page.locator("details.estimate-line summary").click()
    hand.write("Price of one, without tax", "80")
    hand.tap("Show it to the customer")
    hand.sees("This price held until 2020-01-31")
    expect(page.get_by_role("button", name="Sign for: In all")).to_have_count(0)
    hand.tap("Change the estimate")
    hand.write("This price holds until", "2999-12-31")
    hand.tap("Show it to the customer")
    hand.tap("Sign for: In all")
    sign(page)
    hand.tap("Yes to 80.00\N{NO-BREAK SPACE}GBP")
    expect(page.locator(".signed")).to_contain_text("A. Sample said yes to 80.00")


def test_an_email_says_where_it_is_and_the_car_what_it_had(
    new_page: Callable[..., Page], server: Any
) -> None:
    first = new_page(server, "/")
    plate = {
        "/vehicle/registration": "EX 77",
        "/complaint/text": "whistles",
        "/opened_at": "2026-03-02T08:00:00+00:00",
    }
    earlier = first.evaluate(NEW_JOB, plate)
    first.evaluate(SYNC)
    page = new_page(server, "/")
    hand = Technician(page)
    job = page.evaluate(NEW_JOB, {"/vehicle/registration": "ex77", "/customer/email": "a.sample@example.com"})
    page.reload()
    page.context.set_offline(True)
    page.evaluate(OPEN, f"#/job/{job}/customer")
    hand.tap("E-mail it to a.sample@example.com")
    hand.sees("a.sample@example.com: queued on this phone")
    page.context.set_offline(False)
    page.evaluate(SYNC)
    hand.sees("whistles")
    expect(page.locator("#app")).to_contain_text("queued in the workshop", timeout=SETTLED_MS)
    assert earlier != job
