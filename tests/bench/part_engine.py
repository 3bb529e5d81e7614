"""The engine on the phone, in Chromium's worker, beside the server on the same bytes."""

import base64
import json
from collections.abc import Iterator
from statistics import median

from playwright.sync_api import Page

import calc
from tests.bench import road
from tests.bench.part_calc import full_job
from tests.bench.rows import at_most, in_turn, ratio
from tests.browser.machines import opened_page
from tests.full.registry import Row

TIMES, FEW_TIMES = 7, 1
TIMES_THE_SERVER = 4
JUDGED_WITHIN_MS = 200

READY = """async ([log, job]) => {
  const { engine } = await import("/engine/engine.js");
  self.engine = engine;
  self.log = Uint8Array.from(atob(log), (sign) => sign.charCodeAt(0)).buffer;
  self.job = JSON.parse(job);
  await engine.judgeText(self.job);
}"""
READ = """async () => {
  const began = performance.now();
  const { rows } = await self.engine.readLog(self.log, {}, {});
  return [performance.now() - began, rows];
}"""
JUDGE = """async (job) => {
  const document = job ? JSON.parse(job) : self.job;
  const began = performance.now();
  await self.engine.judgeText(document);
  return [performance.now() - began, 0];
}"""


def rows(small: bool) -> Iterator[Row]:
    """Small: a short log, one round."""
    times, count = (FEW_TIMES, road.FEW_ROWS) if small else (TIMES, road.ROWS)
    data, full = road.log(count), full_job()
    document = road.job(calc.read_log(data)["channels"])
    whole = road.text_of(document)
    read, judged = in_turn(times, lambda: calc.read_log(data), lambda: calc.judge_text(whole))
    with opened_page() as page:
        page.evaluate(READY, [base64.b64encode(data).decode(), full.decode()])
        on_phone = timed(page, times, READ)
        assert page.evaluate(READ)[1] == count
        yield ratio(
            f"read_log of {count:,} rows on the phone, beside the server", on_phone, read, TIMES_THE_SERVER
        )
        on_phone = timed(page, times, JUDGE, json.dumps(document))
        yield ratio("its job judged from text to text", on_phone, judged, TIMES_THE_SERVER)
        on_phone = timed(page, times, JUDGE)
    yield at_most("a car with every test and 2 logged runs judged", on_phone * 1000, JUDGED_WITHIN_MS, "ms")


def timed(page: Page, times: int, question: str, given: str | None = None) -> float:
    """Median seconds, a first round left out."""
    page.evaluate(question, given)
    return float(median(page.evaluate(question, given)[0] for _ in range(times))) / 1000
