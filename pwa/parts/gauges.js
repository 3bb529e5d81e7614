/** Gauges of a job: which one a test is read on, how it is described. What was chosen is remembered per test. */
import { words } from "../words/words.js";
import { el } from "./el.js";
import { selectField } from "./inputs.js";
import { listAt, valueAt } from "./pointer.js";
import { link } from "./router.js";
import { fromKpa, printNumber, printPressure } from "./units.js";

/** Name, scale and class of a gauge in the unit shown. */
export function describeGauge(gauge, unit) {
  const [low, high] = gauge.span_kpa ?? [];
  const span = high === undefined ? "" : `${words.limit.fromTo(printPressure(low, unit), printPressure(high, unit))} ${unit}`;
  return words.gauges.describe(span, gradeOf(gauge), gauge.calibrated_on);
}

/** As short as a choice needs it: number, end of scale, class. */
function shortGauge(job, gauge) {
  const [low, high] = gauge.span_kpa ?? [];
  const end = low < 0 && -low > high ? low : high;
  const span = high === undefined ? null : `${printNumber(fromKpa(end, job.unit), 0, 1)} ${job.unit}`;
  return [gaugeName(job, gauge), span, gradeOf(gauge)].filter(Boolean).join(" \u00b7 ");
}

function gradeOf(gauge) {
  return gauge.kind === "digital" ? words.gauges.digital : gauge.class_pct && words.gauges.classOf(printNumber(gauge.class_pct));
}

/** Gauges of a job are numbered as they were put on it. */
export function gaugeName(job, gauge) {
  return words.gauges.number(listAt(job.document, "/gauges").indexOf(gauge) + 1);
}

/**
 * The gauge of a test: the one written down at `path`, else the one used last for this, else the job's only one; where
 * two are read at once (`alone` is false) the only one is not taken for both, and no vacuum is read on a scale without.
 */
export function gaugeFor(job, { path, use, alone = true, below = false }) {
  const gauges = listAt(job.document, "/gauges");
  const named = (path && valueAt(job.document, path)) ?? job.app.workbook.settings.get(`gauge ${use}`);
  const fitting = below ? gauges.filter(({ span_kpa: [low] = [-Infinity] }) => low < 0) : gauges;
  return gauges.find((gauge) => gauge.id === named) ?? (alone && fitting.length === 1 ? fitting[0] : null);
}

/** The choice of a gauge, remembered for this use on this phone and written at `path` where there is one. */
export function gaugeChoice(job, gauge) {
  const { label = words.gauges.choose, path, use } = gauge;
  const gauges = listAt(job.document, "/gauges");
  if (!gauges.length) return el("p", {}, el("a", { href: link("job", job.id, "gauges") }, words.gauges.manage));
  const options = [["", words.gauges.withoutGauge], ...gauges.map((one) => [one.id, shortGauge(job, one)])];
  const change = async (id) => {
    await job.app.workbook.settings.set(`gauge ${use}`, id || null);
    if (path) await job.set(label, path, id || null);
    job.repaint();
  };
  return selectField({ label, key: `gauge ${use}`, options, value: gaugeFor(job, gauge)?.id ?? "", change });
}
