"""The office by axe-core, in German: wide and light, narrow and dark; nothing is wider than the screen."""

from typing import Any

import pytest

from tests.browser.conftest import Server
from tests.browser.test_screens import AXE, found

PAGES = (
    "office/jobs",
    "office/gauges",
    "office/limits",
    "office/prices",
    "office/phones",
    "office/people",
    "office/mail",
    "office/letters",
    "office/backups",
    "office/workshop",
    "office/trail",
    "set-up",
    "pair",
    "desk",
)


@pytest.mark.parametrize(("width", "theme"), [(1280, "light"), (320, "dark")])
def test_every_page_of_the_office_is_for_everyone(
    browser: Any, demo_server: Server, width: int, theme: str
) -> None:
    context = browser.new_context(
        viewport={"width": width, "height": 844}, locale="de-AT", color_scheme=theme, bypass_csp=True
    )
    page = context.new_page()
    faults = []
    for place in PAGES:
        page.goto(f"{demo_server.url}/{place}")
        assert page.locator("html").get_attribute("lang") == "de"
        page.add_script_tag(path=AXE)
        faults += found(page, place)
    context.close()
    assert faults == []
