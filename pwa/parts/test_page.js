/** A test page, always in this order: what goes where, what can hurt, readings, what they say, photo, note, state. */
import { drawingOf } from "../drawings/drawings.js";
import { words } from "../words/words.js";
import { el } from "./el.js";
import { readingRow, results } from "./fields.js";
import { lines, mainButton, page, section } from "./page.js";
import { link } from "./router.js";
import { stepFoot } from "./step_foot.js";
import { testPageOf } from "./test_pages.js";
import { testWords } from "./test_words.js";

/**
 * @param job the job's context
 * @param test {id, entry?, fields?, choices?, before?, after?, bar?}
 *   `fields` take the pad, `before` stands above the readings, `after` below them.
 */
export function testPage(job, test) {
  const { id, entry } = test;
  const text = testWords(job.document, id);
  return page(
    {
      title: text.title,
      under: text.under,
      back: { href: link("job", job.id), text: words.nav.job },
      key: `main ${id}`,
      main: [
        connect(job, id),
        cautions(text.cautions),
        test.before,
        readings(job, test),
        test.after,
        results(job, testPageOf(id).checks),
        stepFoot(job, id, text.title),
      ],
      bar: entry?.build() ?? test.bar ?? nextBar(job, test),
    },
    job.app.keeper,
  );
}

/** What goes where, drawn and said, for this kind of car. */
export function connect(job, id) {
  const { parts = [], connect: says } = testWords(job.document, id);
  const picture = drawingOf(testPageOf(id).drawing, parts, job.document);
  return el("figure", { class: "connect" }, picture, el("figcaption", {}, says));
}

/** What can hurt someone, never folded away. */
export function cautions(sentences) {
  return el("aside", { class: "cautions", "aria-label": words.page.hurt }, lines(sentences, "plain-list"));
}

function readings(job, { fields, entry, choices }) {
  if (!fields?.length && !choices?.length) return null;
  const rows = (fields ?? []).map((field) => readingRow(job, field, entry));
  return section(words.page.readings, el("div", { class: "readings" }, rows), choices);
}

/** The thumb's button: the first reading still missing, then back to the line. */
export function nextBar(job, { fields = [], entry }) {
  const missing = fields.find((field) => field.value === undefined && !field.optional);
  if (!missing) return mainButton({ text: words.page.finish, href: link("job", job.id), key: "finish" });
  return mainButton({ text: words.page.start(missing.label), click: () => entry.open(missing.key), key: "read" });
}
