/** Small drawings of our own, the control of the boost: what goes where, by the kind of the car. */
import { draw } from "../parts/el.js";
import { actuator, arrow, bench, box, dial, LINE, plug, point, pump, ring, rotor, stroke, tube, vanes, wheel } from "./shapes.js";

/** Hand pump, T-piece with gauge, actuator. */
export function actuatorBench(parts, kind) {
  const vacuum = kind.actuator === "vacuum";
  return bench(parts, [44, 158, 276], pump(6, vacuum), stroke(`M78 ${LINE}h150`), dial(158, vacuum), actuator(228, kind));
}

/** Hand pump, T-piece with gauge, actuator with a rule along its rod. */
export function actuatorTravel(parts, kind) {
  const vacuum = kind.actuator === "vacuum";
  const rule = [0, 8, 16, 24, 32, 40].map((step) => `M${264 + step} ${LINE + 14}v${step % 16 ? 4 : 7}`).join("");
  return bench(parts, [44, 158, 290], pump(6, vacuum), stroke(`M78 ${LINE}h150`), dial(158, vacuum), actuator(228, kind), stroke(`M264 ${LINE + 14}h44${rule}`));
}

/** Ohmmeter on the two pins of the solenoid. */
export function coil(parts) {
  return bench(
    parts, [53, 166, 258],
    box(20, LINE - 22, 66, 40), draw("text", { x: 53, y: LINE + 6, class: "large" }, "\u03a9"),
    stroke(`M86 ${LINE - 12}h94M86 ${LINE + 8}h94`), point(184, LINE - 12), point(184, LINE + 8),
    box(216, LINE - 24, 60, 44), stroke(`M188 ${LINE - 12}h28M188 ${LINE + 8}h28M222 ${LINE + 14}l48 -32`), stroke(`M276 ${LINE - 12}h24M276 ${LINE + 8}h24`),
  );
}

/** What feeds the solenoid and its gauge, the solenoid, a gauge at the actuator's end of the hose. */
export function solenoidBench(parts, kind) {
  const vacuum = kind.actuator === "vacuum";
  const source = vacuum ? [rotor(42, LINE, 22)] : [box(20, LINE - 12, 44, 24), stroke(`M42 ${LINE - 12}v-8M34 ${LINE - 20}h16`)];
  return bench(
    parts, [52, 168, 286],
    source, stroke(`M64 ${LINE}h74`), dial(98, vacuum),
    box(138, LINE - 22, 60, 44), stroke(`M146 ${LINE + 14}l44 -28`), stroke(`M198 ${LINE}h92`), dial(244, vacuum), actuator(290, { actuator: kind.actuator }).slice(0, 1),
  );
}

/** The engine's pump, the check valve, the reservoir, and the gauge in the line behind them. */
export function vacuumSupply(parts) {
  const valve = [stroke(`M96 ${LINE - 12}v24l20 -12z`, { class: "shape" }), stroke(`M118 ${LINE - 12}v24`)];
  const reservoir = draw("rect", { x: 158, y: LINE - 20, width: 74, height: 40, rx: 20, class: "shape" });
  return bench(parts, [36, 118, 200, 292], rotor(40, LINE, 24), stroke(`M64 ${LINE}h32M118 ${LINE}h40M232 ${LINE}h84`), valve, reservoir, dial(292, true), plug(316));
}

/** The reader commands, the motor's gear turns its lever, the eye is on the rod. */
export function motor(parts, kind) {
  const cog = [0, 45, 90, 135].map((turn) => draw("path", { d: `M158 ${LINE - 15}v30`, class: "ink", transform: `rotate(${turn} 158 ${LINE})` }));
  const end = kind.device === "variable_geometry" ? vanes(316, LINE, 16) : draw("circle", { cx: 308, cy: LINE, r: 5, class: "shape" });
  return bench(
    parts, [46, 166, 284],
    box(22, LINE - 28, 48, 52), stroke(`M30 ${LINE - 18}h32M30 ${LINE - 8}h20`), stroke(`M70 ${LINE}h42`, { class: "ink dashed" }),
    draw("rect", { x: 112, y: LINE - 26, width: 92, height: 52, rx: 6, class: "shape" }), cog, ring(158, LINE, 9), point(158, LINE, 3),
    stroke(`M112 ${LINE - 8}h-8v16h8`), stroke(`M158 ${LINE}h26M204 ${LINE}h98`, { class: "ink rod" }), end,
    stroke(`M232 ${LINE - 22}q14 -13 28 0q-14 13 -28 0z`), point(246, LINE - 22, 3.5),
  );
}

/** Hoses into the cabin: the charge circuit, and the control line where the car has one. */
export function cabin(parts, { actuator: driven = "pressure" } = {}) {
  const electric = driven === "electric";
  const control = electric ? stroke("M112 74v-10h18v10zM130 68h40v-24h34", { class: "ink dashed" }) : [stroke("M130 66h40v-24h34"), stroke("M108 66h22M108 60v12")];
  const second = electric ? [box(204, 33, 24, 22), stroke("M209 40h14M209 47h9")] : [ring(216, 44, 12), stroke("M216 44l-6 -6", { class: "ink hot" })];
  return bench(
    parts, [48, 156, 288],
    tube(8, 92), stroke(`M54 ${LINE - 7}v-18h150`), control,
    ring(216, 19, 12), stroke("M216 19l7 -6", { class: "ink hot" }), second,
    stroke("M250 66v-30q0 -12 12 -14l30 -6q12 0 20 16l12 34z", { class: "shape" }), stroke("M268 66v-18h18v18"),
  );
}

/** The compressor's outlet straight to the actuator, the solenoid out of it. */
export function fedDirect(parts) {
  return bench(
    parts, [46, 170, 286],
    wheel(46, LINE, 24), stroke(`M70 ${LINE}h164`), dial(112), actuator(234),
    box(150, LINE - 40, 40, 26), stroke(`M156 ${LINE - 18}l28 -18`), stroke(`M140 ${LINE - 27}h10M190 ${LINE - 27}h10`), arrow(170, LINE + 14, 1),
  );
}
