/** The frame of every screen: where one is, what it is about, and the thumb's bar at the bottom. */
import { words } from "../words/words.js";
import { el } from "./el.js";
import { keptText } from "./kept.js";

/**
 * @param {{title: string, under?: string, back?: {href: string, text: string}, main: Node[], bar?: Node|null, left?: string,
 *          kind?: string}} content
 */
export function page(content, keeper) {
  return el("div", { class: content.kind ? `page ${content.kind}` : "page" }, header(content), main(content), bar(content, keeper));
}

function header({ title, under, back }) {
  return el(
    "header",
    { class: "top" },
    back && el("a", { class: "back", href: back.href }, el("span", { "aria-hidden": "true" }, "\u2190 "), back.text),
    el("h1", { tabindex: "-1" }, title),
    under && el("p", { class: "under" }, under),
  );
}

function main({ main: parts, key }) {
  return el("main", { id: "main", key }, parts);
}

function bar({ bar: content, left }, keeper) {
  return el("footer", { class: "bar" }, keptLine(keeper, left), content);
}

/** What became of the last touch; while nothing was touched, what is left to do. */
export function keptLine(keeper, left) {
  const { line } = keeper;
  const canUndo = line.state === "kept" && line.handle;
  return el(
    "div",
    { class: `kept ${line.state}` },
    el("p", { role: line.state === "failed" ? "alert" : "status", "aria-live": "polite" }, line.state === "idle" && left ? left : keptText(line)),
    canUndo && el("button", { type: "button", class: "plain", key: "undo", on: { click: () => keeper.undo() } }, words.kept.undo),
  );
}

/** The one big button: what comes next, and how long it takes. */
export function mainButton({ text, aside, click, href, key = "main" }) {
  const inside = [el("span", {}, text), aside && el("span", { class: "aside" }, aside)];
  if (href) return el("a", { class: "main", href, key }, inside);
  return el("button", { type: "button", class: "main", key, on: { click } }, inside);
}

/** A smaller button beside or inside the page. */
export function button(text, click, { key, label, kind = "second" } = {}) {
  return el("button", { type: "button", class: kind, key, "aria-label": label, on: { click } }, text);
}

/** A heading with what belongs to it. */
export function section(title, ...parts) {
  return el("section", { key: `section ${title}` }, el("h2", {}, title), parts);
}

/** A list of plain sentences. */
export function lines(sentences, kind = "lines") {
  return el("ul", { class: kind }, sentences.map((sentence) => el("li", {}, sentence)));
}
