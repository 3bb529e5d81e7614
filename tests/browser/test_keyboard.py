"""A whole job with the keyboard alone: what has the focus is always seen, and nothing needs a pointer.

WCAG 2.2: 2.1.1 (keyboard), 2.1.2 (no trap), 2.4.7 (focus visible), 2.4.11 (focus not obscured).
"""

from collections.abc import Callable
from typing import Any

from playwright.sync_api import Page, expect

CAR = "EX 51 \u00b7 Example"
MOST_STOPS = 120
LOOKS, LOOK_AGAIN_MS = 20, 150  # a bar that has just grown is made room for with the next frames
MARKS = "\N{WHITE CIRCLE}\N{BLACK CIRCLE}\N{LEFTWARDS ARROW} "  # for the eye
NO_BREAK = "\N{NO-BREAK SPACE}"

# What has the focus (a new page's heading is none of the stops): its name, its group's name, whether an
# outline shows it, whether something lies over it.
FOCUSED = """() => {
  const one = document.activeElement;
  if (!one || one === document.body || one.tagName === "H1") return null;
  const label = one.labels?.[0]?.textContent ?? "";
  const name = one.getAttribute("aria-label") ?? (label || one.textContent);
  const shown = one.type === "file" ? one.nextElementSibling : one;
  const { outlineStyle, outlineWidth } = getComputedStyle(shown);
  const box = shown.getBoundingClientRect();
  const [x, y] = [box.left + box.width / 2, Math.max(box.top, 0) + Math.min(box.height, innerHeight) / 2];
  const top = document.elementFromPoint(x, Math.min(y, innerHeight - 1));
  return {
    name: name.replace(/\\s+/g, " ").trim(),
    group: one.closest("fieldset")?.querySelector("legend")?.textContent ?? "",
    outlined: outlineStyle !== "none" && parseFloat(outlineWidth) >= 2,
    clear: shown.contains(top) || (top?.contains(shown) ?? false),
    over: `${top?.tagName} ${top?.className} at ${Math.round(box.top)} to ${Math.round(box.bottom)}`,
  };
}"""


class Keys:
    """Goes from stop to stop with Tab and looks at each; touches nothing."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.stops = 0

    def to(self, name: str, group: str = "") -> None:
        """Tab until the control of this name has the focus."""
        here = self.page.evaluate(FOCUSED)
        for _ in range(MOST_STOPS):
            if here and here["name"].lstrip(MARKS).startswith(name) and here["group"].startswith(group):
                return
            here = self.next()
        raise AssertionError(f"the keyboard does not reach {name!r}")

    def next(self) -> dict[str, Any] | None:
        """One stop on; what has the focus is outlined and lies under nothing."""
        self.page.keyboard.press("Tab")
        self.stops += 1
        here: dict[str, Any] | None = self.page.evaluate(FOCUSED)
        for _ in range(LOOKS):
            if here is None or here["clear"]:
                break
            self.page.wait_for_timeout(LOOK_AGAIN_MS)
            here = self.page.evaluate(FOCUSED)
        assert here is None or here["outlined"], f"no outline: {here}"
        assert here is None or here["clear"], f"covered: {here}"
        return here

    def press(self, name: str, group: str = "") -> None:
        """Go to a button or link, and press it."""
        self.to(name, group)
        self.page.keyboard.press("Enter")

    def write(self, label: str, text: str, group: str = "") -> None:
        """Go to a field, and type into it."""
        self.to(label, group)
        self.page.keyboard.press("Control+A")
        self.page.keyboard.type(text)

    def is_at(self, title: str) -> None:
        expect(self.page.get_by_role("heading", level=1)).to_have_text(title)

    def sees(self, text: str) -> None:
        expect(self.page.locator("#app")).to_contain_text(text)

    def read(self, label: str, figure: str) -> None:
        """Type a reading into the pad that stands open for it, and keep it."""
        expect(self.page.get_by_role("form", name=f"Reading pad: {label}", exact=True)).to_be_visible()
        expect(self.page.locator("#pad-line")).to_be_focused()
        self.page.keyboard.type(figure)
        self.page.keyboard.press("Enter")
        expect(self.page.locator(".kept")).to_contain_text(f"kept: {label}")


def new_job(keys: Keys) -> None:
    keys.press("New job")
    keys.write("Registration", "EX 51")
    keys.write("Make", "Example")
    keys.press("boost cuts out", group="Noticed")
    keys.press("Open the job")
    keys.is_at(CAR)


def gauge_and_limits(keys: Keys) -> None:
    keys.press("Gauges: none named yet")
    keys.is_at("Gauges")
    keys.write("Scale from", "0")
    keys.write("Scale to", "4")
    keys.write("Class, % of the scale", "1.6")
    keys.write("One division", "0.1")
    keys.press("Add this gauge")
    keys.sees("class 1.6")
    keys.press("To the air line")
    keys.is_at(CAR)
    keys.press("Limits: none typed yet")
    keys.is_at("The maker's limits")
    keys.write("from", "0.6", group="First movement of the rod")
    keys.write("to", "0.8", group="First movement of the rod")
    keys.write("from", "1.4", group="Full travel")
    keys.write("to", "1.6", group="Full travel")
    keys.press("To the air line")
    keys.is_at(CAR)


def actuator(keys: Keys) -> None:
    keys.press("Actuator by hand pump")
    keys.is_at("Actuator by hand pump")
    keys.press("First movement")
    keys.read("First movement", ".96")
    keys.read("Full travel", "1.71")
    keys.read("Hold, at the start", "1.5")
    keys.read("Hold, at the end", "1.49")
    keys.page.keyboard.press("Escape")
    keys.press("yes", group="Linkage free")
    keys.press("yes", group="Returns to its stop")
    keys.press("Air line")
    keys.is_at(CAR)


def two_pulls(keys: Keys) -> None:
    keys.press("Road run with gauges")
    keys.is_at("Road run with gauges")
    keys.press("New run")
    keys.is_at("Road run 1")
    keys.press("a second person", group="Who reads?")
    for pull in (1, 2):
        keys.press("Start pull" if pull == 1 else "Next pull")
        keys.read("gauge says", "1.48")
        keys.page.keyboard.press("Escape")
        for label, figure in [("engine", "3500"), ("aimed", "2.21"), ("car says", "2.47"), ("duty", "4")]:
            keys.press(label)
            keys.read(label, figure)
            keys.page.keyboard.press("Escape")
    keys.press("done")


def estimate_and_yes(keys: Keys) -> None:
    keys.press("Write it for the customer")
    keys.is_at("For the customer")
    keys.press("Make an estimate")
    keys.is_at("What it will cost")
    keys.press("A line of one's own")
    keys.page.locator("details.estimate-line").wait_for()
    keys.press(keys.page.locator("details.estimate-line summary span").first.inner_text())
    keys.write("What for", "Set the rod")
    keys.write("Price of one, without tax", "80")
    keys.write("Tax, %", "20")
    keys.write("Currency", "GBP")
    keys.press("Show it to the customer")
    keys.is_at("For the customer")
    keys.press("Sign for: In all")
    keys.write("Name of who signs", "A. Sample")
    keys.press("Yes said aloud, no signature")
    expect(keys.page.locator(".signed")).to_contain_text(f"A. Sample said yes to 96.00{NO_BREAK}GBP")


def test_a_whole_job_without_a_pointer(new_page: Callable[..., Page], server: Any) -> None:
    keys = Keys(new_page(server, "/"))
    new_job(keys)
    gauge_and_limits(keys)
    actuator(keys)
    two_pulls(keys)
    keys.is_at("What the readings say")
    expect(keys.page.locator("main")).to_contain_text("Actuator opens too late", timeout=60_000)
    estimate_and_yes(keys)
    print(f"a whole job: {keys.stops} presses of Tab")
