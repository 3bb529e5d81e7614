/** The actuator by hand pump: where it begins, where it ends, whether it holds for a minute. */
import { actuatorBench } from "../drawings/bench.js";
import { words } from "../words/words.js";
import { createClock } from "../parts/clock.js";
import { el } from "../parts/el.js";
import { createEntry } from "../parts/entry.js";
import { placeField, yesNo } from "../parts/fields.js";
import { gaugeChoice } from "../parts/gauges.js";
import { button, mainButton } from "../parts/page.js";
import { prepareSound, tone } from "../parts/sound.js";
import { link } from "../parts/router.js";
import { testPage } from "../parts/test_page.js";
import { testPageOf } from "../parts/test_pages.js";

const text = words.tests.actuator;
const AT = "/tests/actuator";
const MINUTE_S = 60;
const GAUGE = { path: `${AT}/gauge`, use: "actuator" };
const END = `${AT}/hold/p_end_kpa`;

export function actuatorScreen(app, job) {
  const clock = createClock(app.workbook.settings, `hold ${job.id}`, (second) => {
    if (second === MINUTE_S) tone();
    app.repaint();
  });
  const fields = () => fieldsOf(job, clock);
  const entry = createEntry(job, fields, "actuator");
  const start = async () => {
    prepareSound();
    entry.close();
    await clock.start();
    app.repaint();
  };
  clock.run();
  const build = () =>
    testPage(job, {
      id: "actuator", text, entry, drawing: actuatorBench(text.parts), fields: fields(),
      before: gaugeChoice(job, GAUGE),
      choices: [
        yesNo(job, { label: text.choices.free, path: `${AT}/linkage_free` }),
        yesNo(job, { label: text.choices.returns, path: `${AT}/returns_to_stop` }),
      ],
      after: [minute(job, clock, start), el("p", {}, el("a", { class: "second", href: link("job", job.id, "actuator_sweep") }, text.toSweep))],
      checks: testPageOf("actuator").checks,
      bar: bar(job, clock, entry, start),
    });
  return { build, leave: clock.halt };
}

function fieldsOf(job, clock) {
  const { fields, hints } = text;
  const read = (name, label, more) => placeField(job, { path: `${AT}/${name}`, label, kind: "pressure", gauge: GAUGE, ...more });
  return [
    read("first_movement_kpa", fields.first, { hint: hints.first, limit: "actuator_start_kpa", check: "actuator_start" }),
    read("full_travel_kpa", fields.full, { hint: hints.full, limit: "actuator_full_kpa", check: "actuator_full" }),
    read("hold/p_kpa", fields.hold, { hint: hints.hold }),
    heldField(read("hold/p_end_kpa", fields.held, { hint: hints.held, check: "actuator_hold" }), job, clock),
    { ...placeField(job, { path: `${AT}/hold/t_s`, label: fields.time, kind: "second" }), optional: true, extra: true },
    { ...placeField(job, { path: `${AT}/hold/volume_ml`, label: fields.volume, kind: "millilitre", hint: words.page.optional }), optional: true, extra: true },
  ];
}

/** The end of the hold brings its time along: the minute where the clock ran it, and as long as it ran. */
function heldField(field, job, clock) {
  const held = () => {
    const gone = clock.seconds();
    if (gone === null) return job.value(`${AT}/hold/t_s`) ?? MINUTE_S;
    return gone < MINUTE_S ? Math.round(gone) : MINUTE_S;
  };
  const places = (kpa) => [...field.places(kpa), [`${AT}/hold/t_s`, held()]];
  const write = async (kpa) => {
    await job.handle.setMany(places(kpa));
    await clock.stop();
  };
  return { ...field, places, write };
}

function bar(job, clock, entry, start) {
  const seconds = clock.seconds();
  if (seconds !== null) {
    const left = MINUTE_S - Math.floor(seconds);
    if (left > 0) return mainButton({ text: text.running(left), aside: text.fields.held, click: () => entry.open(END), key: "minute" });
    return mainButton({ text: text.readEnd, click: () => entry.open(END), key: "minute" });
  }
  const begun = job.value(`${AT}/hold/p_kpa`) !== undefined && job.value(END) === undefined;
  return begun ? mainButton({ text: text.start, click: start, key: "start minute" }) : null;
}

function minute(job, clock, start) {
  const seconds = clock.seconds();
  const left = seconds === null ? MINUTE_S : Math.max(0, MINUTE_S - Math.floor(seconds));
  const again = job.value(END) !== undefined || seconds !== null;
  return el(
    "div",
    { class: "clock", key: "clock" },
    el("p", { class: "time", role: "timer" }, left ? text.running(left) : text.over),
    button(again ? text.again : text.start, start, { key: "start minute here" }),
  );
}
