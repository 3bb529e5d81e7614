"""A log taken in on the phone with no network: columns seen and corrected, its file kept, its run drawn."""

import hashlib
import json
import math
import random
import re
import urllib.request
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Locator, Page, expect

import calc
from tests.browser.conftest import Server
from tests.browser.technician import Technician
from tests.browser.test_engine_door import STAND_IN
from tests.calc.drives import Drive, drive
from tests.calc.logs.dialects import Dialect, Rendered, render

AIR_KPA = 101.3
ENGINE_MS = 60_000

NEW_JOB = """async (places) => {
  const { openWorkbook } = (await import("/packed.js")).modules["store/workbook.js"];
  const workbook = await openWorkbook();
  const id = await workbook.newJob({ places });
  const gauge = { kind: "analogue", span_kpa: [0, 400], class_pct: 1.6, division_kpa: 10 };
  await workbook.job(id).add("/gauges", gauge);
  return id;
}"""
READ_GAUGE = """async ([id, run, reading]) => {
  const { openWorkbook } = (await import("/packed.js")).modules["store/workbook.js"];
  const job = (await openWorkbook()).job(id);
  await job.add(`/tests/road/${run}/readings`, { gauge: job.document.gauges[0].id, ...reading });
}"""
DOCUMENT = """async (id) => {
  const { openWorkbook } = (await import("/packed.js")).modules["store/workbook.js"];
  return (await openWorkbook()).job(id).document;
}"""
VERDICT = """async (id) => {
  const { openWorkbook } = (await import("/packed.js")).modules["store/workbook.js"];
  const { engine } = (await import("/packed.js")).modules["engine/engine.js"];
  const workbook = await openWorkbook();
  engine.logsFrom((name) => workbook.logBytes(name));
  return engine.judgeText(workbook.job(id).document, { unit: "bar", language: "en" });
}"""
UNDO = """async (id) => {
  const { openWorkbook } = (await import("/packed.js")).modules["store/workbook.js"];
  await (await openWorkbook()).job(id).undo();
}"""
SYNCED = """async () => {
  const { sync } = (await import("/packed.js")).modules["store/sync.js"];
  const { unsent } = await sync.run();
  return unsent;
}"""


def log_of(how: Dialect, **drove: Any) -> Rendered:
    channels = drive(Drive(seed=5, error=26.0, duty=4.0, **drove))
    return render(channels, how, air_kpa=AIR_KPA, litres=1.8, cylinders=4)


ENGLISH = log_of(Dialect(language="en"))
GERMAN = log_of(
    Dialect(
        language="de", delimiter=";", comma=True, encoding="cp1252", words_in_cells=0.004, extra=1, repeats=3
    )
)


def offline_job(page: Page, *, starts_again: bool = False) -> str:
    """Waits for the engine, opens a job with a gauge, and takes the network away."""
    expect(page.locator(".engine-state")).to_contain_text("ready without signal", timeout=ENGINE_MS)
    job: str = page.evaluate(NEW_JOB, {"/site/barometric_kpa_abs": AIR_KPA})
    page.context.set_offline(True)
    if starts_again:
        page.reload()
    return job


def go(page: Page, *place: str) -> None:
    page.evaluate("(place) => { location.hash = place; }", "#/" + "/".join(("job", *place)))


def pick(page: Page, file: Path, data: bytes) -> None:
    file.write_bytes(data)
    page.locator("#log-file").set_input_files(file)


def column(page: Page, channel: str) -> Locator:
    return page.locator(f'[data-key="column {channel}"]')


def channels_of(document: dict[str, Any], data: bytes) -> Any:
    """What either side reads from the file by the columns that the job holds."""
    whole = calc.with_logs(document, lambda name, wish: calc.read_log(data, **json.loads(wish)))
    return whole["tests"]["road"][0]["channels"]


def run_at(page: Page) -> str:
    return str(page.evaluate("location.hash")).split("/")[4]


def refuses_a_spreadsheet(page: Page, folder: Path) -> None:
    pick(page, folder / "book.xls", b"PK\x03\x04" + bytes(90))
    told = page.get_by_role("alert")
    expect(told).to_contain_text("spreadsheet or archive", timeout=ENGINE_MS)
    assert "\n" not in told.inner_text()


def shows_the_columns(page: Page, hand: Technician, folder: Path) -> None:
    pick(page, folder / "fahrt.csv", GERMAN.data)
    said = column(page, "boost_actual_kpa_abs").locator("summary")
    expect(said).to_contain_text("Ladedruck Istwert [mbar] \u00b7 mbar absolute", timeout=ENGINE_MS)
    first = [f"{value / 100:.3f}" for value in GERMAN.channels["boost_actual_kpa_abs"][:3] if value]
    for figure in first:
        expect(said).to_contain_text(figure)
    expect(said).to_contain_text(re.compile(r"(sure|likely) \u00b7 \d+ %"))
    for what in (
        "3 rows",
        "the same time again",
        "text in a number cell",
        "not one of the channels compared here",
    ):
        hand.sees(what)


def lets_columns_be_corrected(page: Page) -> None:
    throttle = column(page, "throttle_pct")
    throttle.locator("summary").click()
    throttle.get_by_label("Column in the log").select_option("")
    expect(throttle).to_have_count(0)
    column(page, "pedal_pct").locator("summary").click()
    column(page, "pedal_pct").get_by_label("Column in the log").select_option("Drosselklappenwinkel [%]")
    expect(column(page, "pedal_pct")).to_contain_text("as you said")
    column(page, "pedal_pct").get_by_label("Column in the log").select_option("Fahrpedalstellung [%]")
    expect(column(page, "pedal_pct").locator("summary")).to_contain_text("Fahrpedalstellung [%]")


def keeps_the_file_by_its_hash(document: dict[str, Any]) -> None:
    """Either side reads the run from the file: every column but the one that was left out by hand."""
    (kept,) = document["tests"]["road"]
    assert kept["log"]["sha256"] == hashlib.sha256(GERMAN.data).hexdigest()
    assert "channels" not in kept
    read = channels_of(document, GERMAN.data)
    assert "throttle_pct" not in read
    assert read == {
        name: values
        for name, values in calc.read_log(GERMAN.data)["channels"].items()
        if name != "throttle_pct"
    }


def draws_the_run(page: Page, hand: Technician, job: str, run: str, document: dict[str, Any]) -> None:
    """Pulls, gauge with its doubt, and the figures under a touch; the table says the same."""
    page.evaluate(
        READ_GAUGE, [job, run, {"at": "charge_circuit", "p_kpa": 146, "pull": 2, "engine_rpm": 3500}]
    )
    go(page, job, "road", run)
    hand.tap("Chart of the log")
    expect(page.locator(".run-chart canvas")).to_be_visible(timeout=ENGINE_MS)
    hand.tap("Pull 2")
    drawn = calc.run_shown(calc.with_logs(document, reader(GERMAN.data)), run)
    assert drawn is not None
    start = channels_of(document, GERMAN.data)["t_s"][drawn["pulls"][1]["start"]]
    expect(page.locator(".run-chart")).to_have_attribute("aria-label", re.compile(f"from {start - 2:.1f} "))
    page.get_by_text("As a table").click()
    second = page.get_by_role("row", name=re.compile("^Pull 2"))
    expect(second).to_contain_text(
        "2.473 bar abs \u00b1 0.079 bar"
    )  # gauge and barometer; U of the contract's gauge
    expect(second).to_contain_text("2.21 bar abs")
    page.locator(".run-chart").click(position={"x": 200, "y": 60})
    expect(page.locator(".read-out")).to_contain_text(re.compile(r"at \d+\.\d s .*aimed 2\.21 bar abs"))


def judges_alike_at_the_workshop(page: Page, server: Server, job: str) -> None:
    on_phone = page.evaluate(VERDICT, job)
    page.context.set_offline(False)
    assert page.evaluate(SYNCED) == 0
    at_workshop = urllib.request.urlopen(f"{server.url}/api/jobs/{job}/verdict?unit=bar").read().decode()
    assert on_phone == at_workshop
    findings = {finding["check"]: finding for finding in json.loads(on_phone)["findings"]}
    assert findings["road_tracking"]["outcome"] == "outside"
    assert findings["road_tracking"]["value"] == pytest.approx(26.0, abs=2.0)  # what the drive was made with


def test_a_german_log_becomes_a_run_with_no_network(
    new_page: Callable[..., Page], server: Server, tmp_path: Path
) -> None:
    page = new_page(server, "/")
    hand = Technician(page)
    job = offline_job(page, starts_again=True)
    go(page, job, "road")
    hand.tap("Take in a log")
    hand.is_at("Take in a log")
    refuses_a_spreadsheet(page, tmp_path)
    shows_the_columns(page, hand, tmp_path)
    lets_columns_be_corrected(page)
    hand.tap("Keep this run")
    hand.is_at("Run 1: the log")
    expect(page.locator(".run-chart canvas")).to_be_visible(timeout=ENGINE_MS)
    run, document = run_at(page), page.evaluate(DOCUMENT, job)
    keeps_the_file_by_its_hash(document)
    draws_the_run(page, hand, job, run, document)
    judges_alike_at_the_workshop(page, server, job)
    hand.sees("Boost is off all along the pull.")


def reader(data: bytes) -> calc.LogReader:
    return lambda name, wish: calc.read_log(data, **json.loads(wish))


def test_an_english_log_joins_the_run_whose_gauges_were_read(
    new_page: Callable[..., Page], standing_server: Server, tmp_path: Path
) -> None:
    page = new_page(standing_server, "/")
    hand = Technician(page)
    job = offline_job(page)
    go(page, job, "road")
    hand.tap("New run")
    hand.is_at("Road run 1")
    hand.tap("Take in a log for this run")
    pick(page, tmp_path / "drive.csv", ENGLISH.data)
    expect(column(page, "boost_specified_kpa_abs")).to_be_visible(timeout=ENGINE_MS)
    expect(page.locator("main")).to_contain_text("Every row and cell was used.")
    hand.tap("Keep this run")
    expect(page.locator(".run-chart canvas")).to_be_visible(timeout=ENGINE_MS)
    (run,) = page.evaluate(DOCUMENT, job)["tests"]["road"]
    assert run["id"] == run_at(page)
    assert set(run["log"]["columns"]) == set(ENGLISH.channels) - {"t_s"}
    page.evaluate(UNDO, job)
    assert "log" not in page.evaluate(DOCUMENT, job)["tests"]["road"][0]


def test_a_reading_that_is_stopped_ends_its_worker_and_leaves_the_next_question(
    new_page: Callable[..., Page], standing_server: Server
) -> None:
    page = new_page(standing_server)
    page.evaluate(STAND_IN)
    got = page.evaluate(
        """async () => {
          const stop = new AbortController();
          const log = self.engine.readLog(new ArrayBuffer(4), {}, {}, stop.signal)
            .then(() => "read", ({ kind }) => kind);
          const asked = self.ask("j1", 1);
          await self.turn();
          self.workers[0].answer("ready");
          stop.abort();
          await self.turn();
          const [first, second] = self.workers;
          second.answer("ready");
          const ways = second.questions.map(({ way }) => way);
          second.answer("verdict", 0, self.verdict("judged"));
          return { log: await log, asked: await asked, ended: [first.ended, second.ended], ways };
        }"""
    )
    assert got == {"log": "cancelled", "asked": "judged", "ended": [True, False], "ways": ["judge"]}


def test_no_peak_is_lost_by_drawing_few_points(
    new_page: Callable[..., Page], standing_server: Server
) -> None:
    values = [math.sin(row / 50) + random.Random(row).random() / 9 for row in range(20_011)]
    values[7_001], values[15_003] = 9.0, -9.0
    gap = range(12_000, 13_000)
    got = new_page(standing_server).evaluate(
        """async ({ values, gap }) => {
          const { Thinned } = await import("/parts/thinned.js");
          const times = Float64Array.from(values, (_, row) => row / 20);
          const drawn = new Thinned(times, Float64Array.from(values).fill(NaN, ...gap));
          const views = [[0, 2000], [340, 360.7], [500, 900], [749.3, 751]];
          return views.map(([from, to]) => {
            const points = drawn.points(from, to, 150);
            const inside = points.filter(({ x }) => x >= from && x <= to);
            const known = inside.map(({ y }) => y).filter((y) => !Number.isNaN(y));
            const rises = points.every(({ x }, at) => at === 0 || x > points[at - 1].x);
            const gaps = points.some(({ y }) => Number.isNaN(y));
            return { count: points.length, low: Math.min(...known), high: Math.max(...known), rises, gaps };
          });
        }""",
        {"values": values, "gap": [gap.start, gap.stop]},
    )
    for (start, end), view in zip([(0, 2000), (340, 360.7), (500, 900), (749.3, 751)], got, strict=True):
        rows = [row for row in range(len(values)) if start <= row / 20 <= end and row not in gap]
        assert view["rises"]
        assert view["count"] <= 2 * 152
        assert (view["low"], view["high"]) == (
            min(values[row] for row in rows),
            max(values[row] for row in rows),
        )
    assert [view["gaps"] for view in got] == [True, False, True, False]
