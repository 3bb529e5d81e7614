"""Real Chromium for the scenarios: the phone's own store, profiles on disk, a browser that can be killed."""

import os
import signal
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, BrowserContext, Error, Page, Playwright, sync_playwright

from tests.browser.machines import BLANK, CHROMIUM, FLAGS
from tests.fire.scenario import folder
from tests.fire.workshop import Nursery, Workshop

OPEN = """async () => {
  const { openWorkbook } = await import("/store/workbook.js");
  const { sync } = await import("/store/sync.js");
  self.workbook = await openWorkbook();
  self.sync = sync;
}"""
START = """async () => { sync.start(workbook); return sync.run(); }"""
NEW_JOB = """async (places = {}) => {
  const id = await workbook.newJob({ places });
  self.job = workbook.job(id);
  return id;
}"""
PHOTO = """async (size) => {
  const bytes = new Uint8Array(size);
  const piece = 65536;
  for (let at = 0; at < size; at += piece) crypto.getRandomValues(bytes.subarray(at, at + piece));
  return job.keepPhoto(new Blob([bytes], { type: "image/x-test" }), { step: "actuator" });
}"""


@contextmanager
def playing() -> Iterator[Playwright]:
    with sync_playwright() as started:
        yield started


@contextmanager
def chromium(playwright: Playwright) -> Iterator[Browser]:
    browser = playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
    try:
        yield browser
    finally:
        browser.close()


@dataclass(frozen=True)
class Stage:
    """What most scenarios in the browser need."""

    space: Path
    nursery: Nursery
    playwright: Playwright
    workshop: Workshop


@contextmanager
def stage() -> Iterator[Stage]:
    """A workshop's server and a driver for browsers."""
    with ExitStack() as set_up:
        space, nursery = set_up.enter_context(folder()), set_up.enter_context(Nursery())
        playwright = set_up.enter_context(playing())
        yield Stage(space, nursery, playwright, set_up.enter_context(Workshop(nursery, space / "data")))


@contextmanager
def one_phone(*, opened: bool = True, started: bool = False) -> Iterator[tuple[Workshop, Page]]:
    """A workshop and one page of its phone."""
    with ExitStack() as all_:
        set_up = all_.enter_context(stage())
        browser = all_.enter_context(chromium(set_up.playwright))
        yield (
            set_up.workshop,
            all_.enter_context(page_at(browser, set_up.workshop.url, opened=opened, started=started)),
        )


@contextmanager
def page_at(browser: Browser, url: str, *, opened: bool = True, started: bool = False) -> Iterator[Page]:
    """A page of its own profile, kept nowhere; with the store opened, and sync begun where asked."""
    context = browser.new_context()
    try:
        page = context.new_page()
        page.goto(url + BLANK)
        if opened:
            page.evaluate(OPEN)
        if started:
            page.evaluate(START)
        yield page
    finally:
        context.close()


class Profile:
    """A browser whose profile lies on disk and outlives its process."""

    def __init__(self, playwright: Playwright, folder: Path) -> None:
        self.playwright = playwright
        self.folder = folder
        self.context: BrowserContext | None = None

    def page(self, url: str) -> Page:
        if self.context is None:
            self.context = self.playwright.chromium.launch_persistent_context(
                str(self.folder), executable_path=CHROMIUM, args=FLAGS
            )
        page = self.context.pages[0] if self.context.pages else self.context.new_page()
        page.goto(url)
        return page

    def kill(self) -> None:
        """SIGKILL to the browser's process, named by its own lock in the profile."""
        lock = self.folder / "SingletonLock"
        os.kill(int(os.readlink(lock).rpartition("-")[2]), signal.SIGKILL)
        with suppress(Error):  # what still waited for an answer of the browser gets none
            self.close()
        lock.unlink(missing_ok=True)

    def close(self) -> None:
        context, self.context = self.context, None
        if context is not None:
            context.close()


def rows_of(page: Page) -> list[dict[str, Any]]:
    """What lies in IndexedDB, read past the app's own code."""
    found: list[dict[str, Any]] = page.evaluate(
        """() => new Promise((resolve, reject) => {
          const open = indexedDB.open("teepiece");
          open.onerror = () => reject(open.error);
          open.onsuccess = () => {
            const all = open.result.transaction("operations").objectStore("operations").getAll();
            all.onsuccess = () => { open.result.close(); resolve(all.result); };
          };
        })"""
    )
    return found
