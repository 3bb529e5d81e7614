/** The workbook: the one thing that screens talk to. What resolves is kept; only then may it be called so. */

import { Book, change } from "./book.js";
import { zipOf } from "./copies.js";
import { byteLength, sha256 } from "./hash.js";
import { ServerError, deliveriesOf, historyOf, workshopLists } from "./http.js";
import { bytesOf } from "./http.js";
import { JobRecord } from "./jobs.js";
import { clockTime, inverseOf, makeAdd, makeRemove, makeRestore, makeSet, makeSettled } from "./operations.js";
import { smallerPhoto } from "./photos.js";
import { reportKey } from "./report_key.js";
import { fetchReports, isCurrent, keptReport, wish } from "./reports.js";
import { isAtOrIn, sameValue } from "./places.js";
import { uuid7 } from "./uuid.js";

export { bringCars, carsIn, takeCar } from "./practice.js";

const NAME = "teepiece";
const UNDO_STEPS = 100;
const LARGEST_OPERATION = 64 * 1024;
const ROOM_IS_LOW_BYTES = 200_000_000;

/** A row as it is kept: the operation's bytes and where they stand. What no server takes is kept apart at once. */
function newRow(book, { operation, text }) {
  const refused = byteLength(text) > LARGEST_OPERATION ? "the operation is larger than 64 KB" : null;
  return { id: operation.id, job: operation.job, text, number: null, was: null, made: book.nextMade(), refused };
}

/** Operations of one tap with what takes them back. */
function ownChange(book, record, mades, undo) {
  return change({
    rows: mades.map((made) => newRow(book, made)),
    notes: [{ ...record.note, safeAt: null, undo: undo.slice(-UNDO_STEPS) }],
  });
}

/** One job as the screens see it. */
export class JobHandle {
  #book;
  #maker;

  constructor(book, id, maker) {
    this.#book = book;
    this.#maker = maker;
    this.id = id;
  }

  get #record() {
    return this.#book.record(this.id);
  }

  /** The job document as this phone sees it. Not to be changed: use set, add, remove. */
  get document() {
    return this.#record.shown.document;
  }

  /** [{path, shown, others}]: places where several values stand; `operation(id)` tells whose. */
  get conflicts() {
    return this.#record.shown.conflicts;
  }

  /** Paths of the items that were removed. */
  get hidden() {
    return this.#record.shown.hidden;
  }

  /** Whether `undo` has something to take back. */
  get canUndo() {
    return this.#record.note.undo.length > 0;
  }

  /** The time as this phone's clock shows it. */
  now() {
    return clockTime();
  }

  /** The operation with this id, as made, or null. */
  operation(id) {
    return this.#record.operation(id);
  }

  /** Sets one place; null clears it. Resolves when it is kept. */
  set(path, value) {
    return this.setMany([[path, value]]);
  }

  /** Sets several places together: all are kept or none. */
  setMany(pairs) {
    return this.setBy(() => pairs);
  }

  /**
   * Sets the [path, value] pairs that `pairsFrom(document)` gives, asked when all changes before are kept: of two in
   * quick succession the second builds on the first, whatever the page still shows.
   */
  async setBy(pairsFrom) {
    await this.#book.keep(() => {
      const record = this.#record;
      const changed = [...new Map(pairsFrom(this.document))].filter(([path, value]) => !isShown(record, path, value));
      if (!changed.length) return null;
      const inverse = changed.map(([path]) => inverseOf(record, { do: "set", path }));
      const mades = changed.map(([path, value]) => makeSet(this.#maker(), record, path, value));
      return ownChange(this.#book, record, mades, [...record.note.undo, inverse]);
    });
  }

  /**
   * Adds an item to a list, behind the item `after` or at the end. Resolves with its id when it is kept.
   * A step or a gauge known by its name gives its own `id`; one that was removed comes back with the new values.
   */
  async add(listPath, value, { after, id = uuid7() } = {}) {
    await this.#book.keep(() => this.#addition(listPath, id, value, after));
    return id;
  }

  #addition(listPath, id, value, after) {
    const record = this.#record;
    const path = `${listPath}/${id}`;
    if (record.fold.items.has(path) && !record.fold.hidden.includes(path)) return null;
    const made = makeAdd(this.#maker(), record, listPath, id, value, after);
    const inverse = [inverseOf(record, { do: "add", path })];
    return ownChange(this.#book, record, [made], [...record.note.undo, inverse]);
  }

  /** Removes an item from its list. Resolves when it is kept; `undo` brings it back. */
  async remove(itemPath) {
    await this.#book.keep(() => {
      const record = this.#record;
      if (!record.fold.items.has(itemPath) || record.fold.hidden.includes(itemPath)) return null;
      const inverse = [inverseOf(record, { do: "remove", path: itemPath })];
      const made = makeRemove(this.#maker(), record, itemPath);
      return ownChange(this.#book, record, [made], [...record.note.undo, inverse]);
    });
  }

  /**
   * Settles a conflict by one of its answers: `chosen` is the id of an operation that `conflicts` names at `path`.
   * The new operation names all that stand there. Resolves when it is kept.
   */
  async settle(path, chosen) {
    await this.#book.keep(() => {
      const record = this.#record;
      const made = makeSettled(this.#maker(), record, path, record.operation(chosen));
      return ownChange(this.#book, record, [made], record.note.undo);
    });
  }

  /**
   * Takes the last own change back by a new operation; what someone else has changed since is left alone.
   * Resolves with {path} of what was taken back, null where there is nothing.
   */
  async undo() {
    let path = null;
    await this.#book.keep(() => {
      const record = this.#record;
      const steps = [...record.note.undo];
      let step = [];
      while (steps.length && !step.length) step = steps.pop().filter((one) => this.#isOwn(record, one.path));
      path = step.length ? step[0].path : null;
      if (steps.length === record.note.undo.length) return null;
      return ownChange(this.#book, record, step.map((one) => this.#taken(record, one)), steps);
    });
    return path === null ? null : { path };
  }

  #isOwn(record, path) {
    const ids = record.fold.items.has(path) ? record.fold.standingIn(path) : record.fold.standing(path);
    return ids.every((id) => record.operation(id).device === this.#maker().device);
  }

  #taken(record, inverse) {
    if (inverse.do === "remove") return makeRemove(this.#maker(), record, inverse.path);
    if (inverse.do === "add") return makeRestore(this.#maker(), record, inverse.path, inverse.value);
    return makeSet(this.#maker(), record, inverse.path, inverse.value);
  }

  /** Calls `listener()` after each change of this job. */
  onChange(listener) {
    return this.#book.onChange((jobs) => {
      if (jobs.includes(this.id)) listener();
    });
  }

  /** Keeps a photo and lists it at `/photos`. Resolves with its SHA-256 when both are kept. */
  async keepPhoto(blob, { step, caption } = {}) {
    const { bytes, type } = await smallerPhoto(blob);
    const name = await sha256(bytes);
    const id = uuid7();
    const item = { sha256: name, taken_at: clockTime() };
    if (step !== undefined) item.step = step;
    if (caption !== undefined) item.caption = caption;
    await this.#book.keep(() => {
      const addition = this.#addition("/photos", id, item);
      return addition && { ...addition, ...this.#blobKept(name, bytes, type), values: { photoIntent: null } };
    });
    return name;
  }

  /**
   * Keeps a log's file with the columns accepted, in the road run `run`, or in a new one where none is named. Its rows
   * never stand in the document. Resolves with the run's id when all is kept.
   */
  async keepLog(bytes, columns, run = null) {
    const name = await sha256(bytes);
    const log = { sha256: name, columns };
    const id = run ?? uuid7();
    await this.#book.keep(() => {
      const kept = run ? this.#placed(`/tests/road/${run}/log`, log) : this.#addition("/tests/road", id, newRun(log));
      return kept && { ...kept, ...this.#blobKept(name, bytes, "text/csv") };
    });
    return id;
  }

  #placed(path, value) {
    const record = this.#record;
    const inverse = [inverseOf(record, { do: "set", path })];
    return ownChange(this.#book, record, [makeSet(this.#maker(), record, path, value)], [...record.note.undo, inverse]);
  }

  #blobKept(name, bytes, type) {
    const sent = this.#book.blobs.get(name)?.sent ?? false;
    return { blobs: [{ sha256: name, job: this.id, type, held: true, sent, refused: null }], bytes: [[name, bytes]] };
  }
}

function newRun(log) {
  return { phase: "before_repair", control: "normal", log };
}

function isShown(record, path, value) {
  const standing = record.fold.standing(path);
  return standing.length <= 1 && sameValue(record.fold.value(path), value);
}

/** All jobs on this phone, and its settings. */
export class Workbook {
  #book;
  #handles = new Map();
  #urls = new Map();
  #reports = Promise.resolve();

  constructor(book) {
    this.#book = book;
    this.settings = {
      get: (key) => book.values.get(`setting:${key}`),
      set: (key, value) => book.keep(() => change({ values: { [`setting:${key}`]: value } })),
    };
  }

  /** Rejects with a StorageError where the phone would keep nothing any more: it writes and reads back. */
  prove() {
    return this.#book.prove();
  }

  /** What sync works on; screens have no need of it. */
  get book() {
    return this.#book;
  }

  #maker = () => ({ device: this.settings.get("device"), person: this.settings.get("person") ?? "" });

  /** [{id, document, unsent, refused, conflicts, safeAt}], newest first. `unsent` and `refused` are numbers. */
  jobs() {
    const ids = [...this.#book.records.keys()].filter((id) => this.#book.holds(id)).sort().reverse();
    return ids.map((id) => {
      const record = this.#book.records.get(id);
      const { document, conflicts } = record.shown;
      const { safeAt } = record.note;
      return { id, document, unsent: this.#unsent(record), refused: record.refusedRows.length, conflicts, safeAt };
    });
  }

  #unsent(record) {
    const blobs = this.#book.unsentBlobs.filter(({ job }) => job === record.id);
    return record.unlistedRows.length + blobs.length;
  }

  /** The handle of a job, or null where this phone does not hold it. */
  job(id) {
    if (!this.#book.holds(id)) return null;
    if (!this.#handles.has(id)) this.#handles.set(id, new JobHandle(this.#book, id, this.#maker));
    return this.#handles.get(id);
  }

  /** Opens a job with these places set. Resolves with its id when it is kept. */
  async newJob({ places = {} } = {}) {
    const id = uuid7();
    const person = this.settings.get("person");
    const first = { "/opened_at": clockTime(), ...(person ? { "/technician": person } : {}), ...places };
    await this.#book.keep(() => {
      const record = new JobRecord(id);
      const mades = Object.entries(first).map(([path, value]) => makeSet(this.#maker(), record, path, value));
      return ownChange(this.#book, record, mades, []);
    });
    return id;
  }

  /** Calls `listener(jobIds)` after each change of any job, own or by sync. */
  onChange(listener) {
    return this.#book.onChange(listener);
  }

  /** Calls `listener()` when a newer release in another page has taken the database over. */
  onOutdated(listener) {
    this.#book.onOutdated = listener;
  }

  /** An address for an <img>: of the bytes held here, else of the workshop's copy. */
  async photoUrl(name) {
    if (this.#urls.has(name)) return this.#urls.get(name);
    const bytes = await this.#book.bytesOf(name);
    if (!bytes) return `/api/blobs/${name}`;
    const url = URL.createObjectURL(new Blob([bytes], { type: this.#book.blobs.get(name).type }));
    this.#urls.set(name, url);
    return url;
  }

  /** The bytes of a log: those held here, else the workshop's copy. Rejects where neither can be had. */
  async logBytes(name) {
    return (await this.#book.bytesOf(name)) ?? bytesOf(name);
  }

  /** Where the workshop's computer gives a job's PDF. */
  reportAddress(job, form, unit, language) {
    return `/api/jobs/${job}/report.pdf?form=${form}&unit=${encodeURIComponent(unit)}&language=${language}`;
  }

  /** What all jobs of the workshop share, as last fetched: {settings, gauges, engines, prices}; empty before that. */
  get workshop() {
    return this.#book.values.get("workshop") ?? {};
  }

  /** Fetches it where the workshop's computer is in reach; what was fetched earlier stays otherwise. */
  fetchWorkshop() {
    return this.#fetched("workshop", () => workshopLists());
  }

  /** What became of a job's e-mails, as last heard: [{id, state, says, at}]. */
  deliveries(job) {
    return this.#book.values.get(`deliveries:${job}`) ?? [];
  }

  /** Asks the workshop's computer what became of them. */
  fetchDeliveries(job) {
    return this.#fetched(`deliveries:${job}`, async () => (await deliveriesOf(job)).deliveries);
  }

  /** Other jobs of the same car, as last heard from the workshop: [{id, opened_at, complaint, says}]. */
  history(job) {
    return this.#book.values.get(`history:${job}`) ?? [];
  }

  /** Asks the workshop's computer for them. */
  fetchHistory(job, unit, language) {
    return this.#fetched(`history:${job}`, async () => (await historyOf(job, unit, language)).jobs);
  }

  /** {sha256, at, upTo, unit, language} of the customer's PDF that is kept here, or null. */
  report(job) {
    return keptReport(this.#book, job);
  }

  /** Whether that PDF was drawn from all that this phone knows. */
  isReportCurrent(job) {
    return isCurrent(this.#book, job);
  }

  /** The bytes of that PDF, or undefined. */
  reportBytes(job) {
    return this.#book.bytesOf(reportKey(job));
  }

  /** From now on the customer's PDF of a job is fetched after each sync, in this unit and language. */
  async wantReport(job, { unit, language }) {
    await wish(this.#book, job, { unit, language });
    await this.fetchReports();
  }

  /** Fetches the PDFs that are wanted, where the workshop's computer is in reach. One round at a time. */
  fetchReports() {
    this.#reports = this.#reports.then(() => fetchReports(this.#book)).catch(console.error);
    return this.#reports;
  }

  async #fetched(key, question) {
    try {
      const fresh = await question();
      if (!sameValue(this.#book.values.get(key), fresh)) await this.#book.keep(() => change({ values: { [key]: fresh } }));
      return fresh;
    } catch (error) {
      if (!(error instanceof ServerError)) throw error;
      return null;
    }
  }

  /** Notes that the camera is about to open for a step: the phone may end this page meanwhile. */
  photoIntent(job, step) {
    return this.#book.keep(() => change({ values: { photoIntent: { job, step, at: clockTime() } } }));
  }

  /** {job, step, at} of a camera that was opened and brought no photo, or null. */
  pendingPhotoIntent() {
    return this.#book.values.get("photoIntent") ?? null;
  }

  /** Forgets the intent: the technician gave the photo up. */
  dropPhotoIntent() {
    return this.#book.keep(() => change({ values: { photoIntent: null } }));
  }

  /** Asks the browser not to clear this phone's data by itself. To be called from a tap. */
  persist() {
    return navigator.storage.persist();
  }

  /** {persisted, usage, quota, isLow}: bytes used and to be had; `isLow` where few photos more would fit. */
  async storage() {
    const [persisted, { usage, quota }] = await Promise.all([
      navigator.storage.persisted(),
      navigator.storage.estimate(),
    ]);
    return { persisted, usage, quota, isLow: quota - usage < ROOM_IS_LOW_BYTES };
  }

  /**
   * Everything on this phone as one file {blob, name}, for the share sheet or a download. Needs no server and writes
   * nothing, so it works with a full store too.
   */
  saveCopy() {
    return zipOf(this.#book);
  }
}

const DEVICE = "setting:device";

/**
 * Opens the workbook, or another one by its name; rejects with a StorageError where nothing can be read, and on the
 * first start where nothing would be kept.
 */
export async function openWorkbook(name = NAME) {
  const book = new Book(name);
  await book.open();
  if (!book.values.has(DEVICE)) await begun(book);
  return new Workbook(book);
}

async function begun(book) {
  await book.prove();
  await book.keep(() => (book.values.has(DEVICE) ? null : change({ values: { [DEVICE]: uuid7() } })));
}
