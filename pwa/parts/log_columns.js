/** What the columns of a log were taken for: each beside its first values, to be corrected with one touch. */
import { words } from "../words/words.js";
import { CHANNELS, channelFigure, channelUnit } from "./channels.js";
import { el } from "./el.js";
import { selectField } from "./inputs.js";
import { section } from "./page.js";
import { printNumber } from "./units.js";

const text = words.log;
const SURE = 0.9;
const LIKELY = 0.7;
const AS_READ = "";

/**
 * The list of guesses. `found` is what the calculation read, `wish(channel, wish)` asks for a column anew:
 * {column, unit, kind}, or null where the channel is not to be taken.
 */
export function columnList({ found, wishes, unit, wish }) {
  const guessed = Object.fromEntries(found.guesses.map((guess) => [guess.channel, guess]));
  const names = columnNames(found);
  const [there, absent] = [true, false].map((is) => Object.keys(CHANNELS).filter((channel) => channel in guessed === is));
  const rows = there.map((channel) => row({ channel, guess: guessed[channel], names, fixed: Boolean(wishes[channel]), unit, wish }));
  const choices = absent.map((channel) => columnChoice({ channel, label: text.channels[channel], names, wish }));
  return [
    section(text.columns, el("p", { class: "hint" }, text.check), rows),
    el("details", { key: "absent" }, el("summary", {}, text.absent), choices),
  ];
}

/** Every column that the log is known to have: those taken, then those left out. */
function columnNames({ guesses, left_out: leftOut }) {
  const named = [...guesses, ...leftOut.filter(({ what }) => what === "column")].map(({ column }) => column);
  return [...new Set(named)];
}

function row({ channel, guess, names, fixed, unit, wish }) {
  const { column, certainty, first } = guess;
  const unsure = !fixed && certainty < LIKELY;
  return el(
    "details",
    { class: unsure ? "column unsure" : "column", key: `column ${channel}` },
    el(
      "summary",
      {},
      el("span", { class: "name" }, text.channels[channel]),
      el("span", { class: "aside" }, fixed ? text.fixed : certaintyText(certainty)),
      el("span", { class: "change" }, text.correct),
      el("span", { class: "from" }, [column, unitText(guess)].filter(Boolean).join(" \u00b7 ")),
      el("span", { class: "first" }, el("span", { class: "unseen" }, `${text.firstValues}: `), firstText(channel, first, unit)),
    ),
    corrections({ channel, guess, names, wish }),
  );
}

function certaintyText(certainty) {
  const word = certainty >= SURE ? "sure" : certainty >= LIKELY ? "likely" : "unsure";
  return `${text.certainty[word]} \u00b7 ${text.percent(printNumber(certainty * 100, 0, 0))}`;
}

/** The contract's names of units are shown as people write them. */
function shownUnit(name) {
  return { degC: "\u00b0C", degF: "\u00b0F" }[name] ?? name;
}

function unitText({ unit, kind }) {
  const kindText = text.kinds.find(([name]) => name === kind)?.[1];
  return [unit && shownUnit(unit), kindText].filter(Boolean).join(" ");
}

function firstText(channel, first, unit) {
  const isFigure = first.some((value) => typeof value === "number");
  const shown = first.map((value) => (typeof value === "number" ? channelFigure(channel, value, unit) : (value ?? words.none)));
  return [...shown, isFigure && channelUnit(channel, unit)].filter(Boolean).join("   ");
}

function corrections({ channel, guess, names, wish }) {
  const { units, absolute } = CHANNELS[channel];
  const { column, unit, kind } = guess;
  const keep = (change) => wish(channel, plain({ column, unit, kind, ...change }));
  const unitNames = [...new Set([unit, ...units].filter(Boolean))].map((name) => [name, shownUnit(name)]);
  const unitField = { label: text.unit, key: `unit ${channel}`, options: [...(unit ? [] : [[AS_READ, text.unitAsRead]]), ...unitNames], value: unit ?? AS_READ, change: (name) => keep({ unit: name || null }) };
  return el(
    "div",
    { class: "corrections" },
    columnChoice({ channel, label: text.column, names, chosen: column, wish }),
    selectField(unitField),
    absolute && selectField({ label: text.kind, key: `kind ${channel}`, options: text.kinds, value: kind, change: (name) => keep({ kind: name }) }),
  );
}

/** A new column brings its own unit: what was said of the old one does not hold for it. */
function columnChoice({ channel, label, names, chosen = "", wish }) {
  const none = channel === "t_s" && chosen ? [] : [["", text.nowhere]];
  const options = [...none, ...names.map((name) => [name, name])];
  const change = (column) => wish(channel, column ? { column } : null);
  return selectField({ label, key: `from ${channel}`, options, value: chosen, change });
}

function plain(wish) {
  return Object.fromEntries(Object.entries(wish).filter(([, value]) => value !== null && value !== undefined));
}

/** The columns as they are written into the job: all that were guessed or corrected; the times only where corrected. */
export function acceptedColumns({ guesses }, wishes) {
  const kept = guesses.filter(({ channel }) => channel !== "t_s" || wishes.t_s);
  return Object.fromEntries(kept.map(({ channel, column, unit, kind }) => [channel, plain({ column, unit, kind })]));
}

/** What was not used, and why: rows, cells, then columns. */
export function leftOutList({ left_out: leftOut }) {
  if (!leftOut.length) return section(text.leftOut, el("p", {}, text.nothingLeftOut));
  return section(text.leftOut, el("ul", { class: "items" }, leftOut.map(leftOutRow)));
}

function leftOutRow({ what, count, why, column, first }) {
  const where = [text.whats[what](count), column].filter(Boolean).join(" \u00b7 ");
  const example = first && what === "cell" ? ` (${first})` : "";
  return el("li", { key: `${what} ${why} ${column}` }, el("span", {}, where), el("span", { class: "aside" }, (text.why[why] ?? why) + example));
}
