/** Settings of this phone. */
import { words } from "../words/en.js";
import { oneOf } from "../parts/chips.js";
import { el } from "../parts/el.js";
import { textField } from "../parts/inputs.js";
import { button, page, section } from "../parts/page.js";
import { link } from "../parts/router.js";
import { engineLine, stateLines, updateOffer } from "../parts/state.js";
import { PRESSURE_UNITS } from "../parts/units.js";

const MEGA = 1_000_000;

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
      section(text.phone, el("p", {}, storage?.persisted ? text.persisted : text.notPersisted), storage && el("p", { class: "hint" }, used(storage))),
      section(text.versions, engineLine(app.engineState), app.engineState.version && el("p", { class: "hint" }, text.engineVersion(app.engineState.version))),
    ],
  };
  return page(content, app.keeper);
}

function screenSettings(app) {
  const text = words.settings;
  const choice = (label, name, options) =>
    oneOf({ label, options, chosen: app.settings[name], choose: (value) => value !== null && app.set(name, value) });
  return section(
    text.screen,
    choice(text.unit, "unit", PRESSURE_UNITS.map((unit) => [unit, unit])),
    choice(text.theme, "theme", text.themes),
    choice(text.text, "textSize", text.sizes),
  );
}

function used({ usage, quota }) {
  return words.settings.used(Math.round(usage / MEGA), Math.round(quota / MEGA));
}
