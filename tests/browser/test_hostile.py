"""Hostile texts on the screens of phone, office and desk in real Chromium: nothing runs or is fetched."""

import json
import urllib.request
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from playwright.sync_api import Page, Request, expect

from tests.api.hostile import HOSTILE
from tests.api.phone import new_id, operation
from tests.security.test_hostile import PLACES

TEXTS = [text for text in HOSTILE if "\ud800" not in text and len(text) < 1000]
WATCH = """addEventListener("securitypolicyviolation", (event) => {
  console.error("refused", event.violatedDirective);
});"""
SCREENS = ("", "/verdict", "/customer", "/limits", "/gauges", "/smoke")


def jobs() -> Iterator[tuple[str, list[str]]]:
    """Jobs whose every field holds another of the texts, until each text stood somewhere."""
    for start in range(0, len(TEXTS), len(PLACES)):
        job = new_id()
        texts = (TEXTS + TEXTS)[start : start + len(PLACES)]
        made = [operation(job, place, text) for place, text in zip(PLACES, texts, strict=True)]
        made.append(operation(job, f"/steps/{new_id()}", {"state": "in_order", "note": texts[0]}, do="add"))
        yield job, [json.dumps(one) for one in made]


def hand_in(url: str, texts: list[str]) -> None:
    body = json.dumps({"operations": texts, "number": 0, "hash": ""}).encode()
    headers = {"X-Teepiece": "1", "Origin": url, "Content-Type": "application/json"}
    with urllib.request.urlopen(urllib.request.Request(f"{url}/api/sync", body, headers)) as answer:
        assert {one["answer"] for one in json.load(answer)["answers"]} == {"applied"}


@pytest.fixture
def seen() -> list[str]:
    """What must not happen, as it happens."""
    return []


def watch(page: Page, url: str, seen: list[str]) -> None:
    def asked(request: Request) -> None:
        if not request.url.startswith((url, "data:", "blob:")):
            seen.append(f"fetched {request.url}")

    page.on("request", asked)
    page.on("dialog", lambda dialog: (seen.append(f"ran {dialog.message}"), dialog.dismiss()))
    page.on("console", lambda line: seen.append(line.text) if line.text.startswith("refused") else None)
    page.add_init_script(WATCH)


def test_nothing_runs_and_nothing_is_fetched(
    new_page: Callable[..., Page], server: Any, seen: list[str]
) -> None:
    brought = dict(jobs())
    for texts in brought.values():
        hand_in(server.url, texts)
    page = new_page(server)
    watch(page, server.url, seen)
    page.goto(server.url)
    for job in brought:
        expect(page.locator(f"a[href*='{job}']").first).to_be_visible()
    for job in brought:
        for screen in SCREENS:
            page.goto(f"{server.url}/#/job/{job}{screen}")
            expect(page.get_by_role("heading").first).to_be_visible()
        for address in (f"/office/jobs/{job}", f"/office/customers/{job}", f"/desk/jobs/{job}"):
            page.goto(server.url + address)
            expect(page.get_by_role("heading").first).to_be_visible()
    for address in ("/office/jobs", "/desk"):
        page.goto(server.url + address)
        expect(page.get_by_role("table").first).to_be_visible()
    assert seen == []


def test_the_watch_sees_what_it_looks_for(
    new_page: Callable[..., Page], server: Any, seen: list[str]
) -> None:
    page = new_page(server)
    watch(page, server.url, seen)
    page.goto(f"{server.url}/office/jobs")
    page.evaluate(
        "() => { document.body.append(Object.assign(document.createElement('script'), {textContent: '1'})); }"
    )
    page.evaluate("() => fetch('http://localhost:9/').catch(() => null)")
    page.evaluate("() => setTimeout(() => alert(1))")
    page.wait_for_timeout(300)
    assert "ran 1" in seen
    assert any("script-src" in line for line in seen)
    assert any("connect-src" in line for line in seen)
