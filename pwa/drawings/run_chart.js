/** A logged run over time on a canvas: boost above, duty below, pulls shaded, gauges with their doubt. */
import { Thinned } from "../parts/thinned.js";
import { fromKpa, printNumber } from "../parts/units.js";

const LIBRARY = "/vendor/chartjs/chart.umd.min.js";
const POINT_EVERY_PX = 2;
const AIR = 0.06; // of the range, above and below
const SHARE_OF_DUTY = 1;
const SHARE_OF_BOOST = 3;

/** How each line is drawn: by dash and width first, then by colour. */
export const LINES = {
  boost_request_kpa_abs: { colour: "ink", width: 3, dash: [2, 7] },
  boost_specified_kpa_abs: { colour: "blue", width: 3, dash: [10, 4] },
  boost_actual_kpa_abs: { colour: "ink", width: 2, dash: [] },
  duty_pct: { colour: "soft", width: 2, dash: [14, 3] },
};
const BOOST = Object.keys(LINES).slice(0, 3);

/** The library is fetched here and nowhere else. */
export async function loadCharts() {
  await import(LIBRARY);
  return globalThis.Chart;
}

/** The colours of the page as it is shown now. */
function palette() {
  const style = getComputedStyle(document.documentElement);
  return Object.fromEntries(["ink", "soft", "blue", "broken", "rule", "paper", "panel"].map((name) => [name, style.getPropertyValue(`--${name}`).trim()]));
}

/** Times at which a run begins and ends. */
export function extentOf({ channels: { t_s: times } }) {
  return [times[0], times.at(-1)];
}

/**
 * @param canvas where to draw
 * @param shown the course of the run (engine.showRun)
 * @param texts {seconds, pressure, duty}
 */
export class RunChart {
  #chart;
  #lines;
  #shown;
  #cursor = null;

  constructor(Chart, canvas, shown, unit, texts) {
    const colours = palette();
    const { channels } = shown;
    this.#shown = shown;
    this.#lines = Object.keys(LINES).filter((name) => channels[name]).map((name) => ({
      name,
      series: new Thinned(channels.t_s, channels[name]),
      scale: BOOST.includes(name) ? fromKpa(1, unit) : 1,
    }));
    const marks = { beforeDatasetsDraw: (chart) => this.#shade(chart, colours), afterDatasetsDraw: (chart) => this.#mark(chart, colours, unit) };
    this.#chart = new Chart(canvas, {
      type: "line",
      data: { datasets: this.#lines.map(({ name }) => dataset(name, colours)) },
      options: options(colours, this.#ranges(unit), texts),
      plugins: [{ id: "marks", ...marks }],
    });
  }

  /** Seconds that a width on the screen stands for. */
  secondsIn(pixels) {
    const { x } = this.#chart.scales;
    return (pixels / Math.max(1, x.width)) * (x.max - x.min);
  }

  /** The time under a place on the page, null beside the chart. */
  timeAt(clientX) {
    const { x } = this.#chart.scales;
    const pixel = clientX - this.#chart.canvas.getBoundingClientRect().left;
    return pixel < x.left || pixel > x.right ? null : x.getValueForPixel(pixel);
  }

  /** Shows the run between two times, and a line at `cursor`. */
  show([from, to], cursor = null) {
    const { x } = this.#chart.options.scales;
    Object.assign(x, { min: from, max: to });
    this.#cursor = cursor;
    const most = Math.ceil((this.#chart.chartArea?.width ?? this.#chart.width) / POINT_EVERY_PX);
    this.#lines.forEach(({ series, scale }, at) => {
      this.#chart.data.datasets[at].data = series.points(from, to, most, scale);
    });
    this.#chart.update("none");
  }

  end() {
    this.#chart.destroy();
  }

  /** One range for the whole run, so that it does not jump while it moves. */
  #ranges(unit) {
    const ends = { boost: [Infinity, -Infinity], duty: [0, 100] };
    const widen = (value) => {
      if (!Number.isNaN(value)) ends.boost = [Math.min(ends.boost[0], value), Math.max(ends.boost[1], value)];
    };
    for (const { name, series } of this.#lines) if (BOOST.includes(name)) series.values.forEach(widen);
    for (const { kpa, expanded, at } of this.#shown.gauges) if (at !== "control_line") [kpa - expanded, kpa + expanded].forEach(widen);
    const [low, high] = ends.boost[0] > ends.boost[1] ? [0, 1] : ends.boost;
    const air = Math.max(1, high - low) * AIR;
    const drawn = this.#lines.map(({ name }) => name);
    return {
      boost: drawn.some((name) => BOOST.includes(name)) && [fromKpa(low - air, unit), fromKpa(high + air, unit)],
      duty: drawn.includes("duty_pct") && ends.duty,
    };
  }

  #shade({ ctx, chartArea, scales: { x } }, colours) {
    const { pulls, channels } = this.#shown;
    const between = (from, to, colour, [top, bottom]) => {
      const [left, right] = [Math.max(x.getPixelForValue(from), chartArea.left), Math.min(x.getPixelForValue(to), chartArea.right)];
      if (right <= left) return;
      ctx.fillStyle = colour;
      ctx.fillRect(left, top, right - left, bottom - top);
    };
    ctx.save();
    for (const { start, end, judged } of pulls) {
      if (channels.t_s[end] < x.min || channels.t_s[start] > x.max) continue;
      between(channels.t_s[start], channels.t_s[end], colours.panel, [chartArea.top, chartArea.bottom]);
      if (judged) between(channels.t_s[judged[0]], channels.t_s[judged[1]], colours.blue, [chartArea.top, chartArea.top + 5]);
    }
    ctx.restore();
  }

  #mark({ ctx, chartArea, scales: { x, boost } }, colours, unit) {
    ctx.save();
    ctx.beginPath();
    ctx.rect(chartArea.left, chartArea.top, chartArea.right - chartArea.left, chartArea.bottom - chartArea.top);
    ctx.clip();
    if (boost) for (const gauge of this.#shown.gauges) if (gauge.at !== "control_line") drawGauge(ctx, x, boost, gauge, colours, unit);
    if (this.#cursor !== null) drawCursor(ctx, x.getPixelForValue(this.#cursor), chartArea, colours);
    ctx.restore();
  }
}

/** A ring with a bar for its doubt. */
function drawGauge(ctx, x, boost, { t_s: when, kpa, expanded }, colours, unit) {
  const [middle, top, bottom] = [kpa, kpa + expanded, kpa - expanded].map((value) => boost.getPixelForValue(fromKpa(value, unit)));
  const left = x.getPixelForValue(when);
  ctx.strokeStyle = colours.broken;
  ctx.lineWidth = 2;
  ctx.beginPath();
  ctx.moveTo(left, top);
  ctx.lineTo(left, bottom);
  for (const end of [top, bottom]) {
    ctx.moveTo(left - 5, end);
    ctx.lineTo(left + 5, end);
  }
  ctx.stroke();
  ctx.beginPath();
  ctx.arc(left, middle, 5, 0, 2 * Math.PI);
  ctx.fillStyle = colours.paper;
  ctx.fill();
  ctx.lineWidth = 3;
  ctx.stroke();
}

function drawCursor(ctx, left, { top, bottom }, colours) {
  ctx.strokeStyle = colours.ink;
  ctx.lineWidth = 1;
  ctx.beginPath();
  ctx.moveTo(left, top);
  ctx.lineTo(left, bottom);
  ctx.stroke();
}

function dataset(name, colours) {
  const { colour, width, dash } = LINES[name];
  return {
    data: [],
    yAxisID: BOOST.includes(name) ? "boost" : "duty",
    borderColor: colours[colour],
    borderWidth: width,
    borderDash: dash,
    pointRadius: 0,
    tension: 0,
  };
}

function options(colours, ranges, texts) {
  const font = { family: "Atkinson Hyperlegible Next", size: 14 };
  const ticks = { color: colours.ink, font, maxRotation: 0, callback: (value) => printNumber(value, 0, 2) };
  const grid = { color: colours.rule };
  const title = (text) => ({ display: true, text, color: colours.ink, font, padding: 2 });
  const axis = (range, weight, text) => ({
    type: "linear", position: "left", stack: "run", stackWeight: weight, min: range[0], max: range[1], grid, border: { color: colours.ink },
    ticks: { ...ticks, maxTicksLimit: weight > 1 ? 7 : 3, includeBounds: weight === 1 }, title: title(text), afterFit: (scale) => Object.assign(scale, { width: 62 }),
  });
  return {
    animation: false,
    parsing: false,
    normalized: true,
    responsive: true,
    maintainAspectRatio: false,
    events: [],
    plugins: { legend: { display: false }, tooltip: { enabled: false } },
    scales: {
      x: { type: "linear", grid, ticks: { ...ticks, maxTicksLimit: 6, includeBounds: false, callback: (value) => printNumber(value, 0, 1) }, title: title(texts.seconds) },
      ...(ranges.duty ? { duty: axis(ranges.duty, SHARE_OF_DUTY, texts.duty) } : {}),
      ...(ranges.boost ? { boost: axis(ranges.boost, SHARE_OF_BOOST, texts.pressure) } : {}),
    },
  };
}
