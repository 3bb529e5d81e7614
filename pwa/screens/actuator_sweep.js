/** Travel against pressure: up in steps, then down; the page says which pressure comes next. */
import { actuatorTravel } from "../drawings/bench.js";
import { travelPlot } from "../drawings/travel_plot.js";
import { words } from "../words/words.js";
import { el } from "../parts/el.js";
import { createEntry } from "../parts/entry.js";
import { gaugeChoice, gaugeFor } from "../parts/gauges.js";
import { section } from "../parts/page.js";
import { listAt } from "../parts/pointer.js";
import { testPage } from "../parts/test_page.js";
import { testPageOf } from "../parts/test_pages.js";
import { pressureText, toKpa } from "../parts/units.js";

const text = words.tests.actuator_sweep;
const SWEEP = "/tests/actuator/sweep";
const GAUGE = { path: "/tests/actuator/gauge", use: "actuator" };

/** About 0.2 bar, round in the unit that the gauge shows. */
const STEP_IN_UNIT = { bar: 0.2, kPa: 20, psi: 3, mbar: 200, inHg: 6 };
const USUAL_END_KPA = 180;
const BEYOND_END_STEPS = 1;

export function actuatorSweepScreen(app, job) {
  const fields = () => stepsOf(job).map((step) => stepField(job, step));
  const entry = createEntry(job, fields, "actuator_sweep");
  const build = () =>
    testPage(job, {
      id: "actuator_sweep", text, entry, drawing: actuatorTravel(text.parts), fields: fields(),
      before: gaugeChoice(job, GAUGE), after: plot(job), checks: testPageOf("actuator_sweep").checks,
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

/** Up past the end of the maker's limit, and the same way down. */
function plan(job) {
  const step = STEP_IN_UNIT[job.unit];
  const end = job.value("/spec/actuator_full_kpa")?.max ?? USUAL_END_KPA;
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
    const gauge = gaugeFor(job, GAUGE);
    if (gauge && job.value(GAUGE.path) !== gauge.id) await job.handle.set(GAUGE.path, gauge.id);
  };
  return { key: `${direction} ${kpa}`, label: text[direction](pressureText(kpa, job.unit)), kind: "millimetre", value: there?.travel_mm, write };
}

function plot(job) {
  const rows = listAt(job.document, SWEEP);
  if (rows.length < 2) return null;
  const start = job.value("/spec/actuator_start_kpa");
  const labels = { pressure: job.unit, start: start && text.allowed };
  return section(text.plot, el("figure", { class: "picture" }, travelPlot(rows, { start, unit: job.unit, labels }), el("figcaption", {}, text.plotSays(rows.length))));
}
