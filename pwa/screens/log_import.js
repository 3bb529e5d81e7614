/** A log from a file: read on this phone, its columns shown and corrected, then kept as a run of the job. */
import { words } from "../words/words.js";
import { el } from "../parts/el.js";
import { acceptedColumns, columnList, leftOutList } from "../parts/log_columns.js";
import { button, mainButton, page } from "../parts/page.js";
import { listAt } from "../parts/pointer.js";
import { go, link } from "../parts/router.js";
import { engineSays } from "../parts/state.js";
import { printNumber } from "../parts/units.js";

const text = words.log;
const LARGEST_MB = 16; // the workshop's computer takes no larger blob

/** `runId`: the run that the log belongs to; without one it makes a new run. */
export function logImportScreen(app, job, runId = null) {
  const view = { bytes: null, wishes: {}, found: null, told: null, reading: null };

  async function read() {
    view.reading?.abort();
    const reading = new AbortController();
    Object.assign(view, { reading, told: null });
    job.repaint();
    try {
      const found = await app.engine.readLog(view.bytes, view.wishes, job.document, reading.signal);
      if (view.reading === reading) view.found = found;
    } catch (error) {
      if (view.reading === reading) view.told = toldBy(error);
    } finally {
      if (view.reading === reading) view.reading = null;
      job.repaint();
    }
  }
  async function take(event) {
    const [file] = event.target.files;
    if (!file) return;
    const tooLarge = file.size > LARGEST_MB * 1_000_000;
    Object.assign(view, { bytes: tooLarge ? null : await file.arrayBuffer(), wishes: {}, found: null });
    if (!tooLarge) return read();
    view.told = { says: text.tooLarge(LARGEST_MB) };
    return job.repaint();
  }
  function wish(channel, wished) {
    const before = { ...view.wishes };
    view.wishes = { ...view.wishes, [channel]: wished };
    return read().then(() => {
      if (view.told) view.wishes = before;
    });
  }
  async function accept() {
    const columns = acceptedColumns(view.found, view.wishes);
    const id = await job.keep(text.kept, () => job.handle.keepLog(view.bytes, columns, runId));
    if (id) go("job", job.id, "road", id, "chart");
  }
  return {
    build: () => build(app, job, { ...view, runId, take, wish, accept, cancel: () => view.reading?.abort() }),
    leave: () => view.reading?.abort(),
  };
}

function toldBy(error) {
  if (error.kind === "cancelled") return { says: text.cancelled };
  if (error.kind === "unreadable") return { says: text.unreadable, why: error.message };
  return { says: text.failed };
}

function build(app, job, view) {
  const { runId, found, reading } = view;
  const number = listAt(job.document, "/tests/road").findIndex(({ id }) => id === runId) + 1;
  const road = words.tests.road;
  const back = runId ? { href: link("job", job.id, "road", runId), text: road.run(number) } : { href: link("job", job.id, "road"), text: road.title };
  const content = {
    title: text.title,
    under: text.under,
    back,
    key: "main take in",
    main: [told(view), found ? result(job, view) : el("p", {}, text.what), reading && waits(app, view)],
    bar: bar(view),
  };
  return page(content, app.keeper);
}

function told({ told: line }) {
  if (!line) return null;
  return el("p", { class: "told", role: "alert" }, line.says, line.why && [" ", el("span", { lang: "en" }, line.why)]);
}

function waits(app, { found }) {
  const engineLine = app.engineState.state === "ready" ? null : engineSays(app.engineState);
  return el("p", { class: "hint", role: "status", key: "waits" }, found ? text.readingAgain : text.reading, " ", engineLine);
}

function result(job, { found, wishes, wish }) {
  return [
    el("p", { class: "holds" }, text.holds(found.rows, printNumber(found.seconds, 0, 1))),
    columnList({ found, wishes, unit: job.unit, wish }),
    leftOutList(found),
  ];
}

function bar({ found, reading, take, accept, cancel }) {
  if (reading) return button(text.cancel, cancel, { key: "cancel", kind: "second wide" });
  if (!found) return fileButton(text.choose, "main", take);
  return el("div", { class: "two-buttons" }, mainButton({ text: text.accept, click: accept, key: "accept" }), fileButton(text.another, "second", take));
}

function fileButton(name, kind, take) {
  return el(
    "span",
    { class: "photo-button file-button", key: `file ${kind}` },
    el("input", { id: "log-file", type: "file", accept: "text/*,.csv,.txt,.tsv,.log,.dat", class: "unseen", on: { change: take } }),
    el("label", { for: "log-file", class: kind }, name),
  );
}
