/** One road run: who reads, where to let off, then pull by pull. */
import { words } from "../words/words.js";
import { oneOf } from "../parts/chips.js";
import { el } from "../parts/el.js";
import { createEntry } from "../parts/entry.js";
import { results } from "../parts/fields.js";
import { gaugeChoice } from "../parts/gauges.js";
import { numberField } from "../parts/inputs.js";
import { button, mainButton, page } from "../parts/page.js";
import { listAt } from "../parts/pointer.js";
import { abortFigure, chargeAt, pathsOf, pullFields, pullsOf, roadGauges } from "../parts/pulls.js";
import { figureOf, unitOf } from "../parts/quantity.js";
import { planOf, roadPlan } from "../parts/road_plan.js";
import { link } from "../parts/router.js";
import { cautions } from "../parts/test_page.js";
import { testPageOf } from "../parts/test_pages.js";
import { testWords } from "../parts/test_words.js";

const text = words.tests.road;

export function roadRunScreen(app, job, runId) {
  const path = `/tests/road/${runId}`;
  const view = { pull: null };
  const run = () => job.value(path);
  const current = () => view.pull ?? pullsOf(run()).at(-1) ?? 1;
  const fields = () => Object.values(pullFields(job, run(), current())).flat();
  const entry = createEntry(job, fields, "road");
  const next = () => {
    view.pull = (pullsOf(run()).at(-1) ?? 0) + 1;
    entry.open(`${view.pull} charge`);
  };
  const show = (pull) => {
    view.pull = pull;
    app.repaint();
  };
  const build = () => (run() ? buildRun(app, job, { run: run(), path, entry, current: current(), next, show }) : gone(app, job));
  app.awake.want();
  return { build, leave: () => app.awake.release() };
}

/** Runs with the solenoid out of it feed the base boost alone. */
function isBase({ control = "normal" }) {
  return control !== "normal";
}

function gone(app, job) {
  return page({ title: text.title, back: { href: link("job", job.id, "road"), text: text.title }, main: [el("p", {}, words.air.removed)] }, app.keeper);
}

function buildRun(app, job, view) {
  const { run } = view;
  const number = listAt(job.document, "/tests/road").indexOf(run) + 1;
  const begun = pullsOf(run).length > 0;
  const content = {
    title: [(isBase(run) ? text.runTitles.base : text.run)(number), run.gear && `${text.gear} ${run.gear}`].filter(Boolean).join(" \u00b7 "),
    under: text.readBy[run.read_by] ?? text.under,
    back: { href: link("job", job.id, isBase(run) ? "base_boost_run" : "road"), text: isBase(run) ? words.tests.base_boost_run.title : text.title },
    key: `main run ${run.id}`,
    main: [logOf(job, run, isTold(run) || begun), (isTold(run) || begun) && opened(app, job, view), isTold(run) ? null : asked(job, view)],
    bar: bar(app, job, view),
  };
  return page(content, app.keeper);
}

/** The way to the log of a run, or to taking one in. */
function logOf(job, run, isOpened) {
  const to = (view, says) => el("p", { key: `to ${view}` }, el("a", { class: "second", href: link("job", job.id, "road", run.id, view) }, says));
  if (!run.log) return to("log", words.log.toRun);
  return [to("chart", words.log.chart.open), isOpened ? null : results(job, testPageOf(isBase(run) ? "base_boost_run" : "road").checks)];
}

/** Who reads is asked once a run, before its first pull. */
function isTold({ read_by: reader }) {
  return reader === "second" || reader === "rollers";
}

function asked(job, view) {
  return [who(job, view), view.run.read_by === "alone" && el("p", { class: "told", role: "alert" }, text.alone)];
}

function who(job, { run, path }) {
  return oneOf({ label: text.who, options: text.whos, chosen: run.read_by, choose: (reader) => job.set(text.who, `${path}/read_by`, reader) });
}

function opened(app, job, view) {
  const pulls = pullsOf(view.run);
  const begun = pulls.length > 0 || view.entry.key !== null;
  return [
    letOff(job, view.run),
    begun ? null : before(job, view),
    begun && pullCards(job, view),
    begun && results(job, testPageOf(isBase(view.run) ? "base_boost_run" : "road").checks),
    begun && after(job, view, pulls),
    el("p", { class: "hint" }, app.awake.on ? text.awake : text.notAwake),
  ];
}

/** Large, before the pull: the figure at which the driver lets off. */
function letOff(job, run) {
  const kpa = abortFigure(job.document);
  if (kpa === null) return el("p", { class: "told", key: "let off" }, text.noLetOff);
  return el(
    "div",
    { class: "let-off", key: "let off" },
    el("span", { class: "word" }, text.letOff),
    el("span", { class: "pull-plan" }, planOf(job, run.gear)),
    el("span", { class: "figure" }, figureOf("pressure", kpa, job.unit), " ", el("span", { class: "unit" }, unitOf("pressure", job.unit))),
  );
}

function before(job, view) {
  const hurts = testWords(job.document, isBase(view.run) ? "base_boost_run" : "road").cautions;
  return [cautions(hurts), roadPlan(job, view.run, view.path), setUp(job, view)];
}

function setUp(job, { run, path }) {
  return el(
    "div",
    { key: "set up" },
    oneOf({ label: text.phase, options: text.phases, chosen: run.phase, choose: (phase) => job.set(text.phase, `${path}/phase`, phase ?? run.phase) }),
    numberField({ label: text.gear, key: "gear", kind: "number", unit: job.unit, value: run.gear, change: (gear) => job.set(text.gear, `${path}/gear`, gear) }),
    roadGauges(job).map((gauge) => gaugeChoice(job, gauge)),
    hoseAt(job, run),
  );
}

/** Where in the charge circuit its gauge reads; what was read there stays where it was read. */
function hoseAt(job, run) {
  const choose = (at) => job.keep(text.at, () => job.app.workbook.settings.set("road at", at));
  const isRead = (run.readings ?? []).some(({ at }) => at !== "control_line");
  if (isRead) return null;
  return oneOf({ label: text.at, options: text.ats, chosen: chargeAt(job, run), choose });
}

function pullCards(job, view) {
  const { during, after, further } = pullFields(job, view.run, view.current);
  return el(
    "section",
    { class: "pull", key: `pull ${view.current}` },
    el("h2", {}, text.pull(view.current)),
    el("h3", {}, text.during),
    el("div", { class: "cards two" }, during.map((field) => card(job, field, view.entry))),
    el("h3", {}, text.after),
    el("div", { class: "cards two" }, after.map((field) => card(job, field, view.entry))),
    el("details", { key: `further ${view.current}` }, el("summary", {}, text.further), el("div", { class: "cards two" }, further.map((field) => card(job, field, view.entry)))),
  );
}

function card(job, field, entry) {
  const open = entry.key === field.key;
  const figure = field.value === undefined ? words.none : figureOf(field.kind, field.value, job.unit);
  return el(
    "button",
    { type: "button", class: open ? "card open" : "card", key: `row ${field.key}`, on: { click: () => entry.open(field.key) } },
    el("span", { class: "name" }, field.label),
    el("span", { class: "figure" }, figure, el("span", { class: "unit" }, ` ${unitOf(field.kind, job.unit)}`)),
  );
}

function after(job, view, pulls) {
  const others = pulls.filter((pull) => pull !== view.current);
  const drop = (pull) => job.keep(text.removePull(pull), async () => {
    for (const path of pathsOf(view.run, pull)) await job.handle.remove(path);
  });
  return [
    others.length > 0 && el("div", { class: "row" }, others.map((pull) => button(text.pull(pull), () => view.show(pull), { key: `show ${pull}` }))),
    pulls.includes(view.current) && button(text.removePull(view.current), () => drop(view.current), { key: "drop pull", kind: "plain" }),
    el("details", { key: "set up again" }, el("summary", {}, text.gear, ", ", words.gauges.title), setUp(job, view)),
  ];
}

function bar(app, job, view) {
  const pad = view.entry.build();
  if (pad) return pad;
  if (!isTold(view.run)) return null;
  const pulls = pullsOf(view.run);
  const first = mainButton({ text: pulls.length ? text.addPull : text.start, click: view.next, key: "next pull" });
  if (!pulls.length) return first;
  return el("div", { class: "two-buttons" }, first, el("a", { class: "second", href: link("job", job.id, "verdict") }, text.finish));
}
