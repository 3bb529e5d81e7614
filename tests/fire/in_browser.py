"""S1, S5, S8 to S12, S17 with the phone's own code in real Chromium."""

import json
import random
from collections.abc import Iterator
from contextlib import suppress
from typing import Any

from playwright.sync_api import Error, Page, Route

from tests.fire import checks
from tests.fire.browser import (
    NEW_JOB,
    OPEN,
    PHOTO,
    START,
    Profile,
    chromium,
    one_phone,
    page_at,
    rows_of,
    stage,
)
from tests.fire.proxy import GOOD, Line, proxied
from tests.fire.scenario import Outcome, scenario
from tests.fire.workshop import Workshop

FIRST = "/tests/actuator/first_movement_kpa"
RUN = "() => sync.run()"

# What a technician may do next, by the run's own dice; each step says what it kept.
STEP = """async ({ what, value }) => {
  const lists = { sweep: "/tests/actuator/sweep", road: "/tests/road" };
  const some = (list) => (list?.length ? list[value % list.length].id : null);
  const { tests = {} } = job.document;
  const sweep = some(tests.actuator?.sweep);
  const run = some(tests.road);
  if (what === "set") await job.set("/tests/actuator/first_movement_kpa", value);
  if (what === "many") await job.setMany([["/complaint/text", String(value)], ["/site/ambient_c", value]]);
  if (what === "clear") await job.set("/complaint/text", null);
  if (what === "add") await job.add(lists.sweep, { p_kpa: value, travel_mm: 1 });
  if (what === "run") await job.add(lists.road, { gear: 3, phase: "before_repair" });
  const gauge = { p_kpa: value, at: "charge_circuit" };
  if (what === "reading" && run) await job.add(`${lists.road}/${run}/readings`, gauge);
  if (what === "correct" && sweep) await job.set(`${lists.sweep}/${sweep}/p_kpa`, value);
  if (what === "remove" && sweep) await job.remove(`${lists.sweep}/${sweep}`);
  if (what === "remove run" && run) await job.remove(`${lists.road}/${run}`);
  if (what === "undo") await job.undo();
  const [open] = job.conflicts;
  if (what === "settle" && open) await job.settle(open.path, open.shown);
}"""
STEPS = ("set", "many", "clear", "add", "run", "reading", "correct", "remove", "remove run", "undo", "settle")
SHOWN = "() => ({ document: job.document, conflicts: job.conflicts, hidden: job.hidden })"


def lossy(dice: random.Random, tally: dict[str, int]) -> Any:
    """Loses a question or an answer now and then."""

    def handle(route: Route) -> None:
        fate = dice.random()
        if fate < 0.8:
            route.continue_()
            return
        tally["faults"] += 1
        if fate < 0.9:
            route.abort()
        else:
            route.fetch()
            route.abort()

    return handle


@scenario("S1 Chromium", in_browser=True)
def random_phones(small: bool) -> Iterator[Outcome]:
    """Two real phones and a real server: random work, lost questions and answers, then all agree."""
    dice = random.Random(101)
    tally = {"faults": 0, "steps": 0}
    with stage() as set_up, chromium(set_up.playwright) as browser:
        for run in range(1 if small else 30):
            workshop = Workshop(set_up.nursery, set_up.space / f"{run}")
            with workshop, page_at(browser, workshop.url) as one, page_at(browser, workshop.url) as other:
                _random_run(workshop, one, other, dice, tally, 20 if small else 60)
    note = f"{tally['steps']:,} steps"
    yield Outcome(
        "S1", "random work of two phones in Chromium, a real server", tally["faults"], held=True, note=note
    )


def _random_run(
    workshop: Workshop, one: Page, other: Page, dice: random.Random, tally: dict[str, int], steps: int
) -> None:
    job = one.evaluate(NEW_JOB, {})
    for page in (one, other, one):
        page.evaluate(START)
    other.evaluate("(id) => { self.job = workbook.job(id); }", job)
    pages = (one, other)
    for page in pages:
        page.route("**/api/**", lossy(dice, tally))
    for _ in range(steps):
        tally["steps"] += 1
        page = dice.choice(pages)
        if dice.random() < 0.4:
            page.evaluate(RUN)
        else:
            page.evaluate(STEP, {"what": dice.choice(STEPS), "value": dice.randint(0, 99)})
    for page in pages:
        page.unroute_all(behavior="wait")
    for page in (one, other, one, other):
        state = page.evaluate(RUN)
        assert state["unsent"] == 0, state
    assert one.evaluate(SHOWN) == other.evaluate(SHOWN)
    document = one.evaluate("async (id) => (await fetch(`/api/jobs/${id}`)).json()", job)
    assert one.evaluate("() => job.document") == document
    held = {row["id"]: row["text"] for page in pages for row in rows_of(page)}
    listed = {name: text for _, name, _, text in checks.list_of(workshop.data)}
    assert held == listed, "a phone holds what the workshop lacks, or other bytes"


@scenario("S5", in_browser=True)
def browser_killed(small: bool) -> Iterator[Outcome]:
    """SIGKILL to the browser while it keeps one reading after the other: what was called kept is there."""
    dice = random.Random(5)
    kills = 0
    busy = """async (from) => {
      const keep = async (value) => {
        await job.set("/tests/actuator/first_movement_kpa", value);
        self.told(value);
      };
      self.work = (async () => { for (let value = from; ; value += 1) await keep(value); })();
    }"""
    with stage() as set_up:
        workshop, profile = set_up.workshop, Profile(set_up.playwright, set_up.space / "phone")
        job, last = "", 0
        for _ in range(3 if small else 300):
            page = profile.page(workshop.url + "/health")
            kept: list[int] = []
            page.expose_function("told", lambda value, kept=kept: kept.append(value))
            page.evaluate(OPEN)
            job = job or page.evaluate(NEW_JOB, {})
            page.evaluate("(id) => { self.job = workbook.job(id); }", job)
            is_there = page.evaluate("() => job !== null")
            assert is_there, f"after kill {kills} the job is gone; {len(rows_of(page))} rows lie in the store"
            shown = page.evaluate("() => job.document.tests?.actuator?.first_movement_kpa ?? 0")
            assert shown >= last, f"{last} was called kept, {shown} is there"
            page.evaluate(busy, shown + 1)
            page.wait_for_timeout(dice.uniform(5, 120))
            profile.kill()
            kills += 1
            last = max([last, *kept])
        page = profile.page(workshop.url + "/health")
        page.evaluate(OPEN)
        texts = [json.loads(row["text"])["value"] for row in rows_of(page) if FIRST in row["text"]]
        assert sorted(texts) == list(range(1, max(texts) + 1)), "an operation is missing from the chain"
        assert max(texts) >= last
        page.evaluate(START)
        assert page.evaluate(RUN)["unsent"] == 0
        profile.close()
        checks.list_of(workshop.data)
    yield Outcome("S5", f"browser killed while keeping ({last:,} readings kept)", kills, held=True)


SHIFTS = {"-2 y": -63_072_000, "-1 h": -3600, "+6 min": 360, "+1 h": 3600, "+4 y": 126_144_000}
SHIFTED = """(seconds) => {
  const Real = self.RealDate ??= Date;
  self.shift = seconds;
  self.Date = class extends Real {
    constructor(...given) { if (given.length) super(...given); else super(Real.now() + self.shift * 1000); }
    static now() { return Real.now() + self.shift * 1000; }
    getTimezoneOffset() { return self.zone ?? super.getTimezoneOffset(); }
  };
}"""


@scenario("S8", in_browser=True)
def wrong_clocks(small: bool) -> Iterator[Outcome]:
    """A phone's clock is years off, jumps during a correction, changes its zone: order and work stay."""
    rounds = 2 if small else 20
    faults = 0
    with one_phone() as (workshop, page):
        page.evaluate(SHIFTED, 0)
        page.evaluate(START)
        for _ in range(rounds):
            for seconds in SHIFTS.values():
                faults += _with_clock(page, seconds)
            faults += _with_zone(page, -600) + _with_zone(page, 720) + _jumping(page)
        checks.list_of(workshop.data)
    yield Outcome("S8", "wrong clocks, jumps, other zones", faults, held=True)


def _with_clock(page: Page, seconds: int) -> int:
    page.evaluate(SHIFTED, seconds)
    page.evaluate(NEW_JOB, {})
    values = [94, 95, 96]
    for value in values:
        page.evaluate("(value) => job.set('/tests/actuator/first_movement_kpa', value)", value)
    state = page.evaluate(RUN)
    assert state["unsent"] == 0, state
    assert page.evaluate("() => job.document.tests.actuator.first_movement_kpa") == 96
    assert page.evaluate("() => job.conflicts") == []
    assert abs(state["clockOffsetMs"] / 1000 + seconds) < 60, "the phone does not know how wrong its clock is"
    there = page.evaluate("async () => (await fetch(`/api/jobs/${job.id}`)).json()")
    assert there == page.evaluate("() => job.document")
    return 1


def _with_zone(page: Page, minutes: int) -> int:
    page.evaluate("(minutes) => { self.zone = minutes; }", minutes)
    _with_clock(page, 0)
    stamp = page.evaluate("() => job.document.opened_at")
    assert stamp.endswith("+10:00" if minutes == -600 else "-12:00")
    page.evaluate("() => { self.zone = undefined; }")
    return 1


def _jumping(page: Page) -> int:
    page.evaluate(NEW_JOB, {})
    for seconds in (0, -86_400, 7200, -63_072_000, 0):
        page.evaluate(SHIFTED, seconds)
        page.evaluate("(value) => job.set('/tests/actuator/first_movement_kpa', value)", seconds)
    page.evaluate(RUN)
    assert page.evaluate("() => job.document.tests.actuator.first_movement_kpa") == 0
    assert page.evaluate("() => job.conflicts") == []
    return 1


@scenario("S9", in_browser=True)
def session_ends(small: bool) -> Iterator[Outcome]:
    """Signed out in a sync, cookies gone, another person, a foreign certificate: the queue holds."""
    dice = random.Random(9)
    faults = 0
    with one_phone(started=True) as (workshop, page):
        for turn in range(4 if small else 100):
            faults += _signed_out(page, turn % 4, dice)
        listed = [json.loads(text) for _, _, _, text in checks.list_of(workshop.data)]
        mine = [one for one in listed if one["path"] == "/complaint/text" and one["value"]]
        assert all(one["person"] == one["value"] for one in mine), "work went to another person"
    yield Outcome("S9", "session gone in the middle of a sync", faults, held=True)


def _signed_out(page: Page, kind: int, dice: random.Random) -> int:
    page.evaluate("() => workbook.settings.set('person', 'first')")
    page.evaluate(NEW_JOB, {"/complaint/text": "first"})
    page.evaluate(PHOTO, 2000)
    where = dice.choice(["**/api/sync", "**/api/blobs/*", "**/api/jobs/*/receipt"])
    refused = {"status": 401, "json": {"error": "sign_in", "says": "Please sign in."}}
    if kind == 3:
        page.route("**/health", lambda route: route.abort("failed"))  # what a page sees of a bad certificate
    else:
        page.route(where, lambda route: route.fulfill(**refused))
    if kind == 1:
        page.context.clear_cookies()
    state = page.evaluate(RUN)
    assert state["state"] == ("no_server" if kind == 3 else "sign_in"), state
    if kind == 2:
        page.evaluate("() => workbook.settings.set('person', 'second')")
        page.evaluate("() => job.set('/complaint/text', 'second')")
    else:
        page.evaluate("() => job.set('/complaint/text', null)")
        page.evaluate("() => job.set('/complaint/text', 'first')")
        page.evaluate("() => job.undo()")
    page.unroute_all(behavior="wait")
    assert page.evaluate(RUN)["unsent"] == 0
    return 1


@scenario("S10", in_browser=True)
def photos_on_a_bad_line(small: bool) -> Iterator[Outcome]:
    """40 photos of 350 KB at 4 Mbit/s, resets, stalls: all whole, at most 1.3 times their bytes sent."""
    dice = random.Random(10)
    photos, size = (4, 200_000) if small else (40, 350_000)
    rate = None if small else 500_000.0

    def line(_: int) -> Line:
        """Every connection is reset after a while; some are silent at first."""
        stall = 0.3 if dice.random() < 0.1 else 0.0
        return Line(
            cut_up=dice.randint(1_000, 60_000 if small else 200_000), bytes_a_second=rate, stall_seconds=stall
        )

    with stage() as set_up, chromium(set_up.playwright) as browser, proxied(set_up.workshop.port) as proxy:
        workshop = set_up.workshop
        with page_at(browser, proxy.url) as page:
            page.evaluate(NEW_JOB, {})
            for _ in range(photos):
                page.evaluate(PHOTO, size)
            proxy.line = line
            proxy.drop_all()
            page.evaluate(START)
            for _ in range(400):
                state = page.evaluate(RUN)
                if state["unsent"] == 0:
                    break
            proxy.line = lambda _: GOOD
            assert page.evaluate(RUN)["unsent"] == 0
            assert page.evaluate("() => workbook.jobs()[0].safeAt")
        assert checks.no_blob_is_wrong(workshop.data) == photos
        ratio = proxy.bytes_up / (photos * size)
        # The small form has too few bytes for a few resets at full parts to be a small share.
        assert small or ratio <= 1.3, f"{ratio:.2f} times the bytes with {proxy.cuts} resets"
        note = f"{photos} photos, {ratio:.2f} times their bytes sent"
        yield Outcome("S10", "resets and stalls while photos are sent", proxy.cuts, held=True, note=note)


FAILING_PUT = """(at) => {
  let count = 0;
  self.put ??= IDBObjectStore.prototype.put;
  IDBObjectStore.prototype.put = function (...given) {
    count += 1;
    if (count === at) throw new DOMException("full", "QuotaExceededError");
    return self.put.apply(this, given);
  };
}"""


@scenario("S11", in_browser=True)
def phone_full(small: bool) -> Iterator[Outcome]:
    """The N-th put fails for want of room: not called kept, nothing else lost, the copy can be saved."""
    faults = 0
    work = """async () => {
      const outcomes = [];
      const note = (outcome) => outcomes.push(outcome);
      const tried = (kept) => kept.then(() => note("kept"), (error) => note(error.kind ?? error.name));
      const place = "/tests/actuator/first_movement_kpa";
      for (let value = 0; value < 8; value += 1) await tried(job.set(place, value));
      await tried(job.add("/tests/actuator/sweep", { p_kpa: 1, travel_mm: 1 }));
      await tried(job.keepPhoto(new Blob(["picture"], { type: "image/x-test" })));
      await sync.run();
      return outcomes;
    }"""
    with one_phone(started=True) as (workshop, page):
        for at in range(1, 51, 12 if small else 1):
            page.evaluate(NEW_JOB, {})
            page.evaluate(FAILING_PUT, at)
            outcomes = page.evaluate(work)
            size = page.evaluate("async () => (await workbook.saveCopy()).blob.size")
            page.evaluate("() => { IDBObjectStore.prototype.put = self.put; }")
            assert set(outcomes) <= {"kept", "full"}, outcomes
            assert outcomes.count("full") <= 1
            assert size > 500
            faults += 1
            _agrees_with_store(page, outcomes)
            assert page.evaluate(RUN)["unsent"] == 0
            document = page.evaluate("async () => (await fetch(`/api/jobs/${job.id}`)).json()")
            assert document == page.evaluate("() => job.document")
        checks.list_of(workshop.data)
    yield Outcome("S11", "no room for the N-th write on the phone", faults, held=True)


def _agrees_with_store(page: Page, outcomes: list[str]) -> None:
    job = page.evaluate("() => job.id")
    own = [row for row in rows_of(page) if row["job"] == job]
    assert len(own) == 1 + outcomes.count("kept"), "kept on the screen and in the store are not the same"


CATCH_HANDLES = """() => {
  self.handles = [];
  const open = IDBFactory.prototype.open;
  IDBFactory.prototype.open = function (...given) {
    const request = open.apply(this, given);
    request.addEventListener("success", () => self.handles.push(request.result));
    return request;
  };
}"""
DROP = "() => self.handles.splice(0).forEach((handle) => handle.close())"


@scenario("S12", in_browser=True)
def connection_dropped(small: bool) -> Iterator[Outcome]:
    """The database's connection is gone before each step of a job: opened again, silently; nothing lost."""
    dice = random.Random(12)
    count = 12 if small else 66
    with one_phone(opened=False) as (workshop, page):
        page.evaluate(CATCH_HANDLES)
        page.evaluate(OPEN)
        page.evaluate(NEW_JOB, {})
        for number in range(count):
            page.evaluate(DROP)
            if number % 11 == 10:
                page.evaluate(PHOTO, 500)
            else:
                page.evaluate(STEP, {"what": STEPS[number % 11], "value": dice.randint(0, 99)})
            page.evaluate("(value) => job.set('/site/altitude_m', value)", number)
            assert page.evaluate("() => job.document.site.altitude_m") == number
        page.evaluate(DROP)
        page.evaluate(START)
        assert page.evaluate(RUN)["unsent"] == 0
        document = page.evaluate("async () => (await fetch(`/api/jobs/${job.id}`)).json()")
        assert document == page.evaluate("() => job.document")
        checks.list_of(workshop.data)
    yield Outcome("S12", "database connection dropped before each step", count, held=True)


@scenario("S17", in_browser=True)
def camera_ends_the_page(small: bool) -> Iterator[Outcome]:
    """The page ends between the camera's opening and the photo: the step is remembered; a photo clears it."""
    count = 2 if small else 50
    with stage() as set_up:
        workshop, profile = set_up.workshop, Profile(set_up.playwright, set_up.space / "phone")
        job = ""
        for number in range(count):
            page = profile.page(workshop.url + "/health")
            page.evaluate(OPEN)
            job = job or page.evaluate(NEW_JOB, {})
            page.evaluate("([job, step]) => workbook.photoIntent(job, step)", [job, f"step {number}"])
            if number % 5 == 1 or small:
                profile.kill()
            else:
                with suppress(Error):
                    page.goto("chrome://crash", timeout=3000)
                profile.close()
            page = profile.page(workshop.url + "/health")
            page.evaluate(OPEN)
            intent = page.evaluate("() => workbook.pendingPhotoIntent()")
            assert (intent["job"], intent["step"]) == (job, f"step {number}")
            page.evaluate("(id) => { self.job = workbook.job(id); }", job)
            page.evaluate(PHOTO, 300)
            assert page.evaluate("() => workbook.pendingPhotoIntent()") is None
        profile.close()
    yield Outcome("S17", "page ended between camera and photo", count, held=True)
