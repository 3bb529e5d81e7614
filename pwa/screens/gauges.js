/** The gauges of a job: taken from the workshop's register or earlier jobs with one tap, or read off the dial once. */
import { words } from "../words/words.js";
import { oneOf } from "../parts/chips.js";
import { createDraft } from "../parts/draft.js";
import { el } from "../parts/el.js";
import { describeGauge, gaugeName } from "../parts/gauges.js";
import { numberField, selectField, textField } from "../parts/inputs.js";
import { putItem } from "../parts/job_context.js";
import { button, mainButton, page, section } from "../parts/page.js";
import { listAt } from "../parts/pointer.js";
import { link } from "../parts/router.js";

const DRAFT = "draft gauge";
const START = { kind: "analogue", read_to: "half", zero_kpa: 0 };

export function gaugesScreen(app, job) {
  app.workbook.fetchWorkshop();
  let told = false;
  const draft = createDraft(app.workbook.settings, DRAFT, START);
  const put = async (name, value) => {
    await draft.put(name, value);
    app.repaint();
  };
  const add = async () => {
    document.activeElement.blur();
    const gauge = gaugeFrom(draft.values);
    told = !gauge;
    if (!gauge) return app.repaint();
    await job.keep(words.gauges.fresh, () => job.handle.add("/gauges", gauge));
    await draft.clear();
    return app.repaint();
  };
  return { build: () => build(app, job, { draft: draft.values, put, add, told }) };
}

function build(app, job, fresh) {
  const text = words.gauges;
  const content = {
    title: text.title,
    under: text.under,
    back: { href: link("job", job.id), text: words.nav.job },
    key: "main gauges",
    main: [here(job), compared(job), registered(app, job), earlier(app, job), form(job, fresh)],
    bar: mainButton({ text: words.car.done, href: link("job", job.id) }),
  };
  return page(content, app.keeper);
}

function here(job) {
  const gauges = listAt(job.document, "/gauges");
  if (!gauges.length) return el("p", { class: "hint" }, words.gauges.none);
  return section(words.gauges.here, el("ul", { class: "items" }, gauges.map((gauge) => item(job, gauge))));
}

function item(job, gauge) {
  const name = gaugeName(job, gauge);
  const drop = () => job.keep(words.gauges.remove(name), () => job.handle.remove(`/gauges/${gauge.id}`));
  return el(
    "li",
    { key: gauge.id },
    el("span", {}, el("strong", {}, name), el("br"), describeGauge(gauge, job.unit)),
    !isUsed(job.document, gauge.id) && button("\u2715", drop, { label: words.gauges.remove(name), key: `drop ${gauge.id}`, kind: "small" }),
  );
}

const COMPARED = "/tests/gauges_compared";

/** Two gauges on one T-piece; where they contradict each other, the calculation says so. */
function compared(job) {
  const text = words.gauges;
  const gauges = listAt(job.document, "/gauges");
  if (gauges.length < 2) return null;
  const options = [["", text.withoutGauge], ...gauges.map((gauge) => [gauge.id, gaugeName(job, gauge)])];
  const change = (label, path) => (value) => job.set(label, path, value || value === 0 ? value : null);
  const which = (label, path) => selectField({ label, key: path, options, value: job.value(path) ?? "", change: change(label, path) });
  const shown = (label, path) => numberField({ label, key: path, kind: "pressure", unit: job.unit, value: job.value(path), change: change(label, path) });
  const says = (job.judged.verdict?.gauges_compared ?? []).map((one) => el("p", {}, one.says));
  return el(
    "details",
    { key: "compared", open: job.value(COMPARED) !== undefined },
    el("summary", {}, text.compare),
    el("p", { class: "hint" }, text.compareSays),
    which(text.one, `${COMPARED}/gauge`),
    shown(text.shows, `${COMPARED}/p_kpa`),
    which(text.other, `${COMPARED}/other_gauge`),
    shown(text.otherShows, `${COMPARED}/other_kpa`),
    says,
  );
}

/** A gauge that something was read on stays. */
function isUsed(document, id) {
  return JSON.stringify(document.tests ?? {}).includes(JSON.stringify(id));
}

/** Gauges in use by the workshop's register, as last fetched; each keeps its id, so it stays the same gauge. */
function registered(app, job) {
  const held = new Set(listAt(job.document, "/gauges").map(({ id }) => id));
  const others = (app.workbook.workshop.gauges ?? []).filter(({ id }) => id && !held.has(id));
  if (!others.length) return null;
  return section(words.gauges.register, others.map((one) => registeredButton(job, one)));
}

function registeredButton(job, { id, label, due_on: due, gauge }) {
  const text = words.gauges;
  const take = () => job.keep(label, () => putItem(job.handle, "/gauges", id, { ...gauge, rank: behindOthers(id) }));
  const isOver = due && due < new Date().toISOString().slice(0, 10);
  return [
    button(text.take([label, describeGauge(gauge, job.unit)].filter(Boolean).join(", ")), take, { key: `register ${id}` }),
    isOver && el("p", { class: "told", key: `due ${id}` }, text.overdue(due)),
  ];
}

/** The same on every phone, so that two of them may take the same gauge; no gauge that is here gets another number. */
const behindOthers = (id) => `z${id}`;

/** Gauges of earlier jobs that are in no register, each once. */
function earlier(app, job) {
  const register = (app.workbook.workshop.gauges ?? []).map(({ id }) => id);
  const held = new Set([...register, ...listAt(job.document, "/gauges").map(({ id }) => id)]);
  const others = app.workbook.jobs().flatMap(({ document }) => listAt(document, "/gauges")).filter(({ id }) => !held.has(id));
  const once = [...new Map(others.map((gauge) => [gauge.id, gauge])).values()].slice(0, 6);
  if (!once.length) return null;
  return section(words.gauges.pick, once.map((gauge) => takeButton(job, gauge)));
}

function takeButton(job, { id, rank, ...gauge }) {
  const name = describeGauge(gauge, job.unit);
  const take = () => job.keep(name, () => putItem(job.handle, "/gauges", id, { ...gauge, rank }));
  return button(words.gauges.take(name), take, { key: `take ${id}` });
}

function form(job, { draft, put, add, told }) {
  const text = words.gauges;
  const number = (label, name, kind) =>
    numberField({ label, key: `gauge ${name}`, kind, unit: job.unit, value: draft[name], change: (value) => put(name, value) });
  const own = draft.kind === "digital" ? digitalFields(number) : dialFields(number, draft, put);
  return section(
    text.fresh,
    oneOf({ label: text.kind, options: text.kinds, chosen: draft.kind, choose: (kind) => put("kind", kind ?? draft.kind) }),
    number(text.spanLow, "low", "pressure"),
    number(text.spanHigh, "high", "pressure"),
    own,
    number(text.zero, "zero_kpa", "pressure"),
    textField({ label: text.calibrated, key: "calibrated", kind: "date", value: draft.calibrated_on, change: (date) => put("calibrated_on", date) }),
    number(text.hose, "hose_m", "metre"),
    number(text.bore, "hose_bore_mm", "millimetre"),
    number(text.usedAt, "used_at_c", "celsius"),
    told && el("p", { class: "told", role: "alert" }, text.incomplete),
    button(text.add, add, { key: "add gauge" }),
  );
}

function dialFields(number, draft, put) {
  const text = words.gauges;
  return [
    number(text.accuracyClass, "class_pct", "number"),
    number(text.division, "division_kpa", "pressure"),
    oneOf({ label: text.readTo, options: text.readTos, chosen: draft.read_to, choose: (to) => put("read_to", to ?? "half") }),
  ];
}

function digitalFields(number) {
  const text = words.gauges;
  return [
    number(text.reading, "accuracy_pct_reading", "number"),
    number(text.counts, "accuracy_counts", "number"),
    number(text.resolution, "resolution_kpa", "pressure"),
  ];
}

/** The gauge as the document holds it, or null while something is missing that its doubt needs. */
function gaugeFrom({ low, high, ...rest }) {
  const typed = Object.fromEntries(Object.entries(rest).filter(([, value]) => value !== null && value !== undefined));
  const needed = rest.kind === "digital" ? ["accuracy_pct_reading", "resolution_kpa"] : ["class_pct", "division_kpa"];
  if (typeof high !== "number" || needed.some((name) => typeof typed[name] !== "number")) return null;
  if (typed.kind === "digital") delete typed.read_to;
  return { ...typed, span_kpa: [low ?? 0, high] };
}
