/** The home of a job: the air line, what remains, and the next test under the thumb. */
import { words } from "../words/words.js";
import { airLineList, layOut } from "../parts/air_line.js";
import { airLine, ROAD_CHECKS } from "../parts/air_line_model.js";
import { carName, carUnder } from "../parts/car.js";
import { conflictList } from "../parts/conflicts.js";
import { el } from "../parts/el.js";
import { shortLine } from "../parts/fields.js";
import { mainButton, page, section } from "../parts/page.js";
import { listAt } from "../parts/pointer.js";
import { link } from "../parts/router.js";
import { engineSays, timeOf } from "../parts/state.js";
import { remaining } from "../parts/test_list.js";

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
    kind: "two-columns",
    main: [
      el("div", {}, conflictList(job), conclusion(job, verdict), airLineList(job, airLine(job))),
      el("div", {}, road(job), rest(job, verdict ?? {}, left), more(job), state(app, job)),
    ],
    left: leftWords(left),
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
  return section(words.air.road, el("div", { class: "results" }, found.map(shortLine)));
}

function rest(job, verdict, { usual, further }) {
  return [
    usual.length ? section(words.air.remaining, why(verdict), testLinks(job, usual)) : el("p", { class: "hint" }, words.air.allDone),
    further.length > 0 && el("details", { key: "further" }, el("summary", {}, words.air.further), testLinks(job, further)),
  ];
}

function why({ next_test: next }) {
  return next?.says ? el("p", { key: "why" }, next.says) : null;
}

function testLinks(job, tests) {
  const rows = tests.map(({ page: name, title, minutes }) =>
    el("li", { key: name }, el("a", { href: link("job", job.id, name) }, el("span", { class: "name" }, title), minutes !== null && el("span", { class: "aside" }, words.air.minutes(minutes)))),
  );
  return el("ul", { class: "links" }, rows);
}

function more(job) {
  const photos = listAt(job.document, "/photos").length;
  const limits = Object.keys(job.document.spec ?? {}).length ? words.air.limits : words.air.noLimits;
  const gauges = listAt(job.document, "/gauges").length ? words.air.gauges : words.air.noGauges;
  const links = [["card", words.air.card], ["limits", limits], ["gauges", gauges], ["verdict", words.air.verdict], ["customer", words.air.customer], ["after_repair", words.air.afterRepair]];
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

/** What is left, for the thumb's line. */
function leftWords({ usual }) {
  if (!usual.length) return null;
  const known = usual.every(({ minutes }) => minutes !== null);
  return words.air.left(usual.length, known ? usual.reduce((sum, { minutes }) => sum + minutes, 0) : null);
}

/** The next test as the big button, with its minutes; a proved fault leads to its reasons instead. */
function bar(job, verdict, { usual: [next] }) {
  const settled = verdict?.conclusion && !verdict.next_test;
  if (!next || settled) return mainButton({ text: words.air.verdict, href: link("job", job.id, "verdict"), key: "to verdict" });
  return mainButton({
    text: next.title,
    aside: next.minutes === null ? null : words.air.minutes(next.minutes),
    href: link("job", job.id, next.page),
    key: "next test",
  });
}
