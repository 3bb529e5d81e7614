/** The cars to practise with: a list, brought on the first visit, and put back as they were when wanted. */
import { bringCars, carsIn } from "../store/workbook.js";
import { words } from "../words/words.js";
import { carName, carUnder } from "../parts/car.js";
import { el } from "../parts/el.js";
import { button, mainButton, page } from "../parts/page.js";
import { link } from "../parts/router.js";

const text = words.practice;

export function practiceScreen(app) {
  const state = { practice: null, failed: false };
  const bring = async () => {
    state.failed = await bringCars(state.practice).then(() => false, () => true);
    app.repaint();
  };
  app.guide.open().then((practice) => {
    state.practice = practice;
    return carsIn(practice).length ? app.repaint() : bring();
  });
  return { build: () => build(app, state, bring) };
}

function build(app, { practice, failed }, bring) {
  const cars = practice ? carsIn(practice).map((id) => practice.job(id)) : [];
  const content = {
    title: text.title,
    under: text.says,
    back: { href: link(), text: words.nav.jobs },
    key: "main practice",
    main: [
      failed && el("p", { class: "told", role: "alert" }, text.failed),
      el("ul", { class: "jobs", "aria-label": text.title }, cars.map(row)),
      cars.length > 0 && button(text.fresh, bring, { key: "fresh cars" }),
    ],
    bar: cars.length || !failed ? mainButton({ text: words.nav.jobs, href: link() }) : mainButton({ text: text.bring, click: bring }),
  };
  return page(content, app.keeper);
}

function row({ id, document }) {
  return el(
    "li",
    { key: id },
    el("a", { href: link("job", id) }, el("span", { class: "name" }, carName(document)), el("span", { class: "aside" }, carUnder(document))),
  );
}
