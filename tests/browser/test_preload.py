"""The page names every module at once, so that a phone need not find them one import after another."""

import re

from tests.browser.machines import ROOT

APP = ROOT / "pwa"
# The worker is a program of its own; the service worker is fetched by the browser.
APART = {"engine/worker.js", "sw.js"}


def test_every_module_of_the_app_is_named() -> None:
    named = re.findall(
        r'rel="modulepreload" href="/([^"]+)"', (APP / "index.html").read_text(encoding="utf-8")
    )
    modules = {path.relative_to(APP).as_posix() for path in APP.rglob("*.js")}
    modules = {name for name in modules if not name.startswith("vendor/")} - APART
    assert sorted(named) == sorted(modules)
