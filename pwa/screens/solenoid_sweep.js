/** The solenoid step by step: known pressure in, duty set, control pressure read. */
import { solenoidBench } from "../drawings/bench.js";
import { words } from "../words/words.js";
import { oneOf } from "../parts/chips.js";
import { createEntry } from "../parts/entry.js";
import { gaugeChoice, gaugeFor } from "../parts/gauges.js";
import { listAt } from "../parts/pointer.js";
import { testPage } from "../parts/test_page.js";
import { testPageOf } from "../parts/test_pages.js";

const text = words.tests.solenoid_sweep;
const AT = "/tests/solenoid";
const SWEEP = `${AT}/sweep`;
const GAUGE = { path: `${AT}/gauge`, use: "solenoid" };
const DUTIES_PCT = [0, 20, 40, 60, 80, 100];
const ENDS_PCT = [0, 100];

export function solenoidSweepScreen(app, job) {
  const fields = () => [fedField(job), ...DUTIES_PCT.map((duty) => stepField(job, duty))];
  const entry = createEntry(job, fields, "solenoid_sweep");
  const choice = (label, name, options) =>
    oneOf({ label, options, chosen: job.value(`${AT}/${name}`), choose: (value) => job.set(label, `${AT}/${name}`, value) });
  const build = () =>
    testPage(job, {
      id: "solenoid_sweep", text, entry, drawing: solenoidBench(text.parts), fields: fields(),
      before: gaugeChoice(job, GAUGE),
      choices: [choice(text.driver, "driven_by", text.drivers), choice(text.place, "read_at", text.places)],
      checks: testPageOf("solenoid_sweep").checks,
    });
  return { build };
}

/** The pressure fed in belongs to every step; until there is a step it is kept on this phone. */
function fedField(job) {
  const { settings } = job.app.workbook;
  const name = `fed ${job.id}`;
  const steps = listAt(job.document, SWEEP);
  const write = async (kpa) => {
    await settings.set(name, kpa);
    await job.handle.setMany(steps.map(({ id }) => [`${SWEEP}/${id}/supply_kpa`, kpa]));
  };
  return { ...gaugeOf(job), key: "fed", label: text.fields.supply, value: steps[0]?.supply_kpa ?? settings.get(name), write };
}

function stepField(job, duty) {
  const there = listAt(job.document, SWEEP).find(({ duty_pct: at }) => at === duty);
  const write = async (kpa) => {
    const supply = fedField(job).value;
    if (there) await job.handle.set(`${SWEEP}/${there.id}/control_kpa`, kpa);
    else await job.handle.add(SWEEP, { duty_pct: duty, ...(supply === undefined ? {} : { supply_kpa: supply }), control_kpa: kpa });
    await nameGauge(job);
  };
  const isEnd = ENDS_PCT.includes(duty);
  return {
    ...gaugeOf(job), key: `duty ${duty}`, label: text.fields.control(duty), value: there?.control_kpa, write,
    optional: !isEnd,
  };
}

function gaugeOf(job) {
  return { kind: "pressure", gauge: gaugeFor(job, GAUGE) };
}

async function nameGauge(job) {
  const gauge = gaugeFor(job, GAUGE);
  if (gauge && job.value(GAUGE.path) !== gauge.id) await job.handle.set(GAUGE.path, gauge.id);
}
