/**
 * A first job, walked through: on the real screens, it says what comes next and points at the control for it. Its car
 * lies in a workbook of its own, which no sync knows, so that practice never stands among the workshop's jobs.
 */
import { carsIn, openWorkbook } from "../store/workbook.js";
import { words } from "../words/words.js";
import { el } from "./el.js";
import { GAUGE, PLACES, SHOWN } from "./practice_car.js";
import { valueAt } from "./pointer.js";
import { textOf } from "./quantity.js";
import { go, route } from "./router.js";

const SETTING = "firstJob";
const WORKBOOK = "teepiece-practice";
const OVER = "over";
const READINGS = "/tests/actuator";
const row = (name) => `[data-key="row ${READINGS}/${name}"]`;
const text = words.firstJob;

/** In the order of the walk; the first whose `when` holds is where the technician stands. */
const STEPS = [
  { id: "line", when: ({ place, first }) => place === "" && !first, points: ".at-actuator a" },
  { id: "page", when: ({ place, first, pad }) => place === "actuator" && !first && !pad, points: row("first_movement_kpa") },
  { id: "needle", when: ({ place, first, typed }) => place === "actuator" && !first && !typed, points: ".pad-head" },
  { id: "keep", when: ({ place, first }) => place === "actuator" && !first, points: '.pad [data-key="keep"]' },
  { id: "again", when: ({ place, full, pad }) => place === "actuator" && !full && !pad, points: row("full_travel_kpa") },
  { id: "second", when: ({ place, full }) => place === "actuator" && !full, points: ".pad-head" },
  { id: "close", when: ({ place, pad }) => place === "actuator" && pad, points: '.pad [data-key="key \u2715"]' },
  { id: "back", when: ({ place }) => place === "actuator", points: "a.back" },
  { id: "waits", when: ({ place, concluded }) => place === "" && !concluded, points: null },
  { id: "broken", when: ({ place }) => place === "", points: ".conclusion a" },
  { id: "verdict", when: ({ place, first }) => place === "verdict" && first, points: ".headline" },
  { id: "astray", when: () => true, points: "a.back" },
];
/** Steps that count as one for who counts. */
const NUMBERED = [["line"], ["page"], ["needle", "keep"], ["again", "second"], ["close", "back"], ["waits", "broken"], ["verdict"]];

/** `workbook` holds the settings, `root` the screens, `card` is where the guide speaks; `changed` hears of practice cars. */
export function createGuide(workbook, { root, card, unit, changed }) {
  let practice = null;
  let shownStep = null;
  const state = () => workbook.settings.get(SETTING) ?? null;
  const jobId = () => state()?.job ?? null;
  const isHere = () => route()[0] === "job" && route()[1] === jobId();
  /** A job that the workshop's workbook lacks: it may lie in the practice workbook. */
  const isElsewhere = () => route()[0] === "job" && !workbook.job(route()[1] ?? "");
  const handle = () => practice?.job(jobId());

  async function open() {
    if (practice) return practice;
    practice = await openWorkbook(WORKBOOK);
    practice.onChange(changed);
    return practice;
  }
  async function begin() {
    const kept = jobId();
    const id = (await open()).job(kept ?? "") ? kept : await newCar(practice);
    await workbook.settings.set(SETTING, { job: id });
    go("job", id);
  }
  async function end(...place) {
    await workbook.settings.set(SETTING, OVER);
    go(...place);
  }

  function now() {
    const pad = root.querySelector("form.pad");
    const { document: job } = handle();
    return {
      place: route()[2] ?? "",
      first: valueAt(job, `${READINGS}/first_movement_kpa`) !== undefined,
      full: valueAt(job, `${READINGS}/full_travel_kpa`) !== undefined,
      pad: pad !== null,
      typed: Boolean(root.querySelector("#pad-line")?.value),
      concluded: root.querySelector(".conclusion") !== null,
    };
  }
  function update() {
    const step = isHere() && handle() ? STEPS.find(({ when }) => when(now())) : null;
    point(root, step?.points);
    if (step?.id === shownStep) return;
    shownStep = step?.id ?? null;
    card.hidden = step === null;
    card.replaceChildren(...(step ? inside(step, unit(), end) : []));
    if (step?.points) root.querySelector(step.points)?.scrollIntoView({ block: "nearest" });
  }

  new MutationObserver(update).observe(root, {
    subtree: true, childList: true, characterData: true, attributes: true, attributeFilter: ["class", "data-pointed"],
  });
  root.addEventListener("input", update);
  addEventListener("hashchange", update);
  card.setAttribute("aria-label", text.title);

  return {
    begin,
    /** Whether it is still to be offered: it was neither walked to its end nor put aside. */
    get isOpen() {
      return state() !== OVER;
    },
    get isBegun() {
      return jobId() !== null;
    },
    putAside: () => workbook.settings.set(SETTING, OVER),
    /** The practice car, where the place is its own; its workbook is opened by `ready`. */
    job: (id) => practice?.job(id) ?? null,
    /** Opened before the first screen where the page begins on the practice car. */
    ready: () => (isHere() || isElsewhere() ? open() : null),
    open,
    /** Whether a job is one of the cars to practise with. */
    isCar: (id) => practice !== null && carsIn(practice).includes(id),
  };
}

/** A car nobody has touched yet. Earlier ones stay in the practice workbook and are shown nowhere. */
async function newCar(practice) {
  const id = await practice.newJob({ places: { ...PLACES, "/complaint/text": text.complaint, "/spec/source": text.source } });
  await practice.job(id).add("/gauges", GAUGE);
  return id;
}

/** The mark on the control; painting a screen takes it away, so it is put back. */
function point(root, selector) {
  const target = selector ? root.querySelector(selector) : null;
  for (const old of root.querySelectorAll("[data-pointed]")) if (old !== target) old.removeAttribute("data-pointed");
  if (target && !target.hasAttribute("data-pointed")) target.setAttribute("data-pointed", "");
}

function inside({ id }, unit, end) {
  const number = NUMBERED.findIndex((ids) => ids.includes(id)) + 1;
  const figure = (kpa) => textOf("pressure", kpa, unit);
  const says = { needle: () => text.needle(figure(SHOWN.first)), second: () => text.second(figure(SHOWN.full)) };
  const isLast = id === "verdict";
  const press = (words, kind, ...place) => el("button", { type: "button", class: kind, on: { click: () => end(...place) } }, words);
  const parts = [
    el("p", { class: "count" }, el("span", {}, number ? text.count(number, NUMBERED.length) : text.title), !isLast && press(text.end, "plain")),
    el("p", { role: "status" }, says[id]?.() ?? text[id]),
    isLast && el("p", { class: "acts" }, press(text.own, "second", "new"), press(text.done, "second")),
  ];
  return parts.filter(Boolean);
}
