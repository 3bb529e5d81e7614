/** The list of jobs, and what the phone, the calculation and the workshop's computer are doing. */
import { brokenLine } from "../drawings/broken.js";
import { words } from "../words/words.js";
import { carName, carUnder } from "../parts/car.js";
import { el } from "../parts/el.js";
import { button, mainButton, page } from "../parts/page.js";
import { link } from "../parts/router.js";
import { stateLines, timeOf, updateOffer } from "../parts/state.js";

export function jobsScreen(app) {
  return { build: () => build(app) };
}

function build(app) {
  const jobs = app.workbook.jobs();
  const content = {
    title: words.jobs.title,
    key: "main jobs",
    main: [updateOffer(app), jobs.length ? list(jobs) : teach(), firstJob(app.guide, app.repaint), stateLines(app), practiceLink(), settingsLink()],
    bar: mainButton({ text: words.jobs.fresh, href: link("new") }),
  };
  return page(content, app.keeper);
}

function list(jobs) {
  return el("ul", { class: "jobs", "aria-label": words.jobs.list }, jobs.map(row));
}

function row({ id, document, unsent, conflicts, safeAt }) {
  const safe = !unsent && safeAt;
  return el(
    "li",
    { key: id },
    el(
      "a",
      { href: link("job", id) },
      el("span", { class: "name" }, carName(document)),
      el("span", { class: "aside" }, carUnder(document)),
      el("span", { class: safe ? "safe" : "aside" }, safe ? words.state.safe(timeOf(safeAt)) : words.state.phone),
      conflicts.length > 0 && el("span", { class: "outcome outside" }, words.jobs.conflict),
    ),
  );
}

function teach() {
  return el(
    "section",
    { class: "teach" },
    el("h2", {}, words.jobs.nothing),
    brokenLine("", words.jobs.fault),
    el("ol", { class: "lines" }, words.jobs.teach.map((sentence) => el("li", {}, sentence))),
  );
}

/** Offered until it was walked through or put aside; in the settings it stays. */
function firstJob(guide, repaint) {
  if (!guide.isOpen) return null;
  const text = words.firstJob;
  return el(
    "section",
    { class: "first-job", key: "first job" },
    el("h2", {}, text.offer),
    el("p", {}, text.offerSays),
    button(guide.isBegun ? text.goOn : text.settings, () => guide.begin(), { key: "first job begins" }),
    button(text.notNow, () => guide.putAside().then(repaint), { key: "first job not now", kind: "plain" }),
  );
}

function practiceLink() {
  return el("p", {}, el("a", { href: link("practice") }, words.practice.open));
}

function settingsLink() {
  return el("p", {}, el("a", { href: link("settings") }, words.nav.settings));
}
