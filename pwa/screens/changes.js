/** What is new: the change notes of this release and the ones before it. */
import { changes, words } from "../words/words.js";
import { el } from "../parts/el.js";
import { page, section } from "../parts/page.js";
import { link } from "../parts/router.js";

const text = words.changes;

export function changesScreen(app) {
  const content = {
    title: text.title,
    back: { href: link("settings"), text: words.nav.settings },
    key: "main changes",
    main: changes.map(({ version, day, notes }) => section(text.version(version, day), el("ul", { class: "lines" }, notes.map(note)))),
  };
  return { build: () => page(content, app.keeper) };
}

function note([kind, says]) {
  return el("li", {}, kind !== "new" && el("strong", {}, `${text.kinds[kind]}: `), says);
}
