/** The turbo from its inlet side: wheel and shaft, before any full-load pull. */
import { inlet } from "../drawings/bench.js";
import { words } from "../words/en.js";
import { createEntry } from "../parts/entry.js";
import { placeField, yesNo } from "../parts/fields.js";
import { testPage } from "../parts/test_page.js";

const text = words.tests.turbo_inspection;
const AT = "/tests/turbo_inspection";

export function turboScreen(app, job) {
  const fields = () => [
    placeField(job, { path: `${AT}/radial_play_mm`, label: text.fields.radial, kind: "millimetre", limit: "shaft_radial_play_mm", check: "turbo_radial_play" }),
    placeField(job, { path: `${AT}/axial_play_mm`, label: text.fields.axial, kind: "millimetre", limit: "shaft_axial_play_mm", check: "turbo_axial_play" }),
  ];
  const entry = createEntry(job, fields);
  const choices = () => [
    yesNo(job, { label: text.choices.wheel, path: `${AT}/wheel_damage` }),
    yesNo(job, { label: text.choices.spins, path: `${AT}/spins_free` }),
    yesNo(job, { label: text.choices.oil, path: `${AT}/oil_in_outlet` }),
  ];
  const build = () =>
    testPage(job, {
      id: "turbo_inspection", text, entry, drawing: inlet(text.parts), fields: fields(), choices: choices(),
      checks: ["turbo_radial_play", "turbo_axial_play", "turbo_wheels"],
    });
  return { build };
}
