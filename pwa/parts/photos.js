/** Photos of a step. The camera may end the page, so what it was opened for is written down first. */
import { words } from "../words/words.js";
import { el } from "./el.js";
import { listAt } from "./pointer.js";

const AWAY = Symbol("not on this phone");

/** A button that opens the camera for a step of the job; `place` tells two of the same page apart. */
export function photoButton(job, step, caption, place = "page") {
  const id = `photo-${place}-${step}`;
  const take = async (event) => {
    const { files } = event.target;
    if (!files.length) return;
    await job.keep(words.page.photoKept, () => job.handle.keepPhoto(files[0], { step, caption }));
    event.target.value = "";
  };
  const intend = () => job.app.workbook.photoIntent(job.id, step);
  return el(
    "span",
    { class: "photo-button", key: id },
    el("input", { id, type: "file", accept: "image/jpeg,image/png", capture: "environment", class: "unseen", on: { change: take, click: intend } }),
    el("label", { for: id, class: "second" }, words.page.photo),
  );
}

/** The photos of a step, small. */
export function photosOf(job, step) {
  const photos = listAt(job.document, "/photos").filter((photo) => photo.step === step);
  if (!photos.length) return null;
  return el("ul", { class: "photos" }, photos.map((photo, index) => el("li", { key: photo.id }, thumb(job, photo, index + 1))));
}

/** One photo; its bytes come from the phone's store, else from the workshop where that is in reach. */
export function thumb(job, photo, number) {
  const url = job.app.photoUrls.get(photo.sha256);
  if (url === AWAY) return el("span", { class: "away hint" }, words.page.photoAway);
  const away = () => {
    job.app.photoUrls.set(photo.sha256, AWAY);
    job.repaint();
  };
  const image = el("img", { alt: words.customer.photo(number, photo.caption), "data-photo": photo.sha256, key: photo.sha256, on: { error: away } });
  if (url) image.setAttribute("src", url);
  else fetchUrl(job, photo.sha256);
  return image;
}

/** What was out of reach is asked for once more. */
export function lookAgain(photoUrls) {
  for (const [name, url] of photoUrls) if (url === AWAY) photoUrls.delete(name);
}

async function fetchUrl(job, sha256) {
  const { photoUrls, workbook } = job.app;
  if (photoUrls.has(sha256)) return;
  photoUrls.set(sha256, "");
  try {
    photoUrls.set(sha256, await workbook.photoUrl(sha256));
    job.repaint();
  } catch {
    photoUrls.delete(sha256);
  }
}
