/** The PDF on the phone: shared as a file where it is here, opened at the workshop's computer where that is in reach. */
import { words } from "../words/words.js";
import { el } from "./el.js";
import { button, mainButton } from "./page.js";

const text = words.papers;
const REVOKE_AFTER_MS = 60_000;
const OUT_OF_REACH = new Set(["no_server", "failed", "sign_in"]);

/**
 * The customer's PDF of one job. It is asked for when this is made, and again after each sync that brought the job
 * forward; `file` is there before a finger asks for it, since a share must follow the touch at once.
 */
export function createPapers(app, job) {
  const papers = { file: null, kept: null };
  const want = () => ({ unit: job.unit, language: words.language });

  async function look() {
    const kept = app.workbook.report(job.id);
    if (kept?.sha256 === papers.kept?.sha256) return;
    const bytes = kept && (await app.workbook.reportBytes(job.id));
    Object.assign(papers, bytes ? { kept, file: fileOf(job, bytes) } : { kept: null, file: null });
    job.repaint();
  }

  app.workbook.wantReport(job.id, want()).then(look);
  return { papers, look };
}

function fileOf(job, bytes) {
  const plain = (job.value("/vehicle/registration") ?? "").replace(/[^A-Za-z0-9]+/g, "-").replace(/^-|-$/g, "");
  return new File([bytes], `${plain || "job"}-customer.pdf`, { type: "application/pdf" });
}

/** The bar below the customer's page. */
export function papersBar(app, job, { papers, look }) {
  look();
  const mine = app.workbook.jobs().find(({ id }) => id === job.id);
  return el(
    "div",
    {},
    el("p", { class: "left", role: "status" }, standing(app, job, papers, mine)),
    papers.file && mainButton({ text: canShare(papers.file) ? text.share : text.save, click: () => give(app, papers.file), key: "share" }),
  );
}

function standing(app, job, { kept }, mine) {
  if (mine?.unsent > 0) return kept ? text.before(whenOf(kept)) : text.unsent;
  if (!kept) return OUT_OF_REACH.has(app.syncState.state) ? text.waits : text.comes;
  return app.workbook.isReportCurrent(job.id) ? text.here(whenOf(kept)) : text.before(whenOf(kept));
}

function whenOf({ at }) {
  return at.slice(0, 16).replace("T", " ");
}

/** The ways to the PDFs at the workshop's computer, where that is in reach. */
export function paperWays(app, job) {
  if (OUT_OF_REACH.has(app.syncState.state)) return null;
  const at = (form) => app.workbook.reportAddress(job.id, form, job.unit, words.language);
  const open = (form, title) => el("a", { class: "second wide", href: at(form), target: "_blank", rel: "noopener", key: `open ${form}` }, title);
  return [open("customer", text.open), open("technical", text.technical)];
}

function canShare(file) {
  return Boolean(navigator.canShare?.({ files: [file] }));
}

/** The share sheet; where the browser has none, its download. */
async function give(app, file) {
  if (!canShare(file)) return save(file);
  try {
    await navigator.share({ files: [file], title: file.name });
  } catch (error) {
    if (error.name !== "AbortError") save(file); // closing the sheet is no failure
  }
  return undefined;
}

function save(file) {
  const href = URL.createObjectURL(file);
  const anchor = el("a", { href, download: file.name });
  document.body.append(anchor);
  anchor.click();
  anchor.remove();
  setTimeout(() => URL.revokeObjectURL(href), REVOKE_AFTER_MS);
}
