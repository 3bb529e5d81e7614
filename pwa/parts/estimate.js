/** What the estimate comes to, as the customer reads it. */
import { words } from "../words/words.js";
import { el } from "./el.js";
import { optionsOf, printMoney } from "./money.js";

/** Money as it is read on this phone. */
export function money(job, coins) {
  return printMoney(coins, job.value("/estimate/currency") ?? "", words.decimalSign);
}

/** One line's sum; a dash where it has no price yet. */
export function moneyOf(job, line) {
  const reckoned = optionsOf({ ...job.value("/estimate"), lines: [line], authorisations: [] }).at(-1)?.lines.at(-1);
  return reckoned ? money(job, reckoned.net) : words.none;
}

/** The sums of each option; `after(option, title)` adds what stands below one. */
export function sums(job, after = () => null) {
  const options = optionsOf(job.value("/estimate"));
  return options.map((option) => {
    const title = options.length > 1 ? words.estimate.option[option.name] : words.estimate.total;
    const row = (name, coins, kind) => el("div", { class: kind }, el("dt", {}, name), el("dd", {}, money(job, coins)));
    const taxes = option.taxes.map(({ rate, net, tax }) => row(words.estimate.taxAt(rate.replace(".", words.decimalSign), money(job, net)), tax));
    return el(
      "div",
      { class: "sum", key: `sum ${option.name}` },
      el("dl", {}, row(words.estimate.net, option.net), taxes, row(title, option.total, "total")),
      after(option, title),
    );
  });
}
