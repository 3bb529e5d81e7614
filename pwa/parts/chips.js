/** Choices to touch: one of several, or any of several. */
import { el } from "./el.js";

/** One of `options` ([[value, word, sentence?]]); touching the chosen one again clears it. */
export function oneOf({ label, options, chosen, choose, aside }) {
  const legend = el("legend", {}, label, aside && el("span", { class: "aside" }, aside));
  const chips = options.map(([value, word, why]) => {
    const on = chosen === value;
    return chip(`${label} ${word}`, word, why, on, () => choose(on ? null : value));
  });
  return el("fieldset", { key: `choice ${label}` }, legend, el("div", { class: "chips" }, chips));
}

/** Any of `options`; `choose(next)` with next(list), the whole new list or null for none. */
export function anyOf({ label, options, chosen = [], choose }) {
  const chips = options.map(([value, word]) => {
    const on = chosen.includes(value);
    const next = (list) => {
      const rest = (list ?? []).filter((one) => one !== value);
      const all = on ? rest : [...rest, value];
      return all.length ? all : null;
    };
    return chip(`${label} ${word}`, word, null, on, () => choose(next));
  });
  return el("fieldset", { key: `choice ${label}` }, el("legend", {}, label), el("div", { class: "chips" }, chips));
}

function chip(key, word, why, on, click) {
  const mark = el("span", { class: "tick", "aria-hidden": "true" }, on ? "\u25cf" : "\u25cb");
  const name = el("span", { class: "word" }, mark, word);
  const props = { type: "button", class: why ? "chip told" : "chip", "aria-pressed": String(on), key, on: { click } };
  return el("button", props, name, why && el("span", { class: "why" }, why));
}
