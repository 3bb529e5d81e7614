/**
 * Units of pressure. Documents hold kPa; screens show the workshop's unit.
 * Factors: NIST SP 811 (2008), appendix B.8, "Pressure or stress"; bar and millibar are exact, the pound-force per
 * square inch follows from its exact definition, the inch of mercury is the conventional one.
 */
import { words } from "../words/words.js";

const POUND_KG = 0.45359237;
const GRAVITY = 9.80665;
const INCH_M = 0.0254;

const KPA_PER = {
  kPa: 1,
  bar: 100,
  mbar: 0.1,
  psi: (POUND_KG * GRAVITY) / (INCH_M * INCH_M) / 1000,
  inHg: 3.386389,
};
const DECIMALS = { kPa: 0, bar: 2, mbar: 0, psi: 1, inHg: 1 };
const STORED_STEPS_PER_KPA = 100;

/** The units a workshop may choose, in the order shown. */
export const PRESSURE_UNITS = ["bar", "kPa", "psi", "mbar", "inHg"];

/** kPa to the workshop's unit. */
export function fromKpa(kpa, unit) {
  return kpa / KPA_PER[unit];
}

/** The workshop's unit to kPa, on the grid of 0.01 kPa that documents use: 0.96 bar is 96. */
export function toKpa(value, unit) {
  return Math.round(value * KPA_PER[unit] * STORED_STEPS_PER_KPA) / STORED_STEPS_PER_KPA;
}

/** A pressure as printed, without its unit: at least the usual decimals, one more where it was read finer. */
export function printPressure(kpa, unit) {
  const usual = DECIMALS[unit];
  return printNumber(fromKpa(kpa, unit), usual, usual + 1);
}

/** A pressure with its unit. */
export function pressureText(kpa, unit) {
  return `${printPressure(kpa, unit)} ${unit}`;
}

const printers = new Map();

/** Making one takes a phone a millisecond; a page prints dozens of numbers. */
function printerOf(least, most) {
  const name = `${least} ${most}`;
  if (!printers.has(name)) {
    printers.set(name, new Intl.NumberFormat(words.language, { minimumFractionDigits: least, maximumFractionDigits: most, useGrouping: false }));
  }
  return printers.get(name);
}

/** A number with `least` to `most` decimals and a true minus sign. */
export function printNumber(value, least = 0, most = 3) {
  const text = printerOf(least, most).format(value);
  return text.replace("-", "\u2212").replace(/^\u2212(0(?:[.,]0*)?)$/, "$1");
}

/** What was typed as a number, or null: decimal comma and true minus are understood. */
export function readNumber(text) {
  const plain = String(text).trim().replace(",", ".").replace("\u2212", "-");
  if (!/^-?(\d+\.?\d*|\.\d+)$/.test(plain)) return null;
  return Number(plain);
}
