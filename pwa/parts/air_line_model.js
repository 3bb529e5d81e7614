/** The air line as data: the stations in the way of the air, what was found at each, and where the line breaks. */
import { words } from "../words/words.js";
import { hasSolenoid, hasVacuum, hasWastegate, isElectric, kindOf } from "./kind.js";
import { shortOutcome } from "./fields.js";
import { isDone } from "./test_list.js";
import { pageOfCheck, testPageOf } from "./test_pages.js";

const FRICTION = "actuator_hysteresis";
const WORST_FIRST = ["outside", "undecided", "within", "no_limit", "kept", "not_examined"];

/**
 * `pages`: the tests that hang here, `checks` what they and the road say of this place, `steps` what was looked at.
 * `tube`: whose state the tube has here (a sensor hangs on a tube that others examine). `for`: which kind of car has it.
 * `name`: what it is called in a kind of car, where not by its id.
 */
const STATIONS = [
  { id: "filter", pages: ["look", "intake_depression"], checks: ["intake_depression"], steps: ["look_filter"], places: ["intake_depression"] },
  { id: "airMass", pages: ["sensors_at_rest"], tube: "filter", checks: ["rest_air_mass", "road_air_mass"], places: ["sensors_at_rest/air_mass_gps"] },
  {
    id: "compressor", pages: ["turbo_inspection", "bypass_valve"], places: ["turbo_inspection", "bypass_valve"],
    checks: ["turbo_radial_play", "turbo_axial_play", "turbo_wheels", "bypass_hold"],
  },
  {
    id: "cooler", pages: ["charge_decay", "smoke", "cooler_drop"], checks: ["smoke_leak", "charge_leak_hole", "cooler_drop"],
    steps: ["look_clamps", "look_cooler_oil"], places: ["smoke", "charge_decay", "cooler_drop"],
  },
  {
    id: "chargePressure", pages: ["sensors_at_rest"], tube: "cooler", checks: ["rest_charge_pressure", "rest_temperatures", "sensor_feed", "road_sensor"],
    places: ["sensors_at_rest/charge_pressure_kpa_abs"],
  },
  {
    id: "throttle", pages: ["sensors_at_rest", "throttle"], checks: ["rest_pedal", "road_pedal", "throttle_opens"],
    places: ["sensors_at_rest/pedal_floored_pct", "throttle"],
  },
  { id: "engine", pages: ["engine_health", "egr"], checks: ["engine_health", "egr_closes"], places: ["engine_health", "egr"] },
  {
    id: "turbine", name: (kind) => (hasWastegate(kind) ? "turbine" : "vanes"), pages: ["look", "exhaust_leak", "wastegate_inspection"], checks: ["exhaust_leak", "wastegate_seat"],
    steps: ["look_soot"], places: ["exhaust_leak", "wastegate_inspection"],
  },
  { id: "exhaust", pages: ["exhaust_back_pressure"], checks: ["exhaust_back_pressure"], places: ["exhaust_back_pressure"] },
  {
    id: "vacuum", for: hasVacuum, pages: ["vacuum_supply"], control: true, places: ["vacuum_supply"], checks: ["vacuum_supply"],
  },
  {
    id: "solenoid", for: hasSolenoid, pages: ["solenoid", "solenoid_sweep"], control: true, steps: ["look_control_hoses"], places: ["solenoid"],
    checks: ["solenoid_coil", "solenoid_supply", "solenoid_ground", "solenoid_response", "control_hoses", "road_control_pressure"],
  },
  {
    id: "actuator", for: hasSolenoid, name: (kind) => (hasVacuum(kind) ? "vacuumActuator" : "actuator"),
    pages: ["actuator", "actuator_sweep"], control: true, places: ["actuator"],
    checks: ["actuator_start", "actuator_full", "actuator_travel", "actuator_rate", "actuator_hysteresis", "actuator_hold", "actuator_moves", "actuator_returns"],
  },
  {
    id: "motor", for: isElectric, pages: ["electric_actuator"], control: true, places: ["electric_actuator"], checks: ["actuator_position"],
  },
];

const STATION_OF_LOCATION = {
  charge_circuit: "cooler", actuator: "actuator", wastegate_valve: "turbine", control_pressure: "solenoid", drive_circuit: "solenoid",
  input_signal: "chargePressure", turbocharger: "compressor", intake: "filter", exhaust: "exhaust", elsewhere: "engine",
};
const STATION_OF_FAULT = {
  air_mass_reads_low: "airMass", air_mass_reads_high: "airMass", pedal_signal_low: "throttle", throttle_not_opening: "throttle",
  exhaust_leak_before_turbine: "turbine", vanes_sticking: "turbine", vacuum_supply_low: "vacuum", actuator_motor_fault: "motor",
};

/** What lies before the first place of the control line, in the way of what drives it. */
const FEEDS = { solenoid: "compressor", actuator: "solenoid", motor: "compressor", vacuum: null };

/** What the road says; it is the symptom, so it hangs on no single place. */
export const ROAD_CHECKS = ["road_real_boost", "road_peak", "road_overboost", "road_tracking", "road_control_pressure", "road_authority"];

/** Stations in the way of the air, the control line's two at the end: [{id, label, page, outcome, tube, says, control}]. */
export function airLine(job) {
  const { verdict } = job.judged;
  const accused = stationOf(verdict?.conclusion);
  const kind = kindOf(job.document);
  const found = stationsOf(kind).map((station) => {
    const here = { ...station, kind };
    return { ...here, label: nameOf(station, kind), ...foundAt(job, here, accused) };
  });
  const outcomeOf = (id) => found.find((one) => one.id === id)?.outcome ?? "not_examined";
  return found.map((one) => ({ ...one, sensor: "tube" in one, tubeOutcome: "tube" in one ? outcomeOf(one.tube) : one.outcome }));
}

function stationsOf(kind) {
  return STATIONS.filter((one) => one.for?.(kind) ?? true);
}

function nameOf({ id, name }, kind) {
  return words.air.stations[name?.(kind) ?? id];
}

/** {before, broken}: the place at which a conclusion breaks the line of this car, by name, and the one before it. */
export function breakOf(document, conclusion) {
  const broken = stationOf(conclusion);
  if (!broken) return null;
  const kind = kindOf(document);
  const all = stationsOf(kind);
  const at = all.findIndex(({ id }) => id === broken);
  if (at < 0) return null;
  const before = hasVacuum(kind) && broken === "solenoid" ? "vacuum" : FEEDS[broken];
  const known = before === undefined ? all[at - 1] : all.find(({ id }) => id === before);
  return { before: known ? nameOf(known, kind) : "", broken: nameOf(all[at], kind) };
}

/** The station at which a conclusion breaks the line, or null. */
export function stationOf(conclusion) {
  if (!conclusion || conclusion.fault === "no_fault_found") return null;
  return STATION_OF_FAULT[conclusion.fault] ?? STATION_OF_LOCATION[conclusion.location] ?? null;
}

/** {outcome, says, page}: the worst that was found here, and the page that touching it opens. */
function foundAt(job, station, accused) {
  const findings = checksAt(station).map((check) => job.finding(check)).filter((one) => one && one.value !== null);
  const [worst] = [...findings.map(byFinding), ...bySteps(job, station)].sort(byWorst);
  const page = ["outside", "undecided"].includes(worst?.outcome) && worst.page ? worst.page : firstOpen(job, station);
  if (accused === station.id && worst?.outcome !== "outside") {
    return { outcome: "outside", says: words.verdict.standing[job.judged.verdict.conclusion.standing], page };
  }
  if (worst) return { ...worst, page };
  const kept = station.places.some((place) => job.value(`/tests/${place}`) !== undefined);
  const outcome = kept ? "kept" : "not_examined";
  return { outcome, says: words.air.outcome[outcome], page };
}

/** Friction of a rod that moves vanes is theirs: the actuator itself is judged by the rest. */
function checksAt({ id, checks, kind }) {
  if (hasWastegate(kind)) return checks;
  const rest = checks.filter((check) => check !== FRICTION);
  return id === "turbine" ? [...rest, FRICTION] : rest;
}

/** The usual test that is still open, else the first one's readings. */
function firstOpen(job, { pages }) {
  const here = pages.filter((page) => testPageOf(page).for?.(kindOf(job.document)) ?? true);
  return here.find((page) => testPageOf(page).usual && !isDone(job.document, page)) ?? here[0];
}

function byFinding(finding) {
  const unjudged = finding.outcome === "not_examined";
  return { outcome: unjudged ? "no_limit" : finding.outcome, says: shortOutcome(finding), page: pageOfCheck(finding.check) };
}

function bySteps(job, { steps = [] }) {
  const states = steps.map((step) => job.value(`/steps/${step}/state`));
  return states.filter((state) => state === "in_order" || state === "not_in_order").map((state) => ({
    outcome: state === "in_order" ? "within" : "outside",
    says: words.air.seen[state],
    page: "look",
  }));
}

function byWorst(one, other) {
  return WORST_FIRST.indexOf(one.outcome) - WORST_FIRST.indexOf(other.outcome);
}
