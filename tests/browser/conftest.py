"""A real Chromium against a real server: both are processes that the test starts, ends and kills by pid."""

import os
import re
import shutil
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Playwright, sync_playwright

ROOT = Path(__file__).resolve().parents[2]
CHROMIUM = "/usr/bin/chromium"
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
PHONE: dict[str, Any] = {"viewport": {"width": 390, "height": 844}, "has_touch": True, "locale": "en-GB"}
# A page of our origin with nothing on it: modules are imported into it by the test.
BLANK = "/health"


# The command line serves the app in this repository; a test that changes the app's files serves its own copy.
SERVE_COPY = """
import sys
from pathlib import Path
import api.app
from api import server
create_app = api.app.create_app
server.create_app = lambda data: create_app(data, pwa=Path(sys.argv[3]))
server.serve(sys.argv[1], int(sys.argv[2]), demo=False)
"""


class Server:
    """The workshop's server as a process; it keeps its port and its data when it is started again."""

    def __init__(self, data: Path, pwa: Path | None = None, demo: bool = False) -> None:
        self.data = data
        self.pwa = pwa
        self.demo = demo
        self.prelude = ""
        self.port = 0
        self.process: subprocess.Popen[str] | None = None

    @property
    def url(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    def start(self) -> None:
        self.process = subprocess.Popen(self._command(), cwd=ROOT, stdout=subprocess.PIPE, text=True)
        assert self.process.stdout is not None
        line = self.process.stdout.readline()
        found = re.search(r"http://127\.0\.0\.1:(\d+)", line)
        if not found:
            self.stop()
            raise RuntimeError(f"the server did not start: {line!r}")
        self.port = int(found[1])

    def _command(self) -> list[str]:
        if self.pwa:
            script = self.prelude + SERVE_COPY
            return [sys.executable, "-c", script, str(self.data), str(self.port), str(self.pwa)]
        options = ["--demo" if self.demo else "--no-demo", "--port", str(self.port), "--data", str(self.data)]
        return [sys.executable, "-m", "api", *options]

    def stop(self) -> None:
        if self.process is None:
            return
        self.process.send_signal(signal.SIGKILL)
        self.process.communicate()
        self.process = None

    def restore(self, copy: Path) -> None:
        """Puts an older copy of the data back, as an owner would from a backup."""
        self.stop()
        shutil.rmtree(self.data)
        shutil.copytree(copy, self.data)
        self.start()


class Phone:
    """One phone: a browser with a profile on disk, which survives the end of its process."""

    def __init__(self, playwright: Playwright, profile: Path, url: str) -> None:
        self.playwright = playwright
        self.profile = profile
        self.url = url
        self.context: BrowserContext | None = None

    def open(self, path: str = BLANK) -> Page:
        """Starts the browser if it is not running, and opens a page of the server."""
        if self.context is None:
            self.context = self.playwright.chromium.launch_persistent_context(
                str(self.profile), executable_path=CHROMIUM, args=FLAGS, **PHONE
            )
        page = self.context.new_page()
        page.goto(self.url + path)
        return page

    def kill(self) -> None:
        """SIGKILL to the browser process: no page gets a word in. Chromium's lock in the profile names it."""
        pid = int(os.readlink(self.profile / "SingletonLock").rpartition("-")[2])
        os.kill(pid, signal.SIGKILL)
        self.close()
        (self.profile / "SingletonLock").unlink(missing_ok=True)

    def close(self) -> None:
        if self.context is not None:
            self.context.close()
            self.context = None


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
