/** Settings of this phone. */
import { chooseLanguage, LANGUAGES } from "../words/language.js";
import { words } from "../words/words.js";
import { oneOf } from "../parts/chips.js";
import { el } from "../parts/el.js";
import { textField } from "../parts/inputs.js";
import { button, page, section } from "../parts/page.js";
import { link } from "../parts/router.js";
import { engineLine, stateLines, updateOffer } from "../parts/state.js";
import { PRESSURE_UNITS } from "../parts/units.js";

const MEGA = 1_000_000;
const REVOKE_AFTER_MS = 60_000;

export function settingsScreen(app) {
  const store = { known: null };
  app.workbook.storage().then((known) => {
    store.known = known;
    app.repaint();
  });
  return { build: () => build(app, store.known) };
}

function build(app, storage) {
  const text = words.settings;
  const content = {
    title: text.title,
    back: { href: link(), text: words.nav.jobs },
    key: "main settings",
    main: [
      updateOffer(app),
      section(text.you, textField({ label: text.name, hint: text.nameHint, key: "person", complete: "name", value: app.settings.person, change: (name) => app.set("person", name ?? "") })),
      screenSettings(app),
      section(text.sync, stateLines(app), button(text.syncNow, () => app.syncNow(), { key: "sync now" })),
      phoneSection(app, storage),
      section(words.firstJob.title, button(words.firstJob.settings, () => app.guide.begin(), { key: "first job" })),
      section(text.versions, el("p", {}, el("a", { href: link("changes") }, words.changes.title)), engineLine(app.engineState), app.engineState.version && el("p", { class: "hint" }, text.engineVersion(app.engineState.version))),
    ],
  };
  return page(content, app.keeper);
}

function phoneSection(app, storage) {
  const text = words.settings;
  return section(
    text.phone,
    el("p", {}, storage?.persisted ? text.persisted : text.notPersisted),
    storage && el("p", { class: "hint" }, used(storage)),
    storage?.isLow && el("p", { class: "told" }, text.lowRoom),
    el("p", { class: "hint" }, text.copyHint),
    button(text.copy, () => app.keeper.keep(null, text.copyMade, () => saveCopy(app)), { key: "save copy" }),
  );
}

/** The browser's own download: it works with no server, and the file leaves the browser's store for the phone's. */
async function saveCopy(app) {
  const { blob, name } = await app.workbook.saveCopy();
  const href = URL.createObjectURL(blob);
  const anchor = el("a", { href, download: name });
  document.body.append(anchor);
  anchor.click();
  anchor.remove();
  setTimeout(() => URL.revokeObjectURL(href), REVOKE_AFTER_MS);
}

function screenSettings(app) {
  const text = words.settings;
  const choice = (label, name, options) =>
    oneOf({ label, options, chosen: app.settings[name], choose: (value) => value !== null && app.set(name, value) });
  const speak = (name) => name !== null && chooseLanguage(name);
  return section(
    text.screen,
    oneOf({ label: text.language, options: LANGUAGES, chosen: words.language, choose: speak }),
    choice(text.unit, "unit", PRESSURE_UNITS.map((unit) => [unit, unit])),
    choice(text.theme, "theme", text.themes),
    choice(text.text, "textSize", text.sizes),
  );
}

function used({ usage, quota }) {
  return words.settings.used(Math.round(usage / MEGA), Math.round(quota / MEGA));
}
