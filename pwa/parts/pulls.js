/** The pulls of a road run: what was read on gauges and what was noted, gathered by the number of the pull. */
import { words } from "../words/words.js";
import { gaugeFor } from "./gauges.js";
import { listAt, valueAt } from "./pointer.js";

const text = words.tests.road;

/** Which gauge reads where in the car. */
export const ROAD_GAUGES = {
  charge: { use: "road charge_circuit", label: text.chargeGauge },
  control: { use: "road control_line", label: text.controlGauge, alone: false },
};

/** The two numbers that can be read during a pull, and the tell-tale after it. */
const READ = {
  charge: { at: "charge_circuit", peak: false, gauge: "charge" },
  control: { at: "control_line", peak: false, gauge: "control" },
  peak: { at: "charge_circuit", peak: true, gauge: "charge" },
};
const NOTED = {
  engine_rpm: "speed",
  boost_specified_kpa_abs: "pressureAbsolute",
  boost_actual_kpa_abs: "pressureAbsolute",
  boost_request_kpa_abs: "pressureAbsolute",
  pedal_pct: "percent",
  duty_pct: "percent",
};

/** Numbers of the pulls of a run, in order. */
export function pullsOf(run) {
  const numbers = [...(run.readings ?? []), ...(run.noted ?? [])].map(({ pull }) => pull ?? 1);
  return [...new Set(numbers)].sort((one, other) => one - other);
}

/** The fields of a pull: two during it, the rest after it. */
export function pullFields(job, run, pull) {
  const during = ["charge", "control"].map((name) => gaugeField(job, run, pull, name));
  const after = [gaugeField(job, run, pull, "peak"), ...Object.keys(NOTED).map((name) => notedField(job, run, pull, name))];
  return { during, after };
}

function gaugeField(job, run, pull, name) {
  const { at, peak, gauge: use } = READ[name];
  const there = (run.readings ?? []).find((one) => one.at === at && Boolean(one.peak) === peak && (one.pull ?? 1) === pull);
  const gauge = gaugeFor(job, ROAD_GAUGES[use]);
  const list = `/tests/road/${run.id}/readings`;
  const write = (kpa) => {
    if (there) return job.handle.set(`${list}/${there.id}/p_kpa`, kpa);
    const speed = peak ? undefined : notedRow(run, pull)?.engine_rpm;
    return job.handle.add(list, withoutGaps({ at, p_kpa: kpa, peak, pull, gauge: gauge?.id, engine_rpm: speed }));
  };
  return { key: `${pull} ${name}`, label: text.fields[name], kind: "pressure", value: there?.p_kpa, gauge, write, optional: true };
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
  return { key: `${pull} ${name}`, label: text.fields[name], kind: NOTED[name], value: row?.[name], write, optional: true };
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
