"""Two phones on one job, conflicts settled, erasures, old copies, a saved copy, in real Chromium."""

import io
import json
import zipfile
from collections.abc import Callable
from contextlib import closing
from functools import partial
from typing import Any

import pytest
from playwright.sync_api import Page, Route, expect

from api.erasure import Eraser, of_customer
from api.intake import take_in
from api.store import database
from api.store.blobs import Blobs
from api.store.erasures import own_key
from tests.browser.test_store_sync import NEW_JOB, PHOTO, RUN, START, SUMMARY, at_server

FIRST = "/tests/actuator/first_movement_kpa"
JOB_OF = "(id) => { self.job = self.workbook.job(id); }"
ROWS = "() => self.workbook.book.record(self.job.id).rows.map(({ text }) => text)"
COPY = """async () => {
  const { blob } = await self.workbook.saveCopy();
  return Array.from(new Uint8Array(await blob.arrayBuffer()));
}"""


@pytest.fixture
def two(new_page: Callable[..., Page], server: Any) -> tuple[Page, Page, str]:
    """Two phones that both hold one job."""
    one, other = new_page(server), new_page(server)
    for page in (one, other):
        page.evaluate(START)
    job = one.evaluate(NEW_JOB, {"/customer/name": "Ada Quill", "/vehicle/make": "Alder"})
    one.evaluate(RUN)
    other.evaluate(RUN)
    other.evaluate(JOB_OF, job)
    return one, other, job


def test_a_reading_is_seen_on_the_other_phone_by_itself(two: tuple[Page, Page, str]) -> None:
    """Nobody touches the second phone and nothing is called on it; the promise is five seconds on Wi-Fi."""
    one, other, _ = two
    other.evaluate(
        """() => {
          const show = () => { document.title = String(job.document.tests?.actuator?.first_movement_kpa); };
          self.job.onChange(show);
        }"""
    )
    one.evaluate(f"() => self.job.set('{FIRST}', 96)")
    expect(other).to_have_title("96", timeout=5000)


def test_a_conflict_about_an_item_can_be_settled_either_way(two: tuple[Page, Page, str]) -> None:
    """One removes what the other corrects: it stays, marked, until somebody decides (operations.md)."""
    one, other, _ = two
    for keep in (True, False):
        item = one.evaluate("() => self.job.add('/tests/actuator/sweep', { p_kpa: 60, travel_mm: 1 })")
        one.evaluate(RUN)
        other.evaluate(RUN)
        path = f"/tests/actuator/sweep/{item}"
        one.evaluate("(path) => self.job.remove(path)", path)
        other.evaluate("(path) => self.job.set(`${path}/p_kpa`, 61)", path)
        for page in (one, other, one):
            page.evaluate(RUN)
        (conflict,) = one.evaluate("() => self.job.conflicts")
        chosen = conflict["shown"] if keep else conflict["others"][-1]
        other.evaluate("([path, id]) => self.job.settle(path, id)", [conflict["path"], chosen])
        for page in (other, one):
            page.evaluate(RUN)
            assert page.evaluate("() => self.job.conflicts") == []
            sweep = page.evaluate("() => self.job.document.tests?.actuator?.sweep ?? []")
            assert [one_["p_kpa"] for one_ in sweep if one_["id"] == item] == ([61] if keep else [])


def test_two_equal_answers_are_settled_by_one_touch(two: tuple[Page, Page, str]) -> None:
    one, other, _ = two
    one.evaluate(f"() => self.job.set('{FIRST}', 96)")
    other.evaluate(f"() => self.job.set('{FIRST}', 104)")
    for page in (one, other, one):
        page.evaluate(RUN)
    (conflict,) = one.evaluate("() => self.job.conflicts")
    one.evaluate("([path, id]) => self.job.settle(path, id)", [conflict["path"], conflict["others"][0]])
    for page in (one, other):
        page.evaluate(RUN)
        assert page.evaluate("() => self.job.conflicts") == []
        assert page.evaluate("() => self.job.document.tests.actuator.first_movement_kpa") == 104


def erase(server: Any, job: str) -> None:
    with closing(database.connect(server.data / "workshop.sqlite3")) as connection:
        Eraser(server.data, Blobs(server.data / "blobs")).merge(
            connection, of_customer(own_key(connection), job)
        )


def test_what_the_office_erased_leaves_the_phones(two: tuple[Page, Page, str], server: Any) -> None:
    """Also from the undo list, which holds earlier values; the receipt is equal without it."""
    one, other, job = two
    one.evaluate("() => self.job.set('/customer/name', 'Ada B. Quill')")
    one.evaluate(RUN)
    erase(server, job)
    for page in (one, other):
        page.evaluate(RUN)
        kept = page.evaluate(ROWS)
        assert not any("Quill" in text for text in kept)
        assert "Quill" not in json.dumps(page.evaluate("() => self.workbook.book.record(self.job.id).note"))
        assert page.evaluate("() => self.job.document") == {
            **at_server(page, f"/api/jobs/{job}"),
            "vehicle": {"make": "Alder"},
        }
        assert page.evaluate(SUMMARY)[0]["safeAt"]


def test_a_server_that_forgot_an_erasure_learns_it_from_a_phone(
    two: tuple[Page, Page, str], server: Any
) -> None:
    one, other, job = two
    erase(server, job)
    one.evaluate(RUN)
    server.stop()
    (server.data / "erasures.jsonl").unlink()
    with closing(database.connect(server.data / "workshop.sqlite3")) as connection:
        connection.execute("DELETE FROM erasures")
    server.start()
    one.evaluate(RUN)
    one.evaluate(RUN)
    assert (server.data / "erasures.jsonl").read_text().count('"/customer"') == 1
    other.evaluate(RUN)
    assert not any("Quill" in text for text in other.evaluate(ROWS))


def later(days: int) -> Callable[[Route], None]:
    """The server's answers, as if it were some days later."""

    def handle(route: Route) -> None:
        reply = route.fetch()
        body = reply.json()
        time = body["server_time"]
        route.fulfill(json=body | {"server_time": f"{int(time[:4]) + days // 365}{time[4:]}"})

    return handle


def test_a_copy_leaves_after_fourteen_days_and_comes_back_whole(two: tuple[Page, Page, str]) -> None:
    one, other, job = two
    one.evaluate(PHOTO)
    one.evaluate(RUN)
    one.route("**/api/sync", later(365))
    one.evaluate(RUN)
    assert one.evaluate("() => self.workbook.jobs()") == []
    assert one.evaluate("() => self.workbook.book.blobs.size") == 0
    one.unroute("**/api/sync")
    other.evaluate(RUN)
    other.evaluate(f"() => self.job.set('{FIRST}', 96)")
    other.evaluate(RUN)
    one.evaluate(RUN)
    one.evaluate(JOB_OF, job)
    assert one.evaluate("() => self.job.document") == at_server(one, f"/api/jobs/{job}")
    assert one.evaluate(SUMMARY)[0]["safeAt"]


def test_a_new_phone_begins_with_the_jobs_of_the_last_days(
    new_page: Callable[..., Page], two: tuple[Page, Page, str], server: Any
) -> None:
    _, _, job = two
    fresh = new_page(server)
    fresh.evaluate(START)
    fresh.evaluate(JOB_OF, job)
    assert fresh.evaluate("() => self.job.document") == at_server(fresh, f"/api/jobs/{job}")
    fresh.evaluate("() => self.job.set('/complaint/text', 'cuts out')")
    assert fresh.evaluate(RUN)["unsent"] == 0
    assert at_server(fresh, f"/api/jobs/{job}")["complaint"] == {"text": "cuts out"}


def test_a_saved_copy_is_taken_in_at_the_desk(new_page: Callable[..., Page], server: Any) -> None:
    """Made with no server in reach; the workshop that takes it in has never seen this phone."""
    page = new_page(server)
    page.evaluate(START)
    page.evaluate("() => import('/vendor/fflate/fflate.js').then(() => {})")  # a phone has it with the shell
    server.stop()
    job = page.evaluate(NEW_JOB, {"/complaint/text": "<b>cuts & out</b>", "/vehicle/make": "Alder"})
    page.evaluate(PHOTO)
    document = page.evaluate("() => self.job.document")
    copy = bytes(page.evaluate(COPY))
    with zipfile.ZipFile(io.BytesIO(copy)) as archive:
        assert archive.testzip() is None
        readable = archive.read("index.html").decode()
    assert "&lt;b&gt;cuts &amp; out&lt;/b&gt;" in readable
    assert document["photos"][0]["sha256"] in readable
    server.start()
    with closing(database.connect(server.data / "workshop.sqlite3")) as connection:
        blobs = Blobs(server.data / "blobs")
        learn = partial(Eraser(server.data, blobs).merge, connection)
        taken = take_in(connection, blobs, learn, io.BytesIO(copy))
    assert (taken.photos, taken.refused) == (1, [])
    assert at_server(page, f"/api/jobs/{job}") == document
    assert page.evaluate(RUN)["unsent"] == 0
    assert page.evaluate(SUMMARY)[0]["safeAt"]


def test_the_phone_says_what_is_wrong_with_the_server(new_page: Callable[..., Page], server: Any) -> None:
    """A folder stands where the database was; once it is back, the sync goes on with nobody's help."""
    page = new_page(server)
    page.evaluate(START)
    database_file = server.data / "workshop.sqlite3"
    database_file.rename(server.data / "aside")
    database_file.mkdir()
    page.evaluate(NEW_JOB, {})
    state = page.evaluate(RUN)
    assert (state["state"], state["unsent"]) == ("failed", 1)
    assert state["says"] == (
        "The workshop's database cannot be opened. Nothing is lost: what was not taken stays on the phone"
        " and is sent again by itself."
    )
    database_file.rmdir()
    (server.data / "aside").rename(database_file)
    assert page.evaluate(RUN)["unsent"] == 0


def test_every_write_is_strict(new_page: Callable[..., Page], server: Any) -> None:
    """A battery taken out after *kept* costs nothing (W3C Indexed Database API 3.0, durability hint)."""
    page = new_page(server)
    page.evaluate(
        """() => {
          self.hints = new Set();
          const transaction = IDBDatabase.prototype.transaction;
          IDBDatabase.prototype.transaction = function (...given) {
            const made = transaction.apply(this, given);
            if (made.mode === "readwrite") self.hints.add(made.durability);
            return made;
          };
        }"""
    )
    page.evaluate(START)
    page.evaluate(NEW_JOB, {})
    page.evaluate(PHOTO)
    page.evaluate(RUN)
    assert page.evaluate("() => [...self.hints]") == ["strict"]


def test_a_reply_that_cannot_be_kept_moves_this_phone_nowhere(two: tuple[Page, Page, str]) -> None:
    """The place in the list and what was listed are kept together or not at all."""
    one, other, job = two
    other.evaluate(f"() => self.job.set('{FIRST}', 96)")
    other.evaluate(RUN)
    one.evaluate(
        """async () => {
          const put = IDBObjectStore.prototype.put;
          IDBObjectStore.prototype.put = function (...given) {
            if (this.name === "operations") throw new DOMException("full", "QuotaExceededError");
            return put.apply(this, given);
          };
          await self.sync.run();
          IDBObjectStore.prototype.put = put;
        }"""
    )
    one.evaluate(RUN)
    assert one.evaluate("() => self.job.document") == at_server(one, f"/api/jobs/{job}")
