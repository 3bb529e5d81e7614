/**
 * Cars to practise with: invented, with every reading in place. They lie in a workbook of their own, which no sync
 * knows; one of them becomes a job like any other only when the technician says so.
 */

import { change } from "./book.js";
import { uuid7 } from "./uuid.js";

const CARS = "/practice/cars.json";
const SETTING = "cars";

/** The ids of the cars that this practice workbook holds. */
export function carsIn(practice) {
  return (practice.settings.get(SETTING) ?? []).filter((id) => practice.job(id));
}

/** Puts the cars in as they were made, whatever was done to them since. Rejects where they cannot be had. */
export async function bringCars(practice) {
  const response = await fetch(CARS, { signal: AbortSignal.timeout(30_000) });
  if (!response.ok) throw new Error(`${CARS}: ${response.status}`);
  const cars = await response.json();
  const ids = cars.map(({ id }) => id);
  const { book } = practice;
  await book.keep(() => {
    const old = ids.flatMap((id) => book.record(id).rows.map((row) => ({ id: row.id, job: id })));
    return change({ gone: { rows: old, jobs: ids } });
  });
  await book.keep(() => change({
    rows: cars.flatMap(({ id, operations }) => operations.map((text) => rowOf(book, id, text))),
    values: { [`setting:${SETTING}`]: ids },
  }));
}

/** Makes a practice car a job of `workbook`, under ids of its own. Resolves with the job's id when it is kept. */
export async function takeCar(practice, car, workbook) {
  const job = uuid7();
  const { book } = workbook;
  const held = practice.book.record(car).unlistedRows.map(({ operation }) => operation);
  const names = new Map(held.map(({ id }) => [id, uuid7()]));
  const own = { job, device: workbook.settings.get("device"), person: workbook.settings.get("person") ?? "" };
  await book.keep(() => change({
    rows: held.map((operation) => {
      const replaced = operation.replaced.map((id) => names.get(id) ?? id);
      return rowOf(book, job, JSON.stringify({ ...operation, ...own, id: names.get(operation.id), replaced }));
    }),
  }));
  return job;
}

function rowOf(book, job, text) {
  return { id: JSON.parse(text).id, job, text, number: null, was: null, made: book.nextMade(), refused: null };
}
