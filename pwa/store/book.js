/** Everything kept on this phone, in memory for reading, in IndexedDB for keeping. */

import { Database, resultOf } from "./database.js";
import { JobRecord, byMaking, heldFrom } from "./jobs.js";

const STORES = ["operations", "jobs", "blobs", "bytes", "values"];

/**
 * What one change keeps, all or nothing:
 * rows (operations), notes (of jobs), blobs (what is known of blobs), bytes ([name, ArrayBuffer]), values;
 * and what it takes away: `gone` {rows: [{id, job}], jobs: [ids], blobs: [names]}.
 */
export function change({ rows = [], notes = [], blobs = [], bytes = [], values = {}, gone = {} } = {}) {
  return { rows, notes, blobs, bytes, values, gone: { rows: [], jobs: [], blobs: [], ...gone } };
}

export class Book {
  #database;
  #queue = Promise.resolve();
  #listeners = new Set();
  #channel;
  #revision = 0;
  #made = 0;

  records = new Map();
  blobs = new Map();
  values = new Map();

  constructor(name) {
    this.#database = new Database(name);
    this.#channel = new BroadcastChannel(name);
    this.#channel.onmessage = ({ data }) => this.#followOther(data.revision);
  }

  /** Opens the database and reads all of it; rejects with a StorageError where it cannot. */
  open() {
    return this.#database.read(STORES, (stores) => this.#load(stores));
  }

  /** Rejects with a StorageError where nothing would be kept. */
  prove() {
    return this.#database.prove();
  }

  set onOutdated(listener) {
    this.#database.onOutdated = listener;
  }

  /** Calls `listener(jobIds)` after each change, own or of another page. */
  onChange(listener) {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  /** Whether this phone holds operations of a job. */
  holds(job) {
    return this.records.get(job)?.isEmpty === false;
  }

  record(job) {
    if (!this.records.has(job)) this.records.set(job, new JobRecord(job));
    return this.records.get(job);
  }

  /** Kept operations of all jobs that are still to be sent, in the order made. */
  get unlistedRows() {
    const rows = [...this.records.values()].flatMap((record) => record.unlistedRows);
    return rows.sort(byMaking);
  }

  /** Kept operations of all jobs that the server refused. */
  get refusedRows() {
    return [...this.records.values()].flatMap((record) => record.refusedRows);
  }

  /** What is known of the blobs whose bytes are here and still to be sent. */
  get unsentBlobs() {
    return [...this.blobs.values()].filter(({ held, sent }) => held && !sent);
  }

  /** A number that rises with each operation kept on this phone. */
  nextMade() {
    this.#made += 1;
    return this.#made;
  }

  /**
   * Keeps what `plan()` returns (see `change`), and resolves with it once the transaction is complete.
   * `plan` sees all that any page of this phone has kept; null keeps nothing. It may run twice.
   */
  keep(plan) {
    const turn = this.#queue.then(() => this.#keep(plan));
    this.#queue = turn.catch(() => {});
    return turn;
  }

  async #keep(plan) {
    const kept = await this.#database.write(STORES, async (stores) => {
      const revision = (await resultOf(stores.values.get("revision"))) ?? 0;
      if (revision !== this.#revision) await this.#load(stores);
      const planned = plan();
      if (planned) this.#put(stores, planned);
      return planned;
    });
    if (kept) this.#take(kept);
    return kept;
  }

  #put(stores, { rows, notes, blobs, bytes, values, gone }) {
    for (const { id } of gone.rows) stores.operations.delete(id);
    for (const id of gone.jobs) stores.jobs.delete(id);
    for (const name of gone.blobs) {
      stores.blobs.delete(name);
      stores.bytes.delete(name);
    }
    for (const row of rows) stores.operations.put(row);
    for (const note of notes) stores.jobs.put(note);
    for (const blob of blobs) stores.blobs.put(blob);
    for (const [name, buffer] of bytes) stores.bytes.put(buffer, name);
    for (const [key, value] of Object.entries(values)) stores.values.put(value, key);
    stores.values.put(this.#revision + 1, "revision");
  }

  #take({ rows, notes, blobs, values, gone }) {
    this.#revision += 1;
    for (const { id, job } of gone.rows) this.records.get(job)?.drop(id);
    for (const id of gone.jobs) this.records.delete(id);
    for (const name of gone.blobs) this.blobs.delete(name);
    for (const row of rows) this.record(row.job).take(heldFrom(row));
    for (const note of notes) this.record(note.id).note = note;
    for (const blob of blobs) this.blobs.set(blob.sha256, blob);
    for (const [key, value] of Object.entries(values)) this.values.set(key, value);
    this.#channel.postMessage({ revision: this.#revision });
    this.#tell([...rows.map(({ job }) => job), ...notes.map(({ id }) => id), ...gone.rows.map(({ job }) => job), ...gone.jobs]);
  }

  async #load(stores) {
    const [rows, notes, blobs, keys, values] = await Promise.all([
      resultOf(stores.operations.getAll()),
      resultOf(stores.jobs.getAll()),
      resultOf(stores.blobs.getAll()),
      resultOf(stores.values.getAllKeys()),
      resultOf(stores.values.getAll()),
    ]);
    this.records = new Map();
    for (const row of rows) this.record(row.job).take(heldFrom(row));
    for (const note of notes) this.record(note.id).note = note;
    this.blobs = new Map(blobs.map((blob) => [blob.sha256, blob]));
    this.values = new Map(keys.map((key, at) => [key, values[at]]));
    this.#revision = this.values.get("revision") ?? 0;
    this.#made = rows.reduce((highest, { made }) => Math.max(highest, made), 0);
  }

  #followOther(revision) {
    const turn = this.#queue.then(async () => {
      if (revision === this.#revision) return;
      await this.#database.read(STORES, (stores) => this.#load(stores));
      this.#tell([...this.records.keys()]);
    });
    this.#queue = turn.catch(() => {});
  }

  #tell(jobs) {
    const ids = [...new Set(jobs)];
    for (const listener of this.#listeners) listener(ids);
  }

  /** The bytes of a blob that this phone holds, or undefined. */
  bytesOf(sha256) {
    return this.#database.read(["bytes"], (stores) => resultOf(stores.bytes.get(sha256)));
  }
}
