/** In plain words: is it kept, is it in the workshop, can it calculate. */
import { words } from "../words/words.js";
import { el } from "./el.js";
import { mark } from "./fields.js";
import { button, lines } from "./page.js";

const MEGA = 1_000_000;
const MINUTE_MS = 60_000;
const CLOCK_NOTE_MS = 2 * MINUTE_MS;

/* A formatter costs more than all that it prints: the clock needs none, and the day's is made when first wanted. */
const twoDigits = (number) => String(number).padStart(2, "0");
const clockOf = (date) => `${twoDigits(date.getHours())}:${twoDigits(date.getMinutes())}`;
let dayFormat = null;
const dayOf = (date) => (dayFormat ??= new Intl.DateTimeFormat(words.language, { day: "numeric", month: "long" })).format(date);

/** Hours and minutes of a moment, with the day where it was not today. */
export function timeOf(moment) {
  const date = new Date(moment);
  const clock = clockOf(date);
  if (date.toDateString() === new Date().toDateString()) return clock;
  return `${dayOf(date)} ${clock}`;
}

/** The state of the workshop's computer and of the calculation. */
export function stateLines(app) {
  const { syncState, engineState } = app;
  return el("div", { class: "state" }, lines(syncSays(syncState), "plain-list"), signIn(syncState), engineLine(engineState));
}

/** The door is a page of the server: it signs in, and leads on to pairing. */
function signIn({ state }) {
  return state === "sign_in" && el("p", {}, el("a", { class: "second", href: "/sign-in?next=/" }, words.state.signIn));
}

function syncSays({ state, unsent = 0, refused = [], lastAt, says: why, clockOffsetMs }) {
  const says = words.state.sync[state](lastAt && timeOf(lastAt));
  const open = unsent ? words.state.unsent(unsent) : null;
  const apart = refused.length ? words.state.refused(refused.length) : null;
  const clock = Math.abs(clockOffsetMs ?? 0) > CLOCK_NOTE_MS ? words.state.clock(Math.round(clockOffsetMs / MINUTE_MS)) : null;
  return [[says, open].filter(Boolean).join(" \u00b7 "), why, apart, clock].filter(Boolean);
}

/** The mark of the calculation: an open tube while it arrives, a filled one when it needs no signal any more. */
export function engineLine(state) {
  const { state: now, loadedBytes = 0, totalBytes = 0 } = state;
  const arriving = now === "loading" && totalBytes > 0;
  return el(
    "div",
    { class: "engine-state", key: "engine" },
    el("p", { role: "status" }, mark(now === "ready" ? "within" : now === "failed" ? "outside" : "not_examined"), engineSays(state)),
    arriving && el("progress", { max: totalBytes, value: loadedBytes, "aria-label": words.state.engineName }),
  );
}

/** What the calculation is doing. */
export function engineSays({ state, loadedBytes = 0, totalBytes = 0 }) {
  return words.state.engine[state](Math.round(loadedBytes / MEGA), Math.round(totalBytes / MEGA));
}

/** A newer release, taken over when the technician says so. */
export function updateOffer(app) {
  if (!app.update) return null;
  return el(
    "section",
    { class: "told", key: "update" },
    el("p", {}, words.update.ready, " ", words.update.kept),
    button(words.update.take, () => app.update.take(), { key: "take update" }),
  );
}
