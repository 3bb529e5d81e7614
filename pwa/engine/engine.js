/** The one door to the calculation: it runs in a worker, starts when asked and never keeps a reading waiting. */

import { fetchEngine } from "./fetch_engine.js";

const BOOT_WITHIN_MS = 60_000;
const ANSWER_WITHIN_MS = 20_000;
const LOG_WITHIN_MS = 120_000;
const BOOTS = 2;

/**
 * No answer. `kind`: "broken" (the document; `message` names the place), "unreadable" (the log; `message` says why),
 * "cancelled", "fault", "timeout" or "failed".
 */
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
  #bytesOf = async () => undefined;

  /** `bytesOf(name)` gives the bytes of a log that a job names, or undefined where it is not to be had. */
  logsFrom(bytesOf) {
    this.#bytesOf = bytesOf;
  }

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
  async judgeText(job, { unit = "kPa", language = "en" } = {}) {
    return (await this.#ask(job.id, { way: "judge", text: JSON.stringify(job), unit, language })).result;
  }

  /** What moved between two verdicts on a job, in one line; null where nothing did. */
  async whatChanged(before, after, { language = "en" } = {}) {
    const question = { way: "what_changed", before: JSON.stringify(before), after: JSON.stringify(after), language };
    return JSON.parse((await this.#ask(`changed ${after.job}`, question)).result);
  }

  /**
   * What a log holds {guesses, left_out, rows, seconds}. `columns` are wishes as `calc.read_log` takes them; `job`
   * tells what the log may not say of the car. An aborted `signal` ends the reading at once.
   */
  async readLog(bytes, columns, job, signal) {
    const question = { way: "read_log", bytes, columns: JSON.stringify(columns), facts: JSON.stringify(job) };
    const asked = this.#ask("log", question);
    signal?.addEventListener("abort", () => this.#cancel("log"));
    return JSON.parse((await asked).result);
  }

  /** The course of a run with a log, as `calc.run_shown` gives it, `channels` as Float64Arrays; null where it has none. */
  async showRun(job, run) {
    const { result, more } = await this.#ask(`show ${run}`, { way: "show_run", text: JSON.stringify(job), run });
    const [names, rows] = more;
    const shown = JSON.parse(result);
    return shown && { ...shown, channels: Object.fromEntries(names.map((name, at) => [name, rows[at]])) };
  }

  #ask(key, question) {
    this.start();
    return new Promise((resolve, reject) => {
      const waiters = [...(this.#waiting.get(key)?.waiters ?? []), { resolve, reject }];
      this.#waiting.set(key, { question, waiters });
      this.#askNext();
    });
  }

  /** Python does not listen while it reads: a reading under way is ended with its worker, and the next one starts. */
  #cancel(key) {
    const cancelled = [this.#waiting.get(key), this.#asked?.key === key && this.#asked].filter(Boolean);
    this.#waiting.delete(key);
    if (cancelled.includes(this.#asked)) {
      this.#asked = null;
      this.#end();
      this.#boots = 0;
      this.#tell({ state: "loading" });
      this.#boot();
    }
    for (const { waiters } of cancelled) settle(waiters, "cancelled");
  }

  #tell(change) {
    this.#state = { ...this.#state, ...change };
    for (const listener of this.#listeners) listener(this.#state);
  }

  #boot() {
    this.#boots += 1;
    this.#worker = new Worker("/engine/worker.js", { type: "module", name: this.#boots > 1 ? "anew" : "engine" });
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

  #take({ kind, number, result, more, says, version }) {
    if (kind === "failed") return this.#fail("failed", says);
    clearTimeout(this.#timer);
    if (kind === "needs") return this.#give(number, JSON.parse(result));
    if (kind !== "ready") return this.#answer(kind, number, { result, more });
    this.#tell({ state: "ready", version });
    return this.#asked ? this.#post() : this.#askNext();
  }

  #askNext() {
    if (this.#state.state !== "ready" || this.#asked || !this.#waiting.size) return;
    const [key, next] = this.#waiting.entries().next().value;
    this.#waiting.delete(key);
    this.#asked = { key, without: [], ...next };
    this.#post();
  }

  #post() {
    this.#numbers += 1;
    const { question, without } = this.#asked;
    this.#asked.number = this.#numbers;
    this.#worker.postMessage({ number: this.#numbers, ...question, without: JSON.stringify(without) });
    this.#expect(question.way === "judge" && !question.text.includes('"log"') ? ANSWER_WITHIN_MS : LOG_WITHIN_MS);
  }

  /** The worker lacks logs: it gets what this phone has of them, and is asked again. */
  async #give(number, names) {
    const held = await Promise.all(names.map((name) => this.#bytesOf(name).catch(() => undefined)));
    if (this.#asked?.number !== number) return;
    names.forEach((name, at) => {
      if (held[at]) this.#worker.postMessage({ way: "take_log", name, bytes: held[at] });
      else this.#asked.without.push(name);
    });
    this.#post();
  }

  #answer(kind, number, answer) {
    const { key, waiters, number: expected } = this.#asked ?? {};
    if (number !== expected) return;
    this.#asked = null;
    this.#boots = 1;
    const later = this.#waiting.get(key);
    if (later) later.waiters.unshift(...waiters);
    else settle(waiters, kind, answer);
    this.#askNext();
  }
}

const ANSWERS = ["verdict", "changed", "log", "run"];

function settle(waiters, kind, answer) {
  for (const { resolve, reject } of waiters) {
    if (ANSWERS.includes(kind)) resolve(answer);
    else reject(new EngineError(kind, answer?.result));
  }
}

/** The page's one engine. */
export const engine = new Engine();
