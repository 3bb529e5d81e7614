"""A technician with a phone: taps what stands on the screen by its name, and counts the taps."""

import re
from pathlib import Path

from playwright.sync_api import Locator, Page, expect

MINUS = "\u2212"
KEY_NAMES = {".": "Decimal point", MINUS: "Change the sign"}


class Technician:
    """Drives the app through its screens alone; `taps` counts touches, a field typed into is one."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.taps = 0

    def touch(self, target: Locator) -> None:
        """One touch, counted."""
        self.taps += 1
        target.click()

    def tap(self, name: str) -> None:
        """Touches the button or link of this name."""
        button = self.page.get_by_role("button", name=name, exact=True)
        self.touch(button.or_(self.page.get_by_role("link", name=name, exact=True)).first)

    def tap_first(self, beginning: str) -> None:
        """Touches the first button whose name begins so."""
        self.touch(self.page.get_by_role("button", name=re.compile(f"^{re.escape(beginning)}")).first)

    def go_on(self) -> None:
        """Touches the large button at the bottom."""
        self.touch(self.page.locator("footer .main"))

    def open(self, title: str) -> None:
        """Opens a test from the list of what remains."""
        self.touch(self.page.locator("ul.links a").filter(has=self.page.get_by_text(title, exact=True)))
        self.is_at(title)

    def choose(self, question: str, answer: str) -> None:
        """Answers a question with one of its choices."""
        group = self.page.get_by_role("group", name=question)
        self.touch(group.get_by_role("button", name=answer))

    def write(self, label: str, text: str) -> None:
        """Types into a field with the phone's own keyboard and leaves it."""
        field = self.page.get_by_label(label, exact=True)
        self.taps += 1
        field.fill(text)
        field.blur()

    def limit(self, name: str, low: str = "", high: str = "") -> None:
        """Types a limit's ends."""
        group = self.page.get_by_role("group", name=name, exact=True)
        for end, text in (("from", low), ("to", high)):
            if text:
                self.taps += 1
                group.get_by_label(end, exact=True).fill(text)
                group.get_by_label(end, exact=True).blur()

    def read(self, label: str, figure: str) -> None:
        """Opens the pad for a reading where it is not open yet, presses the keys and keeps it."""
        pad = self.page.get_by_role("form", name=f"Reading pad: {label}")
        row = self.page.locator("button.reading, button.card").filter(has_text=label)
        expect(pad.or_(row).first).to_be_visible()
        if not pad.is_visible():
            self.touch(row.first)
        for key in figure:
            self.touch(pad.get_by_role("button", name=KEY_NAMES.get(key, key), exact=True))
        self.touch(pad.locator(".keep"))
        expect(self.page.locator(".kept")).to_contain_text(f"kept: {label}")

    def leave_pad(self) -> None:
        """Closes the pad where it stands open."""
        close = self.page.get_by_role("button", name="Close the pad")
        if close.is_visible():
            self.touch(close)

    def photograph(self, picture: Path) -> None:
        """Takes a photo on this page with a camera that gives `picture`."""
        before = self.page.locator("ul.photos img").count()
        with self.page.expect_file_chooser() as chooser:
            self.touch(self.page.locator(".photo-button label").first)
        chooser.value.set_files(picture)
        expect(self.page.locator("ul.photos img")).to_have_count(before + 1)

    def sees(self, text: str) -> None:
        """The page says this."""
        expect(self.page.locator("#app")).to_contain_text(text)

    def is_at(self, title: str) -> None:
        """The page has this heading."""
        expect(self.page.get_by_role("heading", level=1)).to_have_text(title)


def two_pulls(hand: Technician) -> None:
    """The road run with its two pulls, read by a second person."""
    hand.open("Road run with gauges")
    hand.go_on()
    hand.choose("Who reads?", "a second person")
    for _ in range(2):
        hand.go_on()
        hand.read("gauge says", "1.48")
        hand.leave_pad()
        for label, figure in [("engine", "3500"), ("aimed", "2.21"), ("car says", "2.47"), ("duty", "4")]:
            hand.read(label, figure)
            hand.leave_pad()
    hand.tap("done")
