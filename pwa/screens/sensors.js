/** Sensors at rest: ignition on, engine off, car cold. */
import { reader } from "../drawings/bench.js";
import { words } from "../words/en.js";
import { createEntry } from "../parts/entry.js";
import { placeField } from "../parts/fields.js";
import { testPage } from "../parts/test_page.js";

const text = words.tests.sensors_at_rest;
const FIELDS = [
  ["charge_pressure_kpa_abs", "charge", "pressureAbsolute", "rest_charge_pressure"],
  ["barometric_kpa_abs", "barometric", "pressureAbsolute"],
  ["intake_air_c", "intake", "celsius", "rest_temperatures"],
  ["coolant_c", "coolant", "celsius"],
  ["pedal_released_pct", "released", "percent"],
  ["pedal_floored_pct", "floored", "percent", "rest_pedal"],
  ["air_mass_gps", "air", "airMass", "rest_air_mass"],
];

export function sensorsScreen(app, job) {
  const fields = () =>
    FIELDS.map(([name, label, kind, check]) => placeField(job, { path: `/tests/sensors_at_rest/${name}`, label: text.fields[label], kind, check }));
  const entry = createEntry(job, fields);
  const build = () =>
    testPage(job, {
      id: "sensors_at_rest", text, entry, drawing: reader(text.parts), fields: fields(),
      checks: ["rest_charge_pressure", "rest_temperatures", "rest_pedal", "rest_air_mass"],
    });
  return { build };
}
