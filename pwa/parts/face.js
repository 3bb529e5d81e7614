/** The face: the job's own gauge drawn white on paper; touch it where the real needle stands. */
import { words } from "../words/words.js";
import { draw } from "./el.js";
import { fromKpa, printNumber } from "./units.js";

const MIDDLE = 100;
const RADIUS = 92;
const START_DEG = 225;
const SWEEP_DEG = 270;

/** A dial of an analogue gauge with the needle at `kpa` (or none), a limit as a band, and `take(kpa)` on touch. */
export function face({ gauge, kpa, limit, unit, take }) {
  const scale = scaleOf(gauge);
  const touch = (event) => take(valueUnder(event, gauge));
  const begin = (event) => {
    event.currentTarget.setPointerCapture(event.pointerId);
    touch(event);
  };
  return draw(
    "svg",
    { viewBox: "0 0 200 200", class: "face", "aria-hidden": "true", key: "face", on: { pointerdown: begin, pointermove: dragging(touch) } },
    draw("circle", { cx: MIDDLE, cy: MIDDLE, r: RADIUS, class: "rim" }),
    limit && band(limit, scale, gauge),
    marks(gauge, scale, unit),
    draw("text", { x: MIDDLE, y: 142, class: "face-unit" }, unit),
    gauge.class_pct && draw("text", { x: MIDDLE, y: 164, class: "face-class" }, words.gauges.classOf(printNumber(gauge.class_pct))),
    Number.isFinite(kpa) && needle(scale(kpa)),
    draw("circle", { cx: MIDDLE, cy: MIDDLE, r: 5, class: "hub" }),
  );
}

function scaleOf({ span_kpa: [low, high] }) {
  return (kpa) => START_DEG - (SWEEP_DEG * (Math.min(Math.max(kpa, low), high) - low)) / (high - low);
}

function point(degrees, radius) {
  const angle = (degrees * Math.PI) / 180;
  return [MIDDLE + radius * Math.cos(angle), MIDDLE - radius * Math.sin(angle)];
}

function marks({ span_kpa: [low, high], division_kpa: division }, scale, unit) {
  const count = Math.round((high - low) / division);
  const every = largeEvery(count, fromKpa(division, unit));
  const all = Array.from({ length: count + 1 }, (_, index) => low + index * division);
  const large = all.filter((_, index) => index % every === 0);
  return [
    draw("path", { d: all.map((kpa) => tick(scale(kpa), 9)).join(""), class: "tick" }),
    draw("path", { d: large.map((kpa) => tick(scale(kpa), 15)).join(""), class: "tick large" }),
    large.map((kpa) => number(scale(kpa), kpa, unit)),
  ];
}

/** After how many divisions a number stands: a round step in the unit shown where there is one, five or six in all. */
function largeEvery(count, division) {
  const power = 10 ** Math.floor(Math.log10((count * division) / 5));
  const steps = [1, 2, 2.5, 5, 10].map((one) => (one * power) / division);
  const fits = (step) => Math.abs(step - Math.round(step)) < 1e-6 && count / step <= 6;
  return Math.round(steps.find(fits) ?? Math.max(1, count / 4));
}

function tick(degrees, inwards) {
  const ends = [RADIUS - 3, RADIUS - inwards].map((radius) => point(degrees, radius).map((at) => at.toFixed(1)).join(" "));
  return `M${ends[0]}L${ends[1]}`;
}

function number(degrees, kpa, unit) {
  const [x, y] = point(degrees, RADIUS - 27);
  return draw("text", { x, y: y + 5, class: "face-number" }, printNumber(fromKpa(kpa, unit), 0, 2));
}

function band(limit, scale, { span_kpa: [low, high] }) {
  const [x1, y1] = point(scale(limit.min ?? low), RADIUS - 6);
  const [x2, y2] = point(scale(limit.max ?? high), RADIUS - 6);
  return draw("path", { d: `M${x1} ${y1} A${RADIUS - 6} ${RADIUS - 6} 0 0 1 ${x2} ${y2}`, class: "allowed" });
}

function needle(degrees) {
  const [x1, y1] = point(degrees + 180, 14);
  const [x2, y2] = point(degrees, RADIUS - 18);
  return draw("line", { x1, y1, x2, y2, class: "needle" });
}

function dragging(touch) {
  return (event) => event.buttons && touch(event);
}

function valueUnder(event, { span_kpa: [low, high], division_kpa: division }) {
  const box = event.currentTarget.getBoundingClientRect();
  const scale = 200 / box.width;
  const [x, y] = [(event.clientX - box.left) * scale - MIDDLE, MIDDLE - (event.clientY - box.top) * scale];
  const turned = (START_DEG - (Math.atan2(y, x) * 180) / Math.PI + 360) % 360;
  const share = turned > SWEEP_DEG + (360 - SWEEP_DEG) / 2 ? 0 : Math.min(turned / SWEEP_DEG, 1);
  const half = division / 2;
  return low + Math.round((share * (high - low)) / half) * half;
}
