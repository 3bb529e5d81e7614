"""The service worker in real Chromium: the app starts from the phone, whatever the network is or pretends."""

import socket
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.portal import portal

INSTALLED = "() => navigator.serviceWorker.ready.then(() => true)"
CONTROLLED = """() => new Promise((resolve) => {
  if (navigator.serviceWorker.controller) resolve(true);
  navigator.serviceWorker.addEventListener("controllerchange", () => resolve(true));
})"""
CACHES = """async () => {
  const kept = {};
  for (const name of await caches.keys()) {
    const requests = await (await caches.open(name)).keys();
    kept[name] = requests.map(({ url }) => new URL(url).pathname).sort();
  }
  return kept;
}"""
UPDATE = """async () => {
  const registration = await navigator.serviceWorker.getRegistration();
  await registration.update().catch(() => {});
  const worker = registration.installing;
  if (worker) {
    await new Promise((resolve) => {
      const look = () => { if (["installed", "redundant"].includes(worker.state)) resolve(); };
      worker.addEventListener("statechange", look);
      look();
    });
  }
  return Boolean(registration.waiting);
}"""

# A server whose list of files is of one moment and whose files are of another.
MIXED = """
import api.release
script = api.release.Release.script
api.release.Release.script = lambda self: script(self).replace('"version": "', '"version": "0')
"""


# A module of its own, by its address, as a page has it that was just opened.
YES_FIRST = """async () => {
  const { release } = await import("/shell.js?opened-anew");
  release.use();
  release.start();
}"""
WATCH_FOR_CHANGE = """() => {
  const heard = (then) => navigator.serviceWorker.addEventListener("controllerchange", () => then(true));
  self.changed = new Promise(heard);
}"""


@pytest.fixture
def page(new_page: Callable[..., Page], small_server: Any) -> Page:
    """A phone that has visited once."""
    page = new_page(small_server, "/")
    page.evaluate(INSTALLED)
    page.evaluate(CONTROLLED)
    return page


def release(folder: Path, name: str) -> None:
    (folder / "version.js").write_text(f'export const version = "{name}";\n')


def starts(page: Page, path: str = "/", name: str = "release one") -> None:
    page.goto(page.evaluate("origin") + path)
    expect(page.get_by_role("heading")).to_have_text(name)


@contextmanager
def black_hole(port: int) -> Iterator[None]:
    """A port whose queue of connections is full: what is sent there gets no answer of any kind (Linux)."""
    listener = socket.create_server(("127.0.0.1", port), backlog=0)
    waiting = [socket.socket() for _ in range(4)]
    for one in waiting:
        one.setblocking(False)
        one.connect_ex(("127.0.0.1", port))
    try:
        with pytest.raises(TimeoutError):
            socket.create_connection(("127.0.0.1", port), timeout=0.5)
        yield
    finally:
        for one in (*waiting, listener):
            one.close()


def test_the_whole_shell_is_kept(page: Page, small_app: Path) -> None:
    (kept,) = page.evaluate(CACHES).values()
    files = {f"/{path.relative_to(small_app)}" for path in small_app.rglob("*") if path.is_file()}
    files = {path for path in files if not path.startswith("/vendor/")} - {"/sw.js", "/index.html"} | {"/"}
    assert set(kept) == files


@pytest.mark.parametrize("path", ["/", "/job/1/actuator", "/anything.html"])
def test_the_app_starts_with_the_server_gone(page: Page, small_server: Any, path: str) -> None:
    small_server.stop()
    starts(page, path)


def test_the_app_starts_where_packets_vanish(page: Page, small_server: Any) -> None:
    small_server.stop()
    with black_hole(small_server.port):
        starts(page)


def test_a_captive_portal_is_never_taken_for_the_app(page: Page, small_server: Any) -> None:
    before = page.evaluate(CACHES)
    small_server.stop()
    with portal(small_server.port):
        assert page.evaluate(UPDATE) is False
        starts(page)
    assert page.evaluate(CACHES) == before


def test_the_worker_leaves_the_server_its_own(page: Page, small_server: Any) -> None:
    """Offline, an address of the server fails instead of being answered from the phone."""
    small_server.stop()
    reached = page.evaluate(
        """() => Promise.all(["/api/jobs", "/health", "/desk", "/release.js"].map(
          (path) => fetch(path).then(() => path, () => null)
        ))"""
    )
    assert reached == [None] * 4


def test_a_new_release_waits_for_the_yes(page: Page, small_app: Path) -> None:
    (first,) = page.evaluate(CACHES)
    page.evaluate("async () => { await caches.open('of-another-app'); }")
    release(small_app, "release two")
    assert page.evaluate(UPDATE) is True
    assert page.evaluate("() => self.ready") == "ready"
    starts(page)
    assert first in page.evaluate(CACHES)
    with page.expect_navigation():
        page.evaluate("() => self.release.use()")
    expect(page.get_by_role("heading")).to_have_text("release two")
    kept = page.evaluate(CACHES)
    assert len(kept) == 2
    assert "of-another-app" in kept
    assert first not in kept


def test_a_yes_in_one_page_is_asked_for_in_the_other(page: Page, small_app: Path) -> None:
    """The other page stays as it is until its own yes, which is heard though no release waits any more."""
    other = page.context.new_page()
    other.goto(page.url)
    expect(other.get_by_role("heading")).to_have_text("release one")
    release(small_app, "release two")
    assert page.evaluate(UPDATE) is True
    other.evaluate("() => self.ready")
    other.evaluate(WATCH_FOR_CHANGE)
    with page.expect_navigation():
        page.evaluate("() => self.release.use()")
    other.evaluate("() => self.changed")
    expect(other.get_by_role("heading")).to_have_text("release one")
    with other.expect_navigation():
        other.evaluate("() => self.release.use()")
    expect(other.get_by_role("heading")).to_have_text("release two")


def test_a_yes_said_before_the_worker_is_known_is_heard(page: Page, small_app: Path) -> None:
    release(small_app, "release two")
    assert page.evaluate(UPDATE) is True
    with page.expect_navigation():
        page.evaluate(YES_FIRST)
    expect(page.get_by_role("heading")).to_have_text("release two")


def test_files_of_two_releases_are_never_mixed(page: Page, small_app: Path, small_server: Any) -> None:
    """The list is of one release, a file of another (or a portal's): nothing of it is kept."""
    before = page.evaluate(CACHES)
    small_server.stop()
    small_server.prelude = MIXED
    release(small_app, "release two")
    small_server.start()
    assert page.evaluate(UPDATE) is False
    assert page.evaluate(CACHES) == before
    starts(page)


def test_the_app_starts_after_the_browser_was_killed_offline(
    new_phone: Callable[..., Any], small_server: Any
) -> None:
    phone = new_phone(small_server)
    page = phone.open("/")
    page.evaluate(INSTALLED)
    page.evaluate(CONTROLLED)
    phone.kill()
    small_server.stop()
    page = phone.open("/job/1")
    expect(page.get_by_role("heading")).to_have_text("release one")
