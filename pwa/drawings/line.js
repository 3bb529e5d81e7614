/**
 * The drawing of the air line, from data. Shape first: not examined an outlined tube, within a filled one, undecided a
 * dashed one; outside, the line is broken and its two ends are bent apart.
 */
import { draw } from "../parts/el.js";

const HALF = 5.5;
const BEND = 13;
const GAP = 9;
const INSET = 22;
const OPEN = new Set(["not_examined", "kept", "no_limit"]);

const ink = (d, kind = "ink") => draw("path", { d, class: kind });

/** Everything drawn, for rows that know their place: [{id, x, y, outcome, tubeOutcome, sensor, control}]. */
export function drawLine(rows, height) {
  const main = rows.filter((row) => !row.control);
  const control = rows.filter((row) => row.control);
  const at = (id) => rows.find((row) => row.id === id);
  const x = main[0].x + INSET;
  const stacked = control[0].y > main.at(-1).y;
  const branch = [controlLine(control), stacked ? null : [feed(control[0], at, x), rodTo(control.at(-1), at("turbine").y, x)]];
  return [branch, tubes(main, x, stacked ? main.at(-1).y + main.at(-1).height / 2 : height), cap(x, main[0]), main.map((row) => stationOn(row, x))];
}

function tubes(main, x, end) {
  return main.map((row, index) => {
    const from = index ? (main[index - 1].y + row.y) / 2 : 12;
    const to = index < main.length - 1 ? (row.y + main[index + 1].y) / 2 : end - 2;
    return tube(x, from, to, row.tubeOutcome, row.sensor ? null : row.y);
  });
}

/** A stretch of tube; `breakAt` is where it breaks when it is outside. */
export function tube(x, from, to, outcome, breakAt) {
  if (OPEN.has(outcome)) return ink(`M${x - HALF} ${from}V${to}M${x + HALF} ${from}V${to}`, "wall");
  if (outcome === "undecided") return draw("path", { d: `M${x} ${from}V${to}`, class: "tube part" });
  if (outcome === "within" || breakAt === null) return draw("path", { d: `M${x} ${from}V${to}`, class: outcome === "outside" ? "tube broken" : "tube" });
  const [upper, lower] = [breakAt - GAP, breakAt + GAP];
  return [
    ink(`M${x} ${from}V${upper - BEND}Q${x} ${upper} ${x - BEND} ${upper + 2}`, "tube broken"),
    ink(`M${x} ${to}V${lower + BEND}Q${x} ${lower} ${x + BEND} ${lower - 2}`, "tube broken"),
  ];
}

function cap(x, { y }) {
  return ink(`M${x - 10} ${y - 30}h20M${x - 10} ${y - 25}h20M${x - 10} ${y - 20}h20`);
}

const SYMBOL = { compressor: wheel, turbine: wheel, cooler: fins, throttle: plate, engine: block };

function stationOn(row, x) {
  const broken = row.outcome === "outside" && !row.sensor;
  const symbol = broken ? null : SYMBOL[row.id]?.(x, row.y);
  const vanes = symbol && row.id === "turbine" && row.kind?.device === "variable_geometry" ? vaneRing(x, row.y) : null;
  return [symbol, vanes, probe(row, x, vanes ? 23 : symbol ? 19 : HALF)];
}

/** Where the gauge or probe hangs: a wire to a sensor, a stub elsewhere. A sensor that lies has a broken wire. */
function probe({ outcome, y, sensor }, x, from) {
  const end = x + 27;
  if (outcome === "outside" && !sensor) return null;
  if (outcome === "outside") return [ink(`M${x + from} ${y}h6l3 -7M${end - 1} ${y}h-6l-3 7`, "ink hot"), draw("circle", { cx: end + 4, cy: y, r: 5, class: "dot hot" })];
  const kind = OPEN.has(outcome) ? "dot" : outcome === "undecided" ? "dot half" : "dot full";
  return [ink(`M${x + from} ${y}H${end}`), draw("circle", { cx: end + 4, cy: y, r: 5, class: kind })];
}

function wheel(x, y) {
  const blades = [0, 72, 144, 216, 288].map((turn) => draw("path", { d: `M${x} ${y}q7 -5 4 -13`, class: "blade", transform: `rotate(${turn} ${x} ${y})` }));
  return [draw("circle", { cx: x, cy: y, r: 17, class: "shape blue" }), blades];
}

function fins(x, y) {
  const lines = [-12, -4, 4, 12].map((step) => `M${x + step} ${y - 12}v24`).join("");
  return [draw("rect", { x: x - 19, y: y - 12, width: 38, height: 24, class: "shape blue" }), ink(lines, "blade")];
}

function plate(x, y) {
  return [draw("circle", { cx: x, cy: y, r: 12, class: "shape" }), ink(`M${x - 7} ${y - 7}l14 14`)];
}

function block(x, y) {
  return [draw("rect", { x: x - 17, y: y - 13, width: 34, height: 26, rx: 2, class: "shape" }), ink(`M${x - 9} ${y - 13}v15h18v-15M${x} ${y + 2}v11`)];
}

/** The vanes round the turbine's wheel. */
function vaneRing(x, y) {
  return [0, 45, 90, 135, 180, 225, 270, 315].map((turn) => draw("path", { d: `M${x - 4} ${y - 22}l8 4`, class: "blade", transform: `rotate(${turn} ${x} ${y})` }));
}

/** The places of the control line one below the other, with what lies between them. */
function controlLine(control) {
  const x = control[0].x + INSET;
  return control.map((row, at) => [at > 0 && tube(x, control[at - 1].y + 20, row.y - 20, row.outcome, null), CONTROL[row.id](x, row)]);
}

const CONTROL = { vacuum: rotor, solenoid: valve, actuator: can, motor };

/** What drives it: boost from the charge pipe, or the control unit's wire; a pump of its own needs no feed. */
function feed(first, at, mainX) {
  const x = first.x + INSET;
  if (first.id === "solenoid") return run(mainX - HALF, (at("compressor").y + at("cooler").y) / 2, x, first.y - 20, first.outcome);
  if (first.id === "motor") return [ink(`M${x} ${first.y - 20}V${at("throttle").y - 34}`, "ink dashed"), draw("rect", { x: x - 17, y: at("throttle").y - 62, width: 34, height: 28, rx: 2, class: "shape" }), ink(`M${x - 10} ${at("throttle").y - 53}h20M${x - 10} ${at("throttle").y - 44}h12`)];
  return null;
}

/** The rod from the actuator to the crank at the turbine. */
function rodTo(actuator, crank, mainX) {
  const x = actuator.x + INSET;
  return [ink(`M${x} ${actuator.y + 20}V${crank}H${mainX - 17}`, "ink rod"), draw("circle", { cx: x, cy: crank, r: 5, class: "dot" })];
}

/** From the charge pipe along and down to the solenoid. */
function run(fromX, y, x, to, outcome) {
  if (OPEN.has(outcome)) return ink(`M${fromX} ${y - HALF}H${x - HALF}V${to}M${fromX} ${y + HALF}H${x + HALF}V${to}`, "wall");
  return draw("path", { d: `M${fromX} ${y}H${x}V${to}`, class: `tube ${outcome === "undecided" ? "part" : outcome === "outside" ? "broken" : ""}` });
}

/** The engine's vacuum pump, its rotor off the centre; outside, it is torn apart. */
function rotor(x, { y, outcome }) {
  if (outcome === "outside") return tube(x, y - 20, y + 20, "outside", y);
  const tone = OPEN.has(outcome) ? "" : "blue";
  return [draw("circle", { cx: x, cy: y, r: 18, class: `shape ${tone}` }), draw("circle", { cx: x - 4, cy: y, r: 10, class: `shape ${tone}` }), ink(`M${x - 4} ${y}L${x + 14} ${y - 9}M${x - 4} ${y}L${x - 13} ${y + 11}`, `ink ${tone}`)];
}

/** The motor with its cog; outside, its wire is torn. */
function motor(x, { y, outcome }) {
  if (outcome === "outside") return [tube(x, y - 46, y - 4, "outside", y - 26), draw("rect", { x: x - 18, y: y - 2, width: 36, height: 22, rx: 4, class: "shape hot" })];
  const tone = OPEN.has(outcome) ? "" : "blue";
  const cog = [0, 45, 90, 135].map((turn) => draw("path", { d: `M${x} ${y - 12}v24`, class: `ink ${tone}`, transform: `rotate(${turn} ${x} ${y})` }));
  return [draw("rect", { x: x - 18, y: y - 20, width: 36, height: 40, rx: 4, class: `shape ${tone}` }), cog, draw("circle", { cx: x, cy: y, r: 7, class: `shape ${tone}` })];
}

/** The solenoid: a box with its two ways; outside, it is torn apart. */
function valve(x, { y, outcome }) {
  if (outcome === "outside") return tube(x, y - 20, y + 20, "outside", y);
  return [draw("rect", { x: x - 15, y: y - 20, width: 30, height: 40, class: `shape ${OPEN.has(outcome) ? "" : "blue"}` }), ink(`M${x - 15} ${y + 10}L${x + 15} ${y - 10}`)];
}

/** The actuator's can; outside, the line breaks above it. */
function can(x, { y, outcome }) {
  const kind = OPEN.has(outcome) ? "shape" : outcome === "outside" ? "shape hot" : "shape blue";
  const housing = ink(`M${x - 20} ${y + 2}h40l-8 18h-24z`, kind);
  if (outcome === "outside") return [tube(x, y - 46, y + 2, "outside", y - 22), housing];
  return [tube(x, y - 20, y + 2, outcome, null), housing];
}
