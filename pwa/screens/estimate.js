/** The estimate: lines from the workshop's price list or typed, what each option comes to, until when it holds. */
import { words } from "../words/words.js";
import { el } from "../parts/el.js";
import { moneyOf, sums } from "../parts/estimate.js";
import { amountField, selectField, textField } from "../parts/inputs.js";
import { OPTIONS, optionsOf, typedAmount } from "../parts/money.js";
import { button, mainButton, page, section } from "../parts/page.js";
import { listAt } from "../parts/pointer.js";
import { link } from "../parts/router.js";

const text = words.estimate;
const AT = "/estimate/lines";
const DAYS_IT_HOLDS = 30;
const DAY_MS = 86_400_000;

export function estimateScreen(app, job) {
  app.workbook.fetchWorkshop();
  return { build: () => build(app, job) };
}

function build(app, job) {
  const { prices = [], settings = {} } = app.workbook.workshop;
  const content = {
    title: text.title,
    back: { href: link("job", job.id, "customer"), text: words.customer.title },
    key: "main estimate",
    main: [lines(job), sums(job), add(job, prices, settings), terms(job, settings)],
    bar: mainButton({ text: text.done, href: link("job", job.id, "customer") }),
  };
  return page(content, app.keeper);
}

function lines(job) {
  const all = listAt(job.document, AT);
  return all.length ? el("div", {}, all.map((line) => lineOf(job, line))) : el("p", {}, text.empty);
}

function lineOf(job, line) {
  const at = `${AT}/${line.id}`;
  const name = line.name ?? text.unnamed;
  const figure = (label, key) =>
    amountField({ label, key: `${at}/${key}`, value: line[key], decimalSign: words.decimalSign, change: (value) => job.set(`${name}: ${label}`, `${at}/${key}`, value) });
  return el(
    "details",
    { class: "estimate-line", key: at },
    el("summary", {}, el("span", {}, name), el("span", { class: "figure" }, moneyOf(job, line))),
    textField({ label: text.name, key: `${at}/name`, value: line.name, change: (value) => job.set(name, `${at}/name`, value) }),
    el("div", { class: "pair" }, figure(line.unit ? text.quantityIn(line.unit) : text.quantity, "quantity"), figure(text.price, "price")),
    el("div", { class: "pair" }, figure(text.discount, "discount_pct"), figure(text.tax, "tax_pct")),
    selectField({ label: text.belongs, key: `${at}/option`, options: OPTIONS.map((one) => [one, text.only[one]]), value: line.option ?? OPTIONS[0], change: (value) => job.set(name, `${at}/option`, value) }),
    button(text.remove, () => job.keep(text.removed(name), () => job.handle.remove(at)), { key: `remove ${at}`, label: text.removeNamed(name) }),
  );
}

function add(job, prices, settings) {
  const options = [["", text.choose], ...prices.map(({ name }) => [name, name])];
  const fromList = (name) => {
    const price = prices.find((one) => one.name === name);
    if (price) addLine(job, settings, { kind: price.kind, name, unit: price.unit, price: price.price, tax_pct: price.tax_pct });
  };
  return section(
    text.add,
    prices.length ? selectField({ label: text.fromList, key: "price list", options, value: "", change: fromList }) : el("p", { class: "hint" }, text.noList),
    button(text.own, () => addLine(job, settings, { kind: "other", name: text.unnamed, price: "0", tax_pct: taxOf(settings) }), { key: "own line" }),
  );
}

function taxOf(settings) {
  return typedAmount(String(settings.tax_pct ?? "0"), ".") ?? "0";
}

/** The first line brings what the estimate needs besides: currency, rounding, and until when it holds. */
function addLine(job, settings, line) {
  const first = [
    ["/estimate/currency", settings.currency ?? null],
    ["/estimate/rounding", settings.rounding ?? null],
    ["/estimate/valid_until", new Date(Date.now() + DAYS_IT_HOLDS * DAY_MS).toISOString().slice(0, 10)],
  ].filter(([path, value]) => value !== null && job.value(path) === undefined);
  return job.keep(line.name, async () => {
    if (first.length) await job.handle.setMany(first);
    await job.handle.add(AT, { option: OPTIONS[0], quantity: "1", ...line });
  });
}

function terms(job, settings) {
  if (!optionsOf(job.value("/estimate")).length) return null;
  const field = (label, path, more) => textField({ label, key: path, value: job.value(path), change: (value) => job.set(label, path, value), ...more });
  return section(
    text.terms,
    field(text.validUntil, "/estimate/valid_until", { kind: "date" }),
    settings.currency ? null : field(text.currency, "/estimate/currency", { hint: text.currencyHint }),
  );
}
