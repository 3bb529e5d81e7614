/** Road runs: the list of runs, and the way to a new one. */
import { cabin } from "../drawings/bench.js";
import { words } from "../words/en.js";
import { el } from "../parts/el.js";
import { results } from "../parts/fields.js";
import { ROAD_CHECKS } from "../parts/air_line_model.js";
import { mainButton, page, section } from "../parts/page.js";
import { listAt } from "../parts/pointer.js";
import { pullsOf } from "../parts/pulls.js";
import { go, link } from "../parts/router.js";
import { stepFoot } from "../parts/step_foot.js";
import { cautions } from "../parts/test_page.js";

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
      el("figure", { class: "connect" }, cabin(text.parts), el("figcaption", {}, text.connect)),
      cautions(text.cautions),
      runs.length > 0 && section(text.runs, el("ul", { class: "jobs" }, runs.map((run, index) => runRow(job, run, index + 1)))),
      results(job, [...ROAD_CHECKS, "road_sensor", "road_pedal"]),
      stepFoot(job, "road", text.title),
    ],
    bar: mainButton({ text: text.newRun, click: begin, key: "new run" }),
  };
  return page(content, app.keeper);
}

function runRow(job, run, number) {
  const says = text.runText(number, run.gear, pullsOf(run).length);
  const phase = text.phases.find(([value]) => value === run.phase)?.[1];
  return el("li", { key: run.id }, el("a", { href: link("job", job.id, "road", run.id) }, el("span", { class: "name" }, says), el("span", { class: "aside" }, phase)));
}
