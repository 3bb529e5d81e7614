/** Fields for the calm moments (job card, settings): the phone's own keyboard, kept when the field is left. */
import { el } from "./el.js";
import { typedAmount } from "./money.js";
import { figureOf, isBelow, isPressure, stored, unitOf } from "./quantity.js";
import { readNumber } from "./units.js";

/** A line of text. */
export function textField({ label, value, change, each, hint, kind = "text", complete = "off", key = label }) {
  const id = idOf(key);
  const typed = (event) => event.target.value.trim() || null;
  const input = el("input", {
    id,
    type: kind,
    key,
    value: value ?? "",
    autocomplete: complete,
    "aria-describedby": hint && `${id}-hint`,
    on: { change: (event) => change(typed(event)), ...(each ? { input: (event) => each(typed(event)) } : {}) },
  });
  return labelled(id, label, input, hint);
}

/** A number with its unit; what is no number is said so and not kept. */
export function numberField({ label, kind, unit, value, change, hint, key = label }) {
  const id = idOf(key);
  const tail = unitOf(kind, unit);
  const input = el("input", {
    id,
    type: "text",
    inputmode: isPressure(kind) || kind === "celsius" ? "text" : "decimal",
    key,
    value: value === undefined || value === null ? "" : figureOf(kind, value, unit),
    autocomplete: "off",
    "aria-describedby": hint && `${id}-hint`,
    on: { change: (event) => takeNumber(event.target, (typed) => change(typed === null ? null : stored(kind, typed, unit))) },
  });
  return labelled(id, label, el("span", { class: "with-unit" }, input, tail && el("span", { class: "unit" }, tail)), hint);
}

function takeNumber(input, keep) {
  const text = input.value.trim();
  const typed = text === "" ? null : readNumber(text);
  const broken = text !== "" && typed === null;
  input.toggleAttribute("aria-invalid", broken);
  if (!broken) keep(typed);
}

/** An exact amount: the text that was typed is what is kept; what is no amount is said so and not kept. */
export function amountField({ label, value, change, hint, key = label, decimalSign }) {
  const id = idOf(key);
  const take = ({ target }) => {
    const typed = target.value.trim();
    const amount = typed === "" ? null : typedAmount(typed, decimalSign);
    const broken = typed !== "" && amount === null;
    target.toggleAttribute("aria-invalid", broken);
    if (!broken) change(amount);
  };
  const shown = value === undefined || value === null ? "" : value.replace(".", decimalSign);
  const input = el("input", { id, type: "text", inputmode: "decimal", key, value: shown, autocomplete: "off", "aria-describedby": hint && `${id}-hint`, on: { change: take } });
  return labelled(id, label, input, hint);
}

/**
 * Two numbers, either of which may be missing: a limit is set whole, so one end is joined to what the other is by
 * then: `change(next)` with next(limit).
 */
export function limitField({ label, kind, unit, limit, change, words }) {
  const end = (name, value) => ({
    label: words[name],
    key: `${label} ${name}`,
    kind,
    unit,
    value,
    change: (typed) => change((now) => wholeLimit(inOrder(kind, { ...now, [name]: belowNought(kind, typed) }))),
  });
  return el(
    "fieldset",
    { class: "pair", key: `limit ${label}` },
    el("legend", {}, label),
    numberField(end("min", limit?.min)),
    numberField(end("max", limit?.max)),
  );
}

/** How deep a vacuum must be at least: one figure, which is the upper end of its limit. */
export function depthField({ label, unit, limit, change, hint }) {
  const kind = "vacuum";
  return numberField({ label, hint, key: `limit ${label}`, kind, unit, value: limit?.max, change: (typed) => change(wholeLimit({ max: belowNought(kind, typed) })) });
}

/** A vacuum counts minus, however it is typed. */
function belowNought(kind, typed) {
  return isBelow(kind) && typed > 0 ? -typed : typed;
}

/** 'Starts at 0.2, at the latest at 0.3 of vacuum' is from -0.3 to -0.2. */
function inOrder(kind, { min, max }) {
  const turned = isBelow(kind) && typeof min === "number" && typeof max === "number" && min > max;
  return turned ? { min: max, max: min } : { min, max };
}

function wholeLimit(ends) {
  const kept = Object.entries(ends).filter(([, value]) => value !== null && value !== undefined);
  return kept.length ? Object.fromEntries(kept) : null;
}

/** A choice from a short list. */
export function selectField({ label, options, value, change, hint, key = label }) {
  const id = idOf(key);
  const items = options.map(([one, word]) => el("option", { value: one, selected: one === value }, word));
  const select = el("select", { id, key, on: { change: (event) => change(event.target.value) } }, items);
  select.value = value ?? "";
  return labelled(id, label, select, hint);
}

function labelled(id, label, control, hint) {
  return el(
    "div",
    { class: "field", key: `field ${id}` },
    el("label", { for: id }, label),
    control,
    hint && el("p", { class: "hint", id: `${id}-hint` }, hint),
  );
}

function idOf(key) {
  return `f-${key.toLowerCase().replace(/[^a-z0-9]+/g, "-")}`;
}
