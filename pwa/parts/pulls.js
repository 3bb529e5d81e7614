/** The pulls of a road run: what was read on gauges and what was noted, gathered by the number of the pull. */
import { gaugeFor } from "./gauges.js";
import { drivenBy, isElectric, kindOf } from "./kind.js";
import { listAt, valueAt } from "./pointer.js";
import { isBelow } from "./quantity.js";
import { testWords } from "./test_words.js";

const CONTROL_LINE = "control_line";

const textOf = (job) => testWords(job.document, "road");

/** Which gauge reads where in this car: {charge, control}; a car moved by a motor has no control line. */
function gaugesOf(job) {
  const text = textOf(job);
  const kind = kindOf(job.document);
  const below = isBelow(drivenBy(kind));
  return {
    charge: { use: "road charge_circuit", label: text.chargeGauge },
    ...(isElectric(kind) ? {} : { control: { use: `road ${CONTROL_LINE}`, label: text.controlGauge, alone: below, below } }),
  };
}

/** The gauges of the road run, to choose. */
export const roadGauges = (job) => Object.values(gaugesOf(job));

/** Where in the charge circuit the run's gauge reads: where it has read already, else where it sat last. */
export function chargeAt(job, run) {
  const read = (run.readings ?? []).find(({ at = "charge_circuit" }) => at !== CONTROL_LINE);
  return read ? (read.at ?? "charge_circuit") : (job.app.workbook.settings.get("road at") ?? "charge_circuit");
}

/** The two numbers that can be read during a pull, and the tell-tale after it. */
const READ = {
  charge: { peak: false, gauge: "charge" },
  control: { peak: false, gauge: "control" },
  peak: { peak: true, gauge: "charge" },
};
const NOTED = {
  engine_rpm: "speed",
  boost_specified_kpa_abs: "pressureAbsolute",
  boost_actual_kpa_abs: "pressureAbsolute",
  boost_request_kpa_abs: "pressureAbsolute",
  pedal_pct: "percent",
  duty_pct: "percent",
};
const FURTHER = {
  vehicle_kmh: "kmh",
  air_mass_gps: "airMass",
  boost_correction_kpa: "pressure",
  correction_pct: "share",
  intake_air_c: "celsius",
  manifold_air_c: "celsius",
  throttle_pct: "percent",
  egr_pct: "percent",
};
const KINDS = { ...NOTED, ...FURTHER };

/** Numbers of the pulls of a run, in order. */
export function pullsOf(run) {
  const numbers = [...(run.readings ?? []), ...(run.noted ?? [])].map(({ pull }) => pull ?? 1);
  return [...new Set(numbers)].sort((one, other) => one - other);
}

/** The fields of a pull: two during it, the rest after it; `further` ones are there for who opens them. */
export function pullFields(job, run, pull) {
  const noted = (names) => Object.keys(names).map((name) => notedField(job, run, pull, name));
  const during = Object.keys(gaugesOf(job)).map((name) => gaugeField(job, run, pull, name));
  const after = [gaugeField(job, run, pull, "peak"), ...noted(NOTED)];
  return { during, after, further: noted(FURTHER).map((field) => ({ ...field, extra: true })) };
}

function gaugeField(job, run, pull, name) {
  const { peak, gauge: use } = READ[name];
  const isControl = use === "control";
  const isHere = (one) => (one.at === CONTROL_LINE) === isControl && Boolean(one.peak) === peak && (one.pull ?? 1) === pull;
  const there = (run.readings ?? []).find(isHere);
  const at = isControl ? CONTROL_LINE : chargeAt(job, run);
  const gauge = gaugeFor(job, gaugesOf(job)[use]);
  const kind = isControl ? drivenBy(kindOf(job.document)) : "pressure";
  const list = `/tests/road/${run.id}/readings`;
  const write = (kpa) => {
    if (there) return job.handle.set(`${list}/${there.id}/p_kpa`, kpa);
    const speed = peak ? undefined : notedRow(run, pull)?.engine_rpm;
    return job.handle.add(list, withoutGaps({ at, p_kpa: kpa, peak, pull, gauge: gauge?.id, engine_rpm: speed }));
  };
  return { key: `${pull} ${name}`, label: textOf(job).fields[name], kind, value: there?.p_kpa, gauge, write, optional: true };
}

function notedRow(run, pull) {
  return (run.noted ?? []).find((one) => (one.pull ?? 1) === pull);
}

function notedField(job, run, pull, name) {
  const row = notedRow(run, pull);
  const list = `/tests/road/${run.id}/noted`;
  const write = async (value) => {
    const fresh = notedRow(valueAt(job.document, `/tests/road/${run.id}`), pull);
    if (fresh) await job.handle.set(`${list}/${fresh.id}/${name}`, value);
    else await job.handle.add(list, { pull, [name]: value });
    if (name === "engine_rpm") await giveSpeed(job, run.id, pull, value);
  };
  return { key: `${pull} ${name}`, label: textOf(job).fields[name], kind: KINDS[name], value: row?.[name], write, optional: true };
}

/** The gauges of a pull were read at the speed that was noted for it. */
function giveSpeed(job, runId, pull, speed) {
  const list = `/tests/road/${runId}/readings`;
  const read = listAt(job.document, list).filter((one) => !one.peak && (one.pull ?? 1) === pull);
  return job.handle.setMany(read.map(({ id }) => [`${list}/${id}/engine_rpm`, speed]));
}

function withoutGaps(values) {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined));
}

/** Paths of everything in a pull. */
export function pathsOf(run, pull) {
  return ["readings", "noted"].flatMap((list) =>
    (run[list] ?? []).filter((one) => (one.pull ?? 1) === pull).map(({ id }) => `/tests/road/${run.id}/${list}/${id}`),
  );
}

/**
 * Gauge pressure at which a pull is broken off, in kPa, or null: what the job says, else the highest boost aimed at and
 * its tolerance, less the air pressure of the place; never rounded up.
 */
export function abortFigure({ spec = {}, site = {}, tests = {} }) {
  if (spec.abort_boost_kpa !== undefined) return spec.abort_boost_kpa;
  const highest = spec.boost_specified_peak_kpa_abs?.max;
  const barometric = site.barometric_kpa_abs ?? tests.sensors_at_rest?.barometric_kpa_abs;
  if (highest === undefined || barometric === undefined) return null;
  return Math.floor(highest + (spec.boost_tolerance_kpa ?? DEFAULT_TOLERANCE_KPA) - barometric);
}

/** Common practice, no source: the contract's default for a difference of boost. */
const DEFAULT_TOLERANCE_KPA = 10;
