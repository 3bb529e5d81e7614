"""A gloved finger on the face of the pad: one touch near the needle, then nudges of half a division."""

import math
import random
import re
from dataclasses import dataclass

from playwright.sync_api import Page

# A phone of 390 points across is about 65 mm wide.
POINTS_PER_MM = 6
ERROR_MM = 5
HALF_DIVISION_BAR = 0.05
SPAN_BAR = 4.0
START_DEG, SWEEP_DEG = 225.0, 270.0
NEEDLE = 0.37  # reach of the needle's end, as a share of the face's width
SEED = 7

NEW_JOB = """async () => {
  const { openWorkbook } = await import("/store/workbook.js");
  const workbook = await openWorkbook();
  const id = await workbook.newJob({ places: { "/vehicle/registration": "EX 2" } });
  const gauge = { kind: "analogue", span_kpa: [0, 400], class_pct: 1.6, division_kpa: 10, read_to: "half" };
  await workbook.job(id).add("/gauges", gauge, { id: "g1" });
  return id;
}"""


@dataclass(frozen=True)
class Reading:
    """What one target took: nudges after the touch, and how far the reading kept is off, in bar."""

    nudges: int
    error_bar: float


def open_pad(page: Page) -> None:
    """From any page of the app to the pad of an actuator's first movement, its gauge 0 to 4 bar."""
    job = page.evaluate(NEW_JOB)
    page.goto(f"{page.evaluate('origin')}/#/job/{job}/actuator")
    page.locator("footer .main").click()
    page.locator("svg.face").wait_for()


def read_targets(page: Page, count: int) -> list[Reading]:
    """Random positions of a real needle, each read by a touch and nudges."""
    rng = random.Random(SEED)
    return [read_one(page, rng.uniform(0, SPAN_BAR), rng) for _ in range(count)]


def read_one(page: Page, target: float, rng: random.Random) -> Reading:
    touch(page, target, rng)
    steps = round((target - shown(page)) / HALF_DIVISION_BAR)
    key = page.get_by_role("button", name=re.compile(r"^\+ ½" if steps > 0 else r"^− ½"))
    for _ in range(abs(steps)):
        key.tap()
    return Reading(abs(steps), abs(shown(page) - target))


def touch(page: Page, bar: float, rng: random.Random) -> None:
    """A finger put where the needle's end stands, and up to 5 mm beside it in any direction."""
    box = page.locator("svg.face").bounding_box()
    assert box is not None
    angle = math.radians(START_DEG - SWEEP_DEG * bar / SPAN_BAR)
    reach, miss = NEEDLE * box["width"], rng.uniform(0, ERROR_MM * POINTS_PER_MM)
    way = rng.uniform(0, 2 * math.pi)
    x = box["x"] + box["width"] / 2 + reach * math.cos(angle) + miss * math.cos(way)
    y = box["y"] + box["height"] / 2 - reach * math.sin(angle) + miss * math.sin(way)
    page.touchscreen.tap(x, y)


def shown(page: Page) -> float:
    return float(page.locator("#pad-line").input_value())
