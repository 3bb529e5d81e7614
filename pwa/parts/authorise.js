/** The price and the yes to it: what it comes to, whether it still holds, and a finger's signature. */
import { words } from "../words/words.js";
import { el } from "./el.js";
import { money, sums } from "./estimate.js";
import { textField } from "./inputs.js";
import { amountText, isOver, optionsOf } from "./money.js";
import { button, mainButton, section } from "./page.js";
import { listAt } from "./pointer.js";
import { link } from "./router.js";
import { drawnSignature, signaturePane } from "./signature.js";

const text = words.authorise;

/** What a screen keeps while somebody signs. */
export function newSigning() {
  return { option: null, name: null, strokes: null };
}

export function cost(job, signing) {
  const options = optionsOf(job.value("/estimate"));
  const way = el("a", { class: "second wide", href: link("job", job.id, "estimate"), key: "estimate" }, options.length ? words.estimate.change : words.estimate.open);
  if (!options.length) return section(words.estimate.title, el("p", {}, words.estimate.none), way);
  const until = job.value("/estimate/valid_until");
  const holds = until && (isPriceOver(job) ? el("p", { class: "told" }, text.expired(until)) : el("p", { class: "hint" }, words.estimate.until(until)));
  return section(words.estimate.title, sums(job, (option, title) => answer(job, signing, option, title)), holds, way);
}

/** While somebody signs, the bar holds the yes and nothing else; null where nobody does. */
export function agreement(job, signing) {
  const option = optionsOf(job.value("/estimate")).find(({ name, authorisation }) => name === signing.option && !authorisation);
  if (!option || isPriceOver(job)) return null;
  const isReady = signing.strokes.path && signing.name;
  return el(
    "div",
    {},
    isReady ? null : el("p", { class: "left", role: "status" }, text.missing),
    mainButton({ text: text.agree(money(job, option.total)), click: () => agree(job, signing, option), key: "agree" }),
  );
}

function isPriceOver(job) {
  return isOver(job.value("/estimate/valid_until"), job.handle.now());
}

/** Signed, being signed, or to be signed; a price that is over is asked for anew and not signed. */
function answer(job, signing, option, title) {
  const yes = option.authorisation;
  if (yes) {
    const when = (yes.at ?? "").slice(0, 16).replace("T", " ");
    return el("div", { class: "signed", key: `signed ${option.name}` }, drawnSignature(yes.signature), el("p", {}, text.yes(yes.name, money(job, option.total), when)));
  }
  if (isPriceOver(job)) return null;
  if (signing.option === option.name) return pane(job, signing, option);
  const before = listAt(job.document, "/estimate/authorisations").some((one) => one.option === option.name);
  const ask = () => {
    Object.assign(signing, { option: option.name, name: job.value("/customer/name") ?? "", strokes: fresh() });
    job.repaintNow();
  };
  return [before && el("p", { class: "told" }, text.again), button(text.ask(title), ask, { key: `sign ${option.name}`, kind: "second wide" })];
}

function fresh() {
  return { path: "", points: 0, last: null };
}

function pane(job, signing, option) {
  const clear = () => {
    signing.strokes = fresh();
    job.repaintNow();
  };
  const cancel = () => {
    signing.option = null;
    job.repaintNow();
  };
  const rename = (name) => {
    signing.name = name ?? "";
    job.repaint();
  };
  return el(
    "div",
    { class: "signing", key: "signing" },
    textField({ label: text.name, key: "signs", value: signing.name, complete: "name", change: rename }),
    el("p", { class: "hint" }, text.paneSays),
    signaturePane(signing.strokes, job.repaint),
    el("div", { class: "row" }, button(text.clear, clear, { key: "sign again" }), button(text.cancel, cancel, { key: "sign not" })),
    button(text.aloud, () => agree(job, signing, option, { aloud: true }), { key: "said aloud" }),
  );
}

/** One operation: whose yes, to what, when, and the name as it was drawn, unless the yes was said aloud. */
async function agree(job, signing, option, { aloud = false } = {}) {
  const { name, strokes } = signing;
  if (!name || !(strokes.path || aloud) || isPriceOver(job)) return;
  const currency = job.value("/estimate/currency") ?? "";
  const yes = { name, at: job.handle.now(), option: option.name, amount: amountText(option.total, currency), currency, covers: option.covers, ...(aloud ? {} : { signature: strokes.path }) };
  await job.keep(text.kept, () => job.handle.add("/estimate/authorisations", yes));
  signing.option = null;
  job.repaint();
}
