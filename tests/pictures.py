"""The README's pictures, made anew from the demo in a real Chromium: `python3 -m tests.pictures`.

Three still pictures, and a look of twenty seconds: the first job as the app walks through it, touch by touch.
"""

import io
import sys
import tempfile
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from PIL import Image
from playwright.sync_api import Browser, Error, Locator, Page, expect, sync_playwright

from tests.browser.machines import CHROMIUM, FLAGS, PHONE, ROOT, Server

PICTURES = ROOT / "fixtures" / "pictures"
STILL_SCALE = 2
COLOURS = 64
QUALITY = 60
TOUCH_MS = 400
READ_MS = 1_250
TYPE_MS = 200
FIGURES = {"first_movement_kpa": "0.96", "full_travel_kpa": "1.71"}
# A finger's mark, since a picture shows no touch.
FINGER = """([x, y]) => {
  document.querySelector("#finger")?.remove();
  if (x === null) return;
  const finger = document.createElement("div");
  finger.id = "finger";
  finger.style.cssText = `position:fixed;z-index:9;left:${x - 22}px;top:${y - 22}px;width:44px;height:44px;` +
    "border-radius:50%;background:#16213a66;border:3px solid #16213a;pointer-events:none";
  document.body.append(finger);
}"""


@dataclass
class Look:
    """Frames of one page, each with how long it stands."""

    page: Page
    frames: list[Image.Image] = field(default_factory=list)
    times: list[int] = field(default_factory=list)

    def show(self, milliseconds: int) -> None:
        """One frame of the page as it is now."""
        self.page.wait_for_timeout(150)
        self.frames.append(Image.open(io.BytesIO(self.page.screenshot())).convert("RGB"))
        self.times.append(milliseconds)

    def touch(self, where: Locator, then: int, mark: int = TOUCH_MS) -> None:
        """A finger on the control, the touch, and what it leads to."""
        where.scroll_into_view_if_needed()
        box = where.bounding_box()
        assert box
        self.page.evaluate(FINGER, [box["x"] + box["width"] / 2, box["y"] + box["height"] / 2])
        self.show(mark)
        where.click()
        self.page.evaluate(FINGER, [None, None])
        self.show(then)

    def type(self, figure: str) -> None:
        """A figure on the pad's own keys, then what it would say."""
        for sign in figure:
            self.touch(self.page.locator(f'.pad [data-key="key {sign}"]'), TYPE_MS, TYPE_MS // 2)
        with suppress(Error):
            self.page.locator(".live .outcome").wait_for(timeout=20_000)
        self.show(READ_MS)

    def keep(self, file: Path) -> None:
        """As an animated WebP that begins again by itself."""
        first, *others = self.frames
        first.save(
            file, save_all=True, append_images=others, duration=self.times, loop=0, quality=QUALITY, method=6
        )


def first_job(page: Page) -> Look:
    """The app's own walk, from the list of jobs to the verdict."""
    look = Look(page)
    pointed = page.locator("[data-pointed]")
    look.show(READ_MS)
    look.touch(page.locator('[data-key="first job begins"]'), READ_MS)
    look.touch(pointed, READ_MS)
    look.touch(pointed, READ_MS)
    for figure in FIGURES.values():
        look.type(figure)
        look.touch(page.locator('.pad [data-key="keep"]'), READ_MS // 2)
    look.touch(pointed, READ_MS // 2)
    look.touch(pointed, TOUCH_MS)
    expect(page.locator(".conclusion")).to_be_visible(timeout=120_000)
    look.show(READ_MS)
    page.locator(".at-actuator").scroll_into_view_if_needed()
    look.show(READ_MS)
    page.evaluate("() => scrollTo(0, 0)")
    look.touch(pointed, 2 * READ_MS)
    return look


def air_line(page: Page) -> None:
    """The demo job's home, with the place where the line is broken."""


def pad(page: Page) -> None:
    """The pad on the actuator's first movement."""
    page.evaluate("() => { location.hash += '/actuator'; }")
    page.locator('[data-key="row /tests/actuator/first_movement_kpa"]').click()
    page.locator("#pad-line").fill("0.96")
    page.locator(".live .outcome").wait_for(timeout=60_000)


def verdict(page: Page) -> None:
    """What the readings say."""
    page.evaluate("() => { location.hash = location.hash.replace('/actuator', '/verdict'); }")
    page.locator(".picture").wait_for()
    page.locator(".picture").evaluate("(one) => one.scrollIntoView()")


STILLS: dict[str, Callable[[Page], None]] = {"air-line": air_line, "pad": pad, "verdict": verdict}


def stills(page: Page) -> None:
    """The demo job, three times."""
    page.locator("ul.jobs a").first.click()
    expect(page.locator(".conclusion")).to_be_visible(timeout=120_000)
    for name, arrive in STILLS.items():
        arrive(page)
        page.wait_for_timeout(500)
        picture = Image.open(io.BytesIO(page.screenshot())).convert("RGB").quantize(COLOURS)
        picture.save(PICTURES / f"{name}.png", optimize=True)


def opened(browser: Browser, url: str, scale: int) -> Page:
    """The app on a phone whose calculation is ready, so that nothing is waited for in the picture."""
    page = browser.new_context(**PHONE, device_scale_factor=scale, reduced_motion="reduce").new_page()
    page.goto(url)
    expect(page.get_by_text("ready without signal").first).to_be_visible(timeout=120_000)
    return page


def main() -> None:
    """Make all of them."""
    PICTURES.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        server = Server(Path(folder) / "data", demo=True)
        server.start()
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        try:
            stills(opened(browser, server.url, STILL_SCALE))
            look = first_job(opened(browser, server.url, 1))
        finally:
            browser.close()
            server.stop()
    look.keep(PICTURES / "look.webp")
    for file in sorted(PICTURES.iterdir()):
        sys.stdout.write(f"{file.name}: {file.stat().st_size // 1024} KB\n")
    sys.stdout.write(f"the look: {len(look.frames)} frames, {sum(look.times) / 1000:.1f} s\n")


if __name__ == "__main__":
    main()
