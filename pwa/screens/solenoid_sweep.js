/** The solenoid step by step: known pressure in, duty set, control pressure read. */
import { oneOf } from "../parts/chips.js";
import { createEntry } from "../parts/entry.js";
import { gaugeChoice, gaugeFor } from "../parts/gauges.js";
import { drivenBy, kindOf } from "../parts/kind.js";
import { listAt } from "../parts/pointer.js";
import { testPage } from "../parts/test_page.js";
import { isBelow } from "../parts/quantity.js";
import { testWords } from "../parts/test_words.js";

const AT = "/tests/solenoid";
const SWEEP = `${AT}/sweep`;
const DUTIES_PCT = [0, 20, 40, 60, 80, 100];
const ENDS_PCT = [0, 100];

const kindRead = (job) => drivenBy(kindOf(job.document));
const gaugeHere = (job) => ({ path: `${AT}/gauge`, use: "solenoid", below: isBelow(kindRead(job)) });
const textOf = (job) => testWords(job.document, "solenoid_sweep");

export function solenoidSweepScreen(app, job) {
  const text = textOf(job);
  const fields = () => [fedField(job), ...DUTIES_PCT.map((duty) => stepField(job, duty))];
  const entry = createEntry(job, fields, "solenoid_sweep");
  const choice = (label, name, options) =>
    oneOf({ label, options, chosen: job.value(`${AT}/${name}`), choose: (value) => job.set(label, `${AT}/${name}`, value) });
  const build = () =>
    testPage(job, {
      id: "solenoid_sweep", entry, fields: fields(),
      before: gaugeChoice(job, gaugeHere(job)),
      choices: [choice(text.driver, "driven_by", text.drivers), choice(text.place, "read_at", text.places)],
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
  return { ...gaugeOf(job), key: "fed", label: textOf(job).fields.supply, value: steps[0]?.supply_kpa ?? settings.get(name), write };
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
    ...gaugeOf(job), key: `duty ${duty}`, label: textOf(job).fields.control(duty), value: there?.control_kpa, write,
    optional: !isEnd,
  };
}

function gaugeOf(job) {
  return { kind: kindRead(job), gauge: gaugeFor(job, gaugeHere(job)) };
}

async function nameGauge(job) {
  const [gauge, { path }] = [gaugeFor(job, gaugeHere(job)), gaugeHere(job)];
  if (gauge && job.value(path) !== gauge.id) await job.handle.set(path, gauge.id);
}
