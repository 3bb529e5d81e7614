/** What the drawings of the benches are put together from; all of it hangs on one line. */
import { draw, drawing } from "../parts/el.js";

/** The height at which the line of a bench runs. */
export const LINE = 44;

export const stroke = (d, extra = {}) => draw("path", { d, class: "ink", ...extra });
export const box = (x, y, width, height) => draw("rect", { x, y, width, height, rx: 2, class: "shape" });
export const ring = (x, y, r) => draw("circle", { cx: x, cy: y, r, class: "shape" });
export const point = (x, y, r = 4) => draw("circle", { cx: x, cy: y, r, class: "solid" });

/** The drawing with its words beneath, each under what it names. */
export const bench = (parts, places, ...shapes) =>
  drawing(350, 98, shapes, parts.map((word, at) => draw("text", { x: places[at], y: 92, class: "small" }, word)));

/** A hand pump: barrel, rod and handle; one for vacuum is drawn out, its piston at the far end. */
export function pump(x, vacuum = false) {
  const piston = vacuum ? 58 : 30;
  return [stroke(`M${x} ${LINE - 10}v20M${x} ${LINE}h10`), box(x + 10, LINE - 8, 62, 16), stroke(`M${x + piston} ${LINE - 8}v16`), vacuum && arrow(x + 34, LINE - 17, -1)];
}

/** A short arrow along the line: which way something goes. */
export function arrow(x, y, direction) {
  return stroke(`M${x - 9 * direction} ${y}h${18 * direction}m${-6 * direction} -5l${6 * direction} 5l${-6 * direction} 5`, { class: "ink hot" });
}

/** The T-piece with a dial on it; below the atmosphere its needle leans the other way. */
export function dial(x, vacuum = false) {
  return [stroke(`M${x} ${LINE}v-18`), ring(x, LINE - 29, 11), stroke(`M${x} ${LINE - 29}l${vacuum ? -6 : 6} -6`, { class: "ink hot" })];
}

/** The diaphragm's housing with its rod: pushed out by pressure, drawn in by vacuum, and what the rod moves. */
export function actuator(x, { actuator: driven = "pressure", device = "wastegate" } = {}) {
  const vacuum = driven === "vacuum";
  return [
    stroke(`M${x} ${LINE - 14}h26l8 8v12l-8 8h-26z`, { class: "shape" }),
    stroke(`M${x + 34} ${LINE}h34`),
    vacuum && [stroke(`M${x + 17} ${LINE - 10}v20`), arrow(x + 50, LINE - 10, -1)],
    device === "variable_geometry" ? vanes(x + 84, LINE, 16) : draw("circle", { cx: x + 73, cy: LINE, r: 5, class: "shape" }),
  ];
}

/** A ring of vanes round the turbine's wheel. */
export function vanes(x, y, r) {
  const blades = [0, 45, 90, 135, 180, 225, 270, 315].map((turn) =>
    draw("path", { d: `M${x - 4} ${y - r - 2}l8 6`, class: "ink", transform: `rotate(${turn} ${x} ${y})` }));
  return [ring(x, y, r - 7), blades];
}

/** A length of tube with both ends open. */
export function tube(x, width) {
  return stroke(`M${x} ${LINE - 7}h${width}M${x} ${LINE + 7}h${width}`);
}

export function cooler(x) {
  const fins = [14, 26, 38, 50].map((step) => `M${x + step} ${LINE - 16}v32`).join("");
  return [box(x, LINE - 16, 64, 32), stroke(fins)];
}

export function plug(x) {
  return [draw("rect", { x, y: LINE - 12, width: 9, height: 24, class: "solid" }), stroke(`M${x + 9} ${LINE}h8`)];
}

/** A round gauge on a stub, its needle standing. */
export function gaugeOn(x, y = LINE - 7) {
  return [stroke(`M${x} ${y}v-11`), ring(x, y - 22, 11), stroke(`M${x} ${y - 22}l6 -6`, { class: "ink hot" })];
}

export function wheel(x, y, r) {
  const blades = [0, 60, 120, 180, 240, 300].map((turn) => draw("path", { d: `M${x} ${y}q${r / 4} ${-r / 4} ${r / 8} ${-r * 0.65}`, class: "ink", transform: `rotate(${turn} ${x} ${y})` }));
  return [ring(x, y, r), blades];
}

/** The engine's vacuum pump: a rotor off its centre, with its vanes. */
export function rotor(x, y, r) {
  return [ring(x, y, r), ring(x - r * 0.22, y, r * 0.55), stroke(`M${x - r * 0.22} ${y}L${x + r * 0.8} ${y - r * 0.5}M${x - r * 0.22} ${y}L${x - r * 0.75} ${y + r * 0.62}`)];
}
