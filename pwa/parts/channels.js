/** The channels of a log: in which order they stand, what they measure, which units an instrument writes them in. */
import { figureOf, unitOf } from "./quantity.js";
import { printNumber } from "./units.js";

const ROAD_SPEED = "roadSpeed";
const PRESSURE = ["kPa", "hPa", "mbar", "bar", "psi", "inHg"];
const SHARE = ["%", "1"];
const TEMPERATURE = ["degC", "degF", "K"];

/** kind: as in quantity.js; `units`: names that the calculation knows; `absolute`: told from gauge. */
export const CHANNELS = {
  t_s: { kind: "second", units: ["s", "ms", "clock"] },
  boost_request_kpa_abs: { kind: "pressureAbsolute", units: PRESSURE, absolute: true },
  boost_specified_kpa_abs: { kind: "pressureAbsolute", units: PRESSURE, absolute: true },
  boost_actual_kpa_abs: { kind: "pressureAbsolute", units: PRESSURE, absolute: true },
  duty_pct: { kind: "percent", units: SHARE },
  engine_rpm: { kind: "speed", units: ["rpm", "1/s"] },
  pedal_pct: { kind: "percent", units: SHARE },
  boost_correction_kpa: { kind: "pressure", units: PRESSURE },
  correction_pct: { kind: "percent", units: SHARE },
  air_mass_gps: { kind: "airMass", units: ["g/s", "kg/h", "mg/stroke"] },
  vehicle_kmh: { kind: ROAD_SPEED, units: ["km/h", "mph", "m/s"] },
  intake_air_c: { kind: "celsius", units: TEMPERATURE },
  manifold_air_c: { kind: "celsius", units: TEMPERATURE },
  throttle_pct: { kind: "percent", units: SHARE },
  egr_pct: { kind: "percent", units: SHARE },
};

/** A channel's value with its unit. */
export function channelText(channel, value, unit) {
  return `${channelFigure(channel, value, unit)} ${channelUnit(channel, unit)}`;
}

/** A channel's value without its unit. */
export function channelFigure(channel, value, unit) {
  const { kind } = CHANNELS[channel];
  return kind === ROAD_SPEED ? printNumber(value, 0, 1) : figureOf(kind, value, unit);
}

/** The unit that a channel is shown in. */
export function channelUnit(channel, unit) {
  const { kind } = CHANNELS[channel];
  return kind === ROAD_SPEED ? "km/h" : unitOf(kind, unit);
}
