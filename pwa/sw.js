/** The service worker: the app's files from the phone, whole releases at once, with no network in the way. */

/* A byte that changes in /release.js makes a new release: it is compared together with this file. */
importScripts("/release.js");

const { shell, engine } = self.RELEASE;
const SHELL_CACHE = `teepiece-shell-${shell.version}`;
const ENGINE_CACHE = `teepiece-engine-${engine.version}`;
const COMPLETE = "/engine/complete";
const FILE_WITHIN_MS = 30_000;
const ENGINE_FILE_WITHIN_MS = 300_000;
const TYPES = {
  js: "text/javascript",
  mjs: "text/javascript",
  css: "text/css",
  json: "application/json",
  wasm: "application/wasm",
  zip: "application/zip",
};

const shellFiles = new Set(shell.files);
const engineFiles = new Map(engine.files);

/** Fetches past every cache that would not ask the server; refuses what is not a file of ours. */
async function fetchFile(path, within) {
  const signal = AbortSignal.timeout(within);
  const response = await fetch(path, { cache: "no-cache", credentials: "same-origin", redirect: "error", signal });
  if (!response.ok) throw new Error(`${path}: ${response.status}`);
  const expected = TYPES[path.split(".").pop()];
  const type = response.headers.get("Content-Type") ?? "";
  if (expected && !type.startsWith(expected)) throw new Error(`${path}: ${type} is not ${expected}`);
  return response;
}

/** The answer as it is kept: the bytes are no longer compressed. */
function kept(response, bytes) {
  const headers = new Headers(response.headers);
  headers.delete("Content-Encoding");
  headers.set("Content-Length", String(bytes.byteLength));
  return new Response(bytes, { headers });
}

async function sha256(bytes) {
  const digest = await crypto.subtle.digest("SHA-256", bytes);
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** The version that these files make: the same sum as the server's. */
async function versionOf(files) {
  const sums = await Promise.all(files.map(({ bytes }) => sha256(bytes)));
  const lines = files.map(({ path }, at) => `${sums[at]} ${path === "/" ? "index.html" : path.slice(1)}\n`);
  return (await sha256(new TextEncoder().encode(lines.join("")))).slice(0, shell.version.length);
}

async function fetchShellFile(path) {
  const response = await fetchFile(path, FILE_WITHIN_MS);
  return { path, response, bytes: await response.arrayBuffer() };
}

/** All files of the shell or none: a captive portal's page, or files of two releases, do not add up. */
async function keepShell() {
  const files = await Promise.all(shell.files.map(fetchShellFile));
  if ((await versionOf(files)) !== shell.version) throw new Error("the files are not those of this release");
  const cache = await caches.open(SHELL_CACHE);
  await Promise.all(files.map(({ path, response, bytes }) => cache.put(path, kept(response, bytes))));
}

async function isComplete(name) {
  return (await caches.has(name)) && (await (await caches.open(name)).match(COMPLETE)) !== undefined;
}

async function dropCaches(isOld) {
  const names = await caches.keys();
  await Promise.all(names.filter(isOld).map((name) => caches.delete(name)));
}

/** An older engine stays until the new one is whole, so that the phone is never without. */
function isOldEngine(name) {
  return name.startsWith("teepiece-engine-") && name !== ENGINE_CACHE;
}

async function activate() {
  await dropCaches((name) => name.startsWith("teepiece-shell-") && name !== SHELL_CACHE);
  if (await isComplete(ENGINE_CACHE)) await dropCaches(isOldEngine);
  await self.clients.claim();
}

async function readReporting(response, report) {
  const chunks = [];
  for (const reader = response.body.getReader(); ; ) {
    const { done, value } = await reader.read();
    if (done) return new Blob(chunks).arrayBuffer();
    chunks.push(value);
    report(value.byteLength);
  }
}

async function keepEngineFile(cache, path, size, report) {
  if (await cache.match(path)) return report(size);
  const response = await fetchFile(path, ENGINE_FILE_WITHIN_MS);
  const bytes = await readReporting(response, report);
  if (bytes.byteLength !== size) throw new Error(`${path}: ${bytes.byteLength} bytes, not ${size}`);
  return cache.put(path, kept(response, bytes));
}

async function readKept(cache, path) {
  return { path, bytes: await (await cache.match(path)).arrayBuffer() };
}

/** Fetches the engine file by file; what is here already is not fetched again. */
async function keepEngine(report) {
  if (await isComplete(ENGINE_CACHE)) return;
  const cache = await caches.open(ENGINE_CACHE);
  for (const [path, size] of engine.files) await keepEngineFile(cache, path, size, report);
  const files = await Promise.all(engine.files.map(([path]) => readKept(cache, path)));
  if ((await versionOf(files)) !== engine.version) {
    await caches.delete(ENGINE_CACHE);
    throw new Error("the engine's files are not those of this release");
  }
  await cache.put(COMPLETE, new Response(""));
  await dropCaches(isOldEngine);
}

const watchers = new Set();
let fetching = null;
let loadedBytes = 0;

function tellWatchers(message) {
  for (const port of watchers) port.postMessage(message);
}

function countBytes(more) {
  loadedBytes += more;
  tellWatchers({ kind: "progress", loadedBytes, totalBytes: engine.bytes });
}

/** One fetch of the engine at a time, however many pages ask. */
async function fetchEngineFor(port) {
  watchers.add(port);
  if (fetching === null) loadedBytes = 0;
  fetching ??= keepEngine(countBytes).finally(() => {
    fetching = null;
  });
  try {
    await fetching;
    port.postMessage({ kind: "kept" });
  } catch (error) {
    port.postMessage({ kind: "failed", says: error.message });
  } finally {
    watchers.delete(port);
  }
}

async function fromShell(path) {
  const found = await (await caches.open(SHELL_CACHE)).match(path);
  return found ?? fetch(path, { signal: AbortSignal.timeout(FILE_WITHIN_MS) });
}

/** From this release's engine if it is whole, else from an older one that is, never from two. */
async function fromEngine(path) {
  const older = (await caches.keys()).filter(isOldEngine);
  for (const name of [ENGINE_CACHE, ...older]) {
    if (!(await isComplete(name))) continue;
    const found = await (await caches.open(name)).match(path);
    if (found) return found;
  }
  return fetch(path, { signal: AbortSignal.timeout(ENGINE_FILE_WITHIN_MS) });
}

function isServers(path) {
  const pages = ["/desk", "/office", "/pair", "/set-up", "/sign-in", "/sign-out"];
  return ["/api", "/health", "/release.js", "/sw.js", ...pages].some((own) => path === own || path.startsWith(`${own}/`));
}

self.addEventListener("install", (event) => event.waitUntil(keepShell()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));

self.addEventListener("message", (event) => {
  if (event.data.kind === "use_release") self.skipWaiting();
  if (event.data.kind === "fetch_engine") event.waitUntil(fetchEngineFor(event.ports[0]));
});

self.addEventListener("fetch", (event) => {
  const { method, mode, url } = event.request;
  const { origin, pathname } = new URL(url);
  if (method !== "GET" || origin !== self.location.origin || isServers(pathname)) return;
  if (mode === "navigate") event.respondWith(fromShell("/"));
  else if (shellFiles.has(pathname)) event.respondWith(fromShell(pathname));
  else if (engineFiles.has(pathname)) event.respondWith(fromEngine(pathname));
});
