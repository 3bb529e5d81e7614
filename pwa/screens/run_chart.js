/** The chart of a logged run: boost and duty over time, one touch to a pull, and the same as a table. */
import { extentOf, LINES, loadCharts, RunChart } from "../drawings/run_chart.js";
import { words } from "../words/words.js";
import { channelText } from "../parts/channels.js";
import { draw, drawing, el } from "../parts/el.js";
import { results } from "../parts/fields.js";
import { button, mainButton, page, section } from "../parts/page.js";
import { listAt } from "../parts/pointer.js";
import { textOf } from "../parts/quantity.js";
import { link } from "../parts/router.js";
import { engineSays } from "../parts/state.js";
import { testPageOf } from "../parts/test_pages.js";
import { rowAt } from "../parts/thinned.js";
import { printNumber } from "../parts/units.js";

const text = words.log.chart;
const names = words.log.channels;
const AROUND_PULL_S = 2;
const ZOOM = 2;
const SHORTEST_VIEW_S = 1;
const KEY_MOVES = 0.25;
const TOUCH_PX = 6;
const IN_TABLE = ["engine_rpm", "boost_request_kpa_abs", "boost_specified_kpa_abs", "boost_actual_kpa_abs", "duty_pct"];

export function runChartScreen(app, job, runId) {
  const view = { shown: undefined, failed: false, chart: null, range: null, cursor: null, Chart: null, drag: null, due: false };

  async function open() {
    try {
      const [shown, Chart] = await Promise.all([app.engine.showRun(job.document, runId), loadCharts()]);
      Object.assign(view, { shown, Chart, range: shown && extentOf(shown) });
    } catch {
      view.failed = true;
    }
    job.repaint();
  }
  /** Once a frame, however often a finger says so. */
  function drawSoon() {
    if (view.due) return;
    view.due = true;
    requestAnimationFrame(() => {
      view.due = false;
      view.chart?.show(view.range, view.cursor);
    });
  }
  function move(from, to) {
    const [first, last] = extentOf(view.shown);
    const length = Math.min(Math.max(to - from, SHORTEST_VIEW_S), last - first);
    const start = Math.min(Math.max(from, first), last - length);
    if (view.range[0] === start && view.range[1] === start + length) return;
    view.range = [start, start + length];
    drawSoon();
  }
  function jump(from, to) {
    move(from, to);
    job.repaint();
  }
  function zoom(factor) {
    const [from, to] = view.range;
    const middle = view.cursor !== null && view.cursor >= from && view.cursor <= to ? view.cursor : (from + to) / 2;
    jump(middle - (middle - from) * factor, middle + (to - middle) * factor);
  }
  const pointer = {
    pointerdown: (event) => {
      if (!view.chart || !event.isPrimary) return;
      event.currentTarget.setPointerCapture(event.pointerId);
      view.drag = { at: event.clientX, range: view.range, far: false };
    },
    pointermove: (event) => {
      if (!view.drag) return;
      const pixels = event.clientX - view.drag.at;
      view.drag.far ||= Math.abs(pixels) > TOUCH_PX;
      if (!view.drag.far) return;
      const seconds = view.chart.secondsIn(pixels);
      move(view.drag.range[0] - seconds, view.drag.range[1] - seconds);
    },
    pointerup: (event) => {
      if (!view.drag) return;
      if (!view.drag.far) view.cursor = view.chart.timeAt(event.clientX);
      view.drag = null;
      drawSoon();
      job.repaint();
    },
    pointercancel: () => {
      view.drag = null;
    },
    keydown: (event) => {
      const [from, to] = view.range ?? [];
      const step = (to - from) * KEY_MOVES;
      const does = { ArrowLeft: () => jump(from - step, to - step), ArrowRight: () => jump(from + step, to + step), "+": () => zoom(1 / ZOOM), "-": () => zoom(ZOOM) }[event.key];
      if (!does || !view.chart) return;
      event.preventDefault();
      does();
    },
  };
  function painted(root) {
    const place = root.querySelector(".run-chart");
    if (!place || !view.shown || place.firstElementChild) return;
    const canvas = place.appendChild(document.createElement("canvas"));
    view.chart = new RunChart(view.Chart, canvas, view.shown, job.unit, { seconds: text.seconds, pressure: text.pressure(job.unit), duty: text.duty });
    view.chart.show(view.range, view.cursor);
  }
  open();
  return { build: () => build(app, job, runId, { ...view, pointer, jump, zoom }), painted, leave: () => view.chart?.end() };
}

function build(app, job, runId, view) {
  const number = listAt(job.document, "/tests/road").findIndex(({ id }) => id === runId) + 1;
  const content = {
    title: text.title(number),
    back: { href: link("job", job.id, "road", runId), text: words.tests.road.run(number) },
    key: `main chart ${runId}`,
    main: view.shown ? course(job, view) : [instead(app, view)],
    bar: view.shown ? pullBar(view) : mainButton({ text: words.tests.road.run(number), href: link("job", job.id, "road", runId) }),
  };
  return page(content, app.keeper);
}

function instead(app, { failed, shown }) {
  if (failed) return el("p", { class: "told", role: "alert" }, text.notHere);
  if (shown === null) return el("p", { class: "told", role: "alert" }, text.notHere, " ", text.empty);
  return el("p", { class: "hint", role: "status" }, text.waits, " ", app.engineState.state === "ready" ? null : engineSays(app.engineState));
}

function course(job, view) {
  const { shown, range, pointer } = view;
  const [from, to] = range.map((when) => printNumber(when, 0, 1));
  const about = text.picture(shown.pulls.length, from, to);
  return [
    el("div", { class: "run-chart", key: "run chart", role: "group", tabindex: "0", "aria-label": about, "aria-keyshortcuts": "ArrowLeft ArrowRight + -", "data-opaque": true, on: pointer }),
    readOut(job, view),
    el("div", { class: "row" }, button(text.closer, () => view.zoom(1 / ZOOM), { key: "closer" }), button(text.wider, () => view.zoom(ZOOM), { key: "wider" })),
    legend(shown),
    el("p", { class: "hint" }, text.pan, " ", text.keys),
    shown.pulls.length ? null : el("p", { class: "told" }, text.noPulls),
    shown.unplaced > 0 && el("p", { class: "told" }, text.unplaced(shown.unplaced)),
    table(job, shown),
    results(job, testPageOf("road").checks),
  ];
}

/** The values where the chart was touched. */
function readOut(job, { shown: { channels }, cursor }) {
  const says = cursor === null ? [] : valuesAt(channels, cursor).map(([name, value]) => `${names[name]} ${channelText(name, value, job.unit)}`);
  const when = cursor === null ? [] : [text.at(printNumber(cursor, 1, 1))];
  return el("p", { class: "read-out", role: "status", key: "read out" }, [...when, ...says].join(" \u00b7 "));
}

function valuesAt(channels, when) {
  const after = Math.min(rowAt(channels.t_s, when), channels.t_s.length - 1);
  const before = Math.max(0, after - 1);
  const row = when - channels.t_s[before] < channels.t_s[after] - when ? before : after;
  return [...Object.keys(LINES), "engine_rpm"].filter((name) => channels[name] && !Number.isNaN(channels[name][row])).map((name) => [name, channels[name][row]]);
}

function legend({ channels, gauges, pulls }) {
  const lines = Object.entries(LINES).filter(([name]) => channels[name]).map(([name, line]) => sample(names[name], stroke(line)));
  const hasGauge = gauges.some(({ at }) => at !== "control_line");
  return el(
    "ul",
    { class: "legend" },
    lines,
    hasGauge && sample(text.gauge, ring()),
    pulls.length > 0 && sample(text.shaded, draw("rect", { x: 2, y: 1, width: 40, height: 18, class: "shaded" })),
    pulls.some(({ judged }) => judged) && sample(text.settled, draw("rect", { x: 2, y: 7, width: 40, height: 5, class: "settled" })),
  );
}

function sample(name, ...marks) {
  return el("li", {}, drawing(44, 20, marks), el("span", {}, name));
}

function stroke({ colour, width, dash }) {
  return draw("path", { d: "M1 10 H43", class: `stroke-${colour}`, "stroke-width": width, "stroke-dasharray": dash.join(" ") || null });
}

function ring() {
  return [draw("path", { d: "M22 1 V19 M17 1 H27 M17 19 H27", class: "stroke-broken", "stroke-width": 2 }), draw("circle", { cx: 22, cy: 10, r: 5, class: "stroke-broken ring", "stroke-width": 3 })];
}

function pullBar({ shown, jump }) {
  const { t_s: times } = shown.channels;
  const [first, last] = extentOf(shown);
  const around = ({ start, end }) => [Math.max(times[start] - AROUND_PULL_S, first), Math.min(times[end] + AROUND_PULL_S, last)];
  const toPull = (pull) => button(text.pull(pull.number), () => jump(...around(pull)), { key: `to pull ${pull.number}` });
  return el("div", { class: "row pull-bar" }, shown.pulls.map(toPull), button(text.whole, () => jump(...extentOf(shown)), { key: "whole run" }));
}

function table(job, { pulls, gauges, channels }) {
  const columns = IN_TABLE.filter((name) => channels[name]);
  const head = [text.head.pull, text.head.time, ...columns.map((name) => names[name]), text.head.gauge];
  const rows = pulls.map((pull) => pullRow(job, pull, columns, { gauges, times: channels.t_s }));
  return el(
    "details",
    { key: "as a table" },
    el("summary", {}, text.table),
    pulls.length ? el("div", { class: "wide-table", tabindex: "0", role: "region", "aria-label": text.caption }, tableOf(text.caption, head, rows)) : el("p", {}, text.noPulls),
    gauges.length > 0 && section(text.gauges, el("ul", { class: "items" }, gauges.map((gauge) => gaugeRow(job, gauge)))),
  );
}

function tableOf(caption, head, rows) {
  return el("table", {}, el("caption", {}, caption), el("thead", {}, el("tr", {}, head.map((name) => el("th", { scope: "col" }, name)))), el("tbody", {}, rows));
}

function pullRow(job, { number, start, judged, values }, columns, { gauges, times }) {
  const cell = (name) => el("td", {}, values[name] === undefined ? words.none : channelText(name, values[name], job.unit));
  const read = gauges.filter(({ pull, at }) => pull === number && at !== "control_line").map((gauge) => gaugeText(job, gauge));
  return el(
    "tr",
    {},
    el("th", { scope: "row" }, text.pull(number)),
    el("td", {}, `${printNumber(times[start], 0, 1)} ${text.seconds}`),
    judged ? columns.map(cell) : el("td", { colspan: String(columns.length) }, text.notSettled),
    el("td", {}, read.join(", ") || words.none),
  );
}

function gaugeText(job, { at, kpa, expanded }) {
  const kind = at === "control_line" ? "pressure" : "pressureAbsolute";
  return `${textOf(kind, kpa, job.unit)} \u00b1 ${textOf("pressure", expanded, job.unit)}`;
}

function gaugeRow(job, gauge) {
  const where = gauge.at === "control_line" ? text.control : text.head.gauge;
  return el("li", {}, el("span", {}, `${text.at(printNumber(gauge.t_s, 1, 1))} \u00b7 ${where}`), el("span", { class: "aside" }, gaugeText(job, gauge)));
}
