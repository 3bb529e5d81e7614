"""A phone in real Chromium over HTTPS under the workshop's name, from the first run to no server at all.

The authority is trusted through Chromium's own certificate store (NSS), as a person trusts it on a phone.
"""

import os
import re
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Error, Page, Playwright, expect

from tests.browser.conftest import CHROMIUM, FLAGS, PHONE, ROOT
from tests.security.test_serving import free_port

HOST = "garage.home.arpa"
PASSWORD = "seven odd spanners hum"
CODE = re.compile(r"with the code (\S+)")
INSTALLED = (
    "async () => { await navigator.serviceWorker.ready; return Boolean(navigator.serviceWorker.controller); }"
)
SESSION = "() => fetch('/api/session').then((answer) => answer.json())"


class Served:
    """`python3 -m api serve` in a process, with what it said at its start."""

    def __init__(self, data: Path) -> None:
        self.data, self.port = data, free_port()
        ports = ["--https-port", str(self.port), "--plain-port", str(free_port())]
        options = ["--address", HOST, "--listen", "127.0.0.1", "--data", str(data), *ports]
        command = [sys.executable, "-m", "api", "serve", *options]
        self.process = subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, text=True)
        assert self.process.stdout
        said = iter(self.process.stdout.readline, "")
        self.code = next(found[1] for line in said if (found := CODE.search(line)))

    @property
    def origin(self) -> str:
        return f"https://{HOST}:{self.port}"

    def stop(self) -> None:
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGTERM)
            self.process.communicate(timeout=30)


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    server = Served(tmp_path_factory.mktemp("served") / "data")
    yield server
    server.stop()


@pytest.fixture(scope="module")
def open_browser(
    playwright: Playwright, served: Served, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Callable[[bool], BrowserContext]]:
    """Starts a browser with a certificate store of its own, in which the authority is trusted or not."""
    with ExitStack() as opened:

        def start(trusts: bool) -> BrowserContext:
            home = tmp_path_factory.mktemp("home")
            if trusts:
                trust(home, served.data / "certificates" / HOST / "authority.pem")
            rules = f"--host-resolver-rules=MAP {HOST} 127.0.0.1"
            context = playwright.chromium.launch_persistent_context(
                str(home / "profile"),
                executable_path=CHROMIUM,
                args=[*FLAGS, rules],
                env=os.environ | {"HOME": str(home)},
                **PHONE,
            )
            opened.callback(context.close)
            return context

        yield start


def trust(home: Path, authority: Path) -> None:
    store = home / ".pki/nssdb"
    store.mkdir(parents=True)
    in_store = ["certutil", "-d", f"sql:{store}"]
    subprocess.run([*in_store, "-N", "--empty-password"], check=True)
    subprocess.run([*in_store, "-A", "-t", "C,,", "-n", "workshop", "-i", str(authority)], check=True)


def watch(page: Page) -> list[str]:
    """What the content policy refuses, as the console tells it."""
    refused: list[str] = []
    page.on(
        "console", lambda line: refused.append(line.text) if "Content Security Policy" in line.text else None
    )
    return refused


def test_without_trust_the_workshop_is_refused(
    open_browser: Callable[[bool], BrowserContext], served: Served
) -> None:
    page = open_browser(False).new_page()
    with pytest.raises(Error, match="ERR_CERT_AUTHORITY_INVALID"):
        page.goto(f"{served.origin}/health")


def test_from_the_first_run_to_a_phone_with_no_server(
    open_browser: Callable[[bool], BrowserContext], served: Served
) -> None:
    office = open_browser(True).new_page()
    refused = watch(office)
    set_up(office, served)
    code = make_code(office)

    phone = open_browser(True).new_page()
    refused_on_phone = watch(phone)
    phone.goto(f"{served.origin}/pair#{code}")
    phone.get_by_label("This phone's name").fill("Robin's phone")
    phone.get_by_role("button", name="Pair this phone").click()
    phone.wait_for_url(f"{served.origin}/**")
    expect(phone.get_by_role("heading").first).to_be_visible()
    assert phone.evaluate(SESSION)["phone"]["name"] == "Robin's phone"
    assert phone.evaluate("() => isSecureContext") is True
    phone.evaluate(INSTALLED)

    office.goto(f"{served.origin}/office/phones")
    row = office.get_by_role("row").filter(has_text="Robin's phone")
    expect(row).to_have_count(1)
    expect(row).not_to_contain_text("never")

    served.stop()
    heading = phone.get_by_role("heading").first.inner_text()
    phone.goto(served.origin)
    expect(phone.get_by_role("heading").first).to_have_text(heading)
    assert phone.evaluate("() => Boolean(navigator.serviceWorker.controller)")
    assert refused + refused_on_phone == []


def set_up(page: Page, served: Served) -> None:
    page.goto(f"{served.origin}/office/jobs")
    page.get_by_label("Code printed by the server").fill(served.code)
    page.get_by_label("Workshop's name").fill("Hill Lane Garage")
    page.get_by_label("Your name").fill("Robin")
    page.get_by_label("Password", exact=True).fill(PASSWORD)
    page.get_by_label("Password once more").fill(PASSWORD)
    page.get_by_role("button", name="Set the workshop up").click()
    expect(page.get_by_role("heading", name="Phones")).to_be_visible()


def make_code(page: Page) -> str:
    page.get_by_role("button", name="Make a code").click()
    code = page.locator(".secret").inner_text()
    assert re.fullmatch(r"[2-9A-Z]{4}-[2-9A-Z]{4}", code)
    return code
