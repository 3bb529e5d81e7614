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
  const headers = { "X-Teepiece": "1", ...options.headers };
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
  const { says = null } = await jsonOf(response);
  return new ServerError("failed", { status: response.status, says });
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

/** Whether the server has a blob. */
export async function hasBlob(name) {
  const response = await answer(`/api/blobs/${name}`, { method: "HEAD" }, ANSWER_WITHIN_MS);
  if (response.status === 404) return false;
  if (response.status === 401) throw new ServerError("sign_in", { status: 401 });
  if (!response.ok) throw new ServerError("failed", { status: response.status });
  return true;
}

export function putBlob(name, bytes) {
  const headers = { "Content-Type": "application/octet-stream" };
  return json(`/api/blobs/${name}`, { method: "PUT", headers, body: bytes }, BLOB_WITHIN_MS);
}

/** {sha256, operations, blobs, server_time} of what the server has of a job. */
export function receiptOf(job) {
  return json(`/api/jobs/${job}/receipt`, {});
}
