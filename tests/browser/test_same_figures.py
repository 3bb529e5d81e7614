"""Phone and workshop print the same verdicts, byte for byte."""

from collections.abc import Callable
from typing import Any

from playwright.sync_api import Page

from tests.browser.same_figures import different_jobs

COUNT = 200


def test_phone_and_server_say_the_same(new_page: Callable[..., Page], standing_server: Any) -> None:
    assert different_jobs(new_page(standing_server), COUNT) == []
