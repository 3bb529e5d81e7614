/** The vacuum supply: what the engine's pump gives, and whether check valve and reservoir keep it. */
import { el } from "../parts/el.js";
import { createEntry } from "../parts/entry.js";
import { placeField } from "../parts/fields.js";
import { gaugeChoice } from "../parts/gauges.js";
import { createMinute, heldField } from "../parts/minute.js";
import { textOf } from "../parts/quantity.js";
import { testPage } from "../parts/test_page.js";
import { testWords } from "../parts/test_words.js";

const AT = "/tests/vacuum_supply";
const END = `${AT}/p_end_kpa`;
const GAUGE = { path: `${AT}/gauge`, use: "vacuum_supply", below: true };

export function vacuumSupplyScreen(app, job) {
  const text = () => testWords(job.document, "vacuum_supply");
  const minute = createMinute(app, `supply ${job.id}`, { text, end: () => entry.open(END), begin: () => entry.close() });
  const fields = () => fieldsOf(job, text(), minute);
  const entry = createEntry(job, fields, "vacuum_supply");
  const build = () =>
    testPage(job, {
      id: "vacuum_supply", entry, fields: fields(),
      before: [gaugeChoice(job, GAUGE), most(job, text())],
      after: minute.box(job.value(END) !== undefined),
      bar: minute.bar(job.value(`${AT}/p_kpa`) !== undefined && job.value(END) === undefined),
    });
  return { build, leave: minute.halt };
}

function fieldsOf(job, { fields, hints }, minute) {
  const read = (name, more) => placeField(job, { path: `${AT}/${name}`, label: fields[name], hint: hints[name], kind: "vacuum", gauge: GAUGE, ...more });
  return [
    { ...placeField(job, { path: `${AT}/engine_rpm`, label: fields.engine_rpm, kind: "speed" }), optional: true },
    read("p_kpa", { limit: "vacuum_supply_kpa", check: "vacuum_supply" }),
    heldField(read("p_end_kpa", { optional: true }), job, minute, `${AT}/hold_s`),
    { ...placeField(job, { path: `${AT}/hold_s`, label: fields.hold_s, kind: "second" }), optional: true, extra: true },
  ];
}

/** No pump pulls more than the air around it weighs: on a mountain the same pump shows less. */
function most(job, text) {
  const outside = job.value("/site/barometric_kpa_abs");
  const says = outside === undefined ? text.mostUnknown : text.most(textOf("pressureAbsolute", outside, job.unit), textOf("vacuum", -outside, job.unit));
  return el("p", { class: "hint" }, says);
}
