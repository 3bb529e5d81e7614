"""The phone's fold against the project's own promise, fixtures/vectors/operations.json (see its README)."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page

VECTORS = json.loads((Path(__file__).parents[2] / "fixtures/vectors/operations.json").read_text())["vectors"]

FOLD = """async (vector) => {
  const { Fold } = await import("/store/fold.js");
  const fold = new Fold(vector.document.id, vector.operations, vector.unlisted, vector.erasures);
  const { document, conflicts, hidden, waiting } = fold;
  return { document, conflicts, hidden, waiting };
}"""
HELD = """async ({ job, operations }) => {
  const { Fold } = await import("/store/fold.js");
  const { places } = new Fold(job, operations);
  return Object.fromEntries([...places].map(([path, place]) => [path, place.ids.sort()]));
}"""
RECEIPT = """async ({ rows, blobs }) => {
  const { receiptLines, receiptSum } = await import("/store/receipt.js");
  const lines = await receiptLines(rows, blobs);
  return { lines, sha256: await receiptSum(lines) };
}"""


@pytest.fixture(scope="module")
def page(browser: Any, standing_server: Any) -> Any:
    context = browser.new_context()
    page = context.new_page()
    page.goto(standing_server.url + "/health")
    yield page
    context.close()


def as_json(value: Any) -> Any:
    """Numbers of one kind, so that 96 is 96.0; True stays apart from 1."""
    if isinstance(value, bool) or value is None or isinstance(value, str):
        return (type(value).__name__, value)
    if isinstance(value, (int, float)):
        return ("number", float(value))
    if isinstance(value, list):
        return [as_json(one) for one in value]
    return {key: as_json(one) for key, one in value.items()}


def test_there_are_vectors() -> None:
    assert len(VECTORS) == 85


@pytest.mark.parametrize("vector", VECTORS, ids=lambda vector: vector["name"])
def test_the_phone_folds_as_promised(page: Page, vector: dict[str, Any]) -> None:
    got = page.evaluate(FOLD, {"unlisted": [], "erasures": [], **vector})
    expected = {
        "document": vector["document"],
        "conflicts": vector["conflicts"],
        "hidden": vector.get("hidden", []),
        "waiting": vector.get("waiting", []),
    }
    assert as_json(got) == as_json(expected)


@pytest.mark.parametrize("vector", VECTORS, ids=lambda vector: vector["name"])
def test_what_places_hold_hangs_on_no_order(page: Page, vector: dict[str, Any]) -> None:
    """Only which operation is shown may change with the order of the list."""
    job, operations = vector["document"]["id"], vector["operations"]
    forwards = page.evaluate(HELD, {"job": job, "operations": operations})
    backwards = page.evaluate(HELD, {"job": job, "operations": operations[::-1]})
    assert backwards == forwards


@pytest.mark.parametrize("vector", [one for one in VECTORS if "receipt" in one], ids=lambda one: one["name"])
def test_the_receipt_is_summed_as_promised(page: Page, vector: dict[str, Any]) -> None:
    receipt = vector["receipt"]
    erased = [(one["job"], one["path"]) for one in vector.get("erasures", [])]
    rows = [
        {"number": number, "id": operation["id"], "text": operation["bytes"]}
        for number, operation in zip(receipt["numbers"], vector["operations"], strict=True)
        if not any(operation["job"] == job and operation["path"].startswith(path) for job, path in erased)
    ]
    there = [name for name, is_there in receipt["blobs"].items() if is_there]
    got = page.evaluate(RECEIPT, {"rows": rows, "blobs": there})
    assert got == {"lines": receipt["lines"], "sha256": receipt["sha256"]}


def test_a_job_of_two_thousand_operations_folds_again_after_each_change(
    new_page: Callable[..., Page], standing_server: Any
) -> None:
    """The number of folds is asserted, not the time: the time is printed (`-s`)."""
    page = new_page(standing_server)
    folded = page.evaluate(
        """async () => {
          const { Fold } = await import("/store/fold.js");
          const operations = [];
          for (let at = 0; at < 1000; at += 1) {
            const path = `/tests/actuator/sweep/s${at}`;
            const value = { rank: String(at).padStart(4, "0"), p_kpa: at, travel_mm: 0, direction: "rising" };
            const place = `${path}/p_kpa`;
            operations.push({ id: `a${at}`, job: "j", do: "add", path, value, replaced: [] });
            const replaced = [`a${at}`];
            operations.push({ id: `b${at}`, job: "j", do: "set", path: place, value: 1, replaced });
          }
          const times = [];
          let length = 0;
          for (let round = 0; round < 5; round += 1) {
            const start = performance.now();
            const { document, conflicts } = new Fold("j", operations);
            times.push(performance.now() - start);
            length = document.tests.actuator.sweep.length + conflicts.length;
          }
          return { length, times };
        }"""
    )
    print("milliseconds a fold of 2,000 operations:", [round(one, 1) for one in folded["times"]])
    assert folded["length"] == 1000
