/** The solenoid's electrical side: coil, supply and ground under load, and its hoses; an open circuit is a choice. */
import { oneOf } from "../parts/chips.js";
import { createEntry } from "../parts/entry.js";
import { placeField, yesNo } from "../parts/fields.js";
import { testPage } from "../parts/test_page.js";
import { testWords } from "../parts/test_words.js";

const AT = "/tests/solenoid";
const OHM = `${AT}/coil_ohm`;
const OPEN_OHM = 1e6;
const READ = [
  ["coil_ohm", "ohm", { limit: "solenoid_coil_ohm_20c", check: "solenoid_coil" }],
  ["coil_c", "celsius"],
  ["supply_v", "volt", { optional: true, extra: true }],
  ["supply_drop_v", "volt", { limit: "supply_drop_v", check: "solenoid_supply" }],
  ["ground_drop_v", "volt", { limit: "ground_drop_v", check: "solenoid_ground" }],
];

export function solenoidScreen(app, job) {
  const text = testWords(job.document, "solenoid");
  const show = (ohm) => (ohm >= OPEN_OHM ? text.openKept : null);
  const field = ([name, kind, more]) =>
    placeField(job, { path: `${AT}/${name}`, label: text.fields[name], hint: text.hints[name], kind, ...more });
  const fields = () => READ.map(field).map((one) => (one.kind === "ohm" ? { ...one, show } : one));
  const entry = createEntry(job, fields, "solenoid");
  const open = () =>
    oneOf({
      label: text.open, options: [[OPEN_OHM, text.openYes]], chosen: job.value(OHM),
      choose: (ohm) => job.set(text.open, OHM, ohm),
    });
  const hoses = () => yesNo(job, { label: text.hoses, path: `${AT}/hoses_sound` });
  const build = () =>
    testPage(job, { id: "solenoid", entry, fields: fields(), choices: [open(), hoses()] });
  return { build };
}
