/** Smoke: seen or not, and where it comes out. */
import { words } from "../words/words.js";
import { oneOf } from "../parts/chips.js";
import { el } from "../parts/el.js";
import { yesNo } from "../parts/fields.js";
import { textField } from "../parts/inputs.js";
import { button, mainButton, section } from "../parts/page.js";
import { listAt } from "../parts/pointer.js";
import { testPage } from "../parts/test_page.js";

const text = words.tests.smoke;
const PLACES = "/tests/smoke/places";

export function smokeScreen(app, job) {
  const place = { where: null, size: null, told: false };
  const change = (values) => {
    Object.assign(place, { told: false }, values);
    app.repaint();
  };
  const add = async () => {
    if (!place.where) return change({ told: true });
    const { where, size } = place;
    await job.keep(where, () => job.handle.add(PLACES, { where, ...(size ? { size } : {}) }));
    return change({ where: null, size: null });
  };
  const build = () => {
    const seen = job.value("/tests/smoke/leak_seen") === true;
    return testPage(job, {
      id: "smoke",
      choices: [yesNo(job, { label: text.seen, path: "/tests/smoke/leak_seen" })],
      after: seen && [found(job), newPlace(place, change, add)],
      bar: seen && place.where ? mainButton({ text: text.add, click: add, key: "keep place" }) : null, // a place chosen is kept first
    });
  };
  return { build };
}

function found(job) {
  const places = listAt(job.document, PLACES);
  if (!places.length) return null;
  return section(text.places, el("ul", { class: "items" }, places.map((place) => foundPlace(job, place))));
}

function foundPlace(job, { id, where, size }) {
  const size_word = text.sizes.find(([value]) => value === size)?.[1];
  const drop = () => job.keep(words.page.remove(where), () => job.handle.remove(`${PLACES}/${id}`));
  return el(
    "li",
    { key: id },
    el("span", {}, [where, size_word].filter(Boolean).join(": ")),
    button("\u2715", drop, { label: words.page.remove(where), key: `drop ${id}`, kind: "small" }),
  );
}

function newPlace(place, change, add) {
  return section(
    text.where,
    oneOf({ label: text.usualPlaces, options: text.usual.map((where) => [where, where]), chosen: place.where, choose: (where) => change({ where }) }),
    textField({ label: text.whereHint, key: "smoke where", value: place.where, change: (where) => change({ where }), each: (where) => change({ where }) }),
    oneOf({ label: text.size, options: text.sizes, chosen: place.size, choose: (size) => change({ size }) }),
    place.told && el("p", { class: "told", role: "alert" }, text.needPlace),
    !place.where && button(text.add, add, { key: "add place" }),
  );
}
