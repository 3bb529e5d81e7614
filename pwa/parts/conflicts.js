/** Places where two phones wrote different things: both are shown, the technician settles it. */
import { words } from "../words/words.js";
import { el } from "./el.js";
import { button, section } from "./page.js";
import { placeName, valueText } from "./place_words.js";

/** The list of what is to be settled, or nothing. */
export function conflictList(job) {
  const { conflicts } = job.handle;
  if (!conflicts.length) return null;
  return section(words.air.settle, el("p", {}, words.air.settleSays), conflicts.map((conflict) => oneConflict(job, conflict)));
}

function oneConflict(job, { path, shown, others }) {
  const answers = [shown, ...others].map((id) => job.handle.operation(id)).filter(Boolean);
  const different = [...new Map(answers.map((operation) => [JSON.stringify(valueIn(operation, path)), operation])).values()];
  return el(
    "div",
    { class: "told", key: `conflict ${path}` },
    el("p", {}, el("strong", {}, placeName(job, path))),
    different.map((operation) => answer(job, path, operation)),
  );
}

function answer(job, path, operation) {
  const removed = operation.do === "remove";
  const text = removed ? words.air.removed : valueText(job, path, valueIn(operation, path));
  const who = [operation.person, operation.at?.slice(11, 16)].filter(Boolean).join(", ");
  const settle = () => job.keep(placeName(job, path), () => job.handle.settle(path, operation.id));
  return button(words.air.settleTake(who ? `${text} (${who})` : text), settle, { key: `take ${operation.id}` });
}

/** What an operation writes at a place: an added item writes each of its keys. */
function valueIn(operation, path) {
  if (operation.do !== "add" || operation.path === path) return operation.value ?? null;
  return operation.value[path.slice(operation.path.length + 1)] ?? null;
}
