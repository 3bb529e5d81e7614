/** The worker that runs `calc`, the same Python package as on the server. Errors leave it as data. */

const ENGINE = "/vendor/pyodide/";
const ARCHIVE = "/engine/calc.zip";
const FOLDER = "/engine";

const JUDGE = `
import sys
sys.path.insert(0, "${FOLDER}")
import calc
from pyodide.ffi import to_js

def judge(text, unit, language):
    try:
        return to_js(["verdict", calc.judge_text(text.encode(), unit=unit, language=language)])
    except calc.BrokenDocument as broken:
        return to_js(["broken", str(broken)])

(judge, calc.VERSION)
`;

async function boot() {
  const { loadPyodide } = await import(`${ENGINE}pyodide.mjs`);
  const [pyodide, archive] = await Promise.all([loadPyodide({ indexURL: ENGINE }), fetch(ARCHIVE)]);
  if (!archive.ok) throw new Error(`${ARCHIVE}: ${archive.status}`);
  pyodide.unpackArchive(await archive.arrayBuffer(), "zip", { extractDir: FOLDER });
  return pyodide.runPython(JUDGE).toJs({ depth: 1 });
}

const booted = boot();
booted.then(
  ([, version]) => postMessage({ kind: "ready", version }),
  (error) => postMessage({ kind: "failed", says: String(error.message ?? error) }),
);

async function answer({ number, text, unit, language }) {
  try {
    const [judge] = await booted;
    const [kind, result] = judge(text, unit, language);
    postMessage({ kind, number, result });
  } catch (error) {
    postMessage({ kind: "fault", number, result: String(error.message ?? error) });
  }
}

addEventListener("message", ({ data }) => answer(data));
