"""Phone and workshop on the same jobs: the app's own worker in Chromium against `calc`, byte for byte."""

import json
from collections.abc import Iterator
from itertools import chain, islice

from playwright.sync_api import Page

import calc
from tests.generated_jobs import Job, generated_job, generated_jobs

BATCH = 50
# Faults alike to the last bit but one stood in another order on the phone.
ONCE_DIFFERENT = (1424,)

BOOT = """() => new Promise((resolve, reject) => {
  self.engine = new Worker("/engine/worker.js", { type: "module" });
  self.engine.onmessage = ({ data: { kind, version, says } }) => {
    if (kind === "ready") resolve(version);
    else reject(new Error(says));
  };
})"""
# The document goes the phone's way: parsed, written by JavaScript, judged in the worker.
JUDGE = """(batch) => new Promise((resolve) => {
  const said = [];
  self.engine.onmessage = ({ data }) => {
    said[data.number] = `${data.kind} ${data.result}`;
    if (data.number === batch.length - 1) resolve(said);
  };
  batch.forEach(({ text, unit }, number) => {
    self.engine.postMessage({ number, text: JSON.stringify(JSON.parse(text)), unit, language: "en" });
  });
})"""


def batches(count: int) -> Iterator[list[tuple[Job, str]]]:
    jobs = chain(generated_jobs(count), (generated_job(seed) for seed in ONCE_DIFFERENT))
    while batch := list(islice(jobs, BATCH)):
        yield batch


def on_the_server(job: Job, unit: str) -> str:
    return f"verdict {calc.judge_text(json.dumps(job).encode(), unit=unit)}"


def different_jobs(page: Page, count: int) -> list[str]:
    """Ids of the generated jobs on which the two do not say the same; one start of the engine for all."""
    assert page.evaluate(BOOT) == calc.VERSION
    different, judged = [], 0
    for batch in batches(count):
        asked = [{"text": json.dumps(job), "unit": unit} for job, unit in batch]
        for (job, unit), phone in zip(batch, page.evaluate(JUDGE, asked), strict=True):
            judged += 1
            if phone != on_the_server(job, unit):
                different.append(job["id"])
    assert judged == count + len(ONCE_DIFFERENT)
    return different
