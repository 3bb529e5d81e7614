"""The app on a phone four times slower: its size, its start with no network, a touch, the engine's start."""

import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from statistics import median
from typing import Any

from playwright.sync_api import BrowserContext, Page, Playwright, sync_playwright

import calc
from api import release
from api.shelf import Shelf
from tests.bench import road
from tests.bench.phone import SLOWER, installed, profile, slowed, touch, workshop_and_phone
from tests.bench.rows import at_most, spread
from tests.browser.machines import BLANK, ROOT, Server
from tests.full.registry import Row

SHELL_KB, START_MS, KEPT_MS, TASK_MS, ENGINE_MS, FRAME_MS = 300, 1000, 50, 100, 8000, 16
CHART = ("vendor/chartjs/",)
PATIENCE_S = 120


@dataclass(frozen=True)
class Size:
    """How often each thing is measured, how long the log is, and how much slower the phone."""

    starts: int
    touches: int
    boots: int
    moves: int
    rows: int
    slower: int


WHOLE = Size(starts=7, touches=40, boots=3, moves=60, rows=road.ROWS, slower=SLOWER)
SMALL = Size(starts=1, touches=1, boots=1, moves=1, rows=road.FEW_ROWS, slower=1)

# What the page notes of itself: usable when the job's next step can be touched, in the frame that shows it.
WATCH_START = """
self.noted = { tasks: [], usable: null, ready: null };
new PerformanceObserver((list) => {
  for (const { startTime, duration } of list.getEntries()) self.noted.tasks.push([startTime, duration]);
}).observe({ type: "longtask", buffered: true });
const look = () => {
  const shown = document.querySelector("footer .main") && document.querySelector(".air-line path");
  if (!shown) return requestAnimationFrame(look);
  const { port1, port2 } = new MessageChannel();
  port1.onmessage = () => { self.noted.usable = performance.now(); };
  requestAnimationFrame(() => port2.postMessage(null));
};
addEventListener("DOMContentLoaded", () => {
  look();
  new MutationObserver(() => {
    const lines = [...document.querySelectorAll("p.hint")];
    const isReady = lines.some((line) => line.textContent.includes("ready without signal"));
    if (isReady) self.noted.ready ??= performance.now();
  }).observe(document.querySelector("#app"), { subtree: true, childList: true, characterData: true });
});
"""

# From the finger's leaving the screen to the word in the page, and to the frame that shows it.
WATCH_TOUCH = """() => {
  self.kept = [];
  const said = () => document.querySelector(".kept p")?.textContent ?? "";
  let [before, lifted] = [null, 0];
  addEventListener("pointerup", (event) => {
    if (event.target.closest(".keep")) [before, lifted] = [said(), event.timeStamp];
  }, true);
  new MutationObserver(() => {
    if (before === null || said() === before || !said().startsWith("kept")) return;
    before = null;
    const inPage = performance.now() - lifted;
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => self.kept.push([inPage, performance.now() - lifted]);
    requestAnimationFrame(() => port2.postMessage(null));
  }).observe(document.querySelector("#app"), { subtree: true, childList: true, characterData: true });
}"""

# The worker's own file, started on the page: the throttle does not reach workers.
STARTED = "teepiece-started"  # as in pwa/engine/worker.js
BOOT = """() => new Promise((resolve, reject) => {
  const began = performance.now();
  addEventListener("message", ({ data }) => {
    if (data.kind === "ready") resolve(performance.now() - began);
    if (data.kind === "failed") reject(new Error(data.says));
  }, { once: true });
  import("/engine/worker.js");
})"""

KEEP_LOG = """async ([text, columns]) => {
  const { openWorkbook } = await import("/store/workbook.js");
  const workbook = await openWorkbook();
  const id = await workbook.newJob({ places: { "/site/barometric_kpa_abs": 101.3 } });
  return [id, await workbook.job(id).keepLog(new TextEncoder().encode(text).buffer, columns)];
}"""


def rows(small: bool) -> Iterator[Row]:
    """Small: each thing once, a short log."""
    size = SMALL if small else WHOLE
    yield at_most(
        "shell, compressed, without engine and chart",
        shell_kb(),
        SHELL_KB,
        "KB",
        more=f"{shell_files()} files",
    )
    with sync_playwright() as playwright, workshop_and_phone(playwright) as (server, context, folder):
        page = installed(server, context)
        job = first_job(page)
        yield kept_row(page, server, job, size)
        yield from boot_rows(context, server, size)
        yield pan_row(context, server, size)
        server.stop()
        context.close()
        yield from start_rows(playwright, folder, server, job, size)


def shell() -> tuple[Any, ...]:
    """The shell's files without the chart."""
    books = release.current(Shelf(ROOT / "pwa"), ROOT / "calc").shell
    return tuple(book for book in books if not book.name.startswith(CHART))


def shell_files() -> int:
    return len(shell())


def shell_kb() -> float:
    """What a browser fetches of them: brotli where it helps, as the server sends it."""
    return sum(len(book.brotli if book.compressible else book.data) for book in shell()) / 1000


def first_job(page: Page) -> str:
    """Opens the demo's job; its id."""
    page.locator("ul.jobs a").first.click()
    page.locator(".air-line path").first.wait_for(state="attached")
    return str(page.evaluate("location.hash")).split("/")[2]


def kept_row(page: Page, server: Server, job: str, size: Size) -> Row:
    """Readings on the actuator's pad, one after the other, while the workshop is in reach."""
    page.goto(f"{server.url}/#/job/{job}/actuator")
    page.locator("button.reading").first.wait_for()
    page.wait_for_timeout(3000)
    session = slowed(page, size.slower)
    page.evaluate(WATCH_TOUCH)
    for number in range(size.touches):
        if not page.locator("#pad-line").count():
            page.locator("button.reading").first.click()
        for digit in f"{number + 10}":
            page.locator(f'[data-key="key {digit}"]').click()
        page.wait_for_timeout(400)
        touch(session, page, ".keep")
        wait_until(page, f"self.kept.length > {number}")
    session.detach()
    in_page, shown = zip(*page.evaluate("self.kept"), strict=True)
    page.close()
    more = f"{spread(in_page)}; the frame that shows it {median(shown):.0f} ms"
    return at_most(
        f"finger lifted to *kept* in the page, CPU ÷ {size.slower}", median(in_page), KEPT_MS, "ms", more=more
    )


def boot_rows(context: BrowserContext, server: Server, size: Size) -> Iterator[Row]:
    """From its files, as on the first start and after each release; and as the last start left it."""
    for what, first in (("from its files", True), ("as the last start left it", False)):
        found = [booted(context, server, size, first=first) for _ in range(size.boots)]
        name = f"engine ready on a page {what}, CPU ÷ {size.slower}"
        yield at_most(name, median(found), ENGINE_MS, "ms", more=spread(found))


def booted(context: BrowserContext, server: Server, size: Size, *, first: bool) -> float:
    """Milliseconds until it is ready; `first`: nothing is left of an earlier start."""
    page = context.new_page()
    page.goto(server.url + BLANK)
    if first:
        page.evaluate("(name) => caches.delete(name)", STARTED)
    slowed(page, size.slower)
    took = float(page.evaluate(BOOT))
    wait_until(page, f"caches.open('{STARTED}').then((kept) => kept.keys()).then((all) => all.length > 0)")
    page.close()
    return took


def pan_row(context: BrowserContext, server: Server, size: Size) -> Row:
    """Script in each frame while a finger drags the chart of the hour's log."""
    data = road.log(size.rows)
    wish = {
        guess["channel"]: {key: guess[key] for key in ("column", "unit", "kind") if guess[key]}
        for guess in calc.read_log(data)["guesses"]
        if guess["channel"] != "t_s"
    }
    page = context.new_page()
    page.goto(server.url + BLANK)
    job, run = page.evaluate(KEEP_LOG, [data.decode(), wish])
    page.goto(f"{server.url}/#/job/{job}/road/{run}/chart")
    page.locator(".run-chart canvas").wait_for(timeout=PATIENCE_S * 1000)
    page.get_by_role("button", name="Pull 1", exact=True).click()
    page.wait_for_timeout(1500)
    session = slowed(page, size.slower)
    session.send("Performance.enable")
    spent = panned(page, session, size.moves)
    page.close()
    more = f"{spread(spent)} frames; {size.rows:,} rows"
    return at_most(
        f"script a frame while the chart is panned, CPU ÷ {size.slower}",
        median(spent),
        FRAME_MS,
        "ms",
        digits=1,
        more=more,
    )


def panned(page: Page, session: Any, moves: int) -> list[float]:
    """Milliseconds of script between one move of the mouse and the next."""
    box = page.locator(".run-chart").bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 3
    page.mouse.move(x, y)
    page.mouse.down()
    spent, before = [], script_ms(session)
    for move in range(moves):
        page.mouse.move(x + (60 if move % 2 else -60) + move, y)
        page.wait_for_timeout(50)
        now = script_ms(session)
        spent.append(now - before)
        before = now
    page.mouse.up()
    return spent


def script_ms(session: Any) -> float:
    metrics = session.send("Performance.getMetrics")["metrics"]
    return float(next(one["value"] for one in metrics if one["name"] == "ScriptDuration")) * 1000


def start_rows(playwright: Playwright, folder: Path, server: Server, job: str, size: Size) -> Iterator[Row]:
    """The browser started anew with no server: from the address to the job, and on until it can calculate."""
    usable, tasks, ready = [], [], []
    for _ in range(size.starts):
        context = profile(playwright, folder)
        try:
            noted = started(context.new_page(), f"{server.url}/#/job/{job}", size.slower)
        finally:
            context.close()
        usable.append(noted["usable"])
        ready.append(noted["ready"])
        tasks.append(max([0.0, *(duration for _, duration in noted["tasks"])]))
    yield at_most(
        f"offline start to a usable job, CPU ÷ {size.slower}",
        median(usable),
        START_MS,
        "ms",
        more=spread(usable),
    )
    more = f"{spread(tasks)}; ready after {median(ready):,.0f} ms"
    yield at_most(
        f"longest task while the engine starts, CPU ÷ {size.slower}", median(tasks), TASK_MS, "ms", more=more
    )


def wait_until(page: Page, happened: str) -> None:
    """Asks seldom, so that asking does not weigh; the policy of the page forbids Playwright's own way."""
    until = time.monotonic() + PATIENCE_S
    while not page.evaluate(happened):
        assert time.monotonic() < until, happened
        page.wait_for_timeout(500)


def started(page: Page, address: str, slower: int) -> dict[str, Any]:
    """What the page noted of its start; nothing is asked of it until the engine had time."""
    page.add_init_script(WATCH_START)
    slowed(page, slower)
    page.goto(address)
    wait_until(page, "self.noted.ready !== null")
    page.wait_for_timeout(1500)
    found: dict[str, Any] = page.evaluate("self.noted")
    return found
