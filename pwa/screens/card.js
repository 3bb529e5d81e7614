/** The job card: the car, the complaint, how boost is held down, where we stand. Nothing in it is demanded. */
import { words } from "../words/words.js";
import { anyOf, oneOf } from "../parts/chips.js";
import { el } from "../parts/el.js";
import { hasSolenoid, kindOf } from "../parts/kind.js";
import { numberField, textField } from "../parts/inputs.js";
import { mainButton, page, section } from "../parts/page.js";
import { link } from "../parts/router.js";
import { printNumber, readNumber } from "../parts/units.js";

export function cardScreen(app, job) {
  return { build: () => build(app, job) };
}

function build(app, job) {
  const { car } = words;
  const content = {
    title: car.title,
    back: { href: link("job", job.id), text: words.nav.job },
    key: "main card",
    main: [vehicle(job), gearing(job), customer(job), complaint(job), control(job), site(job), onward(job)],
    bar: mainButton({ text: car.done, href: link("job", job.id) }),
  };
  return page(content, app.keeper);
}

const text = (job, label, path, more = {}) =>
  textField({ label, key: path, value: job.value(path), change: (value) => job.set(label, path, value), ...more });

const number = (job, label, path, kind, hint) =>
  numberField({ label, key: path, kind, hint, unit: job.unit, value: job.value(path), change: (value) => job.set(label, path, value) });

const choice = (job, label, path, options) =>
  oneOf({ label, options, chosen: job.value(path), choose: (value) => job.set(label, path, value) });

/** A field of several words, kept as a list. */
const list = (job, label, path, hint, separator) =>
  textField({
    label, hint, key: path,
    value: (job.value(path) ?? []).join(separator === "," ? ", " : " "),
    change: (value) => job.set(label, path, value ? value.split(separator === "," ? /\s*,\s*/ : /[\s,;]+/).filter(Boolean) : null),
  });

function vehicle(job) {
  const { car } = words;
  return section(
    car.vehicle,
    text(job, car.registration, "/vehicle/registration"),
    text(job, car.make, "/vehicle/make"),
    text(job, car.model, "/vehicle/model"),
    number(job, car.year, "/vehicle/year", "number"),
    text(job, car.engine, "/vehicle/engine", { hint: car.engineHint }),
    number(job, car.displacement, "/vehicle/displacement_l", "litre"),
    number(job, car.cylinders, "/vehicle/cylinders", "number"),
    choice(job, car.fuel, "/vehicle/fuel", car.fuels),
    number(job, car.odometer, "/vehicle/odometer_km", "number"),
    text(job, car.vin, "/vehicle/vin"),
    list(job, car.modified, "/vehicle/modified", car.modifiedHint, ","),
  );
}

/** What the plan of the road run is reckoned from. */
function gearing(job) {
  const { car } = words;
  const ratios = "/vehicle/gear_ratios";
  const typed = (value) => value?.split(/[\s;]+/).map(readNumber).filter((one) => one !== null && one > 0) ?? [];
  return el(
    "details",
    { key: "gearing" },
    el("summary", {}, car.gearing),
    textField({
      label: car.ratios, hint: car.ratiosHint, key: ratios,
      value: (job.value(ratios) ?? []).map((one) => printNumber(one)).join(" "),
      change: (value) => job.set(car.ratios, ratios, typed(value).length ? typed(value) : null),
    }),
    number(job, car.finalDrive, "/vehicle/final_drive", "number"),
    text(job, car.tyre, "/vehicle/tyre", { hint: car.tyreHint }),
    choice(job, car.strokes, "/vehicle/strokes", [[4, car.strokesOf[0]], [2, car.strokesOf[1]]]),
  );
}

const FRAME = { engine_rpm: "speed", vehicle_kmh: "kmh", pedal_pct: "percent", boost_actual_kpa_abs: "pressureAbsolute", coolant_c: "celsius" };

/** A freeze frame is kept whole; what else stands in it stays. */
function freezeFrame(job) {
  const { car } = words;
  const path = "/complaint/freeze_frame";
  const frame = job.value(path) ?? {};
  const set = (label, name, value) => {
    const { [name]: _, ...rest } = frame;
    const whole = value === null ? rest : { ...rest, [name]: value };
    return job.set(label, path, Object.keys(whole).length ? whole : null);
  };
  const field = ([name, kind]) => {
    const label = car.frameOf[name];
    return numberField({ label, key: `${path}/${name}`, kind, unit: job.unit, value: frame[name], change: (value) => set(label, name, value) });
  };
  return el("details", { key: "frame" }, el("summary", {}, car.frame), el("p", { class: "hint" }, car.frameHint), Object.entries(FRAME).map(field));
}

function customer(job) {
  const { car } = words;
  return section(
    car.customer,
    text(job, car.customerName, "/customer/name"),
    text(job, car.phone, "/customer/phone", { kind: "tel" }),
    text(job, car.email, "/customer/email", { kind: "email" }),
  );
}

function complaint(job) {
  const { car } = words;
  const path = "/complaint/symptoms";
  return section(
    car.complaint,
    text(job, car.text, "/complaint/text"),
    anyOf({
      label: car.symptoms, options: words.symptoms, chosen: job.value(path),
      choose: (next) => job.change(car.symptoms, path, next),
    }),
    list(job, car.codes, "/complaint/codes", car.codesHint, " "),
    freezeFrame(job),
    choice(job, car.reproduced, "/complaint/reproduced", [[true, car.yes], [false, car.no]]),
  );
}

function control(job) {
  const { car } = words;
  const kind = kindOf(job.document);
  const told = (label, path, options, shown) => oneOf({ label, options, chosen: shown, choose: (value) => value !== null && job.set(label, path, value) });
  return section(
    car.control,
    told(car.device, "/boost_control/device", car.devices, kind.device),
    told(car.actuator, "/boost_control/actuator", car.actuators, kind.actuator),
    hasSolenoid(kind) && choice(job, car.arrangement, "/boost_control/arrangement", car.arrangements),
    hasSolenoid(kind) && choice(job, car.duty, "/boost_control/more_duty", car.duties),
  );
}

function site(job) {
  const { car } = words;
  return section(
    car.site,
    number(job, car.barometric, "/site/barometric_kpa_abs", "pressureAbsolute", car.barometricHint),
    number(job, car.seaLevel, "/site/sea_level_kpa_abs", "pressureAbsolute", car.seaLevelHint),
    number(job, car.altitude, "/site/altitude_m", "metre", car.altitudeHint),
    number(job, car.ambient, "/site/ambient_c", "celsius"),
    number(job, car.humidity, "/site/humidity_pct", "percent"),
  );
}

function onward(job) {
  const { to } = words.car;
  return el("ul", { class: "links" }, ["limits", "gauges"].map((where) => el("li", {}, el("a", { href: link("job", job.id, where) }, to[where]))));
}
