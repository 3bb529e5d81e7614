/** Questions to the workshop's server. Every one has an end, and a captive portal's answer is no answer. */

const ANSWER_WITHIN_MS = 30_000;
const HEALTH_WITHIN_MS = 3_000;
const BLOB_WITHIN_MS = 120_000;

/** The server did not do as asked. `kind`: "no_server", "sign_in" or "failed"; `says`: its own sentence or null. */
export class ServerError extends Error {
  constructor(kind, { status = null, says = null, cause = undefined } = {}) {
    super(`server: ${kind}${status === null ? "" : ` (${status})`}`, { cause });
    this.name = "ServerError";
    this.kind = kind;
    this.status = status;
    this.says = says;
  }
}

async function answer(path, options, within) {
  const headers = { "X-Teepiece": "1", "Accept-Language": document.documentElement.lang || "en", ...options.headers };
  try {
    return await fetch(path, { ...options, headers, redirect: "error", signal: AbortSignal.timeout(within) });
  } catch (cause) {
    throw new ServerError("no_server", { cause });
  }
}

async function jsonOf(response) {
  if (!response.headers.get("Content-Type")?.startsWith("application/json")) {
    throw new ServerError("no_server", { status: response.status });
  }
  try {
    return await response.json();
  } catch (cause) {
    throw new ServerError("no_server", { cause });
  }
}

async function refusal(response) {
  if (response.status === 401) return new ServerError("sign_in", { status: 401 });
  const { error, says = null } = await jsonOf(response);
  return new ServerError(error === "not_paired" ? "sign_in" : "failed", { status: response.status, says });
}

async function json(path, options, within = ANSWER_WITHIN_MS) {
  const response = await answer(path, options, within);
  if (!response.ok) throw await refusal(response);
  return jsonOf(response);
}

/** Throws a ServerError unless our server answers. */
export async function probe() {
  const { status } = await json("/health", { cache: "no-store" }, HEALTH_WITHIN_MS);
  if (status !== "ok") throw new ServerError("no_server");
}

/** Sends operations, their bytes unchanged, and says where this phone stands. */
export function exchange(request) {
  const headers = { "Content-Type": "application/json" };
  return json("/api/sync", { method: "POST", headers, body: JSON.stringify(request) });
}

/** {whole, offset}: whether the server has all of a blob, and else how many of its bytes. */
export async function blobAt(name) {
  const response = await answer(`/api/blobs/${name}`, { method: "HEAD" }, ANSWER_WITHIN_MS);
  if (response.status === 404) return { whole: false, offset: offsetIn(response) };
  if (response.status === 401) throw new ServerError("sign_in", { status: 401 });
  if (!response.ok) throw new ServerError("failed", { status: response.status });
  return { whole: true, offset: null };
}

/** The bytes of a blob. */
export async function bytesOf(name) {
  const response = await answer(`/api/blobs/${name}`, {}, BLOB_WITHIN_MS);
  if (!response.ok) throw await refusal(response);
  return response.arrayBuffer();
}

/** The customer's PDF of a job. */
export async function reportPdf(job, unit, language) {
  const query = new URLSearchParams({ form: "customer", unit, language });
  const response = await answer(`/api/jobs/${job}/report.pdf?${query}`, { cache: "no-store" }, BLOB_WITHIN_MS);
  if (!response.ok) throw await refusal(response);
  if (response.headers.get("Content-Type") !== "application/pdf") throw new ServerError("no_server");
  return response.arrayBuffer();
}

/** {jobs: [{id, opened_at, complaint, says}]}: other jobs of the same car that the workshop has. */
export function historyOf(job, unit, language) {
  return json(`/api/jobs/${job}/history?${new URLSearchParams({ unit, language })}`, {});
}

/** Sends the bytes of a blob from `start` to before `end`; {whole, offset} as the server stands then. */
export async function putPart(name, bytes, start, end) {
  const headers = { "Content-Type": "application/octet-stream" };
  if (start > 0 || end < bytes.byteLength) headers["Content-Range"] = `bytes ${start}-${end - 1}/${bytes.byteLength}`;
  const options = { method: "PUT", headers, body: bytes.slice(start, end) };
  const response = await answer(`/api/blobs/${name}`, options, BLOB_WITHIN_MS);
  if (response.status === 409) return { whole: false, offset: offsetIn(response) };
  if (!response.ok) throw await refusal(response);
  await jsonOf(response);
  return { whole: response.status !== 202, offset: offsetIn(response) };
}

function offsetIn(response) {
  return Number(response.headers.get("Upload-Offset") ?? 0);
}

/** {number, hash} of the end of the server's list: a small question, asked often. */
export function endOfList() {
  return json("/api/standing", { cache: "no-store" }, HEALTH_WITHIN_MS);
}

/** All entries of one job; a ServerError with status 404 where the server has none. */
export function wholeJob(job) {
  return json(`/api/jobs/${job}/operations`, {});
}

/** Jobs that the workshop has, the one that changed last first: [{id, title, registration, opened_at, last_number}]. */
export function workshopJobs(before = null) {
  return json(`/api/jobs${before === null ? "" : `?before=${before}`}`, {});
}

/** {sha256, operations, blobs, server_time} of what the server has of a job. */
export function receiptOf(job) {
  return json(`/api/jobs/${job}/receipt`, {});
}

/** {settings, gauges, engines, prices}: what all jobs of the workshop share. */
export function workshopLists() {
  return json("/api/workshop", {});
}

/** {deliveries: [{id, state, says, at}]}: what became of the e-mails asked for in a job. */
export function deliveriesOf(job) {
  return json(`/api/jobs/${job}/deliveries`, {});
}
