/** Road runs: the list of runs, and the way to a new one. */
import { words } from "../words/words.js";
import { el } from "../parts/el.js";
import { results } from "../parts/fields.js";
import { mainButton, page, section } from "../parts/page.js";
import { listAt } from "../parts/pointer.js";
import { pullsOf } from "../parts/pulls.js";
import { go, link } from "../parts/router.js";
import { stepFoot } from "../parts/step_foot.js";
import { cautions, connect } from "../parts/test_page.js";
import { testPageOf } from "../parts/test_pages.js";
import { testWords } from "../parts/test_words.js";

const text = words.tests.road;

export function roadScreen(app, job) {
  const begin = async () => {
    const id = await job.keep(text.newRun, () => job.handle.add("/tests/road", { phase: "before_repair", control: "normal" }));
    if (id) go("job", job.id, "road", id);
  };
  return { build: () => build(app, job, begin) };
}

function build(app, job, begin) {
  const runs = listAt(job.document, "/tests/road");
  const content = {
    title: text.title,
    under: text.under,
    back: { href: link("job", job.id), text: words.nav.job },
    key: "main road",
    main: [
      connect(job, "road"),
      cautions(testWords(job.document, "road").cautions),
      runList(job, runs),
      results(job, testPageOf("road").checks),
      stepFoot(job, "road", text.title),
    ],
    bar: el("div", { class: "two-buttons" }, mainButton({ text: text.newRun, click: begin, key: "new run" }), takeIn(job)),
  };
  return page(content, app.keeper);
}

function takeIn(job) {
  return el("a", { class: "second", key: "take in", href: link("job", job.id, "log") }, words.log.takeIn);
}

/** Runs of this job to touch; they keep the number of their place among all. */
export function runList(job, runs) {
  if (!runs.length) return null;
  const all = listAt(job.document, "/tests/road");
  return section(text.runs, el("ul", { class: "jobs" }, runs.map((run) => runRow(job, run, all.indexOf(run) + 1))));
}

function runRow(job, run, number) {
  const says = run.log ? text.runText(number, run.gear, null) : text.runText(number, run.gear, pullsOf(run).length);
  const what = run.control && run.control !== "normal" ? words.tests.base_boost_run.title : text.phases.find(([value]) => value === run.phase)?.[1];
  return el("li", { key: run.id }, el("a", { href: link("job", job.id, "road", run.id) }, el("span", { class: "name" }, says), el("span", { class: "aside" }, what)));
}
