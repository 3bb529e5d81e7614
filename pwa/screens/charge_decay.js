/** Tightness by decay: pressure against time, with its own clock and a beat to read at. */
import { words } from "../words/words.js";
import { createClock } from "../parts/clock.js";
import { el } from "../parts/el.js";
import { createEntry } from "../parts/entry.js";
import { placeField, readingRow } from "../parts/fields.js";
import { gaugeChoice, gaugeFor } from "../parts/gauges.js";
import { button, mainButton, section } from "../parts/page.js";
import { listAt } from "../parts/pointer.js";
import { pressureText } from "../parts/units.js";
import { prepareSound, tone } from "../parts/sound.js";
import { nextBar, testPage } from "../parts/test_page.js";

const text = words.tests.charge_decay;
const AT = "/tests/charge_decay";
const BEAT_S = 10;
const NEAR_BEAT_S = 3;
const GAUGE = { path: `${AT}/gauge`, use: "charge_decay" };

export function chargeDecayScreen(app, job) {
  const reading = { time: null };
  const clock = createClock(app.workbook.settings, `decay ${job.id}`, (second) => {
    if (second > 0 && second % BEAT_S === 0) tone();
    app.repaint();
  });
  const fields = () => [...setUp(job), ...measuredVolume(job), ...(reading.time === null ? [] : [readingField(job, reading.time)])];
  const entry = createEntry(job, fields, "charge_decay");
  const readAt = (time) => {
    reading.time = time;
    entry.open(`reading ${time}`);
  };
  const start = async () => {
    prepareSound();
    await clock.start();
    readAt(0);
  };
  clock.run();
  const build = () =>
    testPage(job, {
      id: "charge_decay", entry, fields: setUp(job),
      before: gaugeChoice(job, GAUGE),
      after: [volumeBy(job, entry), clockBox(clock, start), readings(job)],
      bar: bar(job, entry, clock, start, readAt),
    });
  return { build, leave: clock.halt };
}

function setUp(job) {
  const place = (name, label, kind, more) => placeField(job, { path: `${AT}/${name}`, label, kind, ...more });
  return [
    place("volume_l", text.fields.volume, "litre", { hint: text.volumeHint, optional: isMeasured(job) }),
    place("volume_u_l", text.volumeDoubt, "litre", { optional: true, extra: true, hint: words.page.optional }),
    place("air_c", text.fields.air, "celsius"),
    place("air_end_c", text.airEnd, "celsius", { optional: true, extra: true, hint: text.airEndHint }),
  ];
}

const VOLUME_BY = { strokes: "number", stroke_ml: "millilitre", tank_l: "litre" };

/** Where no volume is known: what a counted pump, or a tank, gave the circuit. */
function measuredVolume(job) {
  return Object.entries(text.volumeBy).map(([name, label]) => {
    const hint = text.volumeHints[name];
    const kind = VOLUME_BY[name] ?? "pressure";
    const read = kind === "pressure" ? { gauge: GAUGE } : {};
    return placeField(job, { path: `${AT}/volume_by/${name}`, label, hint, kind, optional: true, extra: true, ...read });
  });
}

function isMeasured(job) {
  return job.value(`${AT}/volume_by`) !== undefined;
}

function volumeBy(job, entry) {
  const rows = measuredVolume(job).map((field) => readingRow(job, field, entry));
  return el("details", { key: "volume by", open: isMeasured(job) }, el("summary", {}, text.volumeUnknown), el("div", { class: "readings" }, rows));
}

/** The reading at a moment: kept as an item of its own, or changed where that moment was read already. */
function readingField(job, time) {
  const list = `${AT}/readings`;
  const there = listAt(job.document, list).find(({ t_s: at }) => at === time);
  const gauge = gaugeFor(job, GAUGE);
  const write = async (kpa) => {
    if (there) await job.handle.set(`${list}/${there.id}/p_kpa`, kpa);
    else await job.handle.add(list, { t_s: time, p_kpa: kpa });
    if (gauge && job.value(GAUGE.path) !== gauge.id) await job.handle.set(GAUGE.path, gauge.id);
  };
  return { key: `reading ${time}`, label: text.fields.reading(time), kind: "pressure", value: there?.p_kpa, gauge, write };
}

/** The moment to write down: the beat where it is just over, else the second itself. */
function momentOf(seconds) {
  const beat = Math.floor(seconds / BEAT_S) * BEAT_S;
  return beat > 0 && seconds - beat <= NEAR_BEAT_S ? beat : Math.floor(seconds);
}

function bar(job, entry, clock, start, readAt) {
  const seconds = clock.seconds();
  if (seconds !== null) {
    const time = momentOf(seconds);
    return mainButton({ text: text.readNow(time), click: () => readAt(momentOf(clock.seconds())), key: "read now" });
  }
  const open = setUp(job).some(({ value, optional }) => value === undefined && !optional);
  if (!open && !listAt(job.document, `${AT}/readings`).length) return mainButton({ text: text.start, click: start, key: "start clock" });
  return nextBar(job, { fields: setUp(job), entry });
}

function clockBox(clock, start) {
  const seconds = clock.seconds();
  const running = seconds !== null;
  return el(
    "div",
    { class: "clock", key: "clock" },
    el("p", { class: "time", role: "timer" }, text.running(running ? Math.floor(seconds) : 0)),
    el("p", { class: "hint" }, text.beats),
    running ? button(text.stop, () => clock.stop(), { key: "stop clock" }) : button(text.start, start, { key: "start clock here" }),
  );
}

function readings(job) {
  const rows = listAt(job.document, `${AT}/readings`);
  if (!rows.length) return null;
  return section(text.list, el("ul", { class: "items" }, rows.map((row) => readingItem(job, row))));
}

function readingItem(job, { id, t_s: time, p_kpa: kpa }) {
  const says = text.row(time, pressureText(kpa, job.unit));
  const drop = () => job.keep(words.page.remove(says), () => job.handle.remove(`${AT}/readings/${id}`));
  return el("li", { key: id }, el("span", {}, says), button("\u2715", drop, { label: words.page.remove(says), key: `drop ${id}`, kind: "small" }));
}
