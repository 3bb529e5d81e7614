/** What the readings say: one sentence, where the line breaks, why, and what would tell more. */
import { brokenLine } from "../drawings/broken.js";
import { words } from "../words/words.js";
import { breakOf } from "../parts/air_line_model.js";
import { oneOf } from "../parts/chips.js";
import { el } from "../parts/el.js";
import { mark, outcomeWords, resultLine, shortLine } from "../parts/fields.js";
import { lines, mainButton, page, section } from "../parts/page.js";
import { printNumber } from "../parts/units.js";
import { link } from "../parts/router.js";
import { engineSays } from "../parts/state.js";
import { pageOf } from "../parts/test_pages.js";

const text = words.verdict;

export function verdictScreen(app, job) {
  return { build: () => build(app, job) };
}

function build(app, job) {
  const { verdict, fresh, fault, moved } = job.judged;
  const content = {
    title: text.title,
    back: { href: link("job", job.id), text: words.nav.job },
    key: "main verdict",
    main: verdict && !(fresh && fault) ? [fresh ? null : waits(app), judged(job, verdict, moved)] : [waiting(app, fault, fresh)],
    bar: bar(job, verdict),
  };
  return page(content, app.keeper);
}

function waits(app) {
  return el("p", { class: "hint", role: "status" }, text.waits, " ", engineSays(app.engineState));
}

function waiting(app, fault, fresh) {
  if (fault && fresh) return el("p", { class: "told", role: "alert" }, text.broken, " ", fault.message);
  return waits(app);
}

function judged(job, verdict, moved) {
  const { conclusion } = verdict;
  const fault = conclusion && verdict.faults.find((one) => one.fault === conclusion.fault);
  const asked = questions(job, verdict.questions ?? []);
  const isProved = conclusion?.standing === "proved";
  return [
    !isProved && asked,
    picture(job, conclusion),
    headline(verdict, conclusion, fault),
    whatMoved(moved),
    proof(verdict.repair_proof),
    turns(verdict.adjustment),
    isProved && asked,
    fault && evidence(verdict, fault),
    fault && alike(verdict, fault),
    others(verdict, fault),
    (verdict.pairs ?? []).map((pair) => el("p", { class: "told" }, pair.says)),
    nextTest(job, verdict.next_test),
    inWords(text.sound, verdict.findings.filter(({ outcome }) => outcome === "within").map(({ title }) => title)),
    inWords(text.notLooked, verdict.remaining.map(({ title }) => title)),
    (verdict.cautions ?? []).length > 0 && el("aside", { class: "cautions" }, lines(verdict.cautions, "plain-list")),
    verdict.priors && el("p", { class: "hint", key: "priors" }, verdict.priors.says),
    shares(verdict),
    everyCheck(verdict),
    behind(verdict),
    el("p", { class: "hint" }, verdict.engine),
  ];
}

function picture(job, conclusion) {
  const broken = breakOf(job.document, conclusion);
  if (!broken) return null;
  return el("figure", { class: "picture" }, brokenLine(broken.before, broken.broken), el("figcaption", { class: "unseen" }, text.picture(broken.before, broken.broken)));
}

/**
 * Asked before anything is blamed, so above a sentence that is not yet proved: a short yes or no each; those
 * answered well fold away.
 */
function questions(job, asked) {
  const isOpen = ({ answer, spoils }) => answer === null || answer === spoils;
  const rest = asked.filter((one) => !isOpen(one));
  const open = asked.filter(isOpen);
  return [
    open.length > 0 && el("section", { class: "asked", key: "questions" }, el("h2", {}, text.asked), open.map((one) => question(job, one))),
    rest.length > 0 && el("details", { key: "answered" }, el("summary", {}, text.answered(rest.length)), rest.map((one) => question(job, one))),
  ];
}

function question(job, { asks, path, answer, says }) {
  const { yes, no } = words.page;
  const choose = (chosen) => job.set(asks, path, chosen);
  return [
    oneOf({ label: asks, options: [[true, yes], [false, no]], chosen: answer, choose }),
    says && el("p", { class: "told", key: `told ${path}` }, says),
  ];
}

function headline(verdict, conclusion, fault) {
  if (!conclusion) return el("p", { class: "headline" }, verdict.says);
  return el(
    "div",
    { key: "headline" },
    el("p", { class: "headline" }, fault?.title ?? conclusion.says),
    fault?.title && el("p", {}, conclusion.says),
    el("p", { class: "standing" }, text.standing[conclusion.standing], fault && ` \u00b7 ${text.explains[fault.explains_complaint]}`),
  );
}

/** What the last readings did to the verdict, in one line; nothing before there were two. */
function whatMoved(moved) {
  return moved === null ? null : el("p", { class: "standing", key: "moved", role: "status" }, moved || text.nothingMoved);
}

function turns(adjustment) {
  return adjustment?.says ? el("p", { class: "turns", key: "turns" }, adjustment.says) : null;
}

/** What speaks for and against the fault found, as the findings say it. */
function evidence(verdict, fault) {
  const says = (checks) => checks.map((check) => verdict.findings.find((one) => one.check === check)).filter(Boolean);
  return [
    fault.for.length > 0 && section(text.for, says(fault.for).map(resultLine)),
    fault.against.length > 0 && section(text.against, says(fault.against).map(resultLine)),
  ];
}

function alike(verdict, fault) {
  const titles = fault.alike.map((name) => verdict.faults.find((one) => one.fault === name)?.title ?? name);
  return named(text.alike, titles);
}

/** What the findings say against the parts that are ruled out: why it is none of them. */
function others(verdict, fault) {
  const out = verdict.faults.filter((one) => one.standing === "ruled_out" && one !== fault);
  const checks = new Set(out.flatMap((one) => one.against));
  const said = verdict.findings.filter(({ check }) => checks.has(check) && !fault?.for.includes(check));
  return said.length ? section(text.others, said.map(shortLine)) : null;
}

/** Many short names, in one paragraph. */
function inWords(title, names) {
  return names?.length ? section(title, el("p", {}, names.join(" \u00b7 "))) : null;
}

function named(title, sentences) {
  return sentences?.length ? section(title, lines(sentences)) : null;
}

function nextTest(job, next) {
  if (!next) return null;
  const where = pageOf(next.test);
  const title = words.tests[where]?.title ?? next.title;
  return section(
    text.next,
    el("p", {}, where ? el("a", { href: link("job", job.id, where) }, title) : el("strong", {}, title), ` \u00b7 ${words.air.minutes(next.minutes)}`),
    el("p", {}, next.why),
    next.results?.length > 0 && [el("h3", {}, text.results), lines(next.results.map(({ says }) => says))],
  );
}

function proof(repair) {
  return repair?.says ? el("p", { class: "told" }, repair.says) : null;
}

/** Percentages on demand only. */
function shares({ faults }) {
  const rows = faults.map((fault) =>
    el("li", { key: fault.fault }, el("span", {}, fault.title ?? fault.fault.replaceAll("_", " ")), el("span", { class: "aside" }, `${text.standing[fault.standing]} \u00b7 ${text.share(printNumber(fault.probability * 100, 0, 1))}`)),
  );
  return el("details", { key: "shares" }, el("summary", {}, text.percent), el("ul", { class: "items" }, rows));
}

function everyCheck({ findings }) {
  const rows = findings.map((finding) =>
    el(
      "li",
      { key: finding.check },
      el("span", {}, mark(finding.outcome), finding.title ?? finding.check.replaceAll("_", " ")),
      el("span", { class: "aside" }, outcomeWords(finding)),
      measures(finding) && el("p", { class: "hint" }, finding.smallest_shown.says),
    ),
  );
  return el("details", { key: "findings" }, el("summary", {}, text.allFindings), el("ul", { class: "items" }, rows));
}

/** Whether a check has a size that its instruments could show, and not only a yes or no. */
function measures({ smallest_shown: shown }) {
  return shown && (shown.low !== null || shown.high !== null);
}

/** The gauges of the job: doubt, calibration, hose, and whether two of them agree; then the pulls in figures. */
function behind({ instruments = [], gauges_compared: compared = [], hints = [], course = [], pulls = [], part_load: partLoad = [] }) {
  const gauges = [...instruments.map(({ gauge, says }) => `${gauge}: ${says}`), ...compared.map(({ says }) => says)];
  const others = hints.filter((hint) => !gauges.includes(hint));
  const told = (title, sentences, key) => sentences.length > 0 && el("details", { key }, el("summary", {}, title), lines(sentences));
  return [
    told(text.gauges, gauges, "gauges"),
    told(text.pointing, course.map(({ says }) => says), "pointing"),
    told(text.course, [...pulls, ...partLoad].map(({ says }) => says), "course"),
    others.map((hint) => el("p", { class: "hint", key: hint }, hint)),
  ];
}

/** The next test while one can tell more, else the way to the customer; nothing before there is a verdict. */
function bar(job, verdict) {
  if (!verdict) return mainButton({ text: words.page.finish, href: link("job", job.id), key: "finish" });
  return el("div", {}, el("p", { class: "left" }, text.caution), onward(job, verdict));
}

function onward(job, { next_test: next, conclusion }) {
  const where = next && pageOf(next.test);
  const customer = link("job", job.id, "customer");
  if (!where) return mainButton({ text: text.customer, href: customer, key: "customer" });
  const test = mainButton({ text: words.tests[where].title, aside: words.air.minutes(next.minutes), href: link("job", job.id, where), key: "next test" });
  if (!conclusion) return test;
  return el("div", { class: "two-buttons" }, test, el("a", { class: "second", href: customer, key: "customer" }, words.air.customer));
}
