"""A phone that is four times slower than this machine: Chromium with its page throttled."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from playwright.sync_api import BrowserContext, CDPSession, Page, Playwright

from tests.browser.machines import CHROMIUM, FLAGS, PHONE, Server

SLOWER = 4
ENGINE_READY = "ready without signal"
ENGINE_WITHIN_MS = 120_000


@contextmanager
def workshop_and_phone(playwright: Playwright) -> Iterator[tuple[Server, BrowserContext, Path]]:
    """A server with the demo job, a browser, and the folder of its profile."""
    with TemporaryDirectory(ignore_cleanup_errors=True) as folder:
        server, phone = Server(Path(folder) / "data", demo=True), Path(folder) / "phone"
        server.start()
        context = profile(playwright, phone)
        try:
            yield server, context, phone
        finally:
            context.close()
            server.stop()


def profile(playwright: Playwright, folder: Path) -> BrowserContext:
    """A browser with a profile on disk: its caches are those of a real phone."""
    return playwright.chromium.launch_persistent_context(
        str(folder), executable_path=CHROMIUM, args=FLAGS, **PHONE
    )


def installed(server: Server, context: BrowserContext, path: str = "/") -> Page:
    """A page of the app, with shell and engine on the phone."""
    page = context.new_page()
    page.goto(server.url + path)
    page.get_by_text(ENGINE_READY).first.wait_for(timeout=ENGINE_WITHIN_MS)
    return page


def slowed(page: Page, times: float = SLOWER) -> CDPSession:
    """Throttles the page's main thread; workers escape this throttle."""
    session = page.context.new_cdp_session(page)
    session.send("Emulation.setCPUThrottlingRate", {"rate": times})
    return session


def touch(session: CDPSession, page: Page, selector: str) -> None:
    """One finger, put down and lifted, as the browser gets it from the screen."""
    box = page.locator(selector).bounding_box()
    assert box is not None
    at: list[dict[str, Any]] = [{"x": box["x"] + box["width"] / 2, "y": box["y"] + box["height"] / 2}]
    session.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": at})
    session.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
