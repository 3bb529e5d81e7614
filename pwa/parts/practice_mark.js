/** On every page of a practice car: what it is, and the way to make it a job of one's own. */
import { takeCar } from "../store/workbook.js";
import { words } from "../words/words.js";
import { el } from "./el.js";
import { button } from "./page.js";
import { go } from "./router.js";

const text = words.practice;

/** A screen with the mark of practice beneath its heading; the offer stands on the car's first page. */
export function marked(app, job, screen, isHome) {
  const take = async () => {
    const id = await app.keeper.keep(null, text.kept, async () => takeCar(await app.guide.open(), job.id, app.workbook));
    if (id) go("job", id);
  };
  const offer = () => [el("p", { class: "hint" }, text.keepSays), button(text.keep, take, { key: "take car" })];
  const build = () => {
    const built = screen.build();
    built.querySelector("main").prepend(el("p", { class: "practice-mark", key: "practice" }, text.mark));
    if (isHome) built.querySelector("main").append(el("section", { key: "take car" }, offer()));
    return built;
  };
  return { ...screen, build };
}
