/** The end of every test page: photo, a note, and the state of the step. */
import { words } from "../words/words.js";
import { oneOf } from "./chips.js";
import { el } from "./el.js";
import { textField } from "./inputs.js";
import { putItem } from "./job_context.js";
import { photoButton, photosOf } from "./photos.js";

/** @param step the step's id, which is also the name of the test */
export function stepFoot(job, step, caption) {
  const put = (label, values) => job.keep(label, () => putItem(job.handle, "/steps", step, values));
  const { stateName, states, caption: noteName } = words.page;
  return el(
    "section",
    { class: "foot", key: "foot" },
    waitingPhoto(job, step),
    el("div", { class: "row" }, photoButton(job, step, caption)),
    photosOf(job, step),
    textField({ label: noteName, key: `note ${step}`, value: job.value(`/steps/${step}/note`), change: (note) => put(noteName, { note }) }),
    oneOf({ label: stateName, options: states, chosen: job.value(`/steps/${step}/state`), choose: (state) => put(stateName, { state }) }),
  );
}

/** The camera had ended the page: say so at the step it was opened for. */
function waitingPhoto(job, step) {
  const waiting = job.app.pendingPhoto;
  if (waiting?.job !== job.id || waiting?.step !== step) return null;
  return el("p", { class: "told", role: "status" }, words.page.photoWaiting);
}
