"""One car, the whole job, with no network: taps on the phone, verdict there, one sync, the customer's PDF."""

import io
import re
import urllib.request
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pikepdf
from pdfminer.high_level import extract_text
from playwright.sync_api import Page, expect

from tests.browser.technician import Technician, two_pulls

CAR = "EX 4321 \u00b7 Example Saloon 1.8"
PHOTO = Path(__file__).resolve().parents[2] / "fixtures/demo/gauge-first-movement.jpg"
DECAY_STEP_S = 10

# The phone's own document and what its engine says of it, byte for byte.
DOCUMENT = """async () => {
  const { openWorkbook } = (await import("/packed.js")).modules["store/workbook.js"];
  const workbook = await openWorkbook();
  return workbook.jobs()[0].document;
}"""
VERDICT = """async (unit) => {
  const { openWorkbook } = (await import("/packed.js")).modules["store/workbook.js"];
  const { engine } = (await import("/packed.js")).modules["engine/engine.js"];
  const [{ document }] = (await openWorkbook()).jobs();
  return engine.judgeText(document, { unit, language: "en" });
}"""
SYNCED = """async () => {
  const { sync } = (await import("/packed.js")).modules["store/sync.js"];
  const { state, unsent } = await sync.run();
  return { state, unsent };
}"""

# What was typed, as a report in bar prints it.
READINGS = ["0.96", "1.71", "1.50", "1.49", "60 s", "1.48", "2.21", "2.47", "4 %", "3500", "1.004", "1.002"]
LIMITS = ["0.60 to 0.80 bar", "1.40 to 1.60 bar", "9 to 12 mm"]


def new_job(hand: Technician) -> None:
    hand.tap("New job")
    hand.write("Registration", "EX 4321")
    hand.write("Make", "Example")
    hand.write("Model", "Saloon 1.8")
    hand.write("In the customer's words", "boosts too hard, then cuts out")
    hand.choose("Noticed", "boost cuts out")
    hand.go_on()
    hand.is_at(CAR)


def gauge_and_limits(hand: Technician) -> None:
    hand.tap("Gauges: none named yet")
    hand.write("Scale from", "0")
    hand.write("Scale to", "4")
    hand.write("Class, % of the scale", "1.6")
    hand.write("One division", "0.1")
    hand.tap("Add this gauge")
    hand.sees("class 1.6")
    hand.go_on()
    hand.tap("Limits: none typed yet")
    hand.limit("First movement of the rod", "0.6", "0.8")
    hand.limit("Full travel", "1.4", "1.6")
    hand.limit("Travel of the rod", "9", "12")
    hand.limit("Loss while holding", high="0.05")
    hand.write("Thread of the rod, pitch", "1.0")
    hand.limit("Leak, as one round hole", high="1.0")
    hand.go_on()
    hand.tap("Car and complaint")
    hand.write("Air pressure here", "1.001")
    hand.write("Air temperature", "12")
    hand.go_on()


def sensors_and_turbo(hand: Technician) -> None:
    hand.open("Sensors at rest")
    for label, figure in [
        ("Charge pressure", "1.004"),
        ("Barometric", "1.002"),
        ("Intake air", "13"),
        ("Coolant", "14"),
        ("Pedal released", "0"),
        ("Pedal floored", "100"),
        ("Air mass", "0.2"),
    ]:
        hand.read(label, figure)
    hand.leave_pad()
    hand.tap("Air line")
    hand.open("Turbo from the inlet side")
    hand.choose("Wheel damaged", "no")
    hand.choose("Spins freely", "yes")
    hand.tap("Air line")


def tightness(hand: Technician) -> None:
    hand.open("Smoke")
    hand.choose("Smoke comes out", "no")
    hand.tap("Air line")
    hand.open("Tightness by decay")
    hand.read("Volume under test", "9.5")
    hand.read("Air temperature", "18")
    hand.go_on()
    hand.read("Pressure at 0 s", "0.60")
    hand.page.get_by_role("button", name=f"Read now \u00b7 {DECAY_STEP_S} s").wait_for()
    hand.go_on()
    hand.read(f"Pressure at {DECAY_STEP_S} s", "0.60")
    hand.tap("Stop the clock")
    hand.tap("Air line")


def actuator(hand: Technician) -> None:
    hand.open("Actuator by hand pump")
    hand.go_on()
    hand.read("First movement", "0.96")
    hand.read("Full travel", "1.71")
    hand.read("Hold, at the start", "1.5")
    hand.read("Hold, at the end", "1.49")
    hand.leave_pad()
    hand.choose("Linkage free", "yes")
    hand.choose("Returns to its stop", "yes")
    hand.photograph(PHOTO)
    hand.tap("Air line")


def sees_the_verdict(hand: Technician) -> None:
    hand.is_at("What the readings say")
    hand.sees("Actuator opens too late")
    hand.sees("proved")
    hand.sees("Less preload: 3.6 turns")


def everything_is_there(hand: Technician, before: dict[str, Any]) -> None:
    """The same document, and the same figures on the screens."""
    assert hand.page.evaluate(DOCUMENT) == before
    hand.page.locator("ul.jobs a").click()
    hand.is_at(CAR)
    hand.page.locator(".at-actuator a").click()
    for figure in ("0.96 bar", "1.71 bar", "1.50 bar", "1.49 bar", "60 s"):
        hand.sees(figure)
    expect(hand.page.locator("ul.photos img")).to_have_js_property("complete", True)
    assert hand.page.locator("ul.photos img").evaluate("(image) => image.naturalWidth") > 0


def fetched(address: str) -> bytes:
    with urllib.request.urlopen(address, timeout=60) as answer:
        body: bytes = answer.read()
    return body


def sent_operations(page: Page) -> list[int]:
    """How many operations each exchange with the server carries, from now on."""
    counts: list[int] = []

    def note(request: Any) -> None:
        if request.url.endswith("/api/sync"):
            counts.append(len(request.post_data_json["operations"]))

    page.on("request", note)
    return counts


def holds_everything(pdf: bytes, verdict_says: str) -> None:
    text = re.sub(r"\s+", " ", extract_text(io.BytesIO(pdf)))
    missing = [word for word in [*READINGS, *LIMITS, verdict_says] if word not in text]
    assert missing == []
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        images = [image for page in opened.pages for image in page.get_images()]
    assert images


def test_one_car_from_the_bonnet_to_the_customer_with_no_network(
    new_phone: Callable[..., Any], server: Any
) -> None:
    phone = new_phone(server)
    page = phone.open("/")
    hand = Technician(page)
    expect(page.get_by_text("ready without signal")).to_be_visible(timeout=120_000)
    server.stop()

    new_job(hand)
    gauge_and_limits(hand)
    sensors_and_turbo(hand)
    tightness(hand)
    actuator(hand)
    two_pulls(hand)
    sees_the_verdict(hand)
    before = page.evaluate(DOCUMENT)
    phone.kill()

    page = phone.open("/")
    hand = Technician(page)
    everything_is_there(hand, before)
    hand.tap("Air line")
    hand.page.locator(".conclusion a").click()
    sees_the_verdict(hand)
    on_the_phone = page.evaluate(VERDICT, "bar")

    counts = sent_operations(page)
    server.start()
    assert page.evaluate(SYNCED) == {"state": "idle", "unsent": 0}
    assert len([count for count in counts if count]) == 1
    job = f"{server.url}/api/jobs/{before['id']}"
    assert fetched(f"{job}/verdict?unit=bar").decode() == on_the_phone
    counts.clear()
    assert page.evaluate(SYNCED) == {"state": "idle", "unsent": 0}
    assert not any(counts)
    verdict_says = page.locator("main").get_by_text("The actuator moves too late").first.inner_text()
    holds_everything(fetched(f"{job}/report.pdf?form=technical&unit=bar"), verdict_says)
