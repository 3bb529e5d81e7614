/**
 * The estimate: lines, tax and totals in whole coins. `api/estimate.py` reckons the same in the workshop.
 *
 * Where it is rounded, and nowhere else: a line's net amount to the smallest coin; the tax on the sum of each rate
 * (`total`), or on each line (`line`). Always half away from nought.
 */

/** ISO 4217: currencies whose smallest coin is not a hundredth; all others have two decimals. */
const DECIMALS = { JPY: 0, ISK: 0, KRW: 0, CLP: 0, HUF: 0, KWD: 3, BHD: 3, TND: 3 };
const PLACES = 6; // the most that an amount may have behind the point
const ONE = 10n ** BigInt(PLACES);
const DAY = "2026-11-25".length;
const AMOUNT = /^(-?)(\d{1,9})(?:\.(\d{1,6}))?$/;
const SIGNED_FIELDS = ["option", "kind", "name", "unit", "quantity", "price", "discount_pct", "tax_pct"];

export const OPTIONS = ["mend", "mend_and_renew"];

/** An amount's text as millionths, or null where it is none. */
export function exact(text) {
  const found = AMOUNT.exec(text);
  if (!found) return null;
  const [, sign, whole, behind = ""] = found;
  const size = BigInt(whole) * ONE + BigInt(behind.padEnd(PLACES, "0"));
  return sign ? -size : size;
}

/** What was typed as an amount's text, or null: a decimal comma is read too. */
export function typedAmount(typed, decimalSign) {
  const plain = typed.trim().replace(/\s/g, "").replace(decimalSign === "," ? /\.(?=\d{3}\b)/g : /,(?=\d{3}\b)/g, "").replace(",", ".");
  return exact(plain) === null ? null : plain;
}

/** A whole quotient, half away from nought. */
export function divided(number, by) {
  const size = number < 0n ? -number : number;
  const quotient = (2n * size + by) / (2n * by);
  return number < 0n ? -quotient : quotient;
}

function decimalsOf(currency) {
  return DECIMALS[currency] ?? 2;
}

/**
 * The options that an estimate offers: `mend` alone, or both where a line belongs to the second.
 * [{name, lines, net, taxes: [{rate, net, tax}], tax, total, covers, authorisation}], money in whole coins as BigInt.
 */
export function optionsOf(estimate) {
  const currency = estimate?.currency ?? "";
  const lines = (estimate?.lines ?? []).filter((line) => line && line.price !== undefined).map((line) => reckoned(line, currency));
  if (!lines.length) return [];
  const names = lines.some(({ option }) => option === OPTIONS[1]) ? OPTIONS : OPTIONS.slice(0, 1);
  return names.map((name) => option(name, lines, estimate, currency));
}

function reckoned(line, currency) {
  const [quantity, price, discount, rate] = [line.quantity ?? "1", line.price, line.discount_pct ?? "0", line.tax_pct ?? "0"].map(exact);
  const whole = quantity * price * (100n * ONE - discount);
  const net = divided(whole * 10n ** BigInt(decimalsOf(currency)), 100n * ONE ** 3n);
  const signed = SIGNED_FIELDS.map((name) => line[name] ?? "").join("\t");
  return { ...line, option: line.option ?? OPTIONS[0], rate, rateText: line.tax_pct ?? "0", net, signed };
}

function option(name, all, estimate, currency) {
  const lines = all.filter((line) => line.option === OPTIONS[0] || line.option === name);
  const rates = [...new Set(lines.map(({ rate }) => rate))].sort((one, other) => (one < other ? -1 : 1));
  const taxes = rates.map((rate) => taxOf(rate, lines, estimate.rounding === "line"));
  const net = sum(lines.map((line) => line.net));
  const tax = sum(taxes.map((one) => one.tax));
  const total = net + tax;
  const covers = [`${currency}\t${amountText(total, currency)}`, ...lines.map(({ signed }) => signed)];
  return { name, lines, net, taxes, tax, total, covers, authorisation: authorisation(estimate, name, covers) };
}

function taxOf(rate, all, byLine) {
  const lines = all.filter((line) => line.rate === rate);
  const nets = lines.map(({ net }) => net);
  const taxed = byLine ? nets : [sum(nets)];
  return { rate: lines[0].rateText, net: sum(nets), tax: sum(taxed.map((net) => divided(net * rate, 100n * ONE))) };
}

function sum(amounts) {
  return amounts.reduce((whole, one) => whole + one, 0n);
}

/** The last yes to exactly this, given while the price held; any other counts for nothing. */
function authorisation(estimate, name, covers) {
  const same = (one) => one?.option === name && one.covers?.length === covers.length && covers.every((line, at) => line === one.covers[at]);
  return (estimate.authorisations ?? []).findLast((one) => same(one) && isInTime(one, estimate.valid_until)) ?? null;
}

/** Whether a yes was given by the last day of a price; days as the clock showed them where it was signed. */
function isInTime({ at }, until) {
  const day = (at ?? "").slice(0, DAY);
  return !until || (day !== "" && day <= until);
}

/** Whether a price held until a day that is over on this phone. `now`: the time as its clock shows it, RFC 3339. */
export function isOver(until, now) {
  return Boolean(until) && now.slice(0, DAY) > until;
}

/** Whole coins as an amount's text: 12.50. */
export function amountText(coins, currency) {
  const places = decimalsOf(currency);
  const digits = String(coins < 0n ? -coins : coins).padStart(places + 1, "0");
  const text = places ? `${digits.slice(0, -places)}.${digits.slice(-places)}` : digits;
  return coins < 0n ? `-${text}` : text;
}

/** Whole coins as they are read: 1,234.50 EUR. */
export function printMoney(coins, currency, decimalSign) {
  const [whole, behind] = amountText(coins < 0n ? -coins : coins, currency).split(".");
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, decimalSign === "," ? "." : ",");
  const text = behind ? `${grouped}${decimalSign}${behind}` : grouped;
  return `${coins < 0n ? "\u2212" : ""}${text}${currency ? `\u00a0${currency}` : ""}`;
}
