/** The readings of a test page: a row each, with its limit, what was kept, and what the calculation makes of it. */
import { words } from "../words/words.js";
import { oneOf } from "./chips.js";
import { el } from "./el.js";
import { gaugeFor } from "./gauges.js";
import { asLimit, limitText, textOf } from "./quantity.js";

/** A field that stands at one place of the document: {path, label, kind, limit?, check?, hint?, gauge?: {path, use}}. */
export function placeField(job, spec) {
  const gauge = spec.gauge ? gaugeFor(job, spec.gauge) : null;
  const limit = spec.limit ? asLimit(job.value(`/spec/${spec.limit}`)) : undefined;
  const places = (value) => [[spec.path, value], ...gaugePlace(job, spec, gauge)];
  const write = (value) => job.handle.setMany(places(value));
  return { key: spec.path, ...spec, gauge, limit, value: job.value(spec.path), places, write };
}

function gaugePlace(job, spec, gauge) {
  if (!gauge || job.value(spec.gauge.path) === gauge.id) return [];
  return [[spec.gauge.path, gauge.id]];
}

/** A reading to touch: opens the pad for it. */
export function readingRow(job, field, entry) {
  const { label, kind, value } = field;
  const read = value === undefined ? words.page.notRead : (field.show?.(value) ?? textOf(kind, value, job.unit));
  const limit = limitText(kind, field.limit, job.unit, words.limit);
  const classes = ["reading", value === undefined ? "empty" : "read", entry.key === field.key && "open"];
  return el(
    "button",
    { type: "button", class: classes.filter(Boolean).join(" "), key: `row ${field.key}`, on: { click: () => entry.open(field.key) } },
    el("span", { class: "name" }, label, el("span", { class: "aside" }, limit ? words.limit.given(limit) : (field.hint ?? ""))),
    el("span", { class: "figure" }, read),
    field.check && value !== undefined && outcomeOf(job, field.check),
  );
}

/** Outcome and figure with its doubt, once the calculation has answered for what stands there now. */
function outcomeOf(job, check) {
  const finding = job.judged.fresh && job.finding(check);
  if (!finding || finding.value === null) return null;
  return el("span", { class: `outcome ${finding.outcome}` }, mark(finding.outcome), outcomeWords(finding));
}

/** As short as the air line needs it: the word, then the figure. */
export function shortOutcome(finding) {
  const unjudged = finding.outcome === "not_examined" && finding.value !== null;
  const word = unjudged ? words.air.outcome.no_limit : words.air.short[finding.outcome];
  return finding.figure && finding.unit !== "flag" ? `${word} ${finding.figure}` : word;
}

/** The outcome in words. A value without a limit was read and is not judged. */
export function outcomeWords(finding) {
  const unjudged = finding.outcome === "not_examined" && finding.value !== null;
  const word = unjudged ? words.air.outcome.no_limit : words.air.outcome[finding.outcome];
  return finding.figure && finding.unit !== "flag" ? `${word}: ${finding.figure}` : word;
}

/** A shape for each outcome, so that colour is never alone. */
export function mark(outcome) {
  return el("span", { class: `mark ${outcome}`, "aria-hidden": "true" });
}

/** A yes-or-no reading. */
export function yesNo(job, { label, path, options }) {
  const named = options ?? [[true, words.page.yes], [false, words.page.no]];
  return oneOf({ label, options: named, chosen: job.value(path), choose: (value) => job.set(label, path, value) });
}

/** What the calculation says about the checks of a page. */
export function results(job, checks) {
  const { fresh, verdict, fault } = job.judged;
  if (fault && fresh) return el("p", { class: "hint" }, words.verdict.broken, " ", fault.message);
  if (!fresh) return hasReading(job, checks, verdict) ? el("p", { class: "hint" }, words.page.waits) : null;
  const found = checks.map((check) => job.finding(check)).filter(Boolean);
  const spoken = found.filter(({ value }) => value !== null);
  const coarse = found.filter(({ value, smallest_shown: shown }) => value === null && shown?.clears === false);
  const ahead = found.filter(({ value }) => value === null).map(beside).filter(Boolean);
  if (!spoken.length && !coarse.length && !ahead.length) return null;
  return el("div", { class: "results" }, spoken.map((finding) => [resultLine(finding), beside(finding)]), coarse.map(tooCoarse), ahead);
}

/** Said before a reading is taken: with this gauge no reading could be called within. */
function tooCoarse({ check, title, smallest_shown: shown }) {
  return el("p", { class: "hint", key: `coarse ${check}` }, el("strong", {}, title), " ", shown.says);
}

/** What more a reading says, or what is known ahead of it: the same hole on the road, the force on a plug. */
function beside(finding) {
  const more = Object.entries(finding).filter(([name, part]) => part?.says && !["where", "smallest_shown"].includes(name));
  return more.length > 0 && el("p", { class: "hint beside", key: `beside ${finding.check}` }, more.map(([, { says }]) => says).join(" "));
}

function hasReading(job, checks, verdict) {
  return !verdict || checks.some((check) => (job.finding(check)?.value ?? null) !== null);
}

/** One finding in a line: shape, name, and the word with its figure. */
export function shortLine(finding) {
  return el(
    "p",
    { class: `result ${finding.outcome}`, key: `short ${finding.check}` },
    mark(finding.outcome),
    el("strong", {}, finding.title),
    " ",
    el("span", { class: `outcome ${finding.outcome}` }, shortOutcome(finding)),
  );
}

/** One finding: its outcome as shape and word, then the sentence of the calculation. */
export function resultLine(finding) {
  return el(
    "p",
    { class: `result ${finding.outcome}`, key: `result ${finding.check}` },
    mark(finding.outcome),
    el("strong", {}, finding.title ?? words.air.outcome[finding.outcome]),
    " ",
    [finding.says, finding.where?.says].filter(Boolean).join(" "),
  );
}
