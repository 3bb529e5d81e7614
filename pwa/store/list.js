/** Where this phone stands in the server's numbered list, and what an answer of the server changes here. */

import { change } from "./book.js";
import { covers, known as knownErasures, leaving, merged } from "./erasures.js";
import { byteLength } from "./hash.js";
import { ServerError } from "./http.js";
import { runningHash } from "./receipt.js";
import { reportKey } from "./report_key.js";

const MOST_OPERATIONS = 200;
const LARGEST_BATCH = 256 * 1024;
const BEGINNING = { number: 0, hash: "", behind: false };

/** {number, hash, behind}: the last entry taken up, and whether the list is known to go on. */
export function standing(book) {
  return book.values.get("standing") ?? BEGINNING;
}

/** Jobs that came up in the list and that this phone will fetch whole. */
export function wantedJobs(book) {
  return book.values.get("wanted") ?? [];
}

/** The next operations to send: at most 200 and 256 KB, and nothing before the list has been read to its end. */
export function nextBatch(book) {
  if (standing(book).behind) return [];
  const batch = [];
  let size = 0;
  for (const row of book.unlistedRows.slice(0, MOST_OPERATIONS)) {
    size += byteLength(row.text);
    if (batch.length && size > LARGEST_BATCH) break;
    batch.push(row);
  }
  return batch;
}

function idOf(entry) {
  return entry.operation === null ? entry.id : JSON.parse(entry.operation).id;
}

/** Where the entries lead from `start`; null where they do not join it or the server's own hash. */
async function follow(start, reply) {
  let { number, hash } = start;
  for (const entry of reply.entries) {
    if (entry.number !== number + 1) return null;
    number = entry.number;
    hash = await runningHash(hash, number, idOf(entry));
  }
  return number === reply.number && hash === reply.hash ? { number, hash, behind: reply.more } : null;
}

/** Everything listed so far is to be looked for again: the server was put back from an older copy. */
function startAgain(book, rows) {
  for (const record of book.records.values()) {
    for (const row of record.listedRows) rows.set(row.id, { ...row, was: row.number, number: null });
  }
}

function unsent(book) {
  return [...book.blobs.values()].map((blob) => ({ ...blob, sent: false, refused: null }));
}

function takeAnswers(batch, answers, rows) {
  answers.forEach(({ answer, reason }, at) => {
    const { id } = batch[at];
    if (answer === "refused") rows.set(id, { ...(rows.get(id) ?? batch[at]), refused: reason });
  });
}

/** Takes entries up into rows; what was erased, and jobs that are passed over, stay out. */
class Taking {
  constructor(book, erasures, rows) {
    this.book = book;
    this.erasures = erasures;
    this.rows = rows;
    this.gone = [];
    this.wanted = new Set(wantedJobs(book));
    this.known = new Map([...book.records.values()].flatMap((record) => record.rows.map((row) => [row.id, row])));
    this.begun = new Set();
  }

  /** A job that this phone does not hold is taken from its first operation on, fetched whole, or left. */
  takeFrom({ entries, continues = [], recent = null }) {
    const began = new Set(continues);
    const isRecent = (job) => recent === null || recent.includes(job);
    for (const entry of entries) {
      if (entry.operation === null) this.#forget(entry.id);
      else this.#takeOne(entry, began, isRecent);
    }
  }

  #takeOne(entry, began, isRecent) {
    const operation = JSON.parse(entry.operation);
    const { id, job } = operation;
    if (covers(this.erasures, operation)) return this.#forget(id);
    if (this.known.has(id) || this.rows.has(id) || this.book.holds(job) || this.begun.has(job)) return this.#keep(entry, operation);
    if (!isRecent(job)) return undefined;
    if (began.has(job)) return this.wanted.add(job);
    this.begun.add(job);
    return this.#keep(entry, operation);
  }

  /** All entries of a job that is held from now on. */
  takeWhole(entries) {
    for (const entry of entries) {
      if (entry.operation === null) this.#forget(entry.id);
      else this.#keep(entry, JSON.parse(entry.operation));
    }
  }

  #keep({ number, operation: text }, { id, job }) {
    const row = this.rows.get(id) ?? this.known.get(id) ?? { id, job, made: this.book.nextMade() };
    if (row.text !== undefined && row.text !== text) this.#keepApart(row);
    this.rows.set(id, { ...row, text, number, was: null, refused: null });
  }

  /** The list has other bytes under this id: the phone's own are kept beside it, shown as refused. */
  #keepApart(row) {
    const id = `${row.id} as made here`;
    this.rows.set(id, { ...row, id, number: null, was: null, refused: row.refused ?? "another operation has this id" });
  }

  #forget(id) {
    const row = this.rows.get(id) ?? this.known.get(id);
    this.rows.delete(id);
    if (row) this.gone.push({ id, job: row.job });
  }
}

/** The notes of jobs that these rows touch: what was safe is to be proved again. */
function unprovedNotes(book, rows) {
  const jobs = new Set([...rows.values()].map(({ job }) => job));
  return [...jobs].map((job) => ({ ...book.record(job).note, safeAt: null }));
}

/** The server was started anew, perhaps over an older copy of its data: what was safe there is to be proved again. */
function allUnproved(book, rows) {
  const held = [...book.records.values()].filter((record) => !record.isEmpty).map(({ note }) => ({ ...note, safeAt: null }));
  const noted = new Set(held.map(({ id }) => id));
  return [...held, ...unprovedNotes(book, rows).filter(({ id }) => !noted.has(id))];
}

function asKept(rows) {
  return [...rows.values()].map(({ operation, ...row }) => row);
}

/**
 * Keeps what a reply brings together with the place in the list that it leads to.
 * An operation leaves the outbox only by being seen in the list, by being refused or by being erased.
 */
export async function takeReply(book, batch, reply) {
  const begins = reply.jobs !== undefined;
  const start = reply.restart ? BEGINNING : standing(book);
  const after = begins ? { number: reply.number, hash: reply.hash, behind: false } : await follow(start, reply);
  if (after === null) return beginAgain(book);
  return book.keep(() => {
    const rows = new Map();
    if (reply.restart) startAgain(book, rows);
    const erasures = merged(knownErasures(book), reply.erasures);
    takeAnswers(batch, reply.answers, rows);
    const taking = new Taking(book, erasures, rows);
    taking.takeFrom(reply);
    for (const job of reply.jobs ?? []) if (!book.holds(job)) taking.wanted.add(job);
    const isOtherRun = reply.run !== book.values.get("run");
    const values = { standing: after, wanted: [...taking.wanted], run: reply.run };
    return withErasures(book, erasures, rows, change({
      rows: asKept(rows),
      notes: isOtherRun ? allUnproved(book, rows) : unprovedNotes(book, rows),
      blobs: reply.restart || isOtherRun ? unsent(book) : [],
      values,
      gone: { rows: taking.gone },
    }));
  });
}

/** Adds to a change what newly known erasures take from this phone. */
function withErasures(book, erasures, rows, planned) {
  const fresh = erasures.filter(({ id }) => !knownErasures(book).some((one) => one.id === id));
  if (!fresh.length) return planned;
  const { rows: gone, blobs: named, notes } = leaving(book, fresh);
  const blobs = [...named, ...fresh.map(({ job }) => reportKey(job))];
  const ids = new Set(gone.map(({ id }) => id));
  const noted = new Set(notes.map(({ id }) => id));
  return {
    ...planned,
    rows: planned.rows.filter(({ id }) => !ids.has(id)),
    notes: [...planned.notes.filter(({ id }) => !noted.has(id)), ...notes],
    blobs: planned.blobs.filter(({ sha256 }) => !blobs.includes(sha256)),
    values: { ...planned.values, erasures },
    gone: { rows: [...planned.gone.rows, ...gone], jobs: [], blobs },
  };
}

/** The lists do not join, and the server did not notice: this phone starts again at 0 by itself. */
async function beginAgain(book) {
  await book.keep(() => {
    const rows = new Map();
    startAgain(book, rows);
    return change({ rows: asKept(rows), notes: unprovedNotes(book, rows), blobs: unsent(book), values: { standing: BEGINNING } });
  });
  throw new ServerError("failed");
}

/** Keeps a whole job that was wanted; where the workshop no longer has it (`entries` null), it is wanted no more. */
export function takeWholeJob(book, job, entries) {
  return book.keep(() => {
    const rows = new Map();
    const taking = new Taking(book, knownErasures(book), rows);
    if (entries) taking.takeWhole(entries.filter((entry) => entry.operation === null || !covers(taking.erasures, JSON.parse(entry.operation))));
    const values = { wanted: wantedJobs(book).filter((one) => one !== job) };
    return change({ rows: asKept(rows), notes: unprovedNotes(book, rows), values, gone: { rows: taking.gone } });
  });
}

/** Notes that a job is to be fetched whole with the next sync. */
export function want(book, job) {
  return book.keep(() => change({ values: { wanted: [...new Set([...wantedJobs(book), job])] } }));
}
