/** Sync: the phone's outbox to the workshop, the workshop's list to the phone. Runs on the page, never by a timer alone. */

import { change } from "./book.js";
import { ServerError, exchange, hasBlob, probe, putBlob, receiptOf } from "./http.js";
import { nextBatch, standing, takeReply } from "./list.js";
import { receiptLines, receiptSum } from "./receipt.js";

const LOCK = "teepiece-sync";
const AFTER_A_CHANGE_MS = 3_000;
const FIRST_PAUSE_MS = 5_000;
const LONGEST_PAUSE_MS = 300_000;

function isRefusal(error) {
  return error instanceof ServerError && error.kind === "failed" && error.status >= 400 && error.status < 500;
}

class Sync {
  #book = null;
  #running = null;
  #timer = null;
  #pause = FIRST_PAUSE_MS;
  #listeners = new Set();
  #progress = { state: "idle", says: null };

  /** Begins to keep a workbook and the workshop in step: now, when the page is seen again, after changes. */
  start(workbook) {
    this.#book = workbook.book;
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "visible") this.run();
    });
    addEventListener("online", () => this.run());
    this.#book.onChange(() => this.#changed());
    this.run();
  }

  /** {state, unsent, refused, lastAt, says}; `refused`: [{id, job, path, value, reason}], a photo by its name. */
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
    return this.#book.unlistedRows.length > 0 || this.#book.unsentBlobs.some(({ refused }) => !refused);
  }

  #runIn(milliseconds) {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.run(), milliseconds);
  }

  async #guarded() {
    this.#tell({ state: "working", says: null });
    try {
      await navigator.locks.request(LOCK, { ifAvailable: true }, (lock) => lock && this.#exchangeAll());
      this.#pause = FIRST_PAUSE_MS;
      return this.#tell({ state: "idle", says: null });
    } catch (error) {
      if (!(error instanceof ServerError)) console.error(error);
      return this.#afterFailure(error);
    }
  }

  #afterFailure(error) {
    if (error.kind !== "sign_in" && this.#hasWork()) {
      this.#runIn(this.#pause);
      this.#pause = Math.min(this.#pause * 2, LONGEST_PAUSE_MS);
    }
    const state = error instanceof ServerError ? error.kind : "failed";
    return this.#tell({ state, says: error.says ?? null });
  }

  async #exchangeAll() {
    await probe();
    await this.#sendBlobs();
    let serverTime = null;
    do serverTime = await this.#exchangeBatch();
    while (standing(this.#book).behind || nextBatch(this.#book).length);
    await this.#compareReceipts();
    await this.#book.keep(() => change({ values: { lastSync: serverTime } }));
  }

  /** One question and its answer; a ServerError where it brings nothing forward. */
  async #exchangeBatch() {
    const batch = nextBatch(this.#book);
    const { number, hash } = standing(this.#book);
    const device = this.#book.values.get("setting:device");
    const reply = await exchange({ device, number, hash, operations: batch.map(({ text }) => text) });
    await takeReply(this.#book, batch, reply);
    if (reply.restart) await this.#sendBlobs();
    const isStuck = standing(this.#book).number === number && nextBatch(this.#book)[0]?.id === batch[0]?.id;
    if (batch.length && isStuck) throw new ServerError("failed");
    return reply.server_time;
  }

  async #sendBlobs() {
    for (const blob of this.#book.unsentBlobs.filter(({ refused }) => !refused)) {
      const outcome = await this.#sendBlob(blob.sha256);
      await this.#book.keep(() => change({ blobs: [{ ...this.#book.blobs.get(blob.sha256), ...outcome }] }));
    }
  }

  /** A photo that the server does not take stops nothing else; it is kept apart, with the reason. */
  async #sendBlob(name) {
    if (await hasBlob(name)) return { sent: true };
    try {
      await putBlob(name, await this.#book.bytesOf(name));
      return { sent: true };
    } catch (error) {
      if (isRefusal(error)) return { refused: error.says ?? error.message };
      throw error;
    }
  }

  async #compareReceipts() {
    const settled = ({ note, rows, listedRows }) => note.safeAt === null && rows.length === listedRows.length;
    for (const record of [...this.#book.records.values()].filter(settled)) {
      if (!record.rows.length || !(await this.#blobsAreThere(record))) continue;
      const receipt = await receiptOf(record.id);
      const sum = await receiptSum(await receiptLines(record.listedRows, record.blobs));
      if (sum === receipt.sha256) await this.#markSafe(record.id, receipt.server_time);
    }
  }

  async #blobsAreThere(record) {
    for (const name of record.blobs.filter((one) => !this.#book.blobs.get(one)?.sent)) {
      if (!(await hasBlob(name))) return false;
      const known = this.#book.blobs.get(name) ?? { sha256: name, job: record.id, held: false, refused: null };
      await this.#book.keep(() => change({ blobs: [{ ...known, sent: true }] }));
    }
    return true;
  }

  /** Safe only where nothing was changed while the receipt was under way. */
  #markSafe(job, serverTime) {
    return this.#book.keep(() => {
      const { note, rows, listedRows } = this.#book.record(job);
      return rows.length === listedRows.length ? change({ notes: [{ ...note, safeAt: serverTime }] }) : null;
    });
  }
}

/** The page's one sync. */
export const sync = new Sync();
