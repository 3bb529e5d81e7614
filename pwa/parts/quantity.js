/** What a field measures: how it is printed, what is typed, what is stored. */
import { fromKpa, printNumber, printPressure, toKpa } from "./units.js";

const PLAIN = {
  millimetre: { unit: "mm", decimals: [0, 2] },
  celsius: { unit: "°C", decimals: [0, 1], sign: true },
  ohm: { unit: "Ω", decimals: [0, 2] },
  volt: { unit: "V", decimals: [0, 2] },
  ampere: { unit: "A", decimals: [0, 1] },
  kmh: { unit: "km/h", decimals: [0, 0] },
  percent: { unit: "%", decimals: [0, 1] },
  share: { unit: "%", decimals: [0, 1], sign: true },
  speed: { unit: "rpm", decimals: [0, 0] },
  airMass: { unit: "g/s", decimals: [1, 2] },
  litre: { unit: "l", decimals: [0, 2] },
  millilitre: { unit: "ml", decimals: [0, 0] },
  second: { unit: "s", decimals: [0, 1] },
  metre: { unit: "m", decimals: [0, 1], sign: true },
  number: { unit: "", decimals: [0, 3] },
};
const PRESSURES = { pressure: "", vacuum: "", pressureAbsolute: " abs", pressureRate: "/min" };

/** True for what is shown in the workshop's unit. */
export function isPressure(kind) {
  return kind in PRESSURES;
}

/** True where a value below nought can be meant. */
export function maySign(kind) {
  return kind === "pressure" || isBelow(kind) || Boolean(PLAIN[kind]?.sign);
}

/** True for a pressure below the air around it: a plain figure typed there counts minus. */
export function isBelow(kind) {
  return kind === "vacuum";
}

/** The unit as printed behind the figure. */
export function unitOf(kind, unit) {
  return isPressure(kind) ? unit + PRESSURES[kind] : PLAIN[kind].unit;
}

/** The figure without its unit. */
export function figureOf(kind, value, unit) {
  if (isPressure(kind)) return printPressure(value, unit);
  return printNumber(value, ...PLAIN[kind].decimals);
}

/** Figure and unit. */
export function textOf(kind, value, unit) {
  return `${figureOf(kind, value, unit)} ${unitOf(kind, unit)}`.trim();
}

/** From what was typed to what is stored. */
export function stored(kind, typed, unit) {
  return isPressure(kind) ? toKpa(typed, unit) : typed;
}

/** From what is stored to a number in the unit shown. */
export function shown(kind, value, unit) {
  return isPressure(kind) ? fromKpa(value, unit) : value;
}

/** A limit as its ends: some may also be written as one number, the most allowed. */
export function asLimit(limit) {
  return typeof limit === "number" ? { max: limit } : limit;
}

/** A limit in words: '0.60 to 0.80 bar', 'at most 5 kPa/min', 'at least 120 kPa'. */
export function limitText(kind, limit, unit, words) {
  if (!limit) return "";
  const [low, high] = [limit.min, limit.max].map((end) => (end == null ? null : figureOf(kind, end, unit)));
  const tail = unitOf(kind, unit);
  if (low !== null && high !== null) return `${words.fromTo(low, high)} ${tail}`;
  if (isBelow(kind)) return high !== null ? words.deeper(`${high} ${tail}`) : words.shallower(`${low} ${tail}`);
  if (high !== null) return `${words.atMost(high)} ${tail}`;
  return low !== null ? `${words.atLeast(low)} ${tail}` : "";
}
