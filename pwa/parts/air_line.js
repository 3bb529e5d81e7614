/** The air line on the screen: a list anyone can read, and the drawing laid along its rows. */
import { words } from "../words/words.js";
import { drawLine } from "../drawings/line.js";
import { draw, el } from "./el.js";
import { link } from "./router.js";

/** The list with an empty drawing beside it; call `layOut` once it stands in the page. */
export function airLineList(job, stations) {
  return el(
    "div",
    { class: "air-line", key: "air-line" },
    draw("svg", { "aria-hidden": "true", focusable: "false", "data-opaque": true, class: "line" }),
    el("ol", { "aria-label": words.air.listName }, stations.map((station) => row(job, station))),
  );
}

function row(job, station) {
  const inside = [
    el("span", { class: "name" }, station.label),
    el("span", { class: `outcome ${station.outcome}` }, station.says),
  ];
  const kind = station.control ? "control" : "main-line";
  return el(
    "li",
    { class: `station ${kind} at-${station.id}`, key: station.id },
    station.page ? el("a", { href: link("job", job.id, station.page) }, inside) : el("span", { class: "still" }, inside),
  );
}

/** Draw the line along the rows with the next frame, when they are laid out, and again whenever their place changes. */
export function layOut(root, stations) {
  const box = root.querySelector(".air-line");
  if (!box) return;
  box.stations = stations;
  box.watch?.disconnect();
  box.watch = watch(box);
}

function watch(box) {
  const observer = new ResizeObserver(() => drawInto(box));
  observer.observe(box);
  return observer;
}

function drawInto(box) {
  const svg = box.querySelector("svg");
  const frame = box.getBoundingClientRect();
  const rows = box.stations.map((station) => ({ ...station, ...placeOf(box, frame, station) }));
  svg.setAttribute("viewBox", `0 0 ${frame.width} ${frame.height}`);
  svg.setAttribute("width", frame.width);
  svg.setAttribute("height", frame.height);
  svg.replaceChildren(...drawLine(rows, frame.height).flat(Infinity));
}

function placeOf(box, frame, { id }) {
  const item = box.querySelector(`.at-${id}`).getBoundingClientRect();
  return { x: item.left - frame.left, y: item.top - frame.top + item.height / 2, height: item.height };
}
