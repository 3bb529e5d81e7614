/** Copies: of finished jobs on this phone, which leave after a while; and of everything, as one file that needs no server. */

import { known as knownErasures } from "./erasures.js";
import { clockTime } from "./operations.js";
import { readablePage } from "./readable.js";
import { reportKey } from "./report_key.js";

const COPIES_STAY_MS = 14 * 24 * 3_600_000;
const LIBRARY = "/vendor/fflate/fflate.js";
const FORMAT = "teepiece-copy/1";

/** What leaves this phone {rows, jobs, blobs}: jobs safe in the workshop for 14 days by the server's time, untouched since. */
export function oldCopies(book, serverTime) {
  const now = Date.parse(serverTime);
  const isOld = (record) => record.note.safeAt !== null && record.isListed && now - Date.parse(record.note.safeAt) > COPIES_STAY_MS;
  const old = [...book.records.values()].filter((record) => !record.isEmpty && isOld(record));
  if (!old.length) return {};
  const staying = new Set([...book.records.values()].filter((record) => !old.includes(record)).flatMap(({ blobs }) => blobs));
  return {
    rows: old.flatMap(({ id: job, rows }) => rows.map(({ id }) => ({ id, job }))),
    jobs: old.map(({ id }) => id),
    blobs: [...old.flatMap(({ blobs }) => blobs).filter((name) => !staying.has(name)), ...old.map(({ id }) => reportKey(id))],
  };
}

const encoder = new TextEncoder();

/** Puts files into a zip one after the other; only one photo at a time lies in memory beside the result. */
class Zipped {
  #library;
  #chunks = [];
  #done;
  #zip;

  constructor(library) {
    this.#library = library;
    this.#done = new Promise((resolve, reject) => {
      this.#zip = new library.Zip((error, chunk, isLast) => {
        if (error) reject(error);
        else this.#chunks.push(chunk);
        if (isLast) resolve(new Blob(this.#chunks, { type: "application/zip" }));
      });
    });
  }

  text(name, text) {
    this.#put(new this.#library.ZipDeflate(name, { level: 6 }), encoder.encode(text));
  }

  bytes(name, buffer) {
    this.#put(new this.#library.ZipPassThrough(name), new Uint8Array(buffer));
  }

  #put(file, bytes) {
    this.#zip.add(file);
    file.push(bytes, true);
  }

  end() {
    this.#zip.end();
    return this.#done;
  }
}

/** One operation a line, its bytes as made, with the number that it has in the workshop's list or null. */
function operationLines(book) {
  const rows = [...book.records.values()].flatMap((record) => record.rows);
  const lines = rows.sort((one, other) => one.made - other.made).map(({ number, text }) => JSON.stringify({ number, operation: text }));
  return lines.map((line) => `${line}\n`).join("");
}

function fileName(name, type) {
  return `blobs/${name}${{ "image/jpeg": ".jpg", "image/png": ".png", "text/csv": ".csv" }[type] ?? ""}`;
}

/** {blob, name}: the copy as a zip file, with the name to save it under. */
export async function zipOf(book) {
  const madeAt = clockTime();
  const zipped = new Zipped(await import(LIBRARY));
  const blobs = [...book.blobs.values()].filter(({ held }) => held);
  const manifest = { format: FORMAT, made_at: madeAt, device: book.values.get("setting:device") ?? null };
  zipped.text("copy.json", JSON.stringify(manifest, null, 1));
  zipped.text("operations.jsonl", operationLines(book));
  zipped.text("erasures.json", JSON.stringify(knownErasures(book)));
  zipped.text("index.html", readablePage(book, madeAt, ({ sha256, type }) => fileName(sha256, type)));
  for (const { sha256, type } of blobs) {
    const bytes = await book.bytesOf(sha256);
    if (bytes) zipped.bytes(fileName(sha256, type), bytes);
  }
  return { blob: await zipped.end(), name: `teepiece-${madeAt.slice(0, 16).replace(/[T:]/g, "-")}.zip` };
}
