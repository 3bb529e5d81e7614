/** The job document as the fold of its operations. Server and phone give the same for the same list. */

import { below, compareBytes, isAtOrIn, itemsAround, sameValue, tokens } from "./places.js";

function counts(operation, job, erasures) {
  if (operation.job !== job) return false;
  return !erasures.some((erasure) => erasure.job === job && isAtOrIn(operation.path, erasure.path));
}

function entry(map, key, make) {
  if (!map.has(key)) map.set(key, make());
  return map.get(key);
}

/** The places that an operation writes, with the value for each. A `remove` writes none. */
export function writes(operation) {
  if (operation.do === "set") return [[operation.path, operation.value]];
  if (operation.do !== "add") return [];
  return Object.entries(operation.value)
    .filter(([key]) => key !== "id")
    .map(([key, value]) => [below(operation.path, key), value]);
}

/** Ids that `operations` name, a naming of oneself left out: only another one can replace an operation. */
function namedByOthers(operations) {
  const named = new Set();
  for (const { id, replaced } of operations) {
    for (const other of replaced) if (other !== id) named.add(other);
  }
  return named;
}

class Place {
  constructor(path) {
    this.path = path;
    this.items = itemsAround(path);
    this.writers = [];
  }

  /** What the place holds: every operation that no other operation there names, in list order. */
  settle() {
    const named = namedByOthers(this.writers.map(({ operation }) => operation));
    this.standing = this.writers.filter(({ operation }) => !named.has(operation.id));
  }

  get ids() {
    return this.standing.map(({ operation }) => operation.id);
  }

  get value() {
    return this.standing.length ? this.standing[0].value : null;
  }

  get disputed() {
    return this.standing.some(({ value }) => !sameValue(value, this.standing[0].value));
  }
}

/** One job's fold: what each place holds, the document shown, conflicts, hidden items, waiting operations. */
export class Fold {
  /**
   * @param job id of the job that is folded; operations of other jobs are passed over
   * @param listed operations in the server's order
   * @param unlisted own operations that the list lacks, in the order made
   * @param erasures records {job, path}: operations at or below these places count for nothing
   */
  constructor(job, listed, unlisted = [], erasures = []) {
    this.job = job;
    this.places = new Map();
    this.items = new Map();
    const counting = [...listed, ...unlisted].filter((operation) => counts(operation, job, erasures));
    this.order = new Map(counting.map(({ id }, number) => [id, number]));
    this.#sort(counting);
    for (const place of this.places.values()) place.settle();
    this.#findHidden();
  }

  #sort(operations) {
    const added = new Set(operations.filter((one) => one.do === "add").map((one) => one.path));
    const arrived = (operation) => itemsAround(operation.path).every((item) => added.has(item));
    const live = operations.filter(arrived);
    this.waitingOperations = operations.filter((operation) => !arrived(operation));
    for (const operation of live) if (operation.do === "add") this.#item(operation.path);
    for (const operation of live) this.#place(operation);
    this.#strikeRemoves(live);
  }

  #item(path) {
    return entry(this.items, path, () => ({ path, places: [], removes: [] }));
  }

  #place(operation) {
    if (operation.do === "remove") this.#item(operation.path).removes.push(operation);
    for (const [path, value] of writes(operation)) {
      const place = entry(this.places, path, () => this.#newPlace(path));
      place.writers.push({ operation, value });
    }
  }

  #newPlace(path) {
    const place = new Place(path);
    for (const item of place.items) this.#item(item).places.push(place);
    return place;
  }

  /** A `remove` stands until some other operation on its item, or inside it, names it. */
  #strikeRemoves(live) {
    const removes = new Map(live.filter((one) => one.do === "remove").map((one) => [one.id, one]));
    if (!removes.size) return;
    const struck = new Set();
    for (const { id, path, replaced } of live) {
      for (const other of replaced) {
        const remove = removes.get(other);
        if (remove && other !== id && isAtOrIn(path, remove.path)) struck.add(other);
      }
    }
    for (const item of this.items.values()) {
      item.removes = item.removes.filter((remove) => !struck.has(remove.id));
    }
  }

  #findHidden() {
    for (const item of this.items.values()) {
      if (!item.removes.length) continue;
      item.holds = [...new Set(item.places.flatMap((place) => place.ids))];
      item.hidden = item.removes.some((remove) => {
        const named = new Set(remove.replaced);
        return item.holds.every((id) => named.has(id));
      });
    }
  }

  #isHidden(items) {
    return items.some((path) => this.items.get(path).hidden);
  }

  /** Ids that stand at a place. */
  standing(path) {
    return this.places.get(path)?.ids ?? [];
  }

  /** Ids of all that an item holds, those of the items in it and the removes that stand on it included. */
  standingIn(itemPath) {
    const inside = [...this.items.values()].filter(({ path }) => isAtOrIn(path, itemPath));
    const ids = inside.flatMap(({ places, removes }) => [
      ...places.flatMap((place) => place.ids),
      ...removes.map((remove) => remove.id),
    ]);
    return [...new Set(ids)];
  }

  /** The value shown at a place, null where there is none. */
  value(path) {
    return this.places.get(path)?.value ?? null;
  }

  /** The values shown at an item's own places, lists of items in it left out. */
  ownValues(itemPath) {
    const depth = tokens(itemPath).length;
    const own = (this.items.get(itemPath)?.places ?? []).filter(({ items }) => items.at(-1) === itemPath);
    const shown = own.filter(({ value }) => value !== null);
    return Object.fromEntries(shown.map(({ path, value }) => [tokens(path).slice(depth).join("/"), value]));
  }

  /** The document shown; items carry their id. A cleared place leaves no key and no empty object. */
  get document() {
    const shown = { format: "job/1", id: this.job };
    const { items, lists } = this.#shownItems(shown);
    for (const place of this.places.values()) {
      if (place.value === null || this.#isHidden(place.items)) continue;
      const item = place.items.at(-1);
      if (item === undefined) put(shown, tokens(place.path), place.value);
      else put(items.get(item), tokens(place.path.slice(item.length)), place.value);
    }
    for (const list of lists) list.sort(byRankThenId);
    return shown;
  }

  #shownItems(shown) {
    const items = new Map();
    const lists = new Set();
    const paths = [...this.items.keys()].sort((one, other) => one.length - other.length);
    for (const path of paths) {
      const around = itemsAround(path);
      if (this.#isHidden(around)) continue;
      const outer = around.at(-2);
      const keys = tokens(outer === undefined ? path : path.slice(outer.length));
      const list = listAt(outer === undefined ? shown : items.get(outer), keys.slice(0, -1));
      const item = { id: keys.at(-1) };
      list.push(item);
      items.set(path, item);
      lists.add(list);
    }
    return { items, lists };
  }

  /** Places and items where more than one value stands: [{path, shown, others}], sorted by path. */
  get conflicts() {
    const found = [...this.places.values()]
      .filter((place) => place.disputed && !this.#isHidden(place.items))
      .map(({ path, ids: [shown, ...others] }) => ({ path, shown, others }));
    for (const item of this.items.values()) {
      if (item.removes.length && !this.#isHidden(itemsAround(item.path))) found.push(this.#missed(item));
    }
    return found.sort((one, other) => compareBytes(one.path, other.path));
  }

  #missed({ path, removes, holds }) {
    const missed = holds.filter((id) => removes.some((remove) => !remove.replaced.includes(id)));
    const byNumber = (one, other) => this.order.get(one) - this.order.get(other);
    const [shown, ...further] = missed.sort(byNumber);
    return { path, shown, others: [...further, ...removes.map((remove) => remove.id)].sort(byNumber) };
  }

  /** Paths of the items that a `remove` hides, of items one inside the other only the outermost. */
  get hidden() {
    const outermost = ({ path, hidden }) => hidden && !this.#isHidden(itemsAround(path).slice(0, -1));
    return [...this.items.values()].filter(outermost).map(({ path }) => path).sort(compareBytes);
  }

  /** Ids of the operations whose item has not come, in list order. */
  get waiting() {
    return this.waitingOperations.map(({ id }) => id);
  }
}

function put(object, keys, value) {
  let inner = object;
  for (const key of keys.slice(0, -1)) inner = inner[key] ??= {};
  inner[keys.at(-1)] = value;
}

function listAt(object, keys) {
  let inner = object;
  for (const key of keys.slice(0, -1)) inner = inner[key] ??= {};
  return (inner[keys.at(-1)] ??= []);
}

function byRankThenId(one, other) {
  return compareBytes(String(one.rank ?? ""), String(other.rank ?? "")) || compareBytes(one.id, other.id);
}
