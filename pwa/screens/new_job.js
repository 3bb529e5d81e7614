/** A new job: a registration or a name is enough; the rest is filled in whenever there is time. */
import { words } from "../words/words.js";
import { anyOf, oneOf } from "../parts/chips.js";
import { createDraft } from "../parts/draft.js";
import { el } from "../parts/el.js";
import { textField } from "../parts/inputs.js";
import { mainButton, page } from "../parts/page.js";
import { go, link } from "../parts/router.js";

const DRAFT = "draft";
const NAMES = ["/vehicle/registration", "/vehicle/make", "/vehicle/model"];

export function newJobScreen(app) {
  let told = false;
  const draft = createDraft(app.workbook.settings, DRAFT);
  const put = async (path, value) => {
    told = false;
    await draft.put(path, value);
    app.repaint();
  };
  const open = async () => {
    document.activeElement.blur();
    if (!NAMES.some((path) => draft.values[path])) {
      told = true;
      return app.repaint();
    }
    const id = await app.keeper.keep(null, words.car.fresh, () => app.workbook.newJob({ places: placesOf(draft.values, app.workbook.workshop.judging) }));
    if (!id) return undefined;
    await draft.clear();
    return go("job", id);
  };
  const join = (path, next) => put(path, next(draft.values[path]));
  return { build: () => build(app, draft.values, { put, join, open }, told) };
}

/** Where nothing is chosen, the commonest kind, as it stands on the screen. */
const KIND = { "/boost_control/device": "wastegate", "/boost_control/actuator": "pressure" };

/**
 * The places of a fresh job. What the workshop has set about judging goes into the job, as
 * last heard, so that phone and workshop judge it alike.
 */
function placesOf(draft, judging = {}) {
  const set = Object.entries(judging).filter(([, weights]) => Object.keys(weights).length > 0);
  const own = set.map(([key, weights]) => [`/workshop/${key}`, weights]);
  const typed = Object.entries(draft).filter(([, value]) => value !== null && value !== undefined);
  return { ...KIND, ...Object.fromEntries([...typed, ...own]) };
}

function build(app, draft, { put, join, open }, told) {
  const field = (label, path, hint) => textField({ label, hint, key: path, value: draft[path], change: (value) => put(path, value) });
  const { car } = words;
  const kind = (label, path, options) => oneOf({ label, options, chosen: draft[path] ?? KIND[path], choose: (value) => value !== null && put(path, value) });
  const content = {
    title: car.fresh,
    under: car.freshUnder,
    back: { href: link(), text: words.nav.jobs },
    key: "main new",
    main: [
      told && el("p", { class: "told", role: "alert" }, car.needed),
      field(car.registration, NAMES[0]),
      field(car.make, NAMES[1]),
      field(car.model, NAMES[2]),
      field(car.text, "/complaint/text"),
      anyOf({
        label: car.symptoms,
        options: words.symptoms,
        chosen: draft["/complaint/symptoms"],
        choose: (next) => join("/complaint/symptoms", next),
      }),
      kind(car.device, "/boost_control/device", car.devices),
      kind(car.actuator, "/boost_control/actuator", car.actuators),
    ],
    bar: mainButton({ text: car.open, click: open, key: "open" }),
  };
  return page(content, app.keeper);
}
