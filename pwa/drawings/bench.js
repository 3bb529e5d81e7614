/** Small drawings of our own: what goes where. The words under them say the same. */
import { draw, drawing } from "../parts/el.js";

const LINE = 44;

const stroke = (d, extra = {}) => draw("path", { d, class: "ink", ...extra });
const box = (x, y, width, height) => draw("rect", { x, y, width, height, rx: 2, class: "shape" });
const ring = (x, y, r) => draw("circle", { cx: x, cy: y, r, class: "shape" });

/** The drawing with its three words beneath, each under what it names. */
const bench = (parts, places, ...shapes) =>
  drawing(350, 98, shapes, parts.map((word, at) => draw("text", { x: places[at], y: 92, class: "small" }, word)));

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

/** A round gauge on a stub, its needle standing. */
function gaugeOn(x, y = LINE - 7) {
  return [stroke(`M${x} ${y}v-11`), ring(x, y - 22, 11), stroke(`M${x} ${y - 22}l6 -6`, { class: "ink hot" })];
}

function wheel(x, y, r) {
  const blades = [0, 60, 120, 180, 240, 300].map((turn) => draw("path", { d: `M${x} ${y}q${r / 4} ${-r / 4} ${r / 8} ${-r * 0.65}`, class: "ink", transform: `rotate(${turn} ${x} ${y})` }));
  return [ring(x, y, r), blades];
}

/** Hand pump, T-piece with gauge, actuator. */
export function actuatorBench(parts) {
  return bench(parts, [44, 158, 276], pump(6), stroke(`M78 ${LINE}h150`), dial(158), actuator(228));
}

/** Hand pump, T-piece with gauge, actuator with a rule along its rod. */
export function actuatorTravel(parts) {
  const rule = [0, 8, 16, 24, 32, 40].map((step) => `M${264 + step} ${LINE + 14}v${step % 16 ? 4 : 7}`).join("");
  return bench(parts, [44, 158, 290], pump(6), stroke(`M78 ${LINE}h150`), dial(158), actuator(228), stroke(`M264 ${LINE + 14}h44${rule}`));
}

/** Something that gives air or smoke, T-piece with gauge, cooler, blank. */
export function chargeCircuit(parts, smoke = false) {
  const source = smoke ? [box(10, LINE - 14, 56, 28), stroke(`M24 ${LINE + 5}q5 -7 0 -12M38 ${LINE + 5}q5 -7 0 -12M52 ${LINE + 5}q5 -7 0 -12`)] : pump(2);
  return bench(parts, [40, 136, 306], source, stroke(`M${smoke ? 66 : 74} ${LINE}h66`), dial(118), tube(138, 44), cooler(182), tube(246, 56), plug(302));
}

/** Ohmmeter on the two pins of the solenoid. */
export function coil(parts) {
  return bench(
    parts, [53, 166, 258],
    box(20, LINE - 22, 66, 40), draw("text", { x: 53, y: LINE + 6, class: "large" }, "\u03a9"),
    stroke(`M86 ${LINE - 12}h94M86 ${LINE + 8}h94`), draw("circle", { cx: 184, cy: LINE - 12, r: 4, class: "solid" }), draw("circle", { cx: 184, cy: LINE + 8, r: 4, class: "solid" }),
    box(216, LINE - 24, 60, 44), stroke(`M188 ${LINE - 12}h28M188 ${LINE + 8}h28M222 ${LINE + 14}l48 -32`), stroke(`M276 ${LINE - 12}h24M276 ${LINE + 8}h24`),
  );
}

/** Regulated air and its gauge, the solenoid, a gauge at the actuator's end of the hose. */
export function solenoidBench(parts) {
  return bench(
    parts, [52, 168, 286],
    box(20, LINE - 12, 44, 24), stroke(`M42 ${LINE - 12}v-8M34 ${LINE - 20}h16`), stroke(`M64 ${LINE}h74`), dial(98),
    box(138, LINE - 22, 60, 44), stroke(`M146 ${LINE + 14}l44 -28`), stroke(`M198 ${LINE}h92`), dial(244), actuator(290).slice(0, 1),
  );
}

/** The reader on the car's plug. */
export function reader(parts) {
  return bench(
    parts, [46, 160, 282],
    box(24, LINE - 30, 44, 54), stroke(`M32 ${LINE - 20}h28M32 ${LINE - 10}h20M32 ${LINE}h24`),
    stroke(`M68 ${LINE}h74`), stroke(`M142 ${LINE - 12}h36l-6 24h-24z`, { class: "shape" }), stroke(`M172 ${LINE}h50`),
    stroke(`M222 ${LINE + 12}v-12l22 -4 18 -18h40l18 18 20 4v12z`, { class: "shape" }), ring(252, LINE + 14, 8), ring(314, LINE + 14, 8),
  );
}

/** Two hoses into the cabin: the charge circuit and the control line. */
export function cabin(parts) {
  return bench(
    parts, [48, 156, 288],
    tube(8, 92), stroke(`M54 ${LINE - 7}v-18h150`), draw("path", { d: "M130 66h40v-24h34", class: "ink" }), stroke("M108 66h22M108 60v12"),
    ring(216, 19, 12), stroke("M216 19l7 -6", { class: "ink hot" }), ring(216, 44, 12), stroke("M216 44l-6 -6", { class: "ink hot" }),
    stroke("M250 66v-30q0 -12 12 -14l30 -6q12 0 20 16l12 34z", { class: "shape" }), stroke("M268 66v-18h18v18"),
  );
}

/** The inlet with the wheel in it and an indicator on the shaft's nose. */
export function inlet(parts) {
  return bench(parts, [60, 170, 284], stroke("M40 12h44l46 14M40 68h44l46 -14"), wheel(170, 40, 30), stroke("M176 40h92"), ring(284, 40, 16), stroke("M284 40l8 -8", { class: "ink hot" }));
}

/** A torch along the line of the air. */
export function torch() {
  return drawing(
    350, 70,
    stroke("M14 28h40l12 -8v32l-12 -8h-40z", { class: "shape" }), stroke("M74 24l30 -10M76 36h34M74 48l30 10"),
    stroke("M130 28h60M130 42h60M280 28h56M280 42h56"), ring(210, 35, 18), stroke("M228 28h14M228 42h14M254 28h26M254 42h26"), stroke("M240 22v26M256 22v26"),
  );
}

/** Filter, gauge, compressor. */
export function intake(parts) {
  return bench(parts, [46, 170, 290], box(14, LINE - 24, 60, 48), stroke(`M26 ${LINE - 24}v48M38 ${LINE - 24}v48M50 ${LINE - 24}v48M62 ${LINE - 24}v48`), tube(74, 186), gaugeOn(170), wheel(290, LINE, 26));
}

/** A gauge on either side of the cooler. */
export function acrossCooler(parts) {
  return bench(parts, [72, 176, 282], tube(14, 130), gaugeOn(72), cooler(144), tube(208, 130), gaugeOn(282));
}

/** Turbine, the gauge at a sensor's boss, the exhaust behind it. */
export function backPressure(parts) {
  return bench(parts, [46, 166, 290], wheel(46, LINE, 26), tube(72, 156), gaugeOn(166), draw("rect", { x: 228, y: LINE - 17, width: 100, height: 34, rx: 15, class: "shape" }), stroke(`M328 ${LINE - 5}h18M328 ${LINE + 5}h18`));
}

/** Hand pump, gauge, the bypass valve with its plate on the seat. */
export function bypass(parts) {
  return bench(
    parts, [44, 158, 276], pump(6), stroke(`M78 ${LINE}h160`), dial(158),
    stroke(`M238 ${LINE - 24}h70v48h-70z`, { class: "shape" }), stroke(`M256 ${LINE - 12}v24`, { class: "ink rod" }), stroke(`M256 ${LINE}h14l4 -8 6 16 6 -16 6 16 4 -8`),
  );
}

/** Two flanges and what escapes between them. */
export function joint(parts) {
  return bench(
    parts, [64, 175, 290], tube(10, 146), tube(194, 146), box(156, LINE - 22, 14, 44), box(180, LINE - 22, 14, 44),
    stroke(`M175 ${LINE - 24}q-6 -8 0 -14M175 ${LINE + 24}q6 6 0 12`, { class: "ink hot" }),
  );
}

/** The recirculation valve between exhaust and intake. */
export function recirculation(parts) {
  return bench(
    parts, [62, 175, 290], tube(10, 130), tube(210, 130), box(140, LINE - 24, 70, 48), stroke(`M175 ${LINE - 34}v34M163 ${LINE}h24`, { class: "ink rod" }), stroke(`M150 ${LINE + 10}h14M186 ${LINE + 10}h14`),
  );
}

/** The plate in its bore, in line with the air. */
export function throttle(parts) {
  return bench(
    parts, [70, 175, 290], stroke(`M54 ${LINE - 22}l18 32M72 ${LINE + 10}l22 8M62 ${LINE + 18}h36`), tube(120, 220),
    ring(180, LINE, 25), stroke(`M158 ${LINE}h44`, { class: "ink rod" }), draw("circle", { cx: 180, cy: LINE, r: 4, class: "solid" }),
  );
}

/** Cylinder with piston, plug and injector's feed. */
export function engine(parts) {
  const cylinder = (x) => [box(x, LINE - 24, 40, 50), stroke(`M${x} ${LINE - 4}h40M${x + 20} ${LINE - 4}v20`)];
  return bench(parts, [60, 175, 290], ring(60, LINE, 20), stroke(`M60 ${LINE}l9 -9`, { class: "ink hot" }), stroke(`M80 ${LINE}h40`), cylinder(120), cylinder(166), cylinder(212), stroke(`M262 ${LINE - 18}h10l-6 16h12l-12 22`), stroke(`M300 ${LINE + 20}v-30M312 ${LINE + 20}v-38M324 ${LINE + 20}v-32`, { class: "ink rod" }));
}

/** The flap on its seat in the housing, seen through a borescope. */
export function gate(parts) {
  return bench(
    parts, [56, 176, 288], stroke(`M12 ${LINE}h76`, { class: "ink rod" }), ring(100, LINE, 12), stroke(`M116 ${LINE - 8}l26 -14M116 ${LINE + 8}l26 14`),
    stroke(`M166 ${LINE - 22}v44`, { class: "ink rod" }), stroke(`M166 ${LINE}l22 -26h26`), ring(214, LINE - 26, 5), stroke(`M232 ${LINE - 30}h100M232 ${LINE + 26}h100M232 ${LINE - 30}v18M232 ${LINE + 26}v-18`),
  );
}
