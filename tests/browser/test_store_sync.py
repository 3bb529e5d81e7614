"""Sync against the real server: once, twice, with a lost reply, after a restored backup, refused, safe."""

import hashlib
import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, Route

START = """async () => {
  const { openWorkbook } = await import("/store/workbook.js");
  const { sync } = await import("/store/sync.js");
  self.workbook = await openWorkbook();
  self.sync = sync;
  sync.start(self.workbook);
  await sync.run();
}"""
NEW_JOB = """async (places) => {
  const id = await self.workbook.newJob({ places });
  self.job = self.workbook.job(id);
  return id;
}"""
RUN = "() => self.sync.run()"
SUMMARY = (
    "() => self.workbook.jobs().map(({ id, unsent, refused, safeAt }) => ({ id, unsent, refused, safeAt }))"
)
PHOTO = """async () => {
  const canvas = new OffscreenCanvas(40, 30);
  canvas.getContext("2d").fillRect(0, 0, 20, 30);
  return self.job.keepPhoto(await canvas.convertToBlob({ type: "image/png" }), { step: "actuator" });
}"""


class Traffic:
    """What a page sends, read from its requests."""

    def __init__(self, page: Page) -> None:
        self.requests: list[tuple[str, str, Any]] = []
        page.on("request", lambda request: self.requests.append(self._note(request)))

    @staticmethod
    def _note(request: Any) -> tuple[str, str, Any]:
        is_sync = request.url.endswith("/api/sync")
        return request.method, request.url.partition("/api/")[2], request.post_data_json if is_sync else None

    @property
    def operations(self) -> int:
        return sum(len(body["operations"]) for _, path, body in self.requests if path == "sync")

    @property
    def blobs(self) -> int:
        return sum(path.startswith("blobs/") for _, path, _ in self.requests)


@pytest.fixture
def phone(new_page: Callable[..., Page], server: Any) -> Page:
    page = new_page(server)
    page.evaluate(START)
    return page


def job_with_photo(page: Page) -> str:
    job: str = page.evaluate(NEW_JOB, {"/vehicle/make": "Alder"})
    page.evaluate("() => self.job.set('/tests/actuator/first_movement_kpa', 96)")
    page.evaluate("() => self.job.add('/tests/actuator/sweep', { p_kpa: 60, travel_mm: 0.4 })")
    page.evaluate(PHOTO)
    return job


def at_server(page: Page, path: str) -> Any:
    return page.evaluate("async (path) => (await fetch(path)).json()", path)


def test_one_sync_brings_all_and_a_second_sends_nothing(phone: Page, server: Any) -> None:
    job = job_with_photo(phone)
    state = phone.evaluate(RUN)
    assert (state["state"], state["unsent"], state["refused"]) == ("idle", 0, [])
    (kept,) = phone.evaluate(SUMMARY)
    assert kept["safeAt"]
    assert at_server(phone, f"/api/jobs/{job}") == phone.evaluate("() => self.job.document")
    traffic = Traffic(phone)
    phone.evaluate(RUN)
    assert (traffic.operations, traffic.blobs) == (0, 0)


def test_photos_arrive_byte_for_byte(phone: Page, server: Any) -> None:
    phone.evaluate(NEW_JOB, {})
    name = phone.evaluate(PHOTO)
    phone.evaluate(RUN)
    there = phone.request.get(f"{server.url}/api/blobs/{name}").body()
    assert hashlib.sha256(there).hexdigest() == name
    assert phone.evaluate("async (name) => (await self.workbook.book.bytesOf(name)).byteLength", name) == len(
        there
    )


def test_safe_ends_with_the_next_change(phone: Page) -> None:
    job_with_photo(phone)
    phone.evaluate(RUN)
    phone.evaluate("() => self.job.set('/complaint/text', 'none')")
    (kept,) = phone.evaluate(SUMMARY)
    assert (kept["unsent"], kept["safeAt"]) == (1, None)


def test_a_lost_reply_makes_no_duplicate(phone: Page) -> None:
    """The server has committed when the line goes dead; the same bytes again are answered `duplicate`."""
    job = phone.evaluate(NEW_JOB, {"/vehicle/make": "Alder"})

    def lose_reply(route: Route) -> None:
        route.fetch()
        route.abort()

    phone.route("**/api/sync", lose_reply)
    state = phone.evaluate(RUN)
    assert state["state"] == "no_server"
    assert state["unsent"] > 0
    phone.unroute("**/api/sync")
    answers: list[Any] = []
    phone.on(
        "response", lambda response: answers.append(response) if response.url.endswith("/api/sync") else None
    )
    assert phone.evaluate(RUN)["unsent"] == 0
    assert {one["answer"] for one in answers[0].json()["answers"]} == {"duplicate"}
    assert at_server(phone, f"/api/jobs/{job}")["vehicle"] == {"make": "Alder"}
    receipt = at_server(phone, f"/api/jobs/{job}/receipt")
    assert receipt["operations"] == len(answers[0].json()["answers"])


def test_an_answer_alone_does_not_empty_the_outbox(phone: Page) -> None:
    """Model-checked rule of operations.md: an operation leaves only when it was seen in the numbered list."""
    phone.evaluate(NEW_JOB, {"/vehicle/make": "Alder"})

    def hide_entries(route: Route) -> None:
        reply = route.fetch()
        body = reply.json()
        sent = json.loads(route.request.post_data or "{}")
        route.fulfill(
            json=body | {"entries": [], "number": sent["number"], "hash": sent["hash"], "more": False}
        )

    phone.route("**/api/sync", hide_entries)
    state = phone.evaluate(RUN)
    assert state["state"] == "failed"
    assert state["unsent"] == 2
    phone.unroute("**/api/sync")
    assert phone.evaluate(RUN)["unsent"] == 0


def test_more_than_one_batch(phone: Page) -> None:
    job = phone.evaluate(NEW_JOB, {})
    phone.evaluate(
        """async () => {
          const { job } = self;
          for (let at = 0; at < 20; at += 1) await job.set("/tests/actuator/first_movement_kpa", at);
          const sweep = "/tests/actuator/sweep";
          for (let at = 0; at < 430; at += 1) await job.add(sweep, { p_kpa: at, travel_mm: 0 });
        }"""
    )
    traffic = Traffic(phone)
    assert phone.evaluate(RUN)["unsent"] == 0
    batches = [len(body["operations"]) for _, path, body in traffic.requests if path == "sync"]
    assert max(batches) <= 200
    assert sum(batches) == 451
    assert at_server(phone, f"/api/jobs/{job}/receipt")["operations"] == 451


def test_a_refused_operation_is_kept_apart_and_stops_no_other(phone: Page) -> None:
    job = phone.evaluate(NEW_JOB, {"/nowhere": 1, "/vehicle/make": "Alder"})
    state = phone.evaluate(RUN)
    assert (state["state"], state["unsent"]) == ("idle", 0)
    (refused,) = state["refused"]
    assert (refused["job"], refused["path"], refused["value"]) == (job, "/nowhere", 1)
    assert "/nowhere" in refused["reason"]
    assert at_server(phone, f"/api/jobs/{job}")["vehicle"] == {"make": "Alder"}
    (kept,) = phone.evaluate(SUMMARY)
    assert (kept["refused"], kept["safeAt"]) == (1, None)


def test_no_server_a_portal_and_a_lost_session_keep_the_outbox(phone: Page, server: Any) -> None:
    phone.evaluate(NEW_JOB, {})
    portal = {"status": 200, "content_type": "text/html", "body": "<h1>Welcome to the hotel</h1>"}
    phone.route("**/health", lambda route: route.fulfill(**portal))
    assert phone.evaluate(RUN)["state"] == "no_server"
    phone.unroute("**/health")
    phone.route("**/api/sync", lambda route: route.fulfill(status=401, json={"error": "sign_in", "says": ""}))
    assert phone.evaluate(RUN)["state"] == "sign_in"
    phone.unroute("**/api/sync")
    server.stop()
    state = phone.evaluate(RUN)
    assert (state["state"], state["unsent"]) == ("no_server", 1)
    server.start()
    assert phone.evaluate(RUN)["unsent"] == 0


def test_a_restored_server_gets_back_all_that_the_phones_hold(
    new_page: Callable[..., Page], server: Any, tmp_path: Path
) -> None:
    """Also the other phone's work, which this phone only holds as a copy; bytes unchanged."""
    one, other = new_page(server), new_page(server)
    for page in (one, other):
        page.evaluate(START)
    job = job_with_photo(one)
    one.evaluate(RUN)
    server.stop()
    shutil.copytree(server.data, tmp_path / "backup")
    server.start()
    other.evaluate(RUN)
    other.evaluate("(id) => self.workbook.job(id).set('/tests/actuator/full_travel_kpa', 171)", job)
    other.evaluate(RUN)
    one.evaluate(RUN)
    one.evaluate("() => self.job.set('/complaint/text', 'cuts out')")
    one.evaluate(PHOTO.replace("20, 30", "10, 10"))
    one.evaluate(RUN)
    before = one.evaluate("() => self.job.document")
    texts = "() => self.workbook.book.record(self.job.id).listedRows.map(({ text }) => text).sort()"
    made = one.evaluate(texts)
    server.restore(tmp_path / "backup")
    assert "complaint" not in at_server(one, f"/api/jobs/{job}")
    assert one.evaluate(RUN)["unsent"] == 0
    assert at_server(one, f"/api/jobs/{job}") == before
    assert one.evaluate(texts) == made
    (kept,) = one.evaluate(SUMMARY)
    assert kept["safeAt"]
    assert all(one.request.head(f"{server.url}/api/blobs/{photo['sha256']}").ok for photo in before["photos"])


def test_a_server_that_lost_everything_gets_it_back(phone: Page, server: Any, tmp_path: Path) -> None:
    job = job_with_photo(phone)
    phone.evaluate(RUN)
    before = phone.evaluate("() => self.job.document")
    (tmp_path / "nothing").mkdir()
    server.restore(tmp_path / "nothing")
    assert phone.evaluate(RUN)["unsent"] == 0
    assert at_server(phone, f"/api/jobs/{job}") == before


def test_two_phones_see_a_conflict_and_settle_it(new_page: Callable[..., Page], server: Any) -> None:
    one, other = new_page(server), new_page(server)
    for page in (one, other):
        page.evaluate(START)
    job = one.evaluate(NEW_JOB, {"/tests/actuator/first_movement_kpa": 90})
    one.evaluate(RUN)
    other.evaluate(RUN)
    other.evaluate("(id) => { self.job = self.workbook.job(id); }", job)
    one.evaluate("() => self.job.set('/tests/actuator/first_movement_kpa', 96)")
    other.evaluate("() => self.job.set('/tests/actuator/first_movement_kpa', 104)")
    for page in (one, other, one):
        page.evaluate(RUN)
    for page in (one, other):
        assert page.evaluate("() => self.job.document.tests.actuator.first_movement_kpa") == 96
        assert [c["path"] for c in page.evaluate("() => self.job.conflicts")] == [
            "/tests/actuator/first_movement_kpa"
        ]
    other.evaluate("() => self.job.set('/tests/actuator/first_movement_kpa', 96)")
    for page in (other, one):
        page.evaluate(RUN)
        assert page.evaluate("() => self.job.conflicts") == []


def test_a_photo_that_the_server_does_not_take_stops_nothing_else(phone: Page) -> None:
    job_with_photo(phone)
    problem = {"error": "too_large", "says": "A blob holds at most 16 MB."}
    phone.route(
        "**/api/blobs/*",
        lambda route: (
            route.fulfill(status=413, json=problem) if route.request.method == "PUT" else route.continue_()
        ),
    )
    state = phone.evaluate(RUN)
    assert [one["reason"] for one in state["refused"]] == [problem["says"]]
    assert phone.evaluate("() => self.workbook.book.unlistedRows.length") == 0
    (kept,) = phone.evaluate(SUMMARY)
    assert kept["safeAt"] is None
