/** The receipt: a sum over what the workshop really has of a job. Equal sums mean that it is safe there. */

import { sha256OfText } from "./hash.js";

/* The bytes of an operation never change, so its sum is worked out once a page. */
const sums = new Map();

async function sumOf({ id, text }) {
  const known = sums.get(id);
  if (known?.text === text) return known.sum;
  const sum = await sha256OfText(text);
  sums.set(id, { text, sum });
  return sum;
}

/** One line for each listed operation {number, id, text}, by number, then one for each blob that is there. */
export async function receiptLines(rows, blobs) {
  const ordered = [...rows].sort((one, other) => one.number - other.number);
  const found = await Promise.all(ordered.map(sumOf));
  const lines = ordered.map(({ number, id }, at) => `${number} ${id} ${found[at]}`);
  return [...lines, ...[...blobs].sort().map((name) => `blob ${name}`)];
}

/** SHA-256 over the lines, each ended by a line feed. */
export function receiptSum(lines) {
  return sha256OfText(lines.map((line) => `${line}\n`).join(""));
}

/** Where a phone stands after one more entry of the list. */
export function runningHash(previous, number, id) {
  return sha256OfText([previous, number, id].join(" "));
}
