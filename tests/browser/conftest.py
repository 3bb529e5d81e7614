"""A real Chromium against a real server: both are processes that the test starts, ends and kills by pid."""

import shutil
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, Playwright, sync_playwright

from tests.browser.machines import BLANK, CHROMIUM, FLAGS, PHONE, ROOT, Phone, Server


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    with sync_playwright() as started:
        yield started


@pytest.fixture(scope="session")
def browser(playwright: Playwright) -> Iterator[Browser]:
    started = playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
    yield started
    started.close()


@pytest.fixture(scope="session")
def standing_server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """One server for the tests that send it nothing."""
    server = Server(tmp_path_factory.mktemp("standing") / "data")
    server.start()
    yield server
    server.stop()


@pytest.fixture(scope="session")
def demo_server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """A server that holds the demo job."""
    server = Server(tmp_path_factory.mktemp("demo") / "data", demo=True)
    server.start()
    yield server
    server.stop()


@pytest.fixture
def server(tmp_path: Path) -> Iterator[Server]:
    """A server of the test's own, with nothing in it."""
    server = Server(tmp_path / "server")
    server.start()
    yield server
    server.stop()


@pytest.fixture
def small_app(tmp_path: Path) -> Path:
    """A stand-in for the app's files, small enough to change; service worker and store are the real ones."""
    folder = tmp_path / "pwa"
    folder.mkdir()
    for name in ("sw.js", "shell.js"):
        shutil.copy(ROOT / "pwa" / name, folder)
    for name in ("store", "engine"):
        shutil.copytree(ROOT / "pwa" / name, folder / name)
    (folder / "index.html").write_text(
        '<!doctype html><html lang="en"><title>app</title><h1></h1>'
        '<script type="module" src="/app.js"></script>'
    )
    (folder / "app.js").write_text(
        'import { release } from "/shell.js";\n'
        'import { version } from "/version.js";\n'
        "self.release = release;\n"
        'self.ready = new Promise((resolve) => release.onReady(() => resolve("ready")));\n'
        "release.start();\n"
        'document.querySelector("h1").textContent = version;\n'
    )
    (folder / "version.js").write_text('export const version = "release one";\n')
    engine = folder / "vendor/pyodide"
    engine.mkdir(parents=True)
    (engine / "first.wasm").write_bytes(b"\0asm" + bytes(200_000))
    (engine / "second.json").write_text('{"small": true}')
    return folder


@pytest.fixture
def small_server(tmp_path: Path, small_app: Path) -> Iterator[Server]:
    """A server of the small app."""
    server = Server(tmp_path / "server", small_app)
    server.start()
    yield server
    server.stop()


@pytest.fixture
def new_page(browser: Browser) -> Iterator[Callable[[Server], Page]]:
    """Opens a blank page of a server in a browser profile of its own, kept nowhere."""
    with ExitStack() as opened:

        def new(server: Server, path: str = BLANK) -> Page:
            context = browser.new_context(**PHONE)
            opened.callback(context.close)
            page = context.new_page()
            page.goto(server.url + path)
            return page

        yield new


@pytest.fixture
def new_phone(playwright: Playwright, tmp_path: Path) -> Iterator[Callable[[Server], Phone]]:
    """Makes phones whose browser can be killed and started again."""
    with ExitStack() as opened:

        def new(server: Server) -> Phone:
            phone = Phone(playwright, tmp_path / f"phone{len(list(tmp_path.glob('phone*')))}", server.url)
            opened.callback(phone.close)
            return phone

        yield new
