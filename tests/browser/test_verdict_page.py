"""The verdict page: what the last reading moved, what is asked first, what results would mean."""

import urllib.request
from collections.abc import Callable
from typing import Any

from playwright.sync_api import Page, expect

from tests.browser.technician import Technician

GAUGE = {"kind": "analogue", "span_kpa": [0, 400], "class_pct": 1.6, "division_kpa": 10, "read_to": "half"}
# A car whose actuator's limits are known; weights and minutes as a workshop would have set them.
PREPARE = """async (gauge) => {
  const { openWorkbook } = await import("/store/workbook.js");
  const workbook = await openWorkbook();
  const id = await workbook.newJob({ places: {
    "/vehicle/registration": "EX 2", "/complaint/text": "It boosts too hard.",
    "/boost_control/device": "wastegate", "/boost_control/actuator": "pressure",
    "/spec/actuator_start_kpa": { min: 60, max: 80 }, "/spec/actuator_full_kpa": { min: 140, max: 160 },
    "/workshop/priors": { actuator_opens_late: 1.6 }, "/workshop/minutes": { sensors_at_rest: 4 },
  } });
  await workbook.job(id).add("/gauges", gauge, { id: "g1" });
  return id;
}"""
KEEP = """async ([id, pairs]) => {
  const { openWorkbook } = await import("/store/workbook.js");
  await (await openWorkbook()).job(id).setMany(pairs);
}"""
ADD_RUN = """async (id) => {
  const { openWorkbook } = await import("/store/workbook.js");
  const job = (await openWorkbook()).job(id);
  await job.add("/tests/road", { phase: "before_repair", control: "normal" }, { id: "r1" });
  const at = { pull: 1, engine_rpm: 3500 };
  const said = { pedal_pct: 100, boost_specified_kpa_abs: 221 };
  await job.add("/tests/road/r1/readings", { ...at, gauge: "g1", p_kpa: 148 }, { id: "x1" });
  await job.add("/tests/road/r1/noted", { ...at, ...said }, { id: "x2" });
}"""
SYNCED = """async () => {
  const { openWorkbook } = await import("/store/workbook.js");
  const { sync } = (await import("/packed.js")).modules["store/sync.js"];
  await sync.run();
  const workbook = await openWorkbook();
  await workbook.fetchWorkshop();
  return workbook.workshop.judging;
}"""
ADD_GAUGE = """async ([id, gauge]) => {
  const { openWorkbook } = await import("/store/workbook.js");
  await (await openWorkbook()).job(id).add("/gauges", gauge, { id: "g2" });
}"""
VERDICT = """async (id) => {
  const { openWorkbook } = await import("/store/workbook.js");
  const { engine } = (await import("/packed.js")).modules["engine/engine.js"];
  const { document } = (await openWorkbook()).job(id);
  return { text: await engine.judgeText(document, { unit: "bar" }), workshop: document.workshop };
}"""
ACTUATOR = {
    "gauge": "g1",
    "first_movement_kpa": 96,
    "full_travel_kpa": 171,
    "linkage_free": True,
    "returns_to_stop": True,
}


def actuator(**changes: Any) -> list[list[Any]]:
    return [[f"/tests/actuator/{key}", value] for key, value in {**ACTUATOR, **changes}.items()]


def verdict_of(page: Page, server: Any, job: str) -> Technician:
    page.goto(f"{server.url}/#/job/{job}/verdict")
    hand = Technician(page)
    page.locator('footer [data-key="next test"]').wait_for(timeout=120_000)
    return hand


def test_a_reading_says_what_it_moved_and_the_next_test_what_its_results_mean(
    new_page: Callable[..., Page], standing_server: Any
) -> None:
    page = new_page(standing_server)
    job = page.evaluate(PREPARE, GAUGE)
    hand = verdict_of(page, standing_server, job)
    hand.sees("What each result would mean")
    hand.sees("That would point to:")
    hand.sees("4 min")
    hand.sees("actuator opens too late 1.6 times")
    assert page.locator('[data-key="moved"]').count() == 0
    page.evaluate(KEEP, [job, actuator()])
    moved = page.locator('[data-key="moved"]')
    expect(moved).to_have_text("Not certain before. Now proved: the actuator moves too late.", timeout=20_000)
    page.evaluate(KEEP, [job, [["/tests/exhaust_leak/soot_or_hiss", False]]])
    expect(moved).not_to_contain_text("Now proved", timeout=20_000)


def test_how_a_run_was_made_is_asked_before_it_blames(
    new_page: Callable[..., Page], standing_server: Any
) -> None:
    page = new_page(standing_server)
    job = page.evaluate(PREPARE, GAUGE)
    page.evaluate(KEEP, [job, actuator()])
    page.evaluate(ADD_RUN, job)
    page.goto(f"{standing_server.url}/#/job/{job}/verdict")
    hand = Technician(page)
    asked = page.locator('[data-key="questions"]')
    expect(asked).to_contain_text("Was the engine warm in the run?", timeout=120_000)
    expect(page.locator('[data-key="headline"]')).to_contain_text("It explains the complaint.")
    hand.choose("Was the engine warm in the run?", "no")
    expect(asked).to_contain_text("The run was made with a cold engine: it is not judged.", timeout=20_000)
    expect(page.locator('[data-key="moved"]')).to_have_text(
        "Now it is open whether it explains the complaint."
    )
    expect(page.locator('[data-key="headline"]')).to_contain_text("is not known without a road run")
    hand.choose("Was the engine warm in the run?", "yes")
    expect(page.locator('[data-key="answered"]')).to_contain_text("Asked and answered: 1", timeout=20_000)
    expect(page.locator('[data-key="headline"]')).to_contain_text("It explains the complaint.")


def test_what_the_instruments_can_show_stands_on_the_verdict(
    new_page: Callable[..., Page], standing_server: Any
) -> None:
    """Doubt of each gauge, whether two agree, and the smallest defect beside each check that measures."""
    page = new_page(standing_server)
    job = page.evaluate(PREPARE, GAUGE)
    page.evaluate(ADD_GAUGE, [job, GAUGE])
    compared = {"gauge": "g1", "other_gauge": "g2", "p_kpa": 150, "other_kpa": 175}
    pairs = [[f"/tests/gauges_compared/{key}", value] for key, value in compared.items()]
    page.evaluate(KEEP, [job, [*actuator(), *pairs]])
    page.goto(f"{standing_server.url}/#/job/{job}/verdict")
    gauges = page.locator('[data-key="gauges"]')
    gauges.wait_for(timeout=120_000)
    gauges.locator("summary").click()
    expect(gauges).to_contain_text("g1: Doubt of a reading 0.08 bar.")
    expect(gauges).to_contain_text("0.25 bar apart, more than the 0.11 bar")
    expect(page.locator(".cautions")).to_contain_text("contradict each other")
    page.locator('[data-key="findings"] summary').click()
    first = page.locator('[data-key="findings"] li', has_text="First movement").first
    expect(first).to_contain_text("would be found in 95 of 100 such tests")


def test_proved_jobs_weigh_in_the_next_job_alike_on_phone_and_server(
    new_page: Callable[..., Page], server: Any
) -> None:
    page = new_page(server)
    first = page.evaluate(PREPARE, GAUGE)
    page.evaluate(KEEP, [first, actuator()])
    page.goto(f"{server.url}/")
    assert page.evaluate(SYNCED) == {"priors": {}, "minutes": {}}
    page.goto(f"{server.url}/office/judging")
    expect(page.locator("td").first).to_have_text("Actuator opens too late")
    page.get_by_label("Faults that this workshop has proved weigh more in new jobs").check()
    page.get_by_label("Throttle").fill("6")
    page.get_by_role("button", name="Save").click()
    page.goto(f"{server.url}/")
    own = {"priors": {"actuator_opens_late": 1.2}, "minutes": {"throttle": 6}}
    assert page.evaluate(SYNCED) == own
    page.goto(f"{server.url}/#/new")
    hand = Technician(page)
    hand.write("Registration", "EX 3")
    hand.go_on()
    hand.is_at("EX 3")
    job = page.url.partition("#/job/")[2].split("/")[0]
    verdict_of(page, server, job).sees("actuator opens too late 1.2 times")
    judged = page.evaluate(VERDICT, job)
    assert judged["workshop"] == own
    page.evaluate(SYNCED)
    asked = f"{server.url}/api/jobs/{job}/verdict?unit=bar"
    assert urllib.request.urlopen(asked, timeout=60).read().decode() == judged["text"]
