"""The browser is asked not to clear this phone's store, at the first touch; the settings tell its answer."""

from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page, expect

# The browser's own answer hangs on what it thinks of the site: here it is ours to give.
ANSWERS = """(() => {
  let granted = false;
  self.asked = 0;
  navigator.storage.persist = async () => { self.asked += 1; granted = %s; return granted; };
  navigator.storage.persisted = async () => granted;
})()"""
SAFE = "The phone will not clear this app's store by itself."
NOT_SAFE = "The phone may clear this store when it runs short. Put the app on the home screen."


@pytest.mark.parametrize(("grants", "says"), [("true", SAFE), ("false", NOT_SAFE)])
def test_the_first_touch_asks_and_the_settings_tell(
    new_page: Callable[..., Page], standing_server: Any, grants: str, says: str
) -> None:
    page = new_page(standing_server)
    page.add_init_script(ANSWERS % grants)
    page.goto(standing_server.url + "/")
    expect(page.get_by_role("heading", level=1)).to_be_visible()
    assert page.evaluate("() => self.asked") == 0
    page.get_by_role("heading", level=1).click()
    page.get_by_role("heading", level=1).click()
    assert page.evaluate("() => self.asked") == 1
    page.evaluate("() => { location.hash = '#/settings'; }")
    expect(page.get_by_text(says)).to_be_visible()
