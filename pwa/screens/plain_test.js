/** A test page made from its description: readings on a gauge or an instrument, and yes-or-no readings. */
import { words } from "../words/words.js";
import { oneOf } from "../parts/chips.js";
import { createEntry } from "../parts/entry.js";
import { placeField, yesNo } from "../parts/fields.js";
import { gaugeChoice } from "../parts/gauges.js";
import { isPressure } from "../parts/quantity.js";
import { testPage } from "../parts/test_page.js";
import { testPageOf } from "../parts/test_pages.js";
import { testWords } from "../parts/test_words.js";

/** The screen of the page with this id. */
export const plainTestScreen = (id) => (app, job) => {
  const described = testPageOf(id);
  const at = `/tests/${id}`;
  const gauge = described.gauge ? { path: `${at}/gauge`, use: id } : null;
  const text = () => testWords(job.document, id);
  const fields = () => (described.fields ?? []).map((field) => fieldOf(job, { text: text(), at, gauge }, field));
  const entry = createEntry(job, fields, id);
  const build = () =>
    testPage(job, { id, entry, fields: fields(), before: gauge && gaugeChoice(job, gauge), choices: choicesOf(job, described, text(), at) });
  return { build };
};

function fieldOf(job, { text, at, gauge }, [name, kind, more = {}]) {
  const read = isPressure(kind) && kind !== "pressureAbsolute" && gauge ? { gauge } : {};
  return placeField(job, { path: `${at}/${name}`, label: text.fields[name], hint: text.hints?.[name], kind, ...read, ...more });
}

function choicesOf(job, { choices = [], load }, text, at) {
  const answers = choices.map((name) => yesNo(job, { label: text.choices[name], path: name.includes("/") ? `/tests/${name}` : `${at}/${name}` }));
  return load ? [...answers, loadChoice(job, at)] : answers;
}

/** Read without full load it proves nothing; the calculation takes full load where nothing is said. */
function loadChoice(job, at) {
  const { load, loads } = words.page;
  const path = `${at}/load`;
  return oneOf({ label: load, options: loads, chosen: job.value(path) ?? "full", choose: (value) => job.set(load, path, value ?? "full") });
}
