/** Travel of the rod against pressure: rising full, falling dashed, the allowed start as a band. */
import { draw, drawing } from "../parts/el.js";
import { fromKpa, printNumber } from "../parts/units.js";

const [LEFT, RIGHT, TOP, BOTTOM] = [36, 340, 12, 150];

/** @param rows [{p_kpa, travel_mm, direction}], `start` the limit of the first movement or nothing */
export function travelPlot(rows, { start, unit, labels }) {
  const read = rows.filter(({ p_kpa: kpa, travel_mm: mm }) => Number.isFinite(kpa) && Number.isFinite(mm));
  const scale = scaleOf(read);
  return drawing(350, 184, start && band(start, scale, labels), axes(scale, unit), ["rising", "falling"].map((way) => run(read, way, scale)));
}

function scaleOf(rows) {
  const most = { kpa: Math.max(20, ...rows.map(({ p_kpa: kpa }) => Math.abs(kpa))), mm: Math.max(1, ...rows.map(({ travel_mm: mm }) => mm)) };
  return {
    ...most,
    x: (kpa) => LEFT + ((RIGHT - LEFT) * Math.min(Math.abs(kpa), most.kpa)) / most.kpa,
    y: (mm) => BOTTOM - ((BOTTOM - TOP) * mm) / most.mm,
  };
}

function axes(scale, unit) {
  const label = (x, y, text, kind) => draw("text", { x, y, class: `small ${kind}` }, text);
  return [
    draw("path", { d: `M${LEFT} ${TOP}V${BOTTOM}H${RIGHT}`, class: "ink" }),
    label(LEFT - 6, TOP + 6, printNumber(scale.mm, 0, 1), "end"),
    label(LEFT - 6, BOTTOM - 2, "mm", "end"),
    label(LEFT, BOTTOM + 18, "0", "start"),
    label(RIGHT, BOTTOM + 18, `${printNumber(fromKpa(scale.kpa, unit), 0, 1)} ${unit}`, "end"),
  ];
}

function band({ min = 0, max }, scale, { start: word }) {
  const [from, to] = [scale.x(min), scale.x(max ?? scale.kpa)].sort((one, other) => one - other);
  return [
    draw("rect", { x: from, y: TOP, width: Math.max(to - from, 2), height: BOTTOM - TOP, class: "allowed-band" }),
    draw("text", { x: (from + to) / 2, y: BOTTOM + 18, class: "small" }, word),
  ];
}

function run(rows, way, scale) {
  const points = rows.filter(({ direction }) => direction === way).sort((one, other) => Math.abs(one.p_kpa) - Math.abs(other.p_kpa)).map(({ p_kpa: kpa, travel_mm: mm }) => [scale.x(kpa), scale.y(mm)]);
  if (!points.length) return null;
  return [
    draw("path", { d: `M${points.map((point) => point.join(" ")).join("L")}`, class: way === "rising" ? "ink" : "ink dashed" }),
    points.map(([cx, cy]) => draw("circle", { cx, cy, r: 3.5, class: "dot" })),
  ];
}
