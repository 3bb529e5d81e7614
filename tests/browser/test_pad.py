"""A reading in about two seconds: by keys, or by one touch of the dial and nudges, with gloves on."""

from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Page

from tests.browser import dial
from tests.browser.technician import Technician

TARGETS = 12


@pytest.fixture(scope="module")
def pad(browser: Any, standing_server: Any) -> Iterator[Page]:
    context = browser.new_context(locale="en-GB", viewport={"width": 390, "height": 844}, has_touch=True)
    page = context.new_page()
    page.goto(f"{standing_server.url}/health")
    dial.open_pad(page)
    yield page
    context.close()


def empty(pad: Page) -> None:
    """Rub out what an earlier reading left on the pad: each test stands alone."""
    for _ in range(len(pad.locator("#pad-line").input_value())):
        pad.get_by_role("button", name="Rub out the last digit").click()


def test_the_dial_and_nudges_reach_every_target(pad: Page) -> None:
    readings = dial.read_targets(pad, TARGETS)
    assert [one for one in readings if one.error_bar > dial.HALF_DIVISION_BAR] == []


def test_a_reading_is_three_digits_and_a_touch(pad: Page) -> None:
    empty(pad)
    hand = Technician(pad)
    hand.read("First movement", ".96")
    assert hand.taps == 4
    hand.sees("0.96 bar")


def test_an_empty_pad_keeps_nothing(pad: Page) -> None:
    empty(pad)
    before = pad.locator("button.reading .figure").all_inner_texts()
    pad.locator(".keep").click()
    assert pad.locator("button.reading .figure").all_inner_texts() == before
