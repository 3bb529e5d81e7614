/** The run that takes the solenoid out of it: offered only where that gives the least boost. */
import { words } from "../words/words.js";
import { hasBaseBoost, kindOf } from "../parts/kind.js";
import { el } from "../parts/el.js";
import { mainButton } from "../parts/page.js";
import { listAt } from "../parts/pointer.js";
import { go } from "../parts/router.js";
import { testPage } from "../parts/test_page.js";
import { runList } from "./road.js";

const text = words.tests.base_boost_run;

export function baseBoostScreen(app, job) {
  const begin = (control) => async () => {
    const id = await job.keep(text.newRun, () => job.handle.add("/tests/road", { phase: "before_repair", control }));
    if (id) go("job", job.id, "road", id);
  };
  return { build: () => build(job, begin) };
}

function build(job, begin) {
  const runs = listAt(job.document, "/tests/road").filter(({ control = "normal" }) => control !== "normal");
  const offered = hasBaseBoost(kindOf(job.document));
  return testPage(job, {
    id: "base_boost_run",
    before: [offered ? null : el("p", { class: "told" }, text.notOffered), runList(job, runs)],
    bar: offered ? el("div", { class: "stack" }, text.controls.map(([control, word]) => mainButton({ text: word, click: begin(control), key: control }))) : undefined,
  });
}
