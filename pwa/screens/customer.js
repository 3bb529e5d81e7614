/** For the customer: plain words, the chosen photos, what was tested and found sound, what was not looked at. */
import { words } from "../words/words.js";
import { carName } from "../parts/car.js";
import { el } from "../parts/el.js";
import { page, section } from "../parts/page.js";
import { thumb } from "../parts/photos.js";
import { listAt } from "../parts/pointer.js";
import { link } from "../parts/router.js";

const text = words.customer;

export function customerScreen(app, job) {
  return { build: () => build(app, job) };
}

function build(app, job) {
  const { verdict } = job.judged;
  const content = {
    title: text.title,
    under: carName(job.document),
    back: { href: link("job", job.id, "verdict"), text: words.verdict.title },
    key: "main customer",
    main: [said(job), found(verdict), named(text.sound, verdict?.tested_sound), notLooked(verdict), photos(job)],
    bar: pdf(app, job),
  };
  return page(content, app.keeper);
}

function said(job) {
  const complaint = job.value("/complaint/text");
  return complaint ? section(text.said, el("p", {}, complaint)) : null;
}

function found(verdict) {
  const { says, means } = verdict?.customer ?? {};
  if (!says) return el("p", {}, text.nothing);
  return [section(text.found, el("p", { class: "headline" }, says)), means && section(text.means, el("p", {}, means))];
}

/** Long, and no finding: there for who asks. */
function notLooked(verdict) {
  const names = verdict?.not_tested ?? [];
  return names.length ? el("details", { key: "not looked" }, el("summary", {}, text.notLooked), el("p", {}, names.join(" \u00b7 "))) : null;
}

function named(title, names) {
  return names?.length ? section(title, el("p", {}, names.join(" \u00b7 "))) : null;
}

function photos(job) {
  const all = listAt(job.document, "/photos");
  if (!all.length) return null;
  return section(text.photos, el("ul", { class: "photos large" }, all.map((photo, index) => el("li", { key: photo.id }, thumb(job, photo, index + 1), el("span", {}, photo.caption)))));
}

/** The PDF is made in the workshop; here is only the way to it. */
function pdf(app, job) {
  const { state } = app.syncState;
  if (state === "no_server" || state === "failed" || state === "sign_in") return el("p", { class: "left" }, text.pdfWaits);
  const mine = app.workbook.jobs().find(({ id }) => id === job.id);
  const at = (form) => app.workbook.reportAddress(job.id, form, job.unit, words.language);
  return el(
    "div",
    {},
    mine?.unsent > 0 && el("p", { class: "left" }, text.unsent),
    el("a", { class: "main", href: at("customer"), target: "_blank", rel: "noopener" }, text.pdf),
    el("a", { class: "second wide", href: at("technical"), target: "_blank", rel: "noopener" }, text.pdfTechnical),
  );
}
