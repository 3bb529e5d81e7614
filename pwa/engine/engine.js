/** The one door to the calculation: it runs in a worker, starts when asked and never keeps a reading waiting. */

import { fetchEngine } from "./fetch_engine.js";

const BOOT_WITHIN_MS = 60_000;
const ANSWER_WITHIN_MS = 20_000;
const BOOTS = 2;

/** No verdict. `kind`: "broken" (the document; `message` names the place), "fault", "timeout" or "failed". */
export class EngineError extends Error {
  constructor(kind, message = kind) {
    super(message);
    this.name = "EngineError";
    this.kind = kind;
  }
}

class Engine {
  #state = { state: "off", loadedBytes: 0, totalBytes: 0 };
  #listeners = new Set();
  #worker = null;
  #timer = null;
  #boots = 0;
  #numbers = 0;
  #waiting = new Map();
  #asked = null;

  /** Fetches the engine where it is not on the phone yet, and starts it; once. After "failed" it tries again. */
  start() {
    if (["loading", "ready"].includes(this.#state.state)) return;
    this.#boots = 0;
    this.#tell({ state: "loading", loadedBytes: 0, totalBytes: 0 });
    fetchEngine((progress) => this.#tell(progress)).then(
      () => this.#boot(),
      (error) => this.#fail("failed", error.message),
    );
  }

  /** Calls `listener({state, loadedBytes, totalBytes, version})` now and after each change. */
  onState(listener) {
    this.#listeners.add(listener);
    listener(this.#state);
    return () => this.#listeners.delete(listener);
  }

  /**
   * The verdict of a job document, as data. Of several questions for one job only the latest is asked,
   * and its answer goes to all. Rejects with an EngineError.
   */
  async judge(job, options) {
    return JSON.parse(await this.judgeText(job, options));
  }

  /** The same as its text: byte for byte what the workshop's computer says of the same document. */
  judgeText(job, { unit = "kPa", language = "en" } = {}) {
    this.start();
    return new Promise((resolve, reject) => {
      const waiters = [...(this.#waiting.get(job.id)?.waiters ?? []), { resolve, reject }];
      this.#waiting.set(job.id, { text: JSON.stringify(job), unit, language, waiters });
      this.#askNext();
    });
  }

  #tell(change) {
    this.#state = { ...this.#state, ...change };
    for (const listener of this.#listeners) listener(this.#state);
  }

  #boot() {
    this.#boots += 1;
    this.#worker = new Worker("/engine/worker.js", { type: "module" });
    this.#worker.onmessage = ({ data }) => this.#take(data);
    this.#worker.onerror = (event) => this.#fail("failed", event.message);
    this.#expect(BOOT_WITHIN_MS);
  }

  #expect(milliseconds) {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#outOfTime(), milliseconds);
  }

  #end() {
    clearTimeout(this.#timer);
    this.#worker?.terminate();
    this.#worker = null;
  }

  #outOfTime() {
    this.#end();
    if (this.#boots >= BOOTS) return this.#fail("timeout");
    this.#tell({ state: "loading" });
    return this.#boot();
  }

  #fail(kind, message) {
    this.#end();
    this.#tell({ state: "failed" });
    const unanswered = [this.#asked, ...this.#waiting.values()].filter(Boolean);
    this.#asked = null;
    this.#waiting.clear();
    for (const { waiters } of unanswered) for (const { reject } of waiters) reject(new EngineError(kind, message));
  }

  #take({ kind, number, result, says, version }) {
    if (kind === "failed") return this.#fail("failed", says);
    clearTimeout(this.#timer);
    if (kind !== "ready") return this.#answer(kind, number, result);
    this.#tell({ state: "ready", version });
    return this.#asked ? this.#post() : this.#askNext();
  }

  #askNext() {
    if (this.#state.state !== "ready" || this.#asked || !this.#waiting.size) return;
    const [job, question] = this.#waiting.entries().next().value;
    this.#waiting.delete(job);
    this.#asked = { job, ...question };
    this.#post();
  }

  #post() {
    this.#numbers += 1;
    const { text, unit, language } = this.#asked;
    this.#asked.number = this.#numbers;
    this.#worker.postMessage({ number: this.#numbers, text, unit, language });
    this.#expect(ANSWER_WITHIN_MS);
  }

  #answer(kind, number, result) {
    const { job, waiters, number: expected } = this.#asked;
    if (number !== expected) return;
    this.#asked = null;
    this.#boots = 1;
    const later = this.#waiting.get(job);
    if (later) later.waiters.unshift(...waiters);
    else settle(waiters, kind, result);
    this.#askNext();
  }
}

function settle(waiters, kind, result) {
  for (const { resolve, reject } of waiters) {
    if (kind === "verdict") resolve(result);
    else reject(new EngineError(kind, result));
  }
}

/** The page's one engine. */
export const engine = new Engine();
