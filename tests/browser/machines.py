"""What the browser's tests start and end: a server and a phone, each a process known by its pid."""

import os
import re
import shutil
import signal
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

from playwright.sync_api import BrowserContext, Error, Page, Playwright, sync_playwright

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
        with suppress(Error):  # what still waited for an answer of the browser gets none
            self.close()
        self.context = None
        (self.profile / "SingletonLock").unlink(missing_ok=True)

    def close(self) -> None:
        if self.context is not None:
            self.context.close()
            self.context = None


@contextmanager
def opened_page() -> Iterator[Page]:
    """A blank page of a server with nothing in it, for runs outside pytest."""
    with opened_pages(1) as (page,):
        yield page


@contextmanager
def opened_pages(count: int) -> Iterator[list[Page]]:
    """Blank pages of one such server, each in a browser profile of its own."""
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        server = Server(Path(folder) / "data")
        server.start()
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        try:
            pages = [browser.new_context(**PHONE).new_page() for _ in range(count)]
            for page in pages:
                page.goto(server.url + BLANK)
            yield pages
        finally:
            browser.close()
            server.stop()
