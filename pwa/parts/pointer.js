/** Read a place of the job document by its path; items of a list are named by their id. */

/** The value at a path, or undefined. */
export function valueAt(document, path) {
  let here = document;
  for (const name of path.split("/").slice(1)) {
    if (here === null || here === undefined) return undefined;
    here = Array.isArray(here) ? here.find((item) => item.id === name) : here[name];
  }
  return here ?? undefined;
}

/** A copy of the document with these places set: [[path, value]], none of them in a list. */
export function withValues(document, pairs) {
  const copy = structuredClone(document);
  for (const [path, value] of pairs) {
    const names = path.split("/").slice(1);
    const last = names.pop();
    let here = copy;
    for (const name of names) here = here[name] ??= {};
    here[last] = value;
  }
  return copy;
}

/** The list at a path, empty where there is none. */
export function listAt(document, path) {
  return valueAt(document, path) ?? [];
}
