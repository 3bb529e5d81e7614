/**
 * Every test page as data, in the order of work: which tests of the calculation it serves, which checks speak there,
 * what must be read before it is done, and, for the plain ones, what is read. What a kind of car says otherwise stands
 * in words/, under `kinds`; its drawing takes the kind.
 *
 * `or`: what stands in for a need, as the whole sweep does for its two ends.
 * `usual`: part of every job; the others are done when something points to them. `for`: whether a kind of car has it.
 * `fields`: [name, kind, {limit?, check?, optional?, extra?}] at /tests/<at>/<name>; `choices`: names of yes-or-no readings, with a slash those of another test.
 */
import { hasBaseBoost, hasSolenoid, hasVacuum, hasWastegate, isElectric, kindOf } from "./kind.js";

const AT_LOAD = [["engine_rpm", "speed"]];

export const TEST_PAGES = [
  {
    id: "sensors_at_rest", tests: ["sensors_at_rest"], usual: true, drawing: "reader",
    checks: ["rest_charge_pressure", "rest_temperatures", "rest_pedal", "rest_air_mass", "sensor_feed"],
    needs: ["sensors_at_rest/charge_pressure_kpa_abs"],
    fields: [
      ["charge_pressure_kpa_abs", "pressureAbsolute", { check: "rest_charge_pressure" }],
      ["barometric_kpa_abs", "pressureAbsolute"],
      ["intake_air_c", "celsius", { check: "rest_temperatures" }],
      ["coolant_c", "celsius"],
      ["pedal_released_pct", "percent"],
      ["pedal_floored_pct", "percent", { check: "rest_pedal" }],
      ["air_mass_gps", "airMass", { check: "rest_air_mass" }],
      ["reference_v", "volt", { check: "sensor_feed", optional: true, extra: true }],
      ["signal_v", "volt", { optional: true, extra: true }],
      ["ground_offset_v", "volt", { optional: true, extra: true }],
    ],
  },
  { id: "look", tests: [], usual: true, drawing: "torch", checks: ["exhaust_leak", "control_hoses"], needs: [] },
  {
    id: "turbo_inspection", tests: ["turbo_inspection"], usual: true, drawing: "inlet",
    checks: ["turbo_radial_play", "turbo_axial_play", "turbo_wheels"],
    needs: ["turbo_inspection/wheel_damage"],
    fields: [
      ["radial_play_mm", "millimetre", { limit: "shaft_radial_play_mm", check: "turbo_radial_play" }],
      ["axial_play_mm", "millimetre", { limit: "shaft_axial_play_mm", check: "turbo_axial_play" }],
    ],
    choices: ["wheel_damage", "spins_free", "oil_in_outlet"],
  },
  { id: "smoke", tests: ["smoke"], usual: true, drawing: "smokeCircuit", checks: ["smoke_leak"], needs: ["smoke/leak_seen"] },
  {
    id: "charge_decay", tests: ["charge_decay"], usual: true, drawing: "chargeCircuit", checks: ["charge_leak_hole"],
    needs: ["charge_decay/readings"],
  },
  {
    id: "vacuum_supply", tests: ["vacuum_supply"], usual: true, for: hasVacuum, drawing: "vacuumSupply",
    checks: ["vacuum_supply"], needs: ["vacuum_supply/p_kpa"],
  },
  {
    id: "actuator", tests: ["actuator"], usual: true, for: hasSolenoid, drawing: "actuatorBench",
    checks: ["actuator_start", "actuator_full", "actuator_hold", "actuator_moves", "actuator_returns"],
    needs: ["actuator/first_movement_kpa", "actuator/full_travel_kpa", "actuator/hold/p_end_kpa"],
    or: { "actuator/first_movement_kpa": "actuator/sweep", "actuator/full_travel_kpa": "actuator/sweep" },
  },
  {
    id: "actuator_sweep", tests: [], for: hasSolenoid, drawing: "actuatorTravel", needs: ["actuator/sweep"],
    checks: ["actuator_start", "actuator_full", "actuator_travel", "actuator_rate", "actuator_hysteresis", "actuator_moves", "actuator_returns"],
  },
  {
    id: "electric_actuator", tests: ["electric_actuator"], usual: true, for: isElectric, drawing: "motor",
    checks: ["actuator_position", "actuator_moves"],
    needs: ["electric_actuator/commanded_pct", "electric_actuator/reported_pct", "electric_actuator/rod_seen_moving"],
    fields: [
      ["commanded_pct", "percent"],
      ["reported_pct", "percent", { check: "actuator_position" }],
      ["supply_v", "volt", { optional: true }],
      ["current_a", "ampere", { optional: true, extra: true }],
    ],
    choices: ["end_stops_learned", "rod_seen_moving", "actuator/linkage_free"],
  },
  {
    id: "solenoid", tests: ["solenoid_electrical"], usual: true, for: hasSolenoid, drawing: "coil",
    checks: ["solenoid_coil", "solenoid_supply", "solenoid_ground", "control_hoses"], needs: ["solenoid/coil_ohm"],
  },
  {
    id: "solenoid_sweep", tests: ["solenoid_sweep"], for: hasSolenoid, drawing: "solenoidBench", needs: ["solenoid/sweep"],
    checks: ["solenoid_response", "control_hoses"],
  },
  {
    id: "road", tests: ["road_run", "road_gauges"], usual: true, drawing: "cabin", needs: ["road"],
    checks: [
      "road_real_boost", "road_peak", "road_overboost", "road_tracking", "road_control_pressure", "road_authority", "road_sensor", "road_pedal",
      "road_request", "road_specified", "road_correction", "road_air_mass", "road_hunting", "road_reduced_power",
    ],
  },
  { id: "base_boost_run", tests: ["base_boost_run"], for: hasBaseBoost, drawing: "fedDirect", checks: ["base_boost"], needs: [] },
  {
    id: "throttle", tests: ["throttle"], drawing: "throttle", checks: ["throttle_opens"], needs: ["throttle/opens_fully"],
    choices: ["opens_fully"],
  },
  {
    id: "bypass_valve", tests: ["bypass_valve"], drawing: "bypass", gauge: true, checks: ["bypass_hold"],
    needs: ["bypass_valve/hold_kpa"],
    fields: [["hold_kpa", "pressure", { limit: "bypass_hold_kpa", check: "bypass_hold" }]],
    choices: ["seats"],
  },
  {
    id: "exhaust_leak", tests: ["exhaust_leak"], drawing: "joint", checks: ["exhaust_leak"], needs: ["exhaust_leak/soot_or_hiss"],
    choices: ["soot_or_hiss"],
  },
  {
    id: "intake_depression", tests: ["intake_depression"], drawing: "intake", gauge: true, checks: ["intake_depression"],
    needs: ["intake_depression/p_kpa"], load: true,
    fields: [["p_kpa", "vacuum", { limit: "intake_depression_kpa", check: "intake_depression" }], ...AT_LOAD],
  },
  {
    id: "cooler_drop", tests: ["cooler_drop"], drawing: "acrossCooler", gauge: true, checks: ["cooler_drop"],
    needs: ["cooler_drop/before_kpa", "cooler_drop/after_kpa"], load: true,
    fields: [
      ["before_kpa", "pressure"],
      ["after_kpa", "pressure", { limit: "cooler_drop_kpa", check: "cooler_drop" }],
      ...AT_LOAD,
      ["inlet_c", "celsius", { optional: true, extra: true }],
      ["before_c", "celsius", { optional: true, extra: true }],
      ["after_c", "celsius", { optional: true, extra: true }],
    ],
  },
  {
    id: "egr", tests: ["egr"], drawing: "recirculation", checks: ["egr_closes"], needs: ["egr/closes"],
    choices: ["closes"],
  },
  {
    id: "exhaust_back_pressure", tests: ["exhaust_back_pressure"], drawing: "backPressure", gauge: true,
    checks: ["exhaust_back_pressure"], needs: ["exhaust_back_pressure/p_kpa"], load: true,
    fields: [["p_kpa", "pressure", { limit: "exhaust_back_pressure_kpa", check: "exhaust_back_pressure" }], ...AT_LOAD],
  },
  {
    id: "engine_health", tests: ["engine_health"], drawing: "engine", checks: ["engine_health"],
    needs: ["engine_health/fuel_pressure_in_order", "engine_health/misfire", "engine_health/compression_even"],
    choices: ["fuel_pressure_in_order", "misfire", "compression_even"],
  },
  {
    id: "wastegate_inspection", tests: ["wastegate_inspection"], for: hasWastegate, drawing: "gate", checks: ["wastegate_seat"],
    needs: ["wastegate_inspection/seats"], choices: ["seats", "damage"],
  },
];

const BY_ID = new Map(TEST_PAGES.map((one) => [one.id, one]));

/** The description of a page, or undefined. */
export function testPageOf(id) {
  return BY_ID.get(id);
}

/** The pages that this car has, in the order of work. */
export function pagesFor(document) {
  const kind = kindOf(document);
  return TEST_PAGES.filter((one) => one.for?.(kind) ?? true);
}

/** The page where a test of the calculation is done, or null where this version has none. */
export function pageOf(test) {
  return TEST_PAGES.find(({ tests }) => tests.includes(test))?.id ?? null;
}

/** The first page where a check is read, or null. */
export function pageOfCheck(check) {
  return TEST_PAGES.find(({ checks }) => checks.includes(check))?.id ?? null;
}
