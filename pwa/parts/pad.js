/** The reading pad: large keys for one thumb, at the bottom of the screen. Values in, events out. */
import { words } from "../words/words.js";
import { el } from "./el.js";

const DIGITS = ["1", "2", "3", "4", "5", "6", "7", "8", "9"];

/**
 * @param {{label: string, text: string, unit: string, hint: string, last: string, step: string|null, sign: boolean,
 *          live: Node|null, face: Node|null, photo: Node|null, type: Function, back: Function, minus: Function, nudge: Function, keep: Function,
 *          skip: Function, close: Function}} shown
 */
export function pad(shown) {
  const send = (event) => {
    event.preventDefault();
    shown.keep();
  };
  return el(
    "form",
    { class: "pad", key: "pad", "aria-label": words.pad.name(shown.label), on: { submit: send, mousedown: stayInLine, keydown: (e) => arrows(e, shown) } },
    heading(shown),
    el("div", { class: shown.face ? "pad-body with-face" : "pad-body" }, shown.face, el("div", { class: "keys" }, keys(shown))),
    lastRow(shown),
  );
}

/** A touch of a key leaves the focus in the line, where a keyboard writes too. */
function stayInLine(event) {
  if (event.target.closest("button")) event.preventDefault();
}

function heading({ label, text, unit, hint, last, live, typed }) {
  const line = el("input", {
    id: "pad-line",
    key: "pad-line",
    inputmode: "none",
    autocomplete: "off",
    "data-ours": true,
    "aria-describedby": "pad-hint",
    placeholder: last || "\u2013",
    value: text,
    on: { input: (event) => typed(event.target.value) },
  });
  return el(
    "div",
    { class: "pad-head" },
    el("label", { for: "pad-line" }, label),
    el("p", { class: "pad-value" }, line, el("span", { class: "unit" }, unit)),
    el("p", { class: "hint", id: "pad-hint" }, [hint, last && words.pad.last(last)].filter(Boolean).join(" \u00b7 ")),
    el("p", { class: "live", "aria-live": "polite" }, live),
  );
}

function keys(shown) {
  const digit = (name) => key(name, () => shown.type(name), { label: name });
  const [sign, half] = [shown.sign, shown.step];
  return [
    DIGITS.slice(0, 3).map(digit),
    key("\u232b", shown.back, { label: words.pad.rub }),
    DIGITS.slice(3, 6).map(digit),
    half ? key("+ \u00bd", () => shown.nudge(1), { label: words.pad.more(half) }) : gap("a"),
    DIGITS.slice(6).map(digit),
    half ? key("\u2212 \u00bd", () => shown.nudge(-1), { label: words.pad.less(half) }) : gap("b"),
    key(words.decimalSign, () => shown.type(words.decimalSign), { label: words.pad.point }),
    digit("0"),
    sign ? key("\u00b1", shown.minus, { label: words.pad.sign }) : gap("c"),
    key("\u2715", shown.close, { label: words.pad.close }),
  ];
}

function key(face, click, { label }) {
  return el("button", { type: "button", class: "key", key: `key ${face}`, "aria-label": label, on: { click } }, face);
}

function gap(name) {
  return el("span", { class: "gap", key: `gap ${name}` });
}

function lastRow({ skip, next, ready, photo }) {
  return el(
    "div",
    { class: photo ? "pad-last with-photo" : "pad-last" },
    el("button", { type: "button", class: "second", key: "skip", on: { click: skip } }, next ? words.pad.skip : words.pad.done),
    photo,
    el("button", { type: "submit", class: "main keep", key: "keep" }, ready ? words.pad.keep(ready) : words.pad.keepNothing),
  );
}

function arrows(event, shown) {
  if (event.key === "Escape") return shown.close();
  if (!shown.step || !["ArrowUp", "ArrowDown"].includes(event.key)) return undefined;
  event.preventDefault();
  return shown.nudge(event.key === "ArrowUp" ? 1 : -1);
}
