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
  const [solenoid, actuator] = rows.filter((row) => row.control);
  const at = (id) => rows.find((row) => row.id === id);
  const x = main[0].x + INSET;
  const stacked = solenoid.y > main.at(-1).y;
  const branch = stacked ? stackedBranch(solenoid, actuator) : sideBranch(solenoid, actuator, at, x);
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
  return [symbol, probe(row, x, symbol ? 19 : HALF)];
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

/** The control line beside the air line: from the compressor to solenoid and actuator, its rod to the turbine. */
function sideBranch(solenoid, actuator, at, mainX) {
  const x = solenoid.x + INSET;
  const [compressor, cooler, turbine] = ["compressor", "cooler", "turbine"].map(at);
  const top = (compressor.y + cooler.y) / 2;
  const crank = turbine.y;
  return [
    run(mainX - HALF, top, x, solenoid.y - 20, solenoid.outcome),
    tube(x, solenoid.y + 20, actuator.y - 20, actuator.outcome, null),
    valve(x, solenoid),
    can(x, actuator),
    ink(`M${x} ${actuator.y + 20}V${crank}H${mainX - 17}`, "ink rod"),
    draw("circle", { cx: x, cy: crank, r: 5, class: "dot" }),
  ];
}

/** From the charge pipe along and down to the solenoid. */
function run(fromX, y, x, to, outcome) {
  if (OPEN.has(outcome)) return ink(`M${fromX} ${y - HALF}H${x - HALF}V${to}M${fromX} ${y + HALF}H${x + HALF}V${to}`, "wall");
  return draw("path", { d: `M${fromX} ${y}H${x}V${to}`, class: `tube ${outcome === "undecided" ? "part" : outcome === "outside" ? "broken" : ""}` });
}

function stackedBranch(solenoid, actuator) {
  const x = solenoid.x + INSET;
  return [tube(x, solenoid.y + 20, actuator.y - 20, actuator.outcome, null), valve(x, solenoid), can(x, actuator)];
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
