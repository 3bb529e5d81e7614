/** The job card: the car, the complaint, how boost is held down, where we stand. Nothing in it is demanded. */
import { words } from "../words/words.js";
import { anyOf, oneOf } from "../parts/chips.js";
import { el } from "../parts/el.js";
import { numberField, textField } from "../parts/inputs.js";
import { mainButton, page, section } from "../parts/page.js";
import { link } from "../parts/router.js";

export function cardScreen(app, job) {
  return { build: () => build(app, job) };
}

function build(app, job) {
  const { car } = words;
  const content = {
    title: car.title,
    back: { href: link("job", job.id), text: words.nav.job },
    key: "main card",
    main: [vehicle(job), customer(job), complaint(job), control(job), site(job), onward(job)],
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
    list(job, car.modified, "/vehicle/modified", car.modifiedHint, ","),
  );
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
      choose: (chosen) => job.set(car.symptoms, path, chosen.length ? chosen : null),
    }),
    list(job, car.codes, "/complaint/codes", car.codesHint, " "),
    choice(job, car.reproduced, "/complaint/reproduced", [[true, car.yes], [false, car.no]]),
  );
}

function control(job) {
  const { car } = words;
  return section(
    car.control,
    el("p", {}, car.controlSays),
    choice(job, car.arrangement, "/boost_control/arrangement", car.arrangements),
    choice(job, car.duty, "/boost_control/more_duty", car.duties),
  );
}

function site(job) {
  const { car } = words;
  return section(
    car.site,
    number(job, car.barometric, "/site/barometric_kpa_abs", "pressureAbsolute", car.barometricHint),
    number(job, car.altitude, "/site/altitude_m", "metre"),
    number(job, car.ambient, "/site/ambient_c", "celsius"),
  );
}

function onward(job) {
  const { to } = words.car;
  return el("ul", { class: "links" }, ["limits", "gauges"].map((where) => el("li", {}, el("a", { href: link("job", job.id, where) }, to[where]))));
}
