"""S13 to S16: two releases at once, released stores, updates at any moment, dead and false networks."""

import json
import shutil
import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from playwright.sync_api import Page, expect

from tests.browser.portal import portal
from tests.fire import checks
from tests.fire.browser import NEW_JOB, OPEN, PHOTO, START, chromium, page_at, rows_of, stage
from tests.fire.proxy import LOOPBACK
from tests.fire.scenario import Outcome, scenario
from tests.fire.workshop import ROOT, Workshop

RELEASED = ROOT / "fixtures/released"
RUN = "() => sync.run()"

OPEN_VERSION = """(version) => new Promise((resolve) => {
  const request = indexedDB.open("teepiece", version);
  request.onsuccess = () => { self.newer = request.result; resolve("open"); };
  request.onblocked = () => resolve("blocked");
  request.onerror = () => resolve(request.error.name);
})"""
TRY_OPEN = """async () => {
  const { openWorkbook } = await import("/store/workbook.js");
  return openWorkbook().then(() => "opened", (error) => error.kind);
}"""


@scenario("S13", in_browser=True)
def two_releases(small: bool) -> Iterator[Outcome]:
    """A page of this release and one of the next: the older lets go; a blocked opening settles."""
    turns = 2 if small else 20
    with stage() as set_up, chromium(set_up.playwright) as browser:
        for turn in range(turns):
            context = browser.new_context()
            old, new = context.new_page(), context.new_page()
            for page in (old, new):
                page.goto(set_up.workshop.url + "/health")
            if turn % 2 == 0:
                _newer_takes_over(old, new)
            else:
                _older_is_held(old, new)
            context.close()
    yield Outcome("S13", "two releases of the store at once", turns, held=True)


def _newer_takes_over(old: Page, new: Page) -> None:
    old.evaluate(OPEN)
    old.evaluate(NEW_JOB, {"/complaint/text": "kept"})
    before = rows_of(old)
    old.evaluate("() => { self.told = new Promise((resolve) => workbook.onOutdated(() => resolve(true))); }")
    assert new.evaluate(OPEN_VERSION, 99) == "open"
    assert old.evaluate("() => self.told") is True
    write = "() => job.set('/complaint/text', 'x').then(() => 'kept', (error) => error.kind)"
    assert old.evaluate(write) == "closed"
    assert new.evaluate(TRY_OPEN) == "closed", "an older release opens a newer store"
    assert rows_of(new) == before


def _older_is_held(holder: Page, opener: Page) -> None:
    """A page that does not let go: the next release's opening settles instead of hanging."""
    holder.evaluate(OPEN_VERSION, 1)
    opener.evaluate(
        """() => {
          const open = IDBFactory.prototype.open;
          IDBFactory.prototype.open = function (name) { return open.call(this, name, 2); };
        }"""
    )
    assert opener.evaluate(TRY_OPEN) == "blocked"


# The stores as the release of that number made them, written past the app's own code.
LAY_DOWN = """({ version, stores }) => new Promise((resolve, reject) => {
  const request = indexedDB.open("teepiece", version);
  request.onerror = () => reject(request.error);
  request.onupgradeneeded = () => {
    const create = ({ name, keyPath }) => request.result.createObjectStore(name, keyPath ? { keyPath } : {});
    stores.forEach(create);
  };
  request.onsuccess = () => {
    const database = request.result;
    const transaction = database.transaction(stores.map(({ name }) => name), "readwrite");
    for (const { name, keyPath, rows } of stores) {
      for (const [key, value] of rows) {
        const bytes = (text) => Uint8Array.from(atob(text), (one) => one.charCodeAt(0)).buffer;
        const kept = value?.base64 ? bytes(value.base64) : value;
        if (keyPath) transaction.objectStore(name).put(kept);
        else transaction.objectStore(name).put(kept, key);
      }
    }
    transaction.oncomplete = () => { database.close(); resolve(); };
    transaction.onabort = () => reject(transaction.error);
  };
})"""


@scenario("S14", in_browser=True)
def released_phones(small: bool) -> Iterator[Outcome]:
    """A phone with the store of each release and an unsent outbox: all of it reaches the workshop."""
    upgrades = 0
    versions = set()
    with stage() as set_up, chromium(set_up.playwright) as browser:
        for file in sorted(RELEASED.glob("phone-*.json")):
            for turn in range(1 if small else 3):
                workshop = Workshop(set_up.nursery, set_up.space / f"{file.stem}-{turn}")
                with workshop, page_at(browser, workshop.url, opened=False) as page:
                    released = json.loads(file.read_text("utf-8"))
                    versions.add(released["version"])
                    _upgrade(page, released)
                    (opened,) = page.evaluate("() => indexedDB.databases()")
                    checks.list_of(workshop.data)
                upgrades += 1
    assert versions == set(range(1, opened["version"] + 1)), "a released form of the store has no file"
    yield Outcome("S14", "phone's store of a released form, outbox unsent", upgrades, held=True)


def _upgrade(page: Page, released: dict[str, Any]) -> None:
    page.evaluate(LAY_DOWN, {"version": released["version"], "stores": released["stores"]})
    page.evaluate(OPEN)
    for job in page.evaluate("() => workbook.jobs().map(({ id, document }) => ({ id, document }))"):
        assert job["document"] == released["documents"][job["id"]]
    page.evaluate(START)
    state = page.evaluate(RUN)
    assert state["unsent"] == 0, state
    for job, document in released["documents"].items():
        there = page.evaluate("async (id) => (await fetch(`/api/jobs/${id}`)).json()", job)
        assert there == document
        assert page.evaluate("(id) => workbook.jobs().find((one) => one.id === id).safeAt", job)


def small_app(folder: Path) -> Path:
    """The real worker, shell and store with a page that is small enough to change."""
    folder.mkdir(parents=True)
    for name in ("sw.js", "shell.js"):
        shutil.copy(ROOT / "pwa" / name, folder)
    for name in ("store", "words"):
        shutil.copytree(ROOT / "pwa" / name, folder / name)
    shutil.copytree(ROOT / "pwa/vendor/fflate", folder / "vendor/fflate")
    (folder / "index.html").write_text(
        '<!doctype html><html lang="en"><meta charset="utf-8"><title>app</title><h1></h1>'
        '<script type="module" src="/app.js"></script></html>'
    )
    (folder / "app.js").write_text(
        'import { release } from "/shell.js";\nimport { first } from "/first.js";\n'
        'import { second } from "/second.js";\nself.release = release;\nrelease.start();\n'
        'document.querySelector("h1").textContent = `${first} ${second}`;\n'
    )
    publish(folder, "one")
    return folder


def publish(folder: Path, name: str) -> None:
    """A release: two modules that must be of the same one."""
    for module in ("first", "second"):
        (folder / f"{module}.js").write_text(f'export const {module} = "{name}";\n')


INSTALLED = """async () => {
  await navigator.serviceWorker.ready;
  if (navigator.serviceWorker.controller) return;
  await new Promise((resolve) => navigator.serviceWorker.addEventListener("controllerchange", resolve));
}"""
UPDATE = """async () => {
  const registration = await navigator.serviceWorker.getRegistration();
  await registration.update().catch(() => {});
  const worker = registration.installing;
  if (worker) {
    await new Promise((resolve) => {
      const look = () => ["installed", "redundant"].includes(worker.state) && resolve();
      worker.addEventListener("statechange", look);
      look();
    });
  }
  return Boolean(registration.waiting);
}"""
MOMENTS = ("idle", "open draft", "in a photo", "in a sync", "offline")


@scenario("S15", in_browser=True)
def updates(small: bool) -> Iterator[Outcome]:
    """A new release while idle, with a draft, in a photo, in a sync, offline: never mixed, nothing lost."""
    rounds = 1 if small else 20
    count = 0
    with stage() as set_up, chromium(set_up.playwright) as browser:
        pwa = small_app(set_up.space / "pwa")
        workshop = Workshop(set_up.nursery, set_up.space / "updated", pwa)
        with workshop, page_at(browser, workshop.url, opened=False) as page:
            page.goto(workshop.url)
            page.evaluate(INSTALLED)
            for round_ in range(rounds):
                for moment in MOMENTS:
                    _update(page, workshop, pwa, moment, f"{round_} {moment}")
                    count += 1
        checks.list_of(workshop.data)
    yield Outcome("S15", "new release at any moment", count, held=True)


def _update(page: Page, workshop: Workshop, pwa: Path, moment: str, name: str) -> None:
    before = page.get_by_role("heading").inner_text()
    page.evaluate(OPEN)
    page.evaluate(NEW_JOB, {"/complaint/text": name})
    publish(pwa, name)
    if moment == "in a photo":
        page.evaluate(f"(size) => {{ self.work = ({PHOTO})(size); }}", 400_000)
    if moment == "in a sync":
        page.evaluate(f"() => {{ self.work = ({START})(); }}")
    if moment == "offline":
        workshop.kill()
    waits = page.evaluate(UPDATE)
    assert waits is (moment != "offline"), (moment, name, waits)
    page.evaluate("() => self.work")
    page.reload()
    expect(page.get_by_role("heading")).to_have_text(before)
    if moment == "offline":
        workshop.start()
        assert page.evaluate(UPDATE)
    with page.expect_navigation():
        page.evaluate("() => release.use()")
    expect(page.get_by_role("heading")).to_have_text(f"{name} {name}")
    page.evaluate(OPEN)
    texts = page.evaluate("() => workbook.jobs().map(({ document }) => document.complaint?.text)")
    assert name in texts, "the draft is gone"


@contextmanager
def black_hole(port: int) -> Iterator[None]:
    """A port whose queue is full: questions get no answer of any kind (Linux)."""
    listener = socket.create_server((LOOPBACK, port), backlog=0)
    waiting = [socket.socket() for _ in range(4)]
    for one in waiting:
        one.setblocking(False)
        one.connect_ex((LOOPBACK, port))
    try:
        yield
    finally:
        for one in (*waiting, listener):
            one.close()


@contextmanager
def gibberish(port: int) -> Iterator[None]:
    """What speaks TLS, or anything else, where our server was: bytes that are no HTTP."""
    listener = socket.create_server((LOOPBACK, port))

    def answer() -> None:
        while True:
            try:
                near, _ = listener.accept()
            except OSError:
                return
            near.sendall(bytes.fromhex("15030300020228"))  # a TLS alert: handshake failure (RFC 5246, 7.2)
            near.close()

    thread = threading.Thread(target=answer, daemon=True)
    thread.start()
    try:
        yield
    finally:
        listener.shutdown(socket.SHUT_RDWR)
        listener.close()
        thread.join(5)


@contextmanager
def refused(_port: int) -> Iterator[None]:
    yield


NETWORKS = {
    "refused": refused,
    "no answer": black_hole,
    "captive portal": portal,
    "not our server": gibberish,
}


@scenario("S16", in_browser=True)
def cold_starts(small: bool) -> Iterator[Outcome]:
    """Started where the server is gone, silent, false or unreachable: the shell comes from the phone."""
    rounds = 1 if small else 20
    starts = 0
    slowest = 0.0
    with stage() as set_up, chromium(set_up.playwright) as browser:
        pwa = small_app(set_up.space / "pwa")
        workshop = Workshop(set_up.nursery, set_up.space / "cold", pwa)
        context = browser.new_context()
        with workshop:
            page = context.new_page()
            page.goto(workshop.url)
            page.evaluate(INSTALLED)
        for _ in range(rounds):
            for name in (*NETWORKS, "offline"):
                slowest = max(slowest, _cold_start(context, workshop, name))
                starts += 1
        with workshop:
            page.goto(workshop.url)
            page.evaluate(UPDATE)
            page.reload()
            expect(page.get_by_role("heading")).to_have_text("one one")
        context.close()
    note = f"slowest {slowest:.1f} s"
    yield Outcome("S16", "cold start on a dead or false network", starts, held=True, note=note)


def _cold_start(context: Any, workshop: Workshop, name: str) -> float:
    """The page is opened anew; milliseconds from the page's own clock, for the table."""
    network = NETWORKS.get(name, refused)
    context.set_offline(name == "offline")
    with network(workshop.port):
        page = context.new_page()
        page.goto(workshop.url + "/job/1")
        expect(page.get_by_role("heading")).to_have_text("one one")
        spent = page.evaluate("() => performance.now()")
        page.evaluate(OPEN)
        page.evaluate(NEW_JOB, {"/complaint/text": name})
        state = page.evaluate("async () => { sync.start(workbook); return sync.run(); }")
        assert state["state"] == "no_server", state
        page.close()
    context.set_offline(False)
    return float(spent) / 1000
