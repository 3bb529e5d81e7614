/** Making operations. The bytes of an operation are made once, here, and never written again. */

import { writes } from "./fold.js";
import { isAtOrIn } from "./places.js";
import { rankBetween } from "./rank.js";
import { uuid7 } from "./uuid.js";

/** The time as this phone's clock shows it: RFC 3339 with offset. */
export function clockTime(date = new Date()) {
  const minutes = -date.getTimezoneOffset();
  const local = new Date(date.getTime() + minutes * 60_000).toISOString().slice(0, 19);
  const sign = minutes < 0 ? "-" : "+";
  const two = (number) => String(number).padStart(2, "0");
  return `${local}${sign}${two(Math.floor(Math.abs(minutes) / 60))}:${two(Math.abs(minutes) % 60)}`;
}

/** An operation with its bytes: the text is what is kept, sent and summed. */
function made(maker, job, change, replaced) {
  const operation = {
    id: uuid7(),
    job,
    device: maker.device,
    person: maker.person,
    at: clockTime(),
    ...change,
    replaced: [...new Set(replaced)],
  };
  return { operation, text: JSON.stringify(operation) };
}

/** What this phone's own operations that the list lacks named at a place; the refused ones with their own id. */
function namedEarlier(record, concerns) {
  const unlisted = record.unlisted.filter(concerns).flatMap((one) => one.replaced);
  const refused = record.refused.filter(concerns).flatMap((one) => [one.id, ...one.replaced]);
  return [...unlisted, ...refused];
}

function writesTo(path) {
  return (operation) => writes(operation).some(([place]) => place === path);
}

/**
 * A `set` of one place; null clears it. It names all that stands there as this phone sees it.
 * @param maker {device, person}
 * @param record the job's record (jobs.js)
 */
export function makeSet(maker, record, path, value) {
  const replaced = [...record.fold.standing(path), ...namedEarlier(record, writesTo(path))];
  return made(maker, record.id, { do: "set", path, value }, replaced);
}

/** An `add` of an item behind the item `after` of its list, or behind them all. A removed one comes back anew. */
export function makeAdd(maker, record, listPath, itemId, value, after) {
  const path = `${listPath}/${itemId}`;
  const rank = rankAfter(record.itemsOf(listPath), after);
  const cleared = Object.fromEntries(Object.keys(record.fold.ownValues(path)).map((key) => [key, null]));
  return makeRestore(maker, record, path, { ...cleared, rank, ...value });
}

function rankAfter(items, after) {
  const found = after === undefined ? -1 : items.findIndex((item) => item.id === after);
  const at = found < 0 ? items.length : found + 1;
  return rankBetween(items[at - 1]?.rank ?? null, items[at]?.rank ?? null);
}

/** A `remove` of an item. It names everything in the item, also what is hidden or waits there. */
export function makeRemove(maker, record, itemPath) {
  const waiting = record.fold.waitingOperations.filter((one) => isAtOrIn(one.path, itemPath));
  const inside = (operation) => isAtOrIn(operation.path, itemPath);
  const replaced = [
    ...record.fold.standingIn(itemPath),
    ...waiting.map((one) => one.id),
    ...namedEarlier(record, inside),
  ];
  return made(maker, record.id, { do: "remove", path: itemPath }, replaced);
}

/** An `add` of an item with just these values; it names what stood there, a `remove` too. */
export function makeRestore(maker, record, itemPath, value) {
  const inside = (operation) => isAtOrIn(operation.path, itemPath);
  const replaced = [...record.fold.standingIn(itemPath), ...namedEarlier(record, inside)];
  return made(maker, record.id, { do: "add", path: itemPath, value }, replaced);
}

function concerning(record, path, isItem) {
  const inside = (operation) => isAtOrIn(operation.path, path);
  if (isItem) return [...record.fold.standingIn(path), ...namedEarlier(record, inside)];
  return [...record.fold.standing(path), ...namedEarlier(record, writesTo(path))];
}

/**
 * What settles a conflict at `path` in favour of the operation `chosen`: it names all that stand there. At an item, a
 * chosen `remove` takes it away, any other keeps it as it is shown.
 */
export function makeSettled(maker, record, path, chosen) {
  const isItem = record.fold.items.has(path);
  const replaced = concerning(record, path, isItem);
  if (!isItem) return made(maker, record.id, { do: "set", path, value: valueAt(chosen, path) }, replaced);
  if (chosen.do === "remove") return makeRemove(maker, record, path);
  return made(maker, record.id, { do: "add", path, value: record.fold.ownValues(path) }, replaced);
}

function valueAt(operation, path) {
  return new Map(writes(operation)).get(path) ?? null;
}

/** What takes a change back, written down before it is made: {do, path, value}. */
export function inverseOf(record, change) {
  if (change.do === "set") return { do: "set", path: change.path, value: record.fold.value(change.path) };
  if (change.do === "add") return { do: "remove", path: change.path };
  return { do: "add", path: change.path, value: record.fold.ownValues(change.path) };
}

