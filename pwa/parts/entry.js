/** Leads the pad through the fields of a page: what is being typed, what is kept, which field comes next. */
import { face } from "./face.js";
import { pad } from "./pad.js";
import { photoButton } from "./photos.js";
import { mark, outcomeWords } from "./fields.js";
import { el } from "./el.js";
import { figureOf, isBelow, limitText, maySign, shown, stored, textOf, unitOf } from "./quantity.js";
import { readNumber } from "./units.js";
import { words } from "../words/words.js";

/**
 * @param job the job's context
 * @param fields gives the fields of the page that take a number, in order
 * @param step whose photos may be taken beside a number: the page's id
 */
export function createEntry(job, fields, step) {
  const state = { key: null, text: "" };
  const field = () => fields().find(({ key }) => key === state.key);
  const repaintPad = () => job.repaintPart("form.pad", build());
  const set = (text) => {
    state.text = text;
    repaintPad();
  };

  /** From field to field the pad is painted behind the answer to the touch; it listens for the next one at once. */
  function open(key) {
    const isOn = state.key !== null;
    Object.assign(state, { key, text: "" });
    job.afterPaint(() => lead(key));
    if (!isOn) return job.repaintNow();
    document.querySelector("#pad-line").value = "";
    return job.repaint();
  }
  function close() {
    const { key } = state;
    state.key = null;
    job.repaintNow();
    document.querySelector(`[data-key="${CSS.escape(`row ${key}`)}"]`)?.focus();
  }
  function next() {
    const after = following(fields(), field());
    return after ? open(after.key) : close();
  }
  function keep() {
    const one = field();
    const typed = readNumber(state.text);
    if (typed === null) return state.text === "" ? next() : undefined;
    const value = stored(one.kind, typed, job.unit);
    job.keep(`${one.label} ${textOf(one.kind, value, job.unit)}`, () => one.write(value));
    return next();
  }

  /** The pad, or null while no field is open. */
  function build() {
    const one = field();
    if (!one) return null;
    const photo = photoButton(job, step, one.label, "pad");
    return pad({ ...look(one, state, job), ...keysOf(one, state, set, job), photo, keep, skip: next, close, next: following(fields(), one) !== null });
  }

  return {
    open,
    close,
    build,
    get key() {
      return state.key;
    },
  };
}

/** Focus and view go to the field that is read. */
function lead(key) {
  document.querySelector("#pad-line")?.focus({ preventScroll: true });
  document.querySelector(`[data-key="${CSS.escape(`row ${key}`)}"]`)?.scrollIntoView({ block: "start", behavior: "instant" });
}

/** The field that the pad goes on to by itself; extra ones are there for who touches them. */
function following(all, one) {
  const later = all.slice(all.findIndex(({ key }) => key === one.key) + 1);
  return later.find(({ extra }) => !extra || one.extra) ?? null;
}

function look(one, state, job) {
  const last = one.value === undefined ? "" : figureOf(one.kind, one.value, job.unit);
  const limit = limitText(one.kind, one.limit, job.unit, words.limit);
  const typed = readNumber(state.text);
  return {
    label: one.label,
    text: state.text,
    unit: unitOf(one.kind, job.unit),
    hint: limit ? words.limit.given(limit) : (one.hint ?? ""),
    last,
    live: live(one, typed, job),
    sign: maySign(one.kind),
    step: one.gauge?.division_kpa ? textOf("pressure", one.gauge.division_kpa / 2, job.unit) : null,
    ready: typed === null ? null : `${state.text} ${unitOf(one.kind, job.unit)}`.trim(),
  };
}

/** What the typed value would say, with its doubt and what would settle it, before it is kept. */
function live(one, typed, job) {
  if (typed === null || !one.check || !one.places) return null;
  const finding = job.app.verdicts.trialOf(job.handle, job.unit, one.places(stored(one.kind, typed, job.unit)), one.check);
  if (finding === null || finding.value === null) return null;
  return el("span", { class: `outcome ${finding.outcome}` }, mark(finding.outcome), outcomeWords(finding), finding.settles && `. ${finding.settles}`);
}

function keysOf(one, state, set, job) {
  const now = () => readNumber(state.text) ?? (one.value === undefined ? 0 : shown(one.kind, one.value, job.unit));
  const put = (kpa) => set(figureOf(one.kind, stored(one.kind, shown(one.kind, kpa, job.unit), job.unit), job.unit));
  return {
    type: (key) => set(signed(one, state, key === words.decimalSign && /[.,]/.test(state.text) ? state.text : state.text + key)),
    typed: (text) => set(signed(one, state, text)),
    back: () => set(state.text.slice(0, -1)),
    minus: () => set(state.text.startsWith("\u2212") ? state.text.slice(1) : `\u2212${state.text.replace(/^-/, "")}`),
    nudge: (direction) => put(stored(one.kind, now(), job.unit) + (direction * one.gauge.division_kpa) / 2),
    face: faceOf(one, state, put, job),
  };
}

/** Below the atmosphere the first digit brings its minus along. */
function signed(one, { text: before }, text) {
  return isBelow(one.kind) && before === "" && /^[\d.,]/.test(text) ? `\u2212${text}` : text;
}

function faceOf(one, state, take, job) {
  const { gauge } = one;
  if (gauge?.kind !== "analogue" || !gauge.division_kpa || gauge.span_kpa?.length !== 2) return null;
  const typed = readNumber(state.text);
  const kpa = typed === null ? one.value : stored(one.kind, typed, job.unit);
  return face({ gauge, kpa, limit: one.limit, unit: job.unit, take });
}
