/** A car in a line. */
import { words } from "../words/words.js";

/** Registration, make and model: whatever there is. */
export function carName({ vehicle = {} }) {
  const { registration, make, model } = vehicle;
  return [registration, [make, model].filter(Boolean).join(" ")].filter(Boolean).join(" \u00b7 ") || words.jobs.unnamed;
}

/** What it is here for. */
export function carUnder({ complaint = {} }) {
  const named = new Map(words.symptoms);
  const noticed = (complaint.symptoms ?? []).map((symptom) => named.get(symptom) ?? symptom);
  return [complaint.text, ...noticed, ...(complaint.codes ?? [])].filter(Boolean).join(" \u00b7 ");
}
