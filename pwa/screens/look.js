/** Look first: a short list of places, a touch each. */
import { words } from "../words/words.js";
import { oneOf } from "../parts/chips.js";
import { el } from "../parts/el.js";
import { results } from "../parts/fields.js";
import { putItem } from "../parts/job_context.js";
import { mainButton, page, section } from "../parts/page.js";
import { photosOf, photoButton } from "../parts/photos.js";
import { link } from "../parts/router.js";
import { stepFoot } from "../parts/step_foot.js";
import { cautions, connect } from "../parts/test_page.js";
import { lookSteps } from "../parts/test_list.js";
import { testWords } from "../parts/test_words.js";

/** What a look also says to the calculation: the place it writes, and the value for in order and not. */
const ALSO = {
  look_soot: ["/tests/exhaust_leak/soot_or_hiss", { in_order: false, not_in_order: true }],
  look_control_hoses: ["/tests/solenoid/hoses_sound", { in_order: true, not_in_order: false }],
};

export function lookScreen(app, job) {
  return { build: () => build(app, job) };
}

function build(app, job) {
  const text = testWords(job.document, "look");
  const steps = lookSteps(job.document);
  const done = steps.filter((step) => job.value(`/steps/${step}/state`)).length;
  const content = {
    title: text.title,
    under: `${text.under} \u00b7 ${text.count(done, steps.length)}`,
    back: { href: link("job", job.id), text: words.nav.job },
    key: "main look",
    main: [
      connect(job, "look"),
      cautions(text.cautions),
      section(words.page.readings, steps.map((step) => stepRow(job, text, step))),
      results(job, ["exhaust_leak", "control_hoses"]),
      stepFoot(job, "look", text.title),
    ],
    bar: mainButton({ text: text.next, href: link("job", job.id) }),
  };
  return page(content, app.keeper);
}

function stepRow(job, text, step) {
  const [name, what] = text.steps[step];
  const chosen = job.value(`/steps/${step}/state`);
  const choose = (state) => job.keep(name, () => keepStep(job, step, state));
  return el(
    "div",
    { class: "look-step", key: step },
    oneOf({ label: name, aside: what, options: text.states, chosen, choose }),
    step === "look_control_hoses" && chosen === "not_in_order" && hosesFault(job, text),
    chosen === "not_in_order" && el("div", { class: "row" }, photoButton(job, step, name)),
    photosOf(job, step),
  );
}

async function keepStep(job, step, state) {
  await putItem(job.handle, "/steps", step, { state });
  const [path, values] = ALSO[step] ?? [];
  if (path) await job.handle.set(path, values[state] ?? null);
}

function hosesFault(job, text) {
  const path = "/tests/solenoid/hoses_fault";
  return oneOf({ label: text.hoses, options: text.hosesFaults, chosen: job.value(path), choose: (fault) => job.set(text.hoses, path, fault) });
}
