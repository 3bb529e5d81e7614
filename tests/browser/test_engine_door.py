"""The door to the calculation, with a worker that does as the test says; the engine's way to the phone."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page

# A worker that answers when told to. Time limits of 20 s and 60 s run out at once when the test says so.
STAND_IN = """async () => {
  self.workers = [];
  self.limits = [];
  self.Worker = class {
    constructor() { this.questions = []; this.ended = false; self.workers.push(this); }
    postMessage(question) { this.questions.push(question); }
    terminate() { this.ended = true; }
    answer(kind, at, result) {
      this.onmessage({ data: { kind, number: this.questions[at]?.number, result, says: result } });
    }
  };
  const start = self.setTimeout;
  self.setTimeout = (action, after) => {
    if (after >= 20000) { self.limits.push(action); return start(() => {}, 0); }
    return start(action, after);
  };
  self.runOut = () => self.limits.at(-1)();
  const { engine } = await import("/engine/engine.js");
  self.engine = engine;
  self.states = [];
  engine.onState(({ state }) => self.states.push(state));
  self.ask = (id, value) => engine.judge({ id, value }, { unit: "bar" })
    .then((verdict) => verdict.says, (error) => `${error.kind}: ${error.message}`);
  self.verdict = (says) => JSON.stringify({ says });
  self.turn = () => new Promise((resolve) => start(resolve, 0));
}"""


@pytest.fixture
def page(new_page: Callable[..., Page], standing_server: Any) -> Page:
    page = new_page(standing_server)
    page.evaluate(STAND_IN)
    return page


def test_it_is_off_until_asked_and_answers_as_data(page: Page) -> None:
    got = page.evaluate(
        """async () => {
          const before = self.workers.length;
          const asked = self.ask("j1", 1);
          await self.turn();
          const [worker] = self.workers;
          worker.answer("ready");
          const [{ text, unit, language }] = worker.questions;
          worker.answer("verdict", 0, self.verdict("late"));
          return { before, text, unit, language, says: await asked, states: self.states };
        }"""
    )
    assert got == {
        "before": 0,
        "text": '{"id":"j1","value":1}',
        "unit": "bar",
        "language": "en",
        "says": "late",
        "states": ["off", "loading", "ready"],
    }


def test_the_latest_question_of_a_job_wins(page: Page) -> None:
    got = page.evaluate(
        """async () => {
          const asked = [self.ask("j1", 1)];
          await self.turn();
          const [worker] = self.workers;
          worker.answer("ready");
          asked.push(self.ask("j1", 2), self.ask("j2", 1), self.ask("j1", 3));
          worker.answer("verdict", 0, self.verdict("old"));
          worker.answer("verdict", 1, self.verdict("newest"));
          worker.answer("verdict", 2, self.verdict("other job"));
          return { texts: worker.questions.map(({ text }) => text), says: await Promise.all(asked) };
        }"""
    )
    assert got["texts"] == ['{"id":"j1","value":1}', '{"id":"j1","value":3}', '{"id":"j2","value":1}']
    assert got["says"] == ["newest", "newest", "other job", "newest"]


def test_a_broken_document_is_an_answer_and_the_engine_goes_on(page: Page) -> None:
    got = page.evaluate(
        """async () => {
          const asked = self.ask("j1", 1);
          await self.turn();
          const [worker] = self.workers;
          worker.answer("ready");
          worker.answer("broken", 0, "/spec: not an object");
          const next = self.ask("j1", 2);
          worker.answer("verdict", 1, self.verdict("sound"));
          return [await asked, await next, self.workers.length];
        }"""
    )
    assert got == ["broken: /spec: not an object", "sound", 1]


def test_a_silent_worker_is_replaced_once(page: Page) -> None:
    got = page.evaluate(
        """async () => {
          const asked = self.ask("j1", 1);
          await self.turn();
          self.workers[0].answer("ready");
          self.runOut();
          self.workers[1].answer("ready");
          const again = self.workers[1].questions.map(({ text }) => text);
          self.runOut();
          const ended = self.workers.map(({ ended }) => ended);
          return { again, says: await asked, ended, states: self.states };
        }"""
    )
    assert got["again"] == ['{"id":"j1","value":1}']
    assert got["says"] == "timeout: timeout"
    assert got["ended"] == [True, True]
    assert got["states"][-1] == "failed"


def test_an_engine_that_does_not_start_can_be_started_again(page: Page) -> None:
    got = page.evaluate(
        """async () => {
          const asked = self.ask("j1", 1);
          await self.turn();
          self.workers[0].answer("failed", 0, "no memory");
          const first = await asked;
          const next = self.ask("j1", 2);
          await self.turn();
          self.workers[1].answer("ready");
          self.workers[1].answer("verdict", 0, self.verdict("sound"));
          return [first, await next];
        }"""
    )
    assert got == ["failed: no memory", "sound"]


FETCH = """async () => {
  await navigator.serviceWorker.ready;
  if (!navigator.serviceWorker.controller) {
    await new Promise((resolve) => navigator.serviceWorker.addEventListener("controllerchange", resolve));
  }
  const { fetchEngine } = await import("/engine/fetch_engine.js");
  const seen = [];
  const outcome = await fetchEngine((progress) => seen.push(progress))
    .then(() => "kept", (error) => error.message);
  const name = (await caches.keys()).find((one) => one.startsWith("teepiece-engine-"));
  const requests = await (await caches.open(name)).keys();
  return { outcome, seen, kept: requests.map(({ url }) => new URL(url).pathname) };
}"""


def test_the_engine_comes_file_by_file_and_goes_on_where_it_stopped(
    new_page: Callable[..., Page], small_server: Any, small_app: Path
) -> None:
    page = new_page(small_server, "/")
    page.evaluate("() => navigator.serviceWorker.ready.then(() => true)")
    second = small_app / "vendor/pyodide/second.json"
    aside = second.rename(small_app.parent / "second.json")
    stopped = page.evaluate(FETCH)
    assert "404" in stopped["outcome"]
    assert stopped["kept"] == ["/vendor/pyodide/first.wasm"]
    aside.rename(second)
    whole = page.evaluate(FETCH)
    assert whole["outcome"] == "kept"
    assert whole["seen"][0]["loadedBytes"] == (small_app / "vendor/pyodide/first.wasm").stat().st_size
    assert whole["seen"][-1]["loadedBytes"] == whole["seen"][-1]["totalBytes"]
    assert set(whole["kept"]) >= {"/vendor/pyodide/second.json", "/engine/calc.zip"}
    small_server.stop()
    again = page.evaluate(FETCH)
    assert (again["outcome"], again["seen"]) == ("kept", [])


def test_an_older_engine_stays_until_the_new_one_is_whole(
    new_page: Callable[..., Page], small_server: Any, small_app: Path
) -> None:
    page = new_page(small_server, "/")
    assert page.evaluate(FETCH)["outcome"] == "kept"
    (small_app / "vendor/pyodide/second.json").write_text('{"small": false}')
    page.evaluate(
        """async () => {
          const registration = await navigator.serviceWorker.getRegistration();
          await registration.update();
          await self.ready;
        }"""
    )
    with page.expect_navigation():
        page.evaluate("() => self.release.use()")
    text = "async () => (await fetch('/vendor/pyodide/second.json')).text()"
    small_server.stop()
    assert page.evaluate(text) == '{"small": true}'
    small_server.start()
    assert page.evaluate(FETCH)["outcome"] == "kept"
    small_server.stop()
    assert page.evaluate(text) == '{"small": false}'
