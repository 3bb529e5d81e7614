/** After the repair: codes and learned values, and the same run again that proves it. */
import { words } from "../words/words.js";
import { el } from "../parts/el.js";
import { yesNo } from "../parts/fields.js";
import { textField } from "../parts/inputs.js";
import { button, mainButton, page, section } from "../parts/page.js";
import { listAt } from "../parts/pointer.js";
import { go, link } from "../parts/router.js";
import { cautions } from "../parts/test_page.js";
import { runList } from "./road.js";

const AT = "/after_repair";
const REREAD = `${AT}/codes_reread`;
const text = words.afterRepair;

export function afterRepairScreen(app, job) {
  const begin = async () => {
    const id = await job.keep(text.run, () => job.handle.add("/tests/road", { phase: "after_repair", control: "normal" }));
    if (id) go("job", job.id, "road", id);
  };
  return { build: () => build(app, job, begin) };
}

function build(app, job, begin) {
  const before = job.value("/complaint/codes") ?? [];
  const content = {
    title: text.title,
    under: text.under,
    back: { href: link("job", job.id), text: words.nav.job },
    key: "main after repair",
    main: [
      cautions(text.cautions),
      el("p", {}, before.length ? text.before(before.join(", ")) : text.noneBefore),
      yesNo(job, { label: text.cleared, path: `${AT}/codes_cleared` }),
      yesNo(job, { label: text.reset, path: `${AT}/learned_values_reset` }),
      el("p", { class: "hint" }, text.resetHint),
      reread(job),
      runList(job, listAt(job.document, "/tests/road").filter(({ phase }) => phase === "after_repair")),
      proof(job),
    ],
    bar: mainButton({ text: text.run, click: begin, key: "proof run" }),
  };
  return page(content, app.keeper);
}

/** An empty list says that they were read and that there was none. */
function reread(job) {
  const codes = job.value(REREAD);
  const none = () => job.keep(text.kept, () => job.handle.set(REREAD, []));
  const typed = (value) => job.set(text.reread, REREAD, value ? value.split(/[\s,;]+/).filter(Boolean) : null);
  return [
    textField({ label: text.reread, hint: text.rereadHint, key: REREAD, value: (codes ?? []).join(" "), change: typed }),
    codes?.length ? null : button(codes ? `\u25cf ${text.none}` : text.none, none, { key: "no code" }),
  ];
}

function proof(job) {
  const says = job.judged.verdict?.repair_proof?.says;
  return says ? section(text.proof, el("p", {}, says)) : null;
}
