/** For the customer: what is wrong, how we know, what it will cost, what was not checked; a yes, and the way home. */
import { words } from "../words/words.js";
import { agreement, cost, newSigning } from "../parts/authorise.js";
import { carName } from "../parts/car.js";
import { resultLine } from "../parts/fields.js";
import { el } from "../parts/el.js";
import { button, page, section } from "../parts/page.js";
import { createPapers, paperWays, papersBar } from "../parts/papers.js";
import { thumb } from "../parts/photos.js";
import { listAt } from "../parts/pointer.js";
import { link } from "../parts/router.js";

const text = words.customer;
const LOOK_AGAIN_MS = 5_000;

export function customerScreen(app, job) {
  const signing = newSigning();
  const papers = createPapers(app, job);
  app.workbook.fetchDeliveries(job.id);
  app.workbook.fetchHistory(job.id, job.unit, words.language);
  const timer = setInterval(() => lookAgain(app, job), LOOK_AGAIN_MS);
  return { build: () => build(app, job, signing, papers), leave: () => clearInterval(timer) };
}

/** While an e-mail is under way, the workshop is asked how it stands. */
function lookAgain(app, job) {
  const settled = new Set(app.workbook.deliveries(job.id).filter(({ state }) => state !== "queued").map(({ id }) => id));
  const waits = listAt(job.document, "/deliveries").some(({ id }) => !settled.has(id));
  if (waits && !document.hidden && app.syncState.state === "idle") app.workbook.fetchDeliveries(job.id);
}

function build(app, job, signing, papers) {
  const { verdict } = job.judged;
  const content = {
    title: text.title,
    under: carName(job.document),
    back: { href: link("job", job.id, "verdict"), text: words.verdict.title },
    key: "main customer",
    main: [
      said(job),
      found(verdict),
      known(verdict),
      cost(job, signing),
      named(text.sound, verdict?.tested_sound),
      notLooked(verdict),
      photos(job),
      send(app, job),
      history(app, job),
    ],
    bar: agreement(job, signing) ?? papersBar(app, job, papers),
  };
  return page(content, app.keeper);
}

function said(job) {
  const complaint = job.value("/complaint/text");
  return complaint ? section(text.said, el("p", {}, complaint)) : null;
}

function found(verdict) {
  const { says, means } = verdict?.customer ?? {};
  if (!says) return el("p", {}, verdict ? text.nothing : words.page.waits);
  return [section(text.found, el("p", { class: "headline" }, says)), means && section(text.means, el("p", {}, means))];
}

/** The readings that speak for it: there for who asks. */
function known(verdict) {
  const fault = verdict?.conclusion && verdict.faults.find((one) => one.fault === verdict.conclusion.fault);
  const findings = (fault?.for ?? []).map((check) => verdict.findings.find((one) => one.check === check)).filter(Boolean);
  return findings.length ? el("details", { key: "how we know" }, el("summary", {}, text.known), findings.map(resultLine)) : null;
}

/** Long, and no finding: there for who asks. */
function notLooked(verdict) {
  const names = verdict?.not_tested ?? [];
  return names.length ? el("details", { key: "not looked" }, el("summary", {}, text.notLooked), el("p", {}, names.join(" \u00b7 "))) : null;
}

function named(title, names) {
  return names?.length ? section(title, el("p", {}, names.join(" \u00b7 "))) : null;
}

function photos(job) {
  const all = listAt(job.document, "/photos");
  if (!all.length) return null;
  return section(text.photos, el("ul", { class: "photos large" }, all.map((photo, index) => el("li", { key: photo.id }, thumb(job, photo, index + 1), el("span", {}, photo.caption)))));
}

/** An e-mail is asked for on the phone and sent by the workshop's computer, when the phone has been there. */
function send(app, job) {
  const to = job.value("/customer/email");
  const ask = () => {
    const wish = { to, form: "customer", language: words.language, unit: job.unit, asked_at: job.handle.now() };
    return job.keep(words.send.kept, () => job.handle.add("/deliveries", wish));
  };
  return section(
    words.send.title,
    el("ul", { class: "items" }, listAt(job.document, "/deliveries").map((wish) => el("li", { key: wish.id }, el("span", {}, stateOf(app, job, wish))))),
    to ? button(words.send.ask(to), ask, { key: "send" }) : el("p", { class: "hint" }, words.send.noAddress),
    paperWays(app, job),
  );
}

function stateOf(app, job, wish) {
  const { state = "waiting", says = "" } = app.workbook.deliveries(job.id).find(({ id }) => id === wish.id) ?? {};
  return words.send.line(wish.to, words.send.states[state] ?? state, says);
}

/** Other jobs of the same car: those of the workshop as last heard, and those that only this phone has. */
function history(app, job) {
  const plain = (value) => (value ?? "").replace(/[\s-]/g, "").toUpperCase();
  const same = (key, other) => plain(job.value(`/vehicle/${key}`)) && plain(job.value(`/vehicle/${key}`)) === plain(other.vehicle?.[key]);
  const held = app.workbook.jobs().filter(({ id, document }) => id !== job.id && (same("vin", document) || same("registration", document)));
  const heard = app.workbook.history(job.id).filter(({ id }) => id !== job.id);
  const own = held.filter(({ id }) => !heard.some((one) => one.id === id));
  const lines = [
    ...heard.map(({ id, opened_at: at, complaint, says }) => earlier(app, id, at, [complaint, says].filter(Boolean).join(" \u2192 "))),
    ...own.map(({ id, document }) => earlier(app, id, document.opened_at, document.complaint?.text ?? carName(document))),
  ];
  return lines.length ? section(words.history.title, el("ul", { class: "links" }, lines)) : null;
}

/** A way to it where this phone holds it. */
function earlier(app, id, at, says) {
  const line = words.history.of((at ?? "").slice(0, 10), says);
  return el("li", { key: id }, app.workbook.job(id) ? el("a", { href: link("job", id) }, line) : el("span", {}, line));
}
