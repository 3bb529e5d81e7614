/** Places of the job document: JSON Pointers whose list items are named by their own id. */

/** The lists whose entries are items; `*` stands for an item's id. Every other list is a value, set whole. */
export const ITEM_LISTS = new Set([
  "/gauges",
  "/steps",
  "/photos",
  "/estimate/lines",
  "/estimate/authorisations",
  "/deliveries",
  "/tests/smoke/places",
  "/tests/charge_decay/readings",
  "/tests/actuator/sweep",
  "/tests/solenoid/sweep",
  "/tests/road",
  "/tests/road/*/readings",
  "/tests/road/*/noted",
]);

/** The unescaped keys of a JSON Pointer (RFC 6901). */
export function tokens(path) {
  const parts = path.split("/").slice(1);
  return path.includes("~") ? parts.map((part) => part.replaceAll("~1", "/").replaceAll("~0", "~")) : parts;
}

/** The pointer of `key` below `path`. */
export function below(path, key) {
  return `${path}/${key.replaceAll("~", "~0").replaceAll("/", "~1")}`;
}

/** True where `path` is `outer` or lies in it. */
export function isAtOrIn(path, outer) {
  return path === outer || path.startsWith(`${outer}/`);
}

const known = new Map();

/** The items that `path` is or lies in, outermost first: "/tests/road/r1/readings/x1/p_kpa" has two. */
export function itemsAround(path) {
  if (!known.has(path)) known.set(path, findItems(path));
  return known.get(path);
}

function findItems(path) {
  const parts = path.split("/");
  const items = [];
  let pattern = "";
  for (let at = 1; at < parts.length; at += 1) {
    pattern += `/${parts[at]}`;
    if (!ITEM_LISTS.has(pattern) || at + 1 >= parts.length) continue;
    at += 1;
    pattern += "/*";
    items.push(parts.slice(0, at + 1).join("/"));
  }
  return items;
}

/** UTF-16 puts the two halves of a large code point before U+E000; by code points they come last. */
function codePointOrder(unit) {
  if (unit >= 0xe000) return unit - 0x800;
  return unit >= 0xd800 ? unit + 0x2000 : unit;
}

/** Compares two texts by their UTF-8 bytes, which is the order of their code points. */
export function compareBytes(left, right) {
  const shared = Math.min(left.length, right.length);
  for (let at = 0; at < shared; at += 1) {
    const one = left.charCodeAt(at);
    const other = right.charCodeAt(at);
    if (one !== other) return codePointOrder(one) - codePointOrder(other);
  }
  return left.length - right.length;
}

/** Equality of JSON values: 96 equals 96.0, true is not 1, the order of keys is nothing. */
export function sameValue(left, right) {
  if (left === right) return true;
  if (typeof left !== "object" || typeof right !== "object" || !left || !right) return false;
  if (Array.isArray(left) !== Array.isArray(right)) return false;
  const keys = Object.keys(left);
  if (keys.length !== Object.keys(right).length) return false;
  return keys.every((key) => Object.hasOwn(right, key) && sameValue(left[key], right[key]));
}
