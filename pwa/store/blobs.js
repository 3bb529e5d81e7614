/** Blobs to the workshop: in parts of at most 256 KB, small on a slow line, gone on with where they broke off. */

import { change } from "./book.js";
import { sha256 } from "./hash.js";
import { ServerError, blobAt, putPart } from "./http.js";

const LARGEST_PART = 256 * 1024;
const SMALLEST_PART = 16 * 1024;
const FIRST_PART = 32 * 1024;
const PART_TAKES_MS = 80; // a line that breaks costs half of a part: on a slow one parts are small
const TRIES = 4;
const BETWEEN_TRIES_MS = 400;
const TOO_LARGE = 413;
const WRONG_HASH = 422;

let partSize = FIRST_PART;

/** As many bytes as lately went in the time that a part may take. A browser's own silent repeats count as slowness. */
function adapt(bytes, milliseconds) {
  const wanted = (bytes / Math.max(milliseconds, 1)) * PART_TAKES_MS;
  partSize = Math.round(Math.min(Math.max(wanted, SMALLEST_PART), LARGEST_PART, 2 * partSize));
}

function later(milliseconds) {
  return new Promise((resolve) => {
    setTimeout(resolve, milliseconds);
  });
}

/** Asks again a few times where the line breaks; any part that comes through starts the count anew. */
async function stubborn(question) {
  for (let tries = 1; ; tries += 1) {
    try {
      return await question();
    } catch (error) {
      if (error.kind !== "no_server" || tries === TRIES) throw error;
      await later(BETWEEN_TRIES_MS * tries);
    }
  }
}

/** One part, or where the line broke in it: the server says from where to go on. */
async function sendPart(name, bytes, start) {
  try {
    const end = Math.min(start + partSize, bytes.byteLength);
    const began = performance.now();
    const reached = await putPart(name, bytes, start, end);
    adapt(end - start, performance.now() - began);
    return reached;
  } catch (error) {
    if (error.kind !== "no_server") throw error;
    partSize = Math.max(Math.round(partSize / 2), SMALLEST_PART);
    return stubborn(() => blobAt(name));
  }
}

async function sendBytes(name, bytes) {
  let standing = await stubborn(() => blobAt(name));
  for (let stuck = 0; !standing.whole; ) {
    const next = await sendPart(name, bytes, standing.offset);
    stuck = next.whole || next.offset !== standing.offset ? 0 : stuck + 1;
    if (stuck === TRIES) throw new ServerError("no_server");
    standing = next;
  }
}

/**
 * {sent: true}, or {refused: why} of a blob that will never be taken: it is kept apart and stops nothing else.
 * Anything else that goes wrong is thrown, and the blob is sent again later.
 */
async function outcomeOf(book, name) {
  const bytes = await book.bytesOf(name);
  try {
    await sendBytes(name, bytes);
    return { sent: true };
  } catch (error) {
    if (error.status === TOO_LARGE) return { refused: error.says ?? error.message };
    if (error.status === WRONG_HASH && (await sha256(bytes)) !== name) return { refused: "damaged on this phone" };
    throw error;
  }
}

/** Sends one blob and keeps what became of it. */
export async function sendBlob(book, name) {
  const outcome = await outcomeOf(book, name);
  await book.keep(() => (book.blobs.has(name) ? change({ blobs: [{ ...book.blobs.get(name), ...outcome }] }) : null));
}
