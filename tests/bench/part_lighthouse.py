"""Lighthouse on job list, air line and a test page: the one place that uses npm, never part of the check.

Node 22 and Lighthouse are fetched into the user's cache on the first run; both versions are pinned here.
"""

import json
import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from pathlib import Path
from statistics import median
from typing import Any

from playwright.sync_api import sync_playwright

from tests.bench.phone import installed, workshop_and_phone
from tests.browser.machines import CHROMIUM, FLAGS
from tests.browser.test_https import HOST, Served, make_code, set_up, trust
from tests.full.registry import Row

PACKAGES = ["node@22.23.3", "lighthouse@13.5.0"]
CATEGORIES = {"performance": 95, "accessibility": 100, "best-practices": 100}
TIMES = 3
WITHIN_S = 300


def rows(small: bool) -> Iterator[Row]:
    """Mobile, as Lighthouse simulates a slow phone on a slow line. Small: only whether npm is there."""
    if small:
        yield Row("npm, which fetches Lighthouse", shutil.which("npm") or "is not here", "none", holds=True)
        return
    modules = fetched()
    yield from first_visit(modules)
    with sync_playwright() as playwright, workshop_and_phone(playwright) as (server, context, folder):
        page = installed(server, context)
        page.locator("ul.jobs a").first.click()
        page.locator(".air-line path").first.wait_for(state="attached")
        job = str(page.evaluate("location.hash")).split("/")[2]
        page.wait_for_timeout(3000)
        context.close()
        places = {"job list": "/", "air line": f"/#/job/{job}", "test page": f"/#/job/{job}/actuator"}
        for name, place in places.items():
            flags = [*FLAGS, f"--user-data-dir={folder}"]
            found = [run(modules, server.url + place, flags, keep=True) for _ in range(TIMES)]
            yield row(f"{name}, on a phone that has the app", found)


def first_visit(modules: Path) -> Iterator[Row]:
    """The job list in a browser that has nothing of the app yet, signed in, over HTTPS and HTTP/2."""
    with tempfile.TemporaryDirectory() as folder:
        served, home = Served(Path(folder) / "data"), Path(folder) / "home"
        try:
            trust(home, served.data / "certificates" / HOST / "authority.pem")
            rules = f"MAP {HOST} 127.0.0.1"
            paired(served, home, rules)
            flags = [*FLAGS, f"--user-data-dir={home / 'profile'}", f"--host-resolver-rules='{rules}'"]
            found = [run(modules, served.origin + "/", flags, home=home) for _ in range(TIMES)]
        finally:
            served.stop()
    yield row("job list, first visit over HTTPS", found)


def paired(served: Served, home: Path, rules: str) -> None:
    """The workshop's first run, made in this browser, then paired; Lighthouse empties its caches."""
    with sync_playwright() as playwright:
        context = playwright.chromium.launch_persistent_context(
            str(home / "profile"),
            executable_path=CHROMIUM,
            args=[*FLAGS, f"--host-resolver-rules={rules}"],
            env=os.environ | {"HOME": str(home)},
        )
        page = context.new_page()
        set_up(page, served)
        page.goto(f"{served.origin}/pair#{make_code(page)}")
        page.get_by_label("This phone's name").fill("a phone")
        page.get_by_role("button", name="Pair this phone").click()
        page.locator("footer .main").wait_for()
        context.close()


def row(name: str, found: list[dict[str, Any]]) -> Row:
    """Medians of the scores, and what the slow phone would have seen."""
    scores = {
        name: round(100 * median(one["categories"][name]["score"] for one in found)) for name in CATEGORIES
    }
    seen = median(one["audits"]["largest-contentful-paint"]["numericValue"] for one in found) / 1000
    blocked = median(one["audits"]["total-blocking-time"]["numericValue"] for one in found)
    measured = (
        f"{' / '.join(map(str, scores.values()))} (largest paint {seen:.1f} s, blocked {blocked:.0f} ms)"
    )
    required = " / ".join(map(str, CATEGORIES.values()))
    holds = all(scores[name] >= bar for name, bar in CATEGORIES.items())
    return Row(f"{name}: {' / '.join(CATEGORIES)}", measured, f"at least {required}", holds)


def fetched() -> Path:
    """The folder of npm's modules, filled on the first run."""
    cache = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "teepiece" / "lighthouse"
    cache.mkdir(parents=True, exist_ok=True)
    quiet = ["--no-audit", "--no-fund", "--loglevel=error", "--save-exact"]
    subprocess.run(
        ["npm", "install", "--prefix", str(cache), *quiet, *PACKAGES], check=True, stdout=subprocess.DEVNULL
    )
    return cache / "node_modules"


def run(
    modules: Path, address: str, flags: list[str], *, keep: bool = False, home: Path | None = None
) -> dict[str, Any]:
    """One report; `keep` leaves the phone's storage as it is."""
    command = [
        str(modules / "node/bin/node"),
        str(modules / "lighthouse/cli/index.js"),
        address,
        "--output=json",
        "--quiet",
        "--no-enable-error-reporting",
        f"--only-categories={','.join(CATEGORIES)}",
        f"--chrome-flags={' '.join(['--headless=new', *flags])}",
        *(["--disable-storage-reset"] if keep else []),
    ]
    surroundings = os.environ | {"CHROME_PATH": CHROMIUM} | ({"HOME": str(home)} if home else {})
    done = subprocess.run(command, env=surroundings, check=True, capture_output=True, timeout=WITHIN_S)
    found: dict[str, Any] = json.loads(done.stdout)
    return found
