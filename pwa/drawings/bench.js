/** Small drawings of our own, the way of the air: what goes where. The words under them say the same. */
import { draw, drawing } from "../parts/el.js";
import { bench, box, cooler, dial, gaugeOn, LINE, plug, pump, ring, stroke, tube, wheel } from "./shapes.js";

/** Something that gives air, T-piece with gauge, cooler, blank. */
export function chargeCircuit(parts) {
  return circuit(parts, pump(2), 74);
}

/** The same circuit, smoke in it. */
export function smokeCircuit(parts) {
  const puffs = [24, 38, 52].map((x) => `M${x} ${LINE + 5}q5 -7 0 -12`).join("");
  return circuit(parts, [box(10, LINE - 14, 56, 28), stroke(puffs)], 66);
}

function circuit(parts, source, from) {
  return bench(parts, [40, 136, 306], source, stroke(`M${from} ${LINE}h66`), dial(118), tube(138, 44), cooler(182), tube(246, 56), plug(302));
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
