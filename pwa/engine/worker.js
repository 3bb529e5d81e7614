/** The worker that runs `calc`, the same Python package as on the server. Errors leave it as data. */

const ENGINE = "/vendor/pyodide/";
const ARCHIVE = "/engine/calc.zip";
const FOLDER = "/engine";

/* Logs are kept here by their names while there is room; what is not here is asked for ("needs"). */
const DOOR = `
import json
from array import array
from functools import lru_cache
from math import nan
import calc
from pyodide.ffi import to_js

MOST_LOGS = 8
logs = {}

@lru_cache(maxsize=MOST_LOGS)
def remembered(name, wish):
    return calc.read_log(logs[name], **json.loads(wish))

def run_of(name, wish):
    return remembered(name, wish) if name in logs else None

def take_log(name, data):
    logs[name] = data.to_bytes()
    if len(logs) > MOST_LOGS:
        del logs[next(iter(logs))]

def missing(job, without):
    return [name for name in calc.log_names(job)[:MOST_LOGS] if name not in logs and name not in without]

def judge(text, unit="kPa", language="en", without="[]"):
    try:
        data = text.encode()
        wanted = missing(calc.read_job(data), json.loads(without)) if '"log"' in text else []
        if wanted:
            return to_js(["needs", json.dumps(wanted)])
        return to_js(["verdict", calc.judge_text(data, unit=unit, language=language, read=run_of)])
    except calc.BrokenDocument as broken:
        return to_js(["broken", calc.told_broken(str(broken), language)])

def what_changed(before, after, language="en"):
    line = calc.what_changed(json.loads(before), json.loads(after), language=language)
    return to_js(["changed", json.dumps(line)])

def read_log(data, columns, facts):
    try:
        run = calc.read_log(data.to_bytes(), json.loads(columns), **calc.log_facts(json.loads(facts)))
    except calc.UnreadableLog as unreadable:
        return to_js(["unreadable", str(unreadable)])
    times = run["channels"]["t_s"]
    found = {key: run[key] for key in ("guesses", "left_out")}
    return to_js(["log", json.dumps({**found, "rows": len(times), "seconds": times[-1] - times[0]})])

def show_run(text, run_id, without="[]"):
    try:
        job = calc.read_job(text.encode())
    except calc.BrokenDocument as broken:
        return to_js(["broken", str(broken)])
    wanted = missing(job, json.loads(without))
    if wanted:
        return to_js(["needs", json.dumps(wanted)])
    shown = calc.run_shown(calc.with_logs(job, run_of), run_id)
    if shown is None:
        return to_js(["run", "null", [], []])
    channels = shown.pop("channels")
    rows = [array("d", (nan if value is None else value for value in values)) for values in channels.values()]
    return to_js(["run", json.dumps(shown), list(channels), rows])

ways = (judge, what_changed, read_log, show_run, take_log)
(calc.VERSION, {way.__name__: way for way in ways}.get)
`;

/*
 * Python as it is once `calc` is loaded and before it has seen a job is kept on the phone: the next start takes it up
 * in a fraction of the time. Where that fails, or the page says that it wants it anew, it starts from its files.
 */
const STARTED = "teepiece-started";

async function boot() {
  const [{ loadPyodide, version }, archive] = await Promise.all([import(`${ENGINE}pyodide.mjs`), bytesAt(ARCHIVE)]);
  const key = `${FOLDER}/started/${version}-${await sha256(archive)}`;
  const python = (await takenUp(loadPyodide, key)) ?? (await startedAnew(loadPyodide, key, archive));
  return python.runPython(DOOR).toJs({ depth: 1 });
}

async function bytesAt(path) {
  const response = await fetch(path);
  if (!response.ok) throw new Error(`${path}: ${response.status}`);
  return response.arrayBuffer();
}

async function sha256(bytes) {
  const digest = await crypto.subtle.digest("SHA-256", bytes);
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, "0")).join("");
}

async function takenUp(loadPyodide, key) {
  try {
    const kept = self.name === "anew" ? undefined : await (await caches.open(STARTED)).match(key);
    return kept && (await loadPyodide({ indexURL: ENGINE, _loadSnapshot: await kept.arrayBuffer() }));
  } catch (error) {
    console.warn(error.message);
    return undefined;
  }
}

async function startedAnew(loadPyodide, key, archive) {
  const python = await loadPyodide({ indexURL: ENGINE, _makeSnapshot: true });
  python.unpackArchive(archive, "zip", { extractDir: FOLDER });
  python.runPython(`import sys; sys.path.insert(0, "${FOLDER}"); import calc`);
  keep(key, python.makeMemorySnapshot()).catch((error) => console.warn(error.message));
  return python;
}

/** One at a time: that of an older release is of no use. */
async function keep(key, bytes) {
  await caches.delete(STARTED);
  await (await caches.open(STARTED)).put(key, new Response(bytes));
}

const booted = boot();
booted.then(
  ([version]) => postMessage({ kind: "ready", version }),
  (error) => postMessage({ kind: "failed", says: String(error.message ?? error) }),
);

const WAYS = {
  judge: (door, { text, unit, language, without = "[]" }) => door("judge")(text, unit, language, without),
  what_changed: (door, { before, after, language }) => door("what_changed")(before, after, language),
  read_log: (door, { bytes, columns, facts }) => door("read_log")(new Uint8Array(bytes), columns, facts),
  show_run: (door, { text, run, without = "[]" }) => door("show_run")(text, run, without),
};

async function answer({ number, way = "judge", ...question }) {
  try {
    const [, door] = await booted;
    const [kind, result, ...more] = WAYS[way](door, question);
    postMessage({ kind, number, result, more });
  } catch (error) {
    postMessage({ kind: "fault", number, result: String(error.message ?? error) });
  }
}

async function take({ name, bytes }) {
  const [, door] = await booted;
  door("take_log")(name, new Uint8Array(bytes));
}

addEventListener("message", ({ data }) => (data.way === "take_log" ? take(data) : answer(data)));
