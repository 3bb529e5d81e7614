/** Travel against pressure: up in steps, then down; the page says which pressure comes next. */
import { travelPlot } from "../drawings/travel_plot.js";
import { el } from "../parts/el.js";
import { createEntry } from "../parts/entry.js";
import { gaugeChoice, gaugeFor } from "../parts/gauges.js";
import { hasVacuum, kindOf } from "../parts/kind.js";
import { section } from "../parts/page.js";
import { listAt } from "../parts/pointer.js";
import { testPage } from "../parts/test_page.js";
import { testWords } from "../parts/test_words.js";
import { pressureText, toKpa } from "../parts/units.js";

const SWEEP = "/tests/actuator/sweep";

const isVacuum = (job) => hasVacuum(kindOf(job.document));
const gaugeOf = (job) => ({ path: "/tests/actuator/gauge", use: "actuator", below: isVacuum(job) });
const textOf = (job) => testWords(job.document, "actuator_sweep");

/** About 0.2 bar of pressure or 0.05 bar of vacuum, round in the unit that the gauge shows. */
const STEP_IN_UNIT = { bar: 0.2, kPa: 20, psi: 3, mbar: 200, inHg: 6 };
const VACUUM_STEP_IN_UNIT = { bar: -0.05, kPa: -5, psi: -1, mbar: -50, inHg: -2 };
const USUAL_END_KPA = 180;
const USUAL_VACUUM_END_KPA = -70;
const BEYOND_END_STEPS = 1;

export function actuatorSweepScreen(app, job) {
  const fields = () => stepsOf(job).map((step) => stepField(job, step));
  const entry = createEntry(job, fields, "actuator_sweep");
  const build = () =>
    testPage(job, {
      id: "actuator_sweep", entry, fields: fields(), before: gaugeChoice(job, gaugeOf(job)), after: plot(job),
    });
  return { build };
}

/** The steps to read; where others were read already, as on another phone with another unit, those stay. */
function stepsOf(job) {
  const planned = plan(job);
  const isPlanned = (row) => planned.some(({ kpa, direction }) => row.p_kpa === kpa && row.direction === direction);
  const rows = listAt(job.document, SWEEP);
  return rows.every(isPlanned) ? planned : rows.map(({ p_kpa: kpa, direction }) => ({ kpa, direction: direction ?? "rising" }));
}

/** Up past the end of the maker's limit, to the stop, and the same way down; a vacuum rises by growing deeper. */
function plan(job) {
  const { min, max } = job.value("/spec/actuator_full_kpa") ?? {};
  const step = (isVacuum(job) ? VACUUM_STEP_IN_UNIT : STEP_IN_UNIT)[job.unit];
  const end = isVacuum(job) ? (min ?? USUAL_VACUUM_END_KPA) : (max ?? USUAL_END_KPA);
  const count = Math.ceil(end / toKpa(step, job.unit)) + BEYOND_END_STEPS;
  const up = Array.from({ length: count + 1 }, (_, at) => ({ kpa: toKpa(at * step, job.unit), direction: "rising" }));
  const down = up.slice(0, -1).reverse().map(({ kpa }) => ({ kpa, direction: "falling" }));
  return [...up, ...down];
}

function stepField(job, { kpa, direction }) {
  const there = listAt(job.document, SWEEP).find((row) => row.p_kpa === kpa && (row.direction ?? "rising") === direction);
  const write = async (travel) => {
    if (there) await job.handle.set(`${SWEEP}/${there.id}/travel_mm`, travel);
    else await job.handle.add(SWEEP, { p_kpa: kpa, travel_mm: travel, direction });
    const [gauge, { path }] = [gaugeFor(job, gaugeOf(job)), gaugeOf(job)];
    if (gauge && job.value(path) !== gauge.id) await job.handle.set(path, gauge.id);
  };
  return { key: `${direction} ${kpa}`, label: textOf(job)[direction](pressureText(kpa, job.unit)), kind: "millimetre", value: there?.travel_mm, write };
}

function plot(job) {
  const text = textOf(job);
  const rows = listAt(job.document, SWEEP);
  if (rows.length < 2) return null;
  const start = job.value("/spec/actuator_start_kpa");
  const labels = { pressure: job.unit, start: start && text.allowed };
  return section(text.plot, el("figure", { class: "picture" }, travelPlot(rows, { start, unit: job.unit, labels }), el("figcaption", {}, text.plotSays(rows.length))));
}
