/** Erasures: what was erased anywhere counts for nothing here, and its copies leave this phone. */

import { sha256OfText } from "./hash.js";
import { isAtOrIn } from "./places.js";

const BLOB_NAME = /\b[0-9a-f]{64}\b/g;

/** [{id, job, path}]: the records that this phone knows. */
export function known(book) {
  return book.values.get("erasures") ?? [];
}

/** The same sum as the server's: equal sums, equal records. */
export function sumOf(records) {
  const ids = [...new Set(records.map(({ id }) => id))].sort();
  return sha256OfText(ids.map((id) => `${id}\n`).join(""));
}

/** Own records and those of a reply, each once. */
export function merged(own, others) {
  return [...new Map([...own, ...others].map((record) => [record.id, record])).values()];
}

/** Whether a record covers an operation. */
export function covers(records, { job, path }) {
  return records.some((record) => record.job === job && isAtOrIn(path, record.path));
}

/**
 * What leaves this phone with these records: {rows, blobs} and the notes that held what stood there.
 * A photo stays while another operation names it.
 */
export function leaving(book, records) {
  const touched = [...new Set(records.map(({ job }) => job))].filter((job) => book.records.has(job));
  const rows = touched.flatMap((job) => book.record(job).rows.filter(({ operation }) => covers(records, operation)));
  const ids = new Set(rows.map(({ id }) => id));
  const staying = [...book.records.values()].flatMap((record) => record.rows.filter(({ id }) => !ids.has(id)));
  const named = new Set(staying.flatMap(({ text }) => text.match(BLOB_NAME) ?? []));
  const blobs = rows.flatMap(({ text }) => text.match(BLOB_NAME) ?? []).filter((name) => !named.has(name));
  const notes = touched.map((job) => ({ ...book.record(job).note, safeAt: null, undo: withoutErased(book, job, records) }));
  return { rows: rows.map(({ id, job }) => ({ id, job })), blobs: [...new Set(blobs)], notes };
}

function withoutErased(book, job, records) {
  const steps = book.record(job).note.undo.map((step) => step.filter(({ path }) => !covers(records, { job, path })));
  return steps.filter((step) => step.length);
}
