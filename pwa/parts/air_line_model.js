/** The air line as data: the stations in the way of the air, what was found at each, and where the line breaks. */
import { words } from "../words/en.js";
import { outcomeWords } from "./fields.js";

const WORST_FIRST = ["outside", "undecided", "within", "no_limit", "kept", "not_examined"];

/** `tube`: whose state the tube has here (a sensor hangs on a tube that others examine). */
const STATIONS = [
  { id: "filter", page: "look", checks: ["intake_depression"], steps: ["look_filter"], places: [] },
  { id: "airMass", page: "sensors_at_rest", tube: "filter", checks: ["rest_air_mass", "road_air_mass"], places: ["sensors_at_rest/air_mass_gps"] },
  { id: "compressor", page: "turbo_inspection", checks: ["turbo_radial_play", "turbo_axial_play", "turbo_wheels"], places: ["turbo_inspection"] },
  {
    id: "cooler", page: "charge_decay", checks: ["smoke_leak", "charge_leak_hole", "cooler_drop"],
    steps: ["look_clamps", "look_cooler_oil"], places: ["smoke", "charge_decay"],
  },
  {
    id: "chargePressure", page: "sensors_at_rest", tube: "cooler", checks: ["rest_charge_pressure", "rest_temperatures", "road_sensor"],
    places: ["sensors_at_rest/charge_pressure_kpa_abs"],
  },
  { id: "throttle", page: "sensors_at_rest", tube: null, checks: ["rest_pedal", "road_pedal"], places: ["sensors_at_rest/pedal_floored_pct"] },
  { id: "engine", page: null, checks: ["engine_health"], places: [] },
  { id: "turbine", page: "look", checks: ["exhaust_leak"], steps: ["look_soot"], places: ["exhaust_leak"] },
  { id: "exhaust", page: null, checks: ["exhaust_back_pressure"], places: [] },
  {
    id: "solenoid", page: "solenoid", control: true, checks: ["solenoid_coil", "solenoid_supply", "solenoid_ground", "solenoid_response", "control_hoses"],
    steps: ["look_control_hoses"], places: ["solenoid"],
  },
  {
    id: "actuator", page: "actuator", control: true, places: ["actuator"],
    checks: ["actuator_start", "actuator_full", "actuator_travel", "actuator_rate", "actuator_hysteresis", "actuator_hold", "actuator_moves", "actuator_returns"],
  },
];

const STATION_OF_LOCATION = {
  charge_circuit: "cooler", actuator: "actuator", wastegate_valve: "turbine", control_pressure: "solenoid", drive_circuit: "solenoid",
  input_signal: "chargePressure", turbocharger: "compressor", intake: "filter", exhaust: "exhaust", elsewhere: "engine",
};
const STATION_OF_FAULT = {
  air_mass_reads_low: "airMass", air_mass_reads_high: "airMass", pedal_signal_low: "throttle", throttle_not_opening: "throttle",
  exhaust_leak_before_turbine: "turbine",
};

/** What the road says; it is the symptom, so it hangs on no single place. */
export const ROAD_CHECKS = ["road_real_boost", "road_peak", "road_overboost", "road_tracking", "road_control_pressure", "road_authority"];

/** Stations in the way of the air, the control line's two at the end: [{id, label, page, outcome, tube, says, control}]. */
export function airLine(job) {
  const { verdict } = job.judged;
  const accused = stationOf(verdict?.conclusion);
  const found = STATIONS.map((station) => ({ ...station, label: words.air.stations[station.id], ...foundAt(job, station, accused) }));
  const outcomeOf = (id) => found.find((one) => one.id === id)?.outcome ?? "not_examined";
  return found.map((one) => ({ ...one, sensor: "tube" in one, tubeOutcome: "tube" in one ? outcomeOf(one.tube) : one.outcome }));
}

/** The station at which a conclusion breaks the line, or null. */
export function stationOf(conclusion) {
  if (!conclusion || conclusion.fault === "no_fault_found") return null;
  return STATION_OF_FAULT[conclusion.fault] ?? STATION_OF_LOCATION[conclusion.location] ?? null;
}

function foundAt(job, station, accused) {
  const findings = station.checks.map((check) => job.finding(check)).filter((one) => one && one.value !== null);
  const seen = [...findings.map(byFinding), ...bySteps(job, station)].sort(byWorst);
  const [worst] = seen;
  if (accused === station.id && worst?.outcome !== "outside") return { outcome: "outside", says: words.verdict.standing[job.judged.verdict.conclusion.standing] };
  if (worst) return worst;
  const kept = station.places.some((place) => job.value(`/tests/${place}`) !== undefined);
  return kept ? { outcome: "kept", says: words.air.outcome.kept } : { outcome: "not_examined", says: words.air.outcome.not_examined };
}

function byFinding(finding) {
  const unjudged = finding.outcome === "not_examined";
  return { outcome: unjudged ? "no_limit" : finding.outcome, says: outcomeWords(finding) };
}

function bySteps(job, { steps = [] }) {
  const states = steps.map((step) => job.value(`/steps/${step}/state`));
  return states.filter((state) => state === "in_order" || state === "not_in_order").map((state) => ({
    outcome: state === "in_order" ? "within" : "outside",
    says: words.air.seen[state],
  }));
}

function byWorst(one, other) {
  return WORST_FIRST.indexOf(one.outcome) - WORST_FIRST.indexOf(other.outcome);
}
