/** Where this phone stands in the server's numbered list, and what an answer of the server changes here. */

import { change } from "./book.js";
import { byteLength } from "./hash.js";
import { ServerError } from "./http.js";
import { runningHash } from "./receipt.js";

const MOST_OPERATIONS = 200;
const LARGEST_BATCH = 256 * 1024;
const BEGINNING = { number: 0, hash: "", behind: false };

/** {number, hash, behind}: the last entry taken up, and whether the list is known to go on. */
export function standing(book) {
  return book.values.get("standing") ?? BEGINNING;
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

/** Where the entries lead from `start`; a ServerError where they do not join it or the server's own hash. */
async function follow(start, reply) {
  let { number, hash } = start;
  for (const entry of reply.entries) {
    if (entry.number !== number + 1) throw new ServerError("failed");
    number = entry.number;
    hash = await runningHash(hash, number, JSON.parse(entry.operation).id);
  }
  if (number !== reply.number || hash !== reply.hash) throw new ServerError("failed");
  return { number, hash, behind: reply.more };
}

/** Everything listed so far is to be looked for again: the server was put back from an older copy. */
function startAgain(book, rows) {
  for (const record of book.records.values()) {
    for (const row of record.listedRows) rows.set(row.id, { ...row, was: row.number, number: null });
  }
}

function takeAnswers(batch, answers, rows) {
  answers.forEach(({ answer, reason }, at) => {
    const { id } = batch[at];
    if (answer === "refused") rows.set(id, { ...(rows.get(id) ?? batch[at]), refused: reason });
  });
}

function takeEntry(book, known, { number, operation: text }, rows) {
  const { id, job } = JSON.parse(text);
  const row = rows.get(id) ?? known.get(id) ?? { id, job, made: book.nextMade() };
  rows.set(id, { ...row, text, number, was: null, refused: null });
}

/** The notes of jobs that these rows touch: what was safe is to be proved again. */
function unprovedNotes(book, rows) {
  const jobs = new Set([...rows.values()].map(({ job }) => job));
  return [...jobs].map((job) => ({ ...book.record(job).note, safeAt: null }));
}

/**
 * Keeps what a reply brings together with the place in the list that it leads to.
 * An operation leaves the outbox only by being seen in the list, or by being refused.
 */
export async function takeReply(book, batch, reply) {
  const before = standing(book);
  const after = await follow(reply.restart ? BEGINNING : before, reply);
  await book.keep(() => {
    const rows = new Map();
    if (reply.restart) startAgain(book, rows);
    takeAnswers(batch, reply.answers, rows);
    const known = new Map([...book.records.values()].flatMap(({ rows: kept }) => kept.map((row) => [row.id, row])));
    for (const entry of reply.entries) takeEntry(book, known, entry, rows);
    return change({
      rows: [...rows.values()].map(({ operation, ...row }) => row),
      notes: unprovedNotes(book, rows),
      blobs: reply.restart ? [...book.blobs.values()].map((blob) => ({ ...blob, sent: false })) : [],
      values: { standing: after },
    });
  });
}
