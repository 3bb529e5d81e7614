/** A place of a job, and what stands there, in words. */
import { words } from "../words/words.js";
import { gaugeName } from "./gauges.js";
import { listAt } from "./pointer.js";
import { asLimit, limitText, textOf } from "./quantity.js";

/** What is measured, by the unit at the end of a key; the longer ends first. */
const KINDS = [
  ["_kpa_per_min", "pressureRate"],
  ["_kpa_abs", "pressureAbsolute"],
  ["_kpa", "pressure"],
  ["_ohm_20c", "ohm"],
  ["_ohm", "ohm"],
  ["_mm", "millimetre"],
  ["_kmh", "kmh"],
  ["_pct", "percent"],
  ["_rpm", "speed"],
  ["_gps", "airMass"],
  ["_ml", "millilitre"],
  ["_l", "litre"],
  ["_c", "celsius"],
  ["_v", "volt"],
  ["_a", "ampere"],
  ["_s", "second"],
  ["_m", "metre"],
];
const GAUGES = new Set(["gauge", "other_gauge"]);

/** The names on the way to a place: an item of a list by its number, a test by its title. */
export function placeName({ document }, path) {
  const parts = [];
  let here = document;
  path.split("/").slice(1).forEach((name, depth, way) => {
    const item = Array.isArray(here) ? here.findIndex(({ id }) => id === name) : -1;
    const title = nameOf(way[depth - 1], name);
    if (item >= 0) parts.push(title ?? `${parts.pop()} ${item + 1}`);
    else if (title) parts.push(title);
    here = item >= 0 ? here[item] : here?.[name];
  });
  return parts.join(", ");
}

/** The name of one step of the way, or nothing for an id. */
function nameOf(before, name) {
  if (before === "tests") return words.tests[name]?.title ?? words.places.names[name];
  if (before === "steps") return words.tests.look.steps[name]?.[0];
  return words.places.names[name];
}

/** What stands at a place, with its unit. */
export function valueText(job, path, value) {
  const key = path.split("/").at(-1);
  if (GAUGES.has(key)) return gaugeText(job, value);
  return printed(value, key, job.unit);
}

function gaugeText(job, id) {
  const gauge = listAt(job.document, "/gauges").find((one) => one.id === id);
  return gauge ? gaugeName(job, gauge) : words.none;
}

function printed(value, key, unit) {
  if (value === null) return words.none;
  const kind = KINDS.find(([end]) => key.endsWith(end))?.[1] ?? "number";
  if (typeof value === "number") return textOf(kind, value, unit);
  if (Array.isArray(value)) return value.map((one) => printed(one, key, unit)).join(", ");
  if (typeof value !== "object") return words.places.values[value] ?? String(value);
  if ("min" in value || "max" in value) return limitText(kind, asLimit(value), unit, words.limit);
  return Object.entries(value).map(([name, one]) => `${words.places.names[name] ?? name}: ${printed(one, name, unit)}`).join(", ");
}
