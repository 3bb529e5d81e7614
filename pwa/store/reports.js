/** The customer's PDFs on this phone: fetched after a sync, kept with the bytes, so that they can be shared with no network. */

import { change } from "./book.js";
import { sha256 } from "./hash.js";
import { ServerError, reportPdf } from "./http.js";
import { clockTime } from "./operations.js";
import { reportKey } from "./report_key.js";

const WISH = "report-wish:";

/** {sha256, at, upTo, unit, language} of the PDF that is kept, or null. */
export function keptReport(book, job) {
  return book.values.get(reportKey(job)) ?? null;
}

/** Whether it was drawn from all that this phone knows of the job, in the unit and language wished for. */
export function isCurrent(book, job) {
  const kept = keptReport(book, job);
  const wish = book.values.get(WISH + job);
  if (!kept || !wish || !isSettled(book, job)) return false;
  return kept.upTo === lastNumber(book, job) && kept.unit === wish.unit && kept.language === wish.language;
}

/** Notes that a job's PDF is wanted here, from now on after each sync. */
export function wish(book, job, { unit, language }) {
  const known = book.values.get(WISH + job);
  if (known?.unit === unit && known?.language === language) return undefined;
  return book.keep(() => change({ values: { [WISH + job]: { unit, language } } }));
}

/** Fetches the PDFs that are wanted and not current. A server that cannot be asked leaves what is here. */
export async function fetchReports(book) {
  const wanted = [...book.values.keys()].filter((key) => key.startsWith(WISH) && book.values.get(key)).map((key) => key.slice(WISH.length));
  for (const job of wanted) if (book.holds(job) && isSettled(book, job) && !isCurrent(book, job)) await fetchOne(book, job);
}

async function fetchOne(book, job) {
  const { unit, language } = book.values.get(WISH + job);
  const upTo = lastNumber(book, job);
  try {
    const bytes = await reportPdf(job, unit, language);
    const note = { sha256: await sha256(bytes), at: clockTime(), upTo, unit, language };
    await book.keep(() => (book.holds(job) ? change({ bytes: [[reportKey(job), bytes]], values: { [reportKey(job)]: note } }) : null));
  } catch (error) {
    if (!(error instanceof ServerError)) throw error;
  }
}

/** All of the job's entries and photos are in the workshop: a PDF drawn there lacks nothing. */
function isSettled(book, job) {
  return !book.record(job).unlistedRows.length && !book.unsentBlobs.some((blob) => blob.job === job && !blob.refused);
}

function lastNumber(book, job) {
  return book.record(job).listedRows.at(-1)?.number ?? null;
}
