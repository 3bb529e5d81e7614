/** The home of a job: the air line, what remains, and the next test under the thumb. */
import { words } from "../words/en.js";
import { airLineList, layOut } from "../parts/air_line.js";
import { airLine, ROAD_CHECKS } from "../parts/air_line_model.js";
import { carName, carUnder } from "../parts/car.js";
import { conflictList } from "../parts/conflicts.js";
import { el } from "../parts/el.js";
import { resultLine } from "../parts/fields.js";
import { mainButton, page, section } from "../parts/page.js";
import { listAt } from "../parts/pointer.js";
import { link } from "../parts/router.js";
import { engineSays, timeOf } from "../parts/state.js";
import { isDone, pageOf, remaining } from "../parts/test_list.js";

export function jobScreen(app, job) {
  return { build: () => build(app, job), painted: (root) => layOut(root, airLine(job)) };
}

function build(app, job) {
  const { verdict } = job.judged;
  const left = remaining(job.document, verdict);
  const content = {
    title: carName(job.document),
    under: carUnder(job.document),
    back: { href: link(), text: words.nav.jobs },
    key: "main job",
    main: [
      conflictList(job),
      conclusion(job, verdict),
      airLineList(job, airLine(job)),
      road(job),
      rest(job, left),
      more(job),
      state(app, job),
    ],
    bar: bar(job, verdict, left),
  };
  return page(content, app.keeper);
}

function conclusion(job, verdict) {
  const says = verdict?.conclusion?.says;
  if (!says) return null;
  return el("p", { class: "conclusion", key: "conclusion" }, el("a", { href: link("job", job.id, "verdict") }, says));
}

/** What the road says: the symptom, beside the line and on no place of it. */
function road(job) {
  const found = ROAD_CHECKS.map((check) => job.finding(check)).filter((finding) => finding && finding.value !== null);
  if (!found.length) return null;
  return section(words.air.road, el("div", { class: "results" }, found.map(resultLine)));
}

function rest(job, left) {
  if (!left.length) return el("p", { class: "hint" }, words.air.allDone);
  const rows = left.map(({ page: name, title, minutes }) =>
    el("li", { key: name }, el("a", { href: link("job", job.id, name) }, el("span", { class: "name" }, title), minutes !== null && el("span", { class: "aside" }, words.air.minutes(minutes)))),
  );
  return section(words.air.remaining, el("ul", { class: "links" }, rows));
}

function more(job) {
  const photos = listAt(job.document, "/photos").length;
  const limits = Object.keys(job.document.spec ?? {}).length ? words.air.limits : words.air.noLimits;
  const gauges = listAt(job.document, "/gauges").length ? words.air.gauges : words.air.noGauges;
  const links = [["card", words.air.card], ["limits", limits], ["gauges", gauges], ["verdict", words.air.verdict], ["customer", words.air.customer]];
  return section(
    words.air.more,
    el("ul", { class: "links" }, links.map(([where, text]) => el("li", { key: where }, el("a", { href: link("job", job.id, where) }, text)))),
    photos > 0 && el("p", { class: "hint" }, words.air.photos(photos)),
  );
}

function state(app, job) {
  const mine = app.workbook.jobs().find(({ id }) => id === job.id);
  const safe = mine && !mine.unsent && mine.safeAt;
  const where = safe ? words.state.safe(timeOf(mine.safeAt)) : words.state.phone;
  return el("p", { class: "hint" }, `${where} \u00b7 ${engineSays(app.engineState)}`);
}

/** The next test as the big button, with its minutes and why. */
function bar(job, verdict, left) {
  const next = verdict?.next_test;
  const here = next && pageOf(next.test);
  const [first] = left;
  if (!first && !here) return mainButton({ text: words.air.verdict, href: link("job", job.id, "verdict"), key: "to verdict" });
  const own = here && !isDone(job.document, here) ? { page: here, title: words.tests[here].title, minutes: next.minutes } : first;
  if (!own) return mainButton({ text: words.air.verdict, href: link("job", job.id, "verdict"), key: "to verdict" });
  const minutes = left.every((one) => one.minutes !== null) ? left.reduce((sum, one) => sum + one.minutes, 0) : null;
  return el(
    "div",
    {},
    el("p", { class: "left" }, words.air.left(left.length, minutes)),
    own.page === here && next.why && el("p", { class: "why" }, next.why),
    mainButton({
      text: own.title,
      aside: own.minutes === null ? null : words.air.minutes(own.minutes),
      href: link("job", job.id, own.page),
      key: "next test",
    }),
  );
}
