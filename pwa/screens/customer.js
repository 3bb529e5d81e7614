/** For the customer: what is wrong, how we know, what it will cost, what was not checked; a yes, and the way home. */
import { words } from "../words/words.js";
import { carName } from "../parts/car.js";
import { resultLine } from "../parts/fields.js";
import { el } from "../parts/el.js";
import { money, sums } from "../parts/estimate.js";
import { textField } from "../parts/inputs.js";
import { amountText, optionsOf } from "../parts/money.js";
import { button, mainButton, page, section } from "../parts/page.js";
import { thumb } from "../parts/photos.js";
import { listAt } from "../parts/pointer.js";
import { link } from "../parts/router.js";
import { drawnSignature, signaturePane } from "../parts/signature.js";

const text = words.customer;

export function customerScreen(app, job) {
  const signing = { option: null, name: null, strokes: null };
  app.workbook.fetchDeliveries(job.id);
  return { build: () => build(app, job, signing) };
}

function build(app, job, signing) {
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
    bar: agreement(job, signing) ?? pdf(app, job),
  };
  return page(content, app.keeper);
}

function said(job) {
  const complaint = job.value("/complaint/text");
  return complaint ? section(text.said, el("p", {}, complaint)) : null;
}

function found(verdict) {
  const { says, means } = verdict?.customer ?? {};
  if (!says) return el("p", {}, text.nothing);
  return [section(text.found, el("p", { class: "headline" }, says)), means && section(text.means, el("p", {}, means))];
}

/** The readings that speak for it: there for who asks. */
function known(verdict) {
  const fault = verdict?.conclusion && verdict.faults.find((one) => one.fault === verdict.conclusion.fault);
  const findings = (fault?.for ?? []).map((check) => verdict.findings.find((one) => one.check === check)).filter(Boolean);
  return findings.length ? el("details", { key: "how we know" }, el("summary", {}, text.known), findings.map(resultLine)) : null;
}

function cost(job, signing) {
  const options = optionsOf(job.value("/estimate"));
  const way = el("a", { class: "second wide", href: link("job", job.id, "estimate"), key: "estimate" }, options.length ? words.estimate.change : words.estimate.open);
  if (!options.length) return section(words.estimate.title, el("p", {}, words.estimate.none), way);
  const until = job.value("/estimate/valid_until");
  return section(
    words.estimate.title,
    sums(job, (option, title) => answer(job, signing, option, title)),
    until && el("p", { class: "hint" }, isOver(until) ? words.authorise.expired : words.estimate.until(until)),
    way,
  );
}

function isOver(day) {
  return day < new Date().toISOString().slice(0, 10);
}

/** Signed, being signed, or to be signed. */
function answer(job, signing, option, title) {
  const { authorise } = words;
  const yes = option.authorisation;
  if (yes) {
    const when = (yes.at ?? "").slice(0, 16).replace("T", " ");
    return el("div", { class: "signed", key: `signed ${option.name}` }, drawnSignature(yes.signature), el("p", {}, authorise.yes(yes.name, money(job, option.total), when)));
  }
  if (signing.option === option.name) return pane(job, signing);
  const before = listAt(job.document, "/estimate/authorisations").some((one) => one.option === option.name);
  const ask = () => {
    Object.assign(signing, { option: option.name, name: job.value("/customer/name") ?? "", strokes: fresh() });
    job.repaintNow();
  };
  return [
    before && el("p", { class: "told" }, authorise.again),
    button(authorise.ask(title), ask, { key: `sign ${option.name}`, kind: "second wide" }),
  ];
}

function fresh() {
  return { path: "", points: 0, last: null };
}

function pane(job, signing) {
  const { authorise } = words;
  const clear = () => {
    signing.strokes = fresh();
    job.repaintNow();
  };
  const cancel = () => {
    signing.option = null;
    job.repaintNow();
  };
  return el(
    "div",
    { class: "signing", key: "signing" },
    textField({ label: authorise.name, key: "signs", value: signing.name, complete: "name", change: (name) => { signing.name = name ?? ""; job.repaint(); } }),
    el("p", { class: "hint" }, authorise.paneSays),
    signaturePane(signing.strokes, job.repaint),
    el("div", { class: "row" }, button(authorise.clear, clear, { key: "sign again" }), button(authorise.cancel, cancel, { key: "sign not" })),
  );
}

/** While somebody signs, the bar holds the yes and nothing else. */
function agreement(job, signing) {
  const option = optionsOf(job.value("/estimate")).find(({ name, authorisation }) => name === signing.option && !authorisation);
  if (!option) return null;
  const { authorise } = words;
  const isReady = signing.strokes.path && signing.name;
  return el(
    "div",
    {},
    isReady ? null : el("p", { class: "left", role: "status" }, authorise.missing),
    mainButton({ text: authorise.agree(money(job, option.total)), click: () => agree(job, signing, option), key: "agree" }),
  );
}

/** One operation: whose yes, to what, when, and the name as it was drawn. */
async function agree(job, signing, option) {
  const { name, strokes } = signing;
  if (!name || !strokes.path) return;
  const currency = job.value("/estimate/currency") ?? "";
  const yes = { name, at: job.handle.now(), option: option.name, amount: amountText(option.total, currency), currency, covers: option.covers, signature: strokes.path };
  await job.keep(words.authorise.kept, () => job.handle.add("/estimate/authorisations", yes));
  signing.option = null;
  job.repaint();
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
  );
}

function stateOf(app, job, wish) {
  const { state = "waiting", says = "" } = app.workbook.deliveries(job.id).find(({ id }) => id === wish.id) ?? {};
  return words.send.line(wish.to, words.send.states[state] ?? state, says);
}

/** Other jobs of the same car on this phone, by its number plate or its identification number. */
function history(app, job) {
  const plain = (value) => (value ?? "").replace(/[\s-]/g, "").toUpperCase();
  const same = (key, other) => plain(job.value(`/vehicle/${key}`)) && plain(job.value(`/vehicle/${key}`)) === plain(other.vehicle?.[key]);
  const others = app.workbook.jobs().filter(({ id, document }) => id !== job.id && (same("vin", document) || same("registration", document)));
  if (!others.length) return null;
  const lines = others.map(({ id, document }) => {
    const says = document.complaint?.text ?? carName(document);
    return el("li", { key: id }, el("a", { href: link("job", id) }, words.history.of((document.opened_at ?? "").slice(0, 10), says)));
  });
  return section(words.history.title, el("ul", { class: "links" }, lines));
}

/** The PDF is made in the workshop; here is only the way to it. */
function pdf(app, job) {
  const { state } = app.syncState;
  if (state === "no_server" || state === "failed" || state === "sign_in") return el("p", { class: "left" }, text.pdfWaits);
  const mine = app.workbook.jobs().find(({ id }) => id === job.id);
  const at = (form) => app.workbook.reportAddress(job.id, form, job.unit, words.language);
  return el(
    "div",
    {},
    mine?.unsent > 0 && el("p", { class: "left" }, text.unsent),
    el("a", { class: "main", href: at("customer"), target: "_blank", rel: "noopener" }, text.pdf),
    el("a", { class: "second wide", href: at("technical"), target: "_blank", rel: "noopener" }, text.pdfTechnical),
  );
}
