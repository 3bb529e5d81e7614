/** The receipt: a sum over what the workshop really has of a job. Equal sums mean that it is safe there. */

import { sha256OfText } from "./hash.js";

/** One line for each listed operation {number, id, text}, by number, then one for each blob that is there. */
export async function receiptLines(rows, blobs) {
  const ordered = [...rows].sort((one, other) => one.number - other.number);
  const sums = await Promise.all(ordered.map(({ text }) => sha256OfText(text)));
  const lines = ordered.map(({ number, id }, at) => `${number} ${id} ${sums[at]}`);
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
