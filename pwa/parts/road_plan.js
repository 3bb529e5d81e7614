/** The plan of a pull before setting off: what each gear would ask of the road, and which one stays below the limit. */
import { words } from "../words/words.js";
import { el } from "./el.js";
import { numberField } from "./inputs.js";
import { button, section } from "./page.js";
import { link } from "./router.js";

const text = words.tests.road.plan;
const LIMIT = "/site/speed_limit_kmh";

/** @param run the road run, `path` its place; the figures are the calculation's, its margin included */
export function roadPlan(job, run, path) {
  const { pulls = [], gear = null } = job.judged.verdict?.road_plan ?? {};
  return section(
    text.title,
    el("p", { class: "told" }, text.caution),
    numberField({ label: text.limit, hint: text.limitHint, key: LIMIT, kind: "kmh", unit: job.unit, value: job.value(LIMIT), change: (value) => job.set(text.limit, LIMIT, value) }),
    pulls.length ? [says(job, pulls, gear), table(pulls), take(job, run, path, gear)] : missing(job),
  );
}

/** The pull of a gear in few words, for beside the figure at which to let off; null where it is not known. */
export function planOf(job, gear) {
  const pull = (job.judged.verdict?.road_plan?.pulls ?? []).find((one) => one.gear === gear);
  if (!pull) return null;
  return [text.short(whole(pull.from_kmh), whole(pull.to_kmh), whole(pull.seconds)), pull.legal === false && ` \u00b7 ${text.over}`];
}

const whole = (value) => Math.round(value);

function says(job, pulls, gear) {
  if (job.value(LIMIT) === undefined) return el("p", { class: "hint" }, text.ask);
  if (!job.judged.fresh) return el("p", { class: "hint", role: "status" }, words.page.waits);
  const best = pulls.find((one) => one.gear === gear);
  if (!best) return el("p", { class: "told", role: "status" }, text.none);
  return el("p", { role: "status" }, el("strong", {}, text.best(best.gear, whole(best.to_kmh), whole(best.seconds), whole(best.metres))));
}

function table(pulls) {
  const row = (pull) => {
    const speeds = text.fromTo(whole(pull.from_kmh), whole(pull.to_kmh));
    const cells = [pull.legal === false ? [speeds, el("br"), el("em", {}, text.over)] : speeds, whole(pull.seconds), whole(pull.metres)];
    return el("tr", { class: pull.legal === false ? "over" : null }, el("th", { scope: "row" }, String(pull.gear)), cells.map((cell) => el("td", {}, cell)));
  };
  return el(
    "table",
    { class: "plan", key: "plan" },
    el("thead", {}, el("tr", {}, text.head.map((word) => el("th", { scope: "col" }, word)))),
    el("tbody", {}, pulls.map(row)),
  );
}

function take(job, run, path, gear) {
  if (gear === null || run.gear === gear || !job.judged.fresh) return null;
  return button(text.take(gear), () => job.set(words.tests.road.gear, `${path}/gear`, gear), { key: "take gear" });
}

function missing(job) {
  return el("p", { class: "hint" }, text.missing, " ", el("a", { href: link("job", job.id, "card") }, text.card));
}
