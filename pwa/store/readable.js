/** The page in a saved copy: every job's car, readings and photos, readable in any browser with nothing else. */

import { words } from "../words/copy.js";
import { isAtOrIn } from "./places.js";

const SIGNS = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;" };

function escaped(value) {
  return String(value).replace(/[&<>"']/g, (sign) => SIGNS[sign]);
}

function printed(value) {
  return typeof value === "object" ? JSON.stringify(value) : value;
}

/** [place, value] of everything in a document, in its order; list items by their position. */
function placesIn(value, path = "") {
  if (value === null || typeof value !== "object") return [[path, value]];
  return Object.entries(value).flatMap(([key, inner]) => placesIn(inner, `${path}/${Array.isArray(value) ? Number(key) + 1 : key}`));
}

function title({ vehicle = {} }) {
  return [vehicle.make, vehicle.model, vehicle.engine, vehicle.registration].filter(Boolean).join(" ") || words.unnamed;
}

function rows(document) {
  const readable = placesIn(document).filter(([path]) => !isAtOrIn(path, "/photos") && !/\/(?:id|rank|format)$/.test(path));
  return readable.map(([path, value]) => (
    `<tr><th scope="row">${escaped(path.slice(1).replaceAll("/", " \u00b7 ").replaceAll("_", " "))}</th><td>${escaped(printed(value))}</td></tr>`
  ));
}

function figures(book, { photos = [] }, fileOf) {
  const held = photos.map((photo) => ({ photo, blob: book.blobs.get(photo.sha256) })).filter(({ blob }) => blob?.held);
  return held.map(({ photo, blob }, at) => {
    const caption = escaped([photo.caption, photo.step].filter(Boolean).join(", ") || words.photo(at + 1));
    return `<figure><img src="${escaped(fileOf(blob))}" alt="${caption}" width="480"><figcaption>${caption}</figcaption></figure>`;
  });
}

function section(book, record, fileOf) {
  const { document } = record.shown;
  const open = record.unlistedRows.length + record.refusedRows.length;
  return [
    `<section><h2>${escaped(title(document))}</h2>`,
    `<p>${escaped(open ? words.open(open) : words.listed)}</p>`,
    `<table>${rows(document).join("")}</table>`,
    ...figures(book, document, fileOf),
    "</section>",
  ].join("\n");
}

/** The whole page as text. `fileOf(blob)` names a photo's file beside it. */
export function readablePage(book, madeAt, fileOf) {
  const jobs = [...book.records.values()].filter((record) => !record.isEmpty);
  return [
    `<!doctype html><html lang="${words.language}"><meta charset="utf-8"><title>${escaped(words.title(madeAt))}</title>`,
    `<h1>${escaped(words.title(madeAt))}</h1><p>${escaped(words.what)}</p>`,
    ...jobs.map((record) => section(book, record, fileOf)),
    "</html>\n",
  ].join("\n");
}
