/** The solenoid's coil: its resistance and how warm it is; an open circuit is a choice. */
import { coil } from "../drawings/bench.js";
import { words } from "../words/en.js";
import { oneOf } from "../parts/chips.js";
import { createEntry } from "../parts/entry.js";
import { placeField } from "../parts/fields.js";
import { testPage } from "../parts/test_page.js";

const text = words.tests.solenoid;
const OHM = "/tests/solenoid/coil_ohm";
const OPEN_OHM = 1e6;

export function solenoidScreen(app, job) {
  const show = (ohm) => (ohm >= OPEN_OHM ? text.openKept : null);
  const fields = () => [
    { ...placeField(job, { path: OHM, label: text.fields.ohm, kind: "ohm", limit: "solenoid_coil_ohm_20c", check: "solenoid_coil" }), show },
    placeField(job, { path: "/tests/solenoid/coil_c", label: text.fields.temperature, kind: "celsius", hint: text.hints.temperature }),
  ];
  const entry = createEntry(job, fields);
  const open = () =>
    oneOf({
      label: text.open, options: [[OPEN_OHM, text.openYes]], chosen: job.value(OHM),
      choose: (ohm) => job.set(text.open, OHM, ohm),
    });
  const build = () =>
    testPage(job, { id: "solenoid", text, entry, drawing: coil(text.parts), fields: fields(), choices: [open()], checks: ["solenoid_coil"] });
  return { build };
}
