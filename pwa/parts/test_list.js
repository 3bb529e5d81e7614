/** The tests that have a page, in the order of work, and which of them are done. */
import { words } from "../words/en.js";
import { valueAt } from "./pointer.js";

const LOOK_STEPS = Object.keys(words.tests.look.steps);

/** Page of each test as the calculation names it. */
const PAGE_OF = {
  sensors_at_rest: "sensors_at_rest",
  exhaust_leak: "look",
  turbo_inspection: "turbo_inspection",
  smoke: "smoke",
  charge_decay: "charge_decay",
  actuator: "actuator",
  solenoid_electrical: "solenoid",
  road_run: "road",
  road_gauges: "road",
};

/** Pages in the order of work. */
export const PAGES = ["sensors_at_rest", "look", "turbo_inspection", "smoke", "charge_decay", "actuator", "solenoid", "road"];

/** The page where a test named by the calculation is done, or null where this version has none. */
export function pageOf(test) {
  return PAGE_OF[test] ?? null;
}

/** Whether a page has been worked through, or been put aside as not applying. */
export function isDone(document, page) {
  const state = valueAt(document, `/steps/${page}/state`);
  if (state && state !== "not_done") return true;
  if (page === "look") return LOOK_STEPS.every((step) => valueAt(document, `/steps/${step}/state`));
  return ESSENTIAL[page].every((path) => hasValue(valueAt(document, path)));
}

const ESSENTIAL = {
  sensors_at_rest: ["/tests/sensors_at_rest/charge_pressure_kpa_abs"],
  turbo_inspection: ["/tests/turbo_inspection/wheel_damage"],
  smoke: ["/tests/smoke/leak_seen"],
  charge_decay: ["/tests/charge_decay/volume_l", "/tests/charge_decay/readings"],
  actuator: ["/tests/actuator/first_movement_kpa", "/tests/actuator/full_travel_kpa", "/tests/actuator/hold/p_end_kpa"],
  solenoid: ["/tests/solenoid/coil_ohm"],
  road: ["/tests/road"],
};

function hasValue(value) {
  return value !== undefined && (!Array.isArray(value) || value.length > 0);
}

/** What remains: [{page, title, minutes|null}], the calculation's next test first. */
export function remaining(document, verdict) {
  const open = PAGES.filter((page) => !isDone(document, page));
  const first = pageOf(verdict?.next_test?.test);
  const inOrder = first && open.includes(first) ? [first, ...open.filter((page) => page !== first)] : open;
  return inOrder.map((page) => ({ page, title: words.tests[page].title, minutes: minutesOf(page, verdict) }));
}

function minutesOf(page, verdict) {
  const { next_test: next, remaining: rest } = verdict ?? {};
  if (next && pageOf(next.test) === page) return next.minutes;
  const known = (rest ?? []).filter(({ test }) => pageOf(test) === page).map(({ minutes }) => minutes);
  return known.length ? Math.max(...known) : null;
}
