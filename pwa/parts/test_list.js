/** Which tests of a job are done and what remains, with the calculation's minutes. */
import { valueAt } from "./pointer.js";
import { hasSolenoid, kindOf } from "./kind.js";
import { pageOf, pagesFor, testPageOf } from "./test_pages.js";
import { testWords } from "./test_words.js";

const BASE_BOOST = ({ control = "normal" }) => control !== "normal";

/** What is looked at first in this kind of car. */
export function lookSteps(document) {
  const { steps } = testWords(document, "look");
  return Object.keys(steps).filter((step) => hasSolenoid(kindOf(document)) || step !== "look_control_hoses");
}

/** Whether a page has been worked through, or been put aside as not applying. */
export function isDone(document, page) {
  const state = valueAt(document, `/steps/${page}/state`);
  if (state && state !== "not_done") return true;
  if (page === "look") return lookSteps(document).every((step) => valueAt(document, `/steps/${step}/state`));
  if (page === "base_boost_run") return runs(document).some(BASE_BOOST);
  if (page === "road") return runs(document).some((run) => !BASE_BOOST(run));
  const { needs, or = {} } = testPageOf(page);
  const isRead = (path) => hasValue(valueAt(document, `/tests/${path}`));
  return needs.every((path) => isRead(path) || (or[path] !== undefined && isRead(or[path])));
}

function runs(document) {
  return valueAt(document, "/tests/road") ?? [];
}

function hasValue(value) {
  return value !== undefined && (!Array.isArray(value) || value.length > 0);
}

/**
 * What remains: {usual, further}, each [{page, title, minutes|null}]. The usual tests make every job, the calculation's
 * next test stands first among them, whichever it is; the further ones are there when something points to them.
 */
export function remaining(document, verdict) {
  const open = pagesFor(document).filter(({ id }) => !isDone(document, id));
  const first = pageOf(verdict?.next_test?.test);
  const isNear = ({ id, usual }) => usual || id === first;
  const near = open.filter(isNear).sort((one, other) => (other.id === first) - (one.id === first));
  const rows = (pages) => pages.map(({ id }) => ({ page: id, title: testWords(document, id).title, minutes: minutesOf(id, verdict) }));
  return { usual: rows(near), further: rows(open.filter((one) => !isNear(one))) };
}

function minutesOf(page, verdict) {
  const { next_test: next, remaining: rest } = verdict ?? {};
  if (next && pageOf(next.test) === page) return next.minutes;
  const known = (rest ?? []).filter(({ test }) => pageOf(test) === page).map(({ minutes }) => minutes);
  return known.length ? Math.max(...known) : null;
}
