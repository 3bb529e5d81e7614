"""The engine's second start: Python as the phone kept it, or from its files where that is of no use."""

from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page

import calc
from api import demo

# What the worker kept, once it is whole: that comes a moment after the engine is ready.
KEPT = """async () => {
  const cache = await caches.open("teepiece-started");
  for (;;) {
    const requests = await cache.keys();
    if (requests.length > 1) throw new Error("two are kept");
    const kept = requests.length ? await cache.match(requests[0]) : undefined;
    if (kept && (await kept.arrayBuffer()).byteLength > 1_000_000) return new URL(requests[0].url).pathname;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}"""
JUDGED = """async (job) => {
  const { engine } = await import("/engine/engine.js");
  let version = null;
  engine.onState((state) => { version = state.version ?? version; });
  const text = await engine.judgeText(job);
  return [version, text];
}"""
VERSION = """async () => {
  const { engine } = await import("/engine/engine.js");
  return new Promise((resolve) => {
    engine.onState(({ state, version }) => state === "ready" && resolve(version));
    engine.start();
  });
}"""
# Python with another `calc`, kept as if the worker had kept it.
KEEP_ANOTHER = """async (key) => {
  const { loadPyodide } = await import("/vendor/pyodide/pyodide.mjs");
  const python = await loadPyodide({ indexURL: "/vendor/pyodide/", _makeSnapshot: true });
  python.runPython(`
import sys, types
sys.modules["calc"] = types.ModuleType("calc")
sys.modules["calc"].VERSION = "as it was kept"
sys.modules["calc"].read_log = None
`);
  const cache = await caches.open("teepiece-started");
  await cache.put(key, new Response(python.makeMemorySnapshot()));
}"""
SPOIL = """async (key) => {
  await (await caches.open("teepiece-started")).put(key, new Response(new Uint8Array(1000)));
}"""


@pytest.fixture
def started(new_page: Callable[..., Page], standing_server: Any) -> tuple[Page, str, list[str]]:
    """A page whose engine was started once: the page, what was kept, and what the engine said."""
    page = new_page(standing_server)
    said = page.evaluate(JUDGED, demo.document())
    key = page.evaluate(KEPT)
    page.reload()
    return page, key, said


def test_the_next_start_takes_up_what_was_kept(started: tuple[Page, str, list[str]]) -> None:
    page, key, said = started
    assert said[0] == calc.VERSION
    assert page.evaluate(JUDGED, demo.document()) == said
    page.evaluate(KEEP_ANOTHER, key)
    page.reload()
    assert page.evaluate(VERSION) == "as it was kept"


def test_what_is_spoiled_is_made_anew(started: tuple[Page, str, list[str]]) -> None:
    page, key, said = started
    page.evaluate(SPOIL, key)
    assert page.evaluate(JUDGED, demo.document()) == said
    assert page.evaluate(KEPT) == key
