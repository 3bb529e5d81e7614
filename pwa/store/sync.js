/** Sync: the phone's outbox to the workshop, the workshop's list to the phone. Runs on the page, while it is seen. */

import { sendBlob } from "./blobs.js";
import { change } from "./book.js";
import { oldCopies } from "./copies.js";
import { known as knownErasures, sumOf } from "./erasures.js";
import { ServerError, blobAt, endOfList, exchange, probe, receiptOf, wholeJob, workshopJobs } from "./http.js";
import { nextBatch, standing, takeReply, takeWholeJob, want, wantedJobs } from "./list.js";
import { clockTime } from "./operations.js";
import { receiptLines, receiptSum } from "./receipt.js";

const LOCK = "teepiece-sync";
const AFTER_A_CHANGE_MS = 1_000;
const LOOK_EVERY_MS = 2_000;
const FIRST_PAUSE_MS = 2_000;
const SHORT_PAUSE_MS = 4_000;
const SHORT_PAUSES = 75; // five minutes in which the network may come back at any moment
const LONG_PAUSE_MS = 30_000;
const MOST_ERASURES = 1_000;
const CLOCK_STEP_MS = 30_000;

class Sync {
  #book = null;
  #running = null;
  #timer = null;
  #failures = 0;
  #listeners = new Set();
  #progress = { state: "idle", says: null };

  /** Begins to keep a workbook and the workshop in step: now, when the page is seen again, after changes. */
  start(workbook) {
    this.#book = workbook.book;
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "visible") this.run();
      else clearTimeout(this.#timer);
    });
    addEventListener("online", () => this.run());
    this.#book.onChange(() => this.#changed());
    this.run();
  }

  /**
   * {state, unsent, refused, lastAt, says, clockOffsetMs}; `refused`: [{id, job, path, value, reason}], a photo by its
   * name; `clockOffsetMs`: how far the workshop's clock is ahead of this phone's, null before the first contact.
   */
  get state() {
    const operations = this.#book?.refusedRows ?? [];
    const photos = [...(this.#book?.blobs.values() ?? [])].filter(({ refused }) => refused);
    return {
      ...this.#progress,
      unsent: (this.#book?.unlistedRows.length ?? 0) + (this.#book?.unsentBlobs.length ?? 0),
      refused: [
        ...operations.map(({ id, job, operation, refused }) => (
          { id, job, path: operation.path, value: operation.value ?? null, reason: refused }
        )),
        ...photos.map(({ sha256, job, refused }) => ({ id: sha256, job, path: "/photos", value: null, reason: refused })),
      ],
      lastAt: this.#book?.values.get("lastSync") ?? null,
      clockOffsetMs: this.#book?.values.get("clockOffset") ?? null,
    };
  }

  /** Calls `listener(state)` now and after each change of the state. */
  onState(listener) {
    this.#listeners.add(listener);
    listener(this.state);
    return () => this.#listeners.delete(listener);
  }

  /** Runs once, now; resolves with the state that it came to and never rejects. */
  run() {
    clearTimeout(this.#timer);
    this.#running ??= this.#guarded().finally(() => {
      this.#running = null;
    });
    return this.#running;
  }

  /** The workshop's jobs, also those that this phone does not hold: [{id, title, …, last_number}]. */
  workshopJobs(before) {
    return workshopJobs(before);
  }

  /** Fetches a job whole that this phone does not hold; resolves with the state, and never rejects. */
  async fetchJob(job) {
    await want(this.#book, job);
    await this.#running;
    return this.run();
  }

  #tell(progress) {
    this.#progress = progress;
    const { state } = this;
    for (const listener of this.#listeners) listener(state);
    return state;
  }

  #changed() {
    this.#tell(this.#progress);
    if (!this.#running && this.#hasWork()) this.#runIn(AFTER_A_CHANGE_MS);
  }

  #hasWork() {
    return this.#book.unlistedRows.length > 0 || this.#sendableBlobs.length > 0 || wantedJobs(this.#book).length > 0;
  }

  get #sendableBlobs() {
    return this.#book.unsentBlobs.filter(({ refused }) => !refused);
  }

  #runIn(milliseconds, run = () => this.run()) {
    clearTimeout(this.#timer);
    if (document.visibilityState === "visible") this.#timer = setTimeout(run, milliseconds);
  }

  /** Has the list gone on? The other phone's readings are seen a few seconds after they were taken. */
  async #look() {
    if (this.#running) return;
    try {
      const end = await endOfList();
      const own = standing(this.#book);
      if (end.number !== own.number || end.hash !== own.hash || this.#hasWork()) await this.run();
      else this.#runIn(LOOK_EVERY_MS, () => this.#look());
    } catch (error) {
      this.#afterFailure(error);
    }
  }

  async #guarded() {
    this.#tell({ state: "working", says: null });
    try {
      await navigator.locks.request(LOCK, { ifAvailable: true }, (lock) => lock && this.#exchangeAll());
      this.#failures = 0;
      this.#runIn(LOOK_EVERY_MS, () => this.#look());
      return this.#tell({ state: "idle", says: null });
    } catch (error) {
      if (!(error instanceof ServerError)) console.error(error);
      return this.#afterFailure(error);
    }
  }

  #afterFailure(error) {
    this.#failures += 1;
    if (error.kind !== "sign_in") this.#runIn(this.#pause);
    const state = error instanceof ServerError ? error.kind : "failed";
    return this.#tell({ state, says: error.says ?? null });
  }

  /** Short while the network may be back at any moment, long when it has been away for a while. */
  get #pause() {
    if (this.#failures === 1) return FIRST_PAUSE_MS;
    return this.#failures <= SHORT_PAUSES ? SHORT_PAUSE_MS : LONG_PAUSE_MS;
  }

  /** Readings first, photos after them; whatever is read meanwhile goes between two photos. */
  async #exchangeAll() {
    await probe();
    let serverTime = await this.#exchangeOperations();
    const tried = new Set();
    for (let blob; (blob = this.#sendableBlobs.find(({ sha256 }) => !tried.has(sha256))); ) {
      tried.add(blob.sha256);
      await sendBlob(this.#book, blob.sha256);
      if (this.#book.unlistedRows.length) serverTime = await this.#exchangeOperations();
    }
    for (const job of wantedJobs(this.#book)) await this.#fetchWhole(job);
    await this.#compareReceipts();
    await this.#book.keep(() => change({ values: { lastSync: serverTime }, gone: oldCopies(this.#book, serverTime) }));
  }

  async #exchangeOperations() {
    let serverTime = null;
    do serverTime = await this.#exchangeBatch();
    while (standing(this.#book).behind || nextBatch(this.#book).length);
    return serverTime;
  }

  /** One question and its answer; a ServerError where it brings nothing forward. */
  async #exchangeBatch() {
    const begins = !this.#book.values.has("standing");
    const lacking = this.#book.values.get("erasuresLacking") ?? false;
    const batch = begins || lacking ? [] : nextBatch(this.#book);
    const { number, hash } = standing(this.#book);
    const reply = await exchange({ ...(await this.#greeting(lacking)), number, hash, begins, operations: batch.map(({ text }) => text) });
    await takeReply(this.#book, batch, reply);
    await this.#noteErasures(reply);
    const isStuck = standing(this.#book).number === number && nextBatch(this.#book)[0]?.id === batch[0]?.id;
    if (batch.length && isStuck) throw new ServerError("failed");
    return reply.server_time;
  }

  /** Who asks, at what time by this phone, and which erasures it knows: a server that was put back learns them first. */
  async #greeting(lacking) {
    const records = knownErasures(this.#book);
    return {
      device: this.#book.values.get("setting:device"),
      clock: clockTime(),
      erasures_sum: await sumOf(records),
      erasures: lacking ? records.slice(0, MOST_ERASURES) : [],
    };
  }

  async #noteErasures({ erasures_sum: sum, server_time: time }) {
    const lacking = (await sumOf(knownErasures(this.#book))) !== sum;
    const clockOffset = Date.parse(time) - Date.now();
    const known = this.#book.values.get("clockOffset");
    const isNew = known === undefined || Math.abs(known - clockOffset) > CLOCK_STEP_MS;
    if (!isNew && lacking === (this.#book.values.get("erasuresLacking") ?? false)) return;
    await this.#book.keep(() => change({ values: { erasuresLacking: lacking, clockOffset } }));
  }

  async #fetchWhole(job) {
    const entries = await wholeJob(job).then((reply) => reply.entries, (error) => {
      if (error.status === 404) return null;
      throw error;
    });
    await takeWholeJob(this.#book, job, entries);
  }

  async #compareReceipts() {
    const settled = (record) => record.note.safeAt === null && !record.isEmpty && record.isListed;
    for (const record of [...this.#book.records.values()].filter(settled)) {
      if (!(await this.#blobsAreThere(record))) continue;
      const receipt = await receiptOf(record.id);
      const sum = await receiptSum(await receiptLines(record.listedRows, record.blobs));
      if (sum === receipt.sha256) await this.#markSafe(record.id, receipt.server_time);
      else await this.#doubtBlobs(record);
    }
  }

  async #blobsAreThere(record) {
    for (const name of record.blobs.filter((one) => !this.#book.blobs.get(one)?.sent)) {
      if (!(await blobAt(name)).whole) return false;
      const known = this.#book.blobs.get(name) ?? { sha256: name, job: record.id, held: false, refused: null };
      await this.#book.keep(() => change({ blobs: [{ ...known, sent: true }] }));
    }
    return true;
  }

  /** The sums differ: perhaps a photo is gone there. The next sync asks for each, and sends what is not. */
  #doubtBlobs(record) {
    const blobs = record.blobs.map((name) => this.#book.blobs.get(name)).filter((blob) => blob?.held && blob.sent);
    return this.#book.keep(() => (blobs.length ? change({ blobs: blobs.map((blob) => ({ ...blob, sent: false })) }) : null));
  }

  /** Safe only where nothing was changed while the receipt was under way. */
  #markSafe(job, serverTime) {
    return this.#book.keep(() => {
      const record = this.#book.record(job);
      return record.isListed ? change({ notes: [{ ...record.note, safeAt: serverTime }] }) : null;
    });
  }
}

/** The page's one sync. */
export const sync = new Sync();
