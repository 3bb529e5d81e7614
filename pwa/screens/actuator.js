/** The actuator by hand pump: where it begins, where it ends, whether it holds for a minute. */
import { words } from "../words/words.js";
import { el } from "../parts/el.js";
import { createEntry } from "../parts/entry.js";
import { placeField, yesNo } from "../parts/fields.js";
import { gaugeChoice } from "../parts/gauges.js";
import { drivenBy, kindOf } from "../parts/kind.js";
import { createMinute, heldField } from "../parts/minute.js";
import { isBelow } from "../parts/quantity.js";
import { link } from "../parts/router.js";
import { testPage } from "../parts/test_page.js";
import { testWords } from "../parts/test_words.js";

const AT = "/tests/actuator";
const END = `${AT}/hold/p_end_kpa`;

export function actuatorScreen(app, job) {
  const text = () => testWords(job.document, "actuator");
  const minute = createMinute(app, `hold ${job.id}`, { text, end: () => entry.open(END), begin: () => entry.close() });
  const fields = () => fieldsOf(job, text(), minute);
  const entry = createEntry(job, fields, "actuator");
  const build = () =>
    testPage(job, {
      id: "actuator", entry, fields: fields(),
      before: gaugeChoice(job, gaugeOf(job)),
      choices: [
        yesNo(job, { label: text().choices.free, path: `${AT}/linkage_free` }),
        yesNo(job, { label: text().choices.returns, path: `${AT}/returns_to_stop` }),
      ],
      after: [
        minute.box(job.value(END) !== undefined),
        el("p", {}, el("a", { class: "second", href: link("job", job.id, "actuator_sweep") }, text().toSweep)),
      ],
      bar: minute.bar(job.value(`${AT}/hold/p_kpa`) !== undefined && job.value(END) === undefined),
    });
  return { build, leave: minute.halt };
}

function gaugeOf(job) {
  return { path: `${AT}/gauge`, use: "actuator", below: isBelow(drivenBy(kindOf(job.document))) };
}

function fieldsOf(job, { fields, hints }, minute) {
  const kind = drivenBy(kindOf(job.document));
  const read = (name, label, more) => placeField(job, { path: `${AT}/${name}`, label, kind, gauge: gaugeOf(job), ...more });
  return [
    read("first_movement_kpa", fields.first, { hint: hints.first, limit: "actuator_start_kpa", check: "actuator_start" }),
    read("full_travel_kpa", fields.full, { hint: hints.full, limit: "actuator_full_kpa", check: "actuator_full" }),
    read("hold/p_kpa", fields.hold, { hint: hints.hold }),
    heldField(read("hold/p_end_kpa", fields.held, { hint: hints.held, check: "actuator_hold" }), job, minute, `${AT}/hold/t_s`),
    { ...placeField(job, { path: `${AT}/hold/t_s`, label: fields.time, kind: "second" }), optional: true, extra: true },
    { ...placeField(job, { path: `${AT}/hold/volume_ml`, label: fields.volume, kind: "millilitre", hint: words.page.optional }), optional: true, extra: true },
  ];
}
