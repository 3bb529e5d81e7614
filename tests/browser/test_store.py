"""What the phone keeps, in real Chromium: changes, undo, photos, two pages, an unusable store."""

from collections.abc import Callable
from typing import Any

from playwright.sync_api import Page

OPEN = """async () => {
  const { openWorkbook } = await import("/store/workbook.js");
  self.workbook = await openWorkbook();
}"""
NEW_JOB = """async (places) => {
  const id = await self.workbook.newJob({ places });
  self.job = self.workbook.job(id);
  return id;
}"""
DOCUMENT = "() => self.job.document"
TEXTS = """() => new Promise((resolve) => {
  const open = indexedDB.open("teepiece");
  open.onsuccess = () => {
    const rows = open.result.transaction("operations").objectStore("operations").getAll();
    rows.onsuccess = () => { open.result.close(); resolve(rows.result); };
  };
})"""


def opened(page: Page, places: dict[str, Any] | None = None) -> str:
    page.evaluate(OPEN)
    job: str = page.evaluate(NEW_JOB, places or {})
    return job


def test_a_change_is_kept_with_its_operation(new_page: Callable[..., Page], standing_server: Any) -> None:
    page = new_page(standing_server)
    job = opened(page, {"/vehicle/make": "Alder"})
    page.evaluate("() => self.job.set('/tests/actuator/first_movement_kpa', 96)")
    document = page.evaluate(DOCUMENT)
    assert document["vehicle"] == {"make": "Alder"}
    assert document["tests"] == {"actuator": {"first_movement_kpa": 96}}
    rows = page.evaluate(TEXTS)
    assert {row["job"] for row in rows} == {job}
    assert [row["number"] for row in rows] == [None, None, None]
    assert sum('"value":96' in row["text"] for row in rows) == 1


def test_two_changes_in_quick_succession_build_on_each_other(
    new_page: Callable[..., Page], standing_server: Any
) -> None:
    """The two ends of a limit, typed before the first is kept: neither takes the other away."""
    page = new_page(standing_server)
    opened(page)
    page.evaluate(
        """() => {
          const path = "/spec/actuator_full_kpa";
          const join = (end, kpa) =>
            self.job.setBy(({ spec }) => [[path, { ...spec?.actuator_full_kpa, [end]: kpa }]]);
          return Promise.all([join("min", 140), join("max", 160)]);
        }"""
    )
    assert page.evaluate(DOCUMENT)["spec"]["actuator_full_kpa"] == {"min": 140, "max": 160}


def test_a_change_names_all_that_it_saw_there(new_page: Callable[..., Page], standing_server: Any) -> None:
    """Of an offline chain A, B, C each names all before it, so that a missing link makes no conflict."""
    page = new_page(standing_server)
    opened(page)
    chain = page.evaluate(
        """async () => {
          for (const value of [94, 95, 96]) await self.job.set("/tests/actuator/first_movement_kpa", value);
          const record = self.workbook.book.record(self.job.id);
          const chain = record.unlisted.filter((one) => one.path === "/tests/actuator/first_movement_kpa");
          return chain.map(({ id, replaced }) => ({ id, replaced: replaced.sort() }));
        }"""
    )
    ids = [one["id"] for one in chain]
    assert [one["replaced"] for one in chain] == [[], ids[:1], sorted(ids[:2])]


def test_what_is_shown_already_makes_no_operation(
    new_page: Callable[..., Page], standing_server: Any
) -> None:
    page = new_page(standing_server)
    opened(page, {"/spec/actuator_start_kpa": {"min": 60, "max": 80}})
    before = len(page.evaluate(TEXTS))
    page.evaluate("() => self.job.set('/spec/actuator_start_kpa', { max: 80, min: 60 })")
    assert len(page.evaluate(TEXTS)) == before


def test_undo_goes_back_step_by_step(new_page: Callable[..., Page], standing_server: Any) -> None:
    page = new_page(standing_server)
    opened(page)
    steps = page.evaluate(
        """async () => {
          const { job } = self;
          const seen = [];
          await job.set("/tests/actuator/first_movement_kpa", 69);
          await job.set("/tests/actuator/first_movement_kpa", 96);
          const item = await job.add("/tests/actuator/sweep", { p_kpa: 60, travel_mm: 0.4 });
          await job.set(`/tests/actuator/sweep/${item}/p_kpa`, 61);
          await job.remove(`/tests/actuator/sweep/${item}`);
          for (let step = 0; step < 6; step += 1) {
            const undone = await job.undo();
            const { first_movement_kpa: first, sweep = [] } = job.document.tests?.actuator ?? {};
            seen.push([undone !== null, first ?? null, ...sweep.map((one) => one.p_kpa)]);
          }
          return { seen, conflicts: job.conflicts };
        }"""
    )
    assert steps["seen"] == [
        [True, 96, 61],
        [True, 96, 60],
        [True, 96],
        [True, 69],
        [True, None],
        [False, None],
    ]
    assert steps["conflicts"] == []


def test_items_keep_the_order_asked_for(new_page: Callable[..., Page], standing_server: Any) -> None:
    page = new_page(standing_server)
    opened(page)
    order = page.evaluate(
        """async () => {
          const list = "/tests/actuator/sweep";
          const first = await self.job.add(list, { p_kpa: 1 });
          await self.job.add(list, { p_kpa: 9 });
          const add = (value, place) => self.job.add(list, { p_kpa: value }, place);
          for (let value = 8; value > 1; value -= 1) await add(value, { after: first });
          for (let value = 10; value < 60; value += 1) await add(value);
          return self.job.document.tests.actuator.sweep.map((one) => one.p_kpa);
        }"""
    )
    assert order == list(range(1, 60))


def test_ranks_leave_room_between_any_two(new_page: Callable[..., Page], standing_server: Any) -> None:
    """Random neighbours, 3,000 times; the order is that of the bytes."""
    page = new_page(standing_server)
    ranks = page.evaluate(
        """async () => {
          const { rankBetween } = await import("/store/rank.js");
          const ranks = [rankBetween(null, null)];
          for (let round = 0; round < 3000; round += 1) {
            const at = round % 3 === 0 ? ranks.length : Math.floor(Math.random() * (ranks.length + 1));
            ranks.splice(at, 0, rankBetween(ranks[at - 1] ?? null, ranks[at] ?? null));
          }
          return ranks;
        }"""
    )
    assert [one.encode() for one in ranks] == sorted(one.encode() for one in ranks)
    assert len(set(ranks)) == len(ranks)


def test_ids_are_uuids_of_version_7_and_rise(new_page: Callable[..., Page], standing_server: Any) -> None:
    """RFC 9562, section 5.7: time in 48 bits, version 7, variant 10."""
    page = new_page(standing_server)
    made = page.evaluate(
        """async () => {
          const { uuid7 } = await import("/store/uuid.js");
          const now = Date.now();
          return { now, ids: Array.from({ length: 10000 }, uuid7) };
        }"""
    )
    ids = made["ids"]
    assert ids == sorted(set(ids))
    assert all(one[14] == "7" and one[19] in "89ab" for one in ids)
    assert abs(int(ids[0].replace("-", "")[:12], 16) - made["now"]) < 5000


def test_two_pages_of_one_phone_make_no_conflict(browser: Any, standing_server: Any) -> None:
    context = browser.new_context()
    first, second = context.new_page(), context.new_page()
    for page in (first, second):
        page.goto(standing_server.url + "/health")
    job = opened(first, {"/complaint/text": "none"})
    second.evaluate(OPEN)
    second.evaluate("(id) => { self.job = self.workbook.job(id); }", job)
    change = "(value) => self.job.set('/complaint/text', value)"
    for round_ in range(5):
        first.evaluate(change, f"first {round_}")
        second.evaluate(change, f"second {round_}")
    first.evaluate(
        """() => new Promise((resolve) => {
          const look = () => { if (self.job.document.complaint.text === "second 4") resolve(); };
          self.job.onChange(look);
          look();
        })"""
    )
    for page in (first, second):
        assert page.evaluate("() => self.job.document.complaint.text") == "second 4"
        assert page.evaluate("() => self.job.conflicts") == []
    context.close()


PHOTO = """async ({ width, height, name }) => {
  const canvas = new OffscreenCanvas(width, height);
  const pen = canvas.getContext("2d");
  pen.fillStyle = "#c24d00";
  pen.fillRect(0, 0, width / 2, height);
  const blob = await canvas.convertToBlob({ type: "image/png" });
  await self.workbook.photoIntent(self.job.id, "actuator");
  const intent = self.workbook.pendingPhotoIntent();
  const sha256 = await self.job.keepPhoto(blob, { step: "actuator", caption: name });
  const shown = new Image();
  shown.src = await self.workbook.photoUrl(sha256);
  await shown.decode();
  const start = new Uint8Array(await self.workbook.book.bytesOf(sha256)).slice(0, 3);
  return {
    sha256, intent, after: self.workbook.pendingPhotoIntent(), start: Array.from(start),
    size: [shown.naturalWidth, shown.naturalHeight], photos: self.job.document.photos,
  };
}"""


def test_a_photo_is_kept_smaller_under_its_own_sum(
    new_page: Callable[..., Page], standing_server: Any
) -> None:
    page = new_page(standing_server)
    opened(page)
    kept = page.evaluate(PHOTO, {"width": 4000, "height": 3000, "name": "rod"})
    assert bytes(kept["start"]) == b"\xff\xd8\xff"  # ISO/IEC 10918-1: start of image, then a marker
    assert kept["size"] == [1600, 1200]
    assert kept["intent"]["step"] == "actuator"
    assert kept["after"] is None
    (photo,) = kept["photos"]
    assert (photo["sha256"], photo["step"], photo["caption"]) == (kept["sha256"], "actuator", "rod")
    summed = page.evaluate(
        """async (name) => {
          const { sha256 } = await import("/store/hash.js");
          return sha256(await self.workbook.book.bytesOf(name));
        }""",
        kept["sha256"],
    )
    assert summed == kept["sha256"]


def test_a_picture_that_cannot_be_read_is_kept_as_it_came(
    new_page: Callable[..., Page], standing_server: Any
) -> None:
    page = new_page(standing_server)
    opened(page)
    same = page.evaluate(
        """async () => {
          const blob = new Blob(["no picture"], { type: "image/heic" });
          const name = await self.job.keepPhoto(blob, { step: "smoke" });
          return new TextDecoder().decode(await self.workbook.book.bytesOf(name));
        }"""
    )
    assert same == "no picture"


def test_a_phone_without_storage_says_so(new_page: Callable[..., Page], standing_server: Any) -> None:
    page = new_page(standing_server)
    kind = page.evaluate(
        """async () => {
          IDBFactory.prototype.open = () => { throw new DOMException("denied", "SecurityError"); };
          const { openWorkbook } = await import("/store/workbook.js");
          return openWorkbook().then(() => "opened", (error) => `${error.name} ${error.kind}`);
        }"""
    )
    assert kind == "StorageError unavailable"


def test_a_write_that_is_undone_is_not_kept(new_page: Callable[..., Page], standing_server: Any) -> None:
    """A full disk ends the transaction after each request has succeeded; nothing may be called kept then."""
    page = new_page(standing_server)
    opened(page, {"/complaint/text": "before"})
    outcome = page.evaluate(
        """async () => {
          const put = IDBObjectStore.prototype.put;
          IDBObjectStore.prototype.put = function (...values) {
            if (this.name === "jobs") this.transaction.abort();
            return put.apply(this, values);
          };
          const outcome = (kept) => kept.then(() => "kept", (error) => error.name);
          const failed = await outcome(self.job.set("/complaint/text", "after"));
          IDBObjectStore.prototype.put = put;
          const shown = self.job.document.complaint.text;
          await self.job.set("/complaint/text", "again");
          return { failed, shown, again: self.job.document.complaint.text };
        }"""
    )
    assert outcome == {"failed": "StorageError", "shown": "before", "again": "again"}


def test_a_lost_connection_is_opened_again_and_the_write_repeated(
    new_page: Callable[..., Page], standing_server: Any
) -> None:
    """As on iOS after the app was in the background: `InvalidStateError` from the handle."""
    page = new_page(standing_server)
    opened(page)
    rows = page.evaluate(
        """async () => {
          const transaction = IDBDatabase.prototype.transaction;
          let lost = 1;
          IDBDatabase.prototype.transaction = function (...values) {
            if (lost-- > 0) throw new DOMException("lost", "InvalidStateError");
            return transaction.apply(this, values);
          };
          await self.job.set("/complaint/text", "kept");
          return self.job.document.complaint.text;
        }"""
    )
    assert rows == "kept"
    assert sum('"kept"' in row["text"] for row in page.evaluate(TEXTS)) == 1


def test_a_blocked_upgrade_settles(browser: Any, standing_server: Any) -> None:
    context = browser.new_context()
    holder, opener = context.new_page(), context.new_page()
    for page in (holder, opener):
        page.goto(standing_server.url + "/health")
    holder.evaluate(
        """() => new Promise((resolve) => {
          const request = indexedDB.open("teepiece-blocked", 1);
          request.onsuccess = () => { self.held = request.result; resolve(); };
        })"""
    )
    kind = opener.evaluate(
        """async () => {
          const open = IDBFactory.prototype.open;
          IDBFactory.prototype.open = function (name) { return open.call(this, name, 2); };
          const { Database } = await import("/store/database.js");
          return new Database("teepiece-blocked").prove().then(() => "opened", (error) => error.kind);
        }"""
    )
    assert kind == "blocked"
    context.close()


def test_a_newer_release_takes_the_database_over(browser: Any, standing_server: Any) -> None:
    context = browser.new_context()
    old, new = context.new_page(), context.new_page()
    for page in (old, new):
        page.goto(standing_server.url + "/health")
    opened(old)
    old.evaluate(
        "() => { self.told = new Promise((resolve) => self.workbook.onOutdated(() => resolve(true))); }"
    )
    new.evaluate(
        """() => new Promise((resolve) => {
          const request = indexedDB.open("teepiece", 99);
          request.onsuccess = () => { request.result.close(); resolve(); };
        })"""
    )
    assert old.evaluate("() => self.told") is True
    failed = "() => self.job.set('/complaint/text', 'lost').then(() => 'kept', (error) => error.kind)"
    assert old.evaluate(failed) == "closed"
    context.close()
