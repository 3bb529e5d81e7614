/** Small drawings of our own: what goes where. The words under them say the same. */
import { draw, drawing } from "../parts/el.js";

const LINE = 46;

const stroke = (d, extra = {}) => draw("path", { d, class: "ink", ...extra });
const box = (x, y, width, height) => draw("rect", { x, y, width, height, rx: 2, class: "shape" });
const label = (x, y, text) => draw("text", { x, y, class: "small" }, text);

/** A hand pump: barrel, rod and handle. */
function pump(x) {
  return [stroke(`M${x} ${LINE - 10}v20M${x} ${LINE}h10`), box(x + 10, LINE - 8, 62, 16), stroke(`M${x + 30} ${LINE - 8}v16`)];
}

/** The T-piece with a dial on it. */
function dial(x) {
  return [stroke(`M${x} ${LINE}v-18`), draw("circle", { cx: x, cy: LINE - 29, r: 11, class: "shape" }), stroke(`M${x} ${LINE - 29}l6 -6`, { class: "ink hot" })];
}

/** The diaphragm's housing with its rod. */
function actuator(x) {
  return [stroke(`M${x} ${LINE - 14}h26l8 8v12l-8 8h-26z`, { class: "shape" }), stroke(`M${x + 34} ${LINE}h34`), draw("circle", { cx: x + 73, cy: LINE, r: 5, class: "shape" })];
}

/** A length of tube with both ends open. */
function tube(x, width) {
  return stroke(`M${x} ${LINE - 7}h${width}M${x} ${LINE + 7}h${width}`);
}

function cooler(x) {
  const fins = [14, 26, 38, 50].map((step) => `M${x + step} ${LINE - 16}v32`).join("");
  return [box(x, LINE - 16, 64, 32), stroke(fins)];
}

function plug(x) {
  return [draw("rect", { x, y: LINE - 12, width: 9, height: 24, class: "solid" }), stroke(`M${x + 9} ${LINE}h8`)];
}

/** Hand pump, T-piece with gauge, actuator. */
export function actuatorBench([first, second, third]) {
  return drawing(
    350, 84,
    pump(6), stroke(`M78 ${LINE}h150`), dial(158), actuator(228),
    label(38, 78, first), label(158, 78, second), label(292, 78, third),
  );
}

/** Something that gives air or smoke, T-piece with gauge, cooler, blank. */
export function chargeCircuit([first, second, third], smoke = false) {
  const source = smoke ? [box(10, LINE - 14, 56, 28), stroke(`M24 ${LINE + 5}q5 -7 0 -12M38 ${LINE + 5}q5 -7 0 -12M52 ${LINE + 5}q5 -7 0 -12`)] : pump(0);
  return drawing(
    350, 84,
    source, stroke(`M${smoke ? 66 : 72} ${LINE}h60`), dial(112), tube(132, 48), cooler(180), tube(244, 58), plug(302),
    label(40, 78, first), label(122, 78, second), label(312, 78, third),
  );
}

/** Ohmmeter on the two pins of the solenoid. */
export function coil([first, second, third]) {
  return drawing(
    350, 84,
    box(20, LINE - 22, 66, 40), draw("text", { x: 53, y: LINE + 6, class: "large" }, "\u03a9"),
    stroke(`M86 ${LINE - 12}h94M86 ${LINE + 8}h94`), draw("circle", { cx: 184, cy: LINE - 12, r: 4, class: "solid" }), draw("circle", { cx: 184, cy: LINE + 8, r: 4, class: "solid" }),
    box(216, LINE - 24, 60, 44), stroke(`M188 ${LINE - 12}h28M188 ${LINE + 8}h28M222 ${LINE + 14}l48 -32`), stroke(`M276 ${LINE - 12}h24M276 ${LINE + 8}h24`),
    label(53, 78, first), label(170, 78, second), label(262, 78, third),
  );
}

/** The reader on the car's plug. */
export function reader([first, second, third]) {
  return drawing(
    350, 84,
    box(24, LINE - 28, 44, 54), stroke(`M32 ${LINE - 18}h28M32 ${LINE - 8}h20M32 ${LINE + 2}h24`),
    stroke(`M68 ${LINE}h74`), stroke(`M142 ${LINE - 12}h36l-6 24h-24z`, { class: "shape" }), stroke(`M172 ${LINE}h50`),
    stroke(`M222 ${LINE + 12}v-12l22 -4 18 -18h40l18 18 20 4v12z`, { class: "shape" }),
    draw("circle", { cx: 252, cy: LINE + 14, r: 8, class: "shape" }), draw("circle", { cx: 314, cy: LINE + 14, r: 8, class: "shape" }),
    label(46, 82, first), label(160, 82, second), label(282, 82, third),
  );
}

/** Two hoses into the cabin: the charge circuit and the control line. */
export function cabin([first, second, third]) {
  return drawing(
    350, 84,
    tube(8, 92), stroke(`M54 ${LINE - 7}v-18h150`), draw("path", { d: "M130 64h40v-24h34", class: "ink" }), stroke(`M108 64h22M108 58v12`),
    draw("circle", { cx: 216, cy: 21, r: 12, class: "shape" }), stroke("M216 21l7 -6", { class: "ink hot" }),
    draw("circle", { cx: 216, cy: 44, r: 12, class: "shape" }), stroke("M216 44l-6 -6", { class: "ink hot" }),
    stroke("M250 62v-30q0 -12 12 -14l30 -6q12 0 20 16l12 34z", { class: "shape" }), stroke("M268 62v-18h18v18"),
    label(50, 78, first), label(160, 78, second), label(292, 78, third),
  );
}

/** The inlet with the wheel in it and an indicator on the shaft's nose. */
export function inlet([first, second, third]) {
  const blades = [0, 60, 120, 180, 240, 300].map((turn) => draw("path", { d: `M170 ${LINE - 6}q8 -8 4 -20`, class: "ink", transform: `rotate(${turn} 170 ${LINE - 6})` }));
  return drawing(
    350, 84,
    stroke("M40 14h44l46 14M40 66h44l46 -14"), draw("circle", { cx: 170, cy: LINE - 6, r: 30, class: "shape" }), blades, draw("circle", { cx: 170, cy: LINE - 6, r: 5, class: "solid" }),
    stroke(`M176 ${LINE - 6}h92`), draw("circle", { cx: 284, cy: LINE - 6, r: 16, class: "shape" }), stroke(`M284 ${LINE - 6}l8 -8`, { class: "ink hot" }),
    label(60, 82, first), label(170, 83, second), label(284, 78, third),
  );
}

/** A torch along the line of the air. */
export function torch() {
  return drawing(
    350, 70,
    stroke("M14 28h40l12 -8v32l-12 -8h-40z", { class: "shape" }), stroke("M74 24l30 -10M76 36h34M74 48l30 10"),
    stroke("M130 28h60M130 42h60M280 28h56M280 42h56"), draw("circle", { cx: 210, cy: 35, r: 18, class: "shape" }), stroke("M228 28h14M228 42h14M254 28h26M254 42h26"), stroke("M240 22v26M256 22v26"),
  );
}
