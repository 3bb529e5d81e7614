/** The maker's limits: from the workshop's library or an earlier job with one tap, else typed; all may be missing. */
import { words } from "../words/words.js";
import { oneOf } from "../parts/chips.js";
import { carName } from "../parts/car.js";
import { el } from "../parts/el.js";
import { asLimit } from "../parts/quantity.js";
import { depthField, limitField, numberField, textField } from "../parts/inputs.js";
import { drivenBy, hasBaseBoost, hasSolenoid, hasVacuum, kindOf } from "../parts/kind.js";
import { button, mainButton, page, section } from "../parts/page.js";
import { link } from "../parts/router.js";

const LIMITS = {
  bench: [
    ["vacuum_supply_kpa", "vacuum", "depth"],
    ["actuator_start_kpa", "driven"],
    ["actuator_full_kpa", "driven"],
    ["actuator_travel_mm", "millimetre"],
    ["actuator_hold_loss_kpa_per_min", "pressureRate"],
    ["rod_thread_pitch_mm", "millimetre", "single"],
  ],
  tightness: [
    ["charge_leak_hole_mm", "millimetre"],
    ["solenoid_coil_ohm_20c", "ohm"],
    ["shaft_radial_play_mm", "millimetre"],
    ["shaft_axial_play_mm", "millimetre"],
  ],
  road: [
    ["boost_specified_peak_kpa_abs", "pressureAbsolute"],
    ["boost_tolerance_kpa", "pressure", "single"],
    ["abort_boost_kpa", "pressure", "single"],
  ],
};

/** For the tests that not every job needs, and tolerances that the calculation has a usual figure for. */
const FURTHER = [
  ["actuator_hysteresis_kpa", "pressure"],
  ["supply_drop_v", "volt"],
  ["ground_drop_v", "volt"],
  ["base_boost_kpa", "pressure"],
  ["bypass_hold_kpa", "pressure"],
  ["intake_depression_kpa", "pressure"],
  ["cooler_drop_kpa", "pressure"],
  ["exhaust_back_pressure_kpa", "pressure"],
  ["volumetric_efficiency", "number"],
  ["charge_sensor_range_kpa_abs", "pressureAbsolute"],
  ["rest_pressure_tolerance_kpa", "pressure", "single"],
  ["rest_temperature_tolerance_c", "celsius", "single"],
  ["sensor_tolerance_kpa", "pressure", "single"],
  ["correction_tolerance_kpa", "pressure", "single"],
  ["control_ratio_tolerance", "number", "single"],
];

/** Limits of what not every kind of car has. */
const ONLY = {
  vacuum_supply_kpa: hasVacuum,
  base_boost_kpa: hasBaseBoost,
  ...Object.fromEntries(
    [
      "actuator_start_kpa", "actuator_full_kpa", "actuator_travel_mm", "actuator_hold_loss_kpa_per_min", "rod_thread_pitch_mm",
      "solenoid_coil_ohm_20c", "actuator_hysteresis_kpa", "supply_drop_v", "ground_drop_v", "control_ratio_tolerance",
    ].map((name) => [name, hasSolenoid]),
  ),
};

export function limitsScreen(app, job) {
  app.workbook.fetchWorkshop();
  return { build: () => build(app, job) };
}

function build(app, job) {
  const text = words.limits;
  const content = {
    title: text.title,
    under: text.under,
    back: { href: link("job", job.id), text: words.nav.job },
    key: "main limits",
    main: [
      el("p", { class: "hint" }, text.why),
      library(app, job),
      copies(app, job),
      textField({ label: text.source, hint: text.sourceHint, key: "/spec/source", value: job.value("/spec/source"), change: (value) => job.set(text.source, "/spec/source", value) }),
      groups(job),
      el("details", { key: "further" }, el("summary", {}, text.further), el("p", { class: "hint" }, text.furtherSays), fieldsOf(job, FURTHER), airAt(job)),
    ],
    bar: mainButton({ text: words.car.done, href: link("job", job.id) }),
  };
  return page(content, app.keeper);
}

function groups(job) {
  const text = words.limits;
  const vacuum = hasVacuum(kindOf(job.document));
  return Object.entries(LIMITS).map(([group, rows]) => {
    const fields = fieldsOf(job, rows);
    return fields.length > 0 && section(text[group], vacuum && group === "bench" && el("p", { class: "hint" }, text.vacuumSays), fields);
  });
}

function fieldsOf(job, rows) {
  const kind = kindOf(job.document);
  const here = rows.filter(([name]) => ONLY[name]?.(kind) ?? true);
  return here.map(([name, measures, form]) => fieldOf(job, [name, measures === "driven" ? drivenBy(kind) : measures, form]));
}

function airAt(job) {
  const { airAt: label, airAts: options } = words.limits;
  const path = "/spec/intake_air_at";
  return oneOf({ label, options, chosen: job.value(path), choose: (value) => job.set(label, path, value) });
}

function fieldOf(job, [name, kind, form]) {
  const path = `/spec/${name}`;
  const label = words.limits.names[name];
  const change = (value) => job.set(label, path, value);
  if (form === "depth") return depthField({ label, unit: job.unit, limit: job.value(path), change });
  if (form === "single") return numberField({ label, kind, unit: job.unit, key: path, value: job.value(path), change });
  const join = (next) => job.change(label, path, (limit) => next(asLimit(limit)));
  return limitField({ label, kind, unit: job.unit, limit: asLimit(job.value(path)), change: join, words: words.limits });
}

/** What the workshop's library has for this engine, as last fetched; it takes the place of nothing that was typed. */
function library(app, job) {
  const engines = (app.workbook.workshop.engines ?? []).filter((engine) => sameEngine(job.document, engine));
  const useful = engines.map((engine) => [engine, limitsIn(engine).filter(([name]) => job.value(`/spec/${name}`) === undefined)]).filter(([, open]) => open.length);
  if (!useful.length) return null;
  return section(words.limits.library, useful.map(([engine, open]) => libraryButton(job, engine, open)));
}

function libraryButton(job, engine, open) {
  const name = [carName(engine), engine.vehicle.engine].filter(Boolean).join(" ");
  const sources = [...new Set(open.map(([key]) => engine.sources[key]))];
  const source = [job.value("/spec/source"), ...sources].filter(Boolean).join("; ");
  const places = open.map(([key, value]) => [`/spec/${key}`, value]);
  const click = () => job.keep(words.limits.copied(name), () => job.handle.setMany([...places, ["/spec/source", source]]));
  return [
    button(words.limits.fromLibrary(open.length, name), click, { key: `library ${name}` }),
    el("p", { class: "hint", key: `sources ${name}` }, sources.join("; ")),
  ];
}

/** Earlier jobs with limits: those of the same engine first of all, none of another engine where one is named. */
function copies(app, job) {
  const others = app.workbook.jobs().filter(({ id, document }) => id !== job.id && limitsIn(document).length && sameEngine(job.document, document));
  if (!others.length || limitsIn(job.document).length) return null;
  return section(words.limits.copy, others.slice(0, 4).map((other) => copyButton(job, other)));
}

function limitsIn({ spec = {} }) {
  return Object.entries(spec).filter(([name]) => name !== "source");
}

function sameEngine({ vehicle: one = {} }, { vehicle: other = {} }) {
  const same = (name) => one[name] && other[name] && one[name].toLowerCase() === other[name].toLowerCase();
  return one.engine && other.engine ? same("engine") : same("make") && same("model");
}

function copyButton(job, { id, document }) {
  const name = carName(document);
  const source = document.spec.source;
  const places = limitsIn(document).map(([key, value]) => [`/spec/${key}`, value]);
  const click = () =>
    job.keep(words.limits.copied(name), () => job.handle.setMany([...places, ["/spec/source", words.limits.copiedSource(name, source)]]));
  return button(words.limits.copyFrom(name, source), click, { key: `copy ${id}` });
}
