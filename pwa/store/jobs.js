/** What this phone holds of one job, and the fold of it. */

import { Fold } from "./fold.js";
import { tokens } from "./places.js";

const NEVER_LISTED = Number.MAX_SAFE_INTEGER;

function byNumber(one, other) {
  return one.number - other.number;
}

/** Orders rows by their making; after a new start at 0, first by the list as it was. */
export function byMaking(one, other) {
  return (one.was ?? NEVER_LISTED) - (other.was ?? NEVER_LISTED) || one.made - other.made;
}

/** A kept row with its operation read from its bytes. */
export function heldFrom(row) {
  return { ...row, operation: JSON.parse(row.text) };
}

/** One job: its kept operations and what is noted of it on this phone alone. */
export class JobRecord {
  #held = new Map();
  #fold = null;
  #shown = null;

  constructor(id) {
    this.id = id;
    this.note = { id, safeAt: null, undo: [] };
  }

  take(held) {
    this.#held.set(held.id, held);
    this.#fold = null;
    this.#shown = null;
  }

  /** Forgets an operation that was erased, or that belongs to a copy no longer held. */
  drop(id) {
    this.#held.delete(id);
    this.#fold = null;
    this.#shown = null;
  }

  get isEmpty() {
    return this.#held.size === 0;
  }

  /** Kept rows that the server's list has, by number. */
  get listedRows() {
    return [...this.#held.values()].filter(({ number }) => number !== null).sort(byNumber);
  }

  /** Kept rows that the list lacks and the server has not refused, in the order made. */
  get unlistedRows() {
    const open = ({ number, refused }) => number === null && refused === null;
    return [...this.#held.values()].filter(open).sort(byMaking);
  }

  /** Kept rows that the server refused and that no listed correction names. */
  get refusedRows() {
    const apart = [...this.#held.values()].filter(({ number, refused }) => number === null && refused !== null);
    if (!apart.length) return apart;
    const corrected = new Set(this.listedRows.flatMap(({ operation }) => operation.replaced));
    return apart.filter(({ id }) => !corrected.has(id));
  }

  /** Whether the server's list has all that is kept here, and nothing was refused for good. */
  get isListed() {
    return this.unlistedRows.length === 0 && this.refusedRows.length === 0;
  }

  /** Every kept row. */
  get rows() {
    return [...this.#held.values()];
  }

  get unlisted() {
    return this.unlistedRows.map(({ operation }) => operation);
  }

  get refused() {
    return this.refusedRows.map(({ operation }) => operation);
  }

  get fold() {
    this.#fold ??= new Fold(this.id, this.listedRows.map(({ operation }) => operation), this.unlisted);
    return this.#fold;
  }

  /** {document, conflicts, hidden} as shown; the same objects until something changes. */
  get shown() {
    this.#shown ??= {
      document: this.fold.document,
      conflicts: this.fold.conflicts,
      hidden: this.fold.hidden,
    };
    return this.#shown;
  }

  /** The items shown in a list, in their order. */
  itemsOf(listPath) {
    let inner = this.shown.document;
    for (const key of tokens(listPath)) {
      inner = Array.isArray(inner) ? inner.find((item) => item.id === key) : inner?.[key];
    }
    return inner ?? [];
  }

  /** Names of the blobs in the document shown: its photos, those that a step lists, and the logs of its road runs. */
  get blobs() {
    const { photos = [], steps = [], tests } = this.shown.document;
    const logs = (tests?.road ?? []).map(({ log }) => log?.sha256);
    const names = [...photos.map(({ sha256 }) => sha256), ...steps.flatMap((step) => step.photos ?? []), ...logs];
    return [...new Set(names.filter(Boolean))];
  }

  operation(id) {
    return this.#held.get(id)?.operation ?? null;
  }
}
