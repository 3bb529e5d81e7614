"""Documents become operations whose fold is the document again; the demo job is one of them."""

import json
from pathlib import Path
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from hypothesis import given, settings
from hypothesis import strategies as st

import calc
from api import demo
from api.context import KEY
from api.fold.document import fold
from api.operation import check_place, read
from api.store import database
from api.unfold import operations_for
from tests.generated_jobs import generated_job

FIXTURES = Path(__file__).resolve().parents[2] / "fixtures"
JOB = "019ac0de-0000-7000-8000-00000000abcd"
MADE = {"device": "workshop", "person": "p", "at": "2026-11-25T09:12:00+00:00"}
ADDED = {"id", "rank"}


def folded(document: dict[str, Any]) -> dict[str, Any]:
    operations = [read(text) for text in operations_for(document, **MADE)]
    for operation in operations:
        check_place(operation)
    result = fold(document["id"], operations)
    assert (result.conflicts, result.hidden, result.waiting) == ([], [], [])
    return result.document


def bare(value: Any) -> Any:
    """The value without what becoming operations adds: ids and ranks of items, and without empty parts."""
    if isinstance(value, list):
        return [bare(one) for one in value]
    if not isinstance(value, dict):
        return value
    inner = {key: bare(one) for key, one in value.items() if key not in ADDED}
    return {key: one for key, one in inner.items() if one not in ({}, [])}


@pytest.mark.parametrize("name", ["demo/job.json", "jobs/contract_example.json"])
def test_a_document_comes_back_from_its_operations(name: str) -> None:
    document = dict(calc.read_job((FIXTURES / name).read_bytes())) | {"id": JOB}
    assert bare(folded(document)) == bare(document)


@settings(max_examples=25, deadline=None, derandomize=True)
@given(st.integers(0, 10_000))
def test_generated_documents_come_back(seed: int) -> None:
    job, _unit = generated_job(seed)
    document = dict(calc.read_job(json.dumps(job | {"id": JOB}).encode()))
    assert bare(folded(document)) == bare(document)


def test_items_keep_their_ids_and_their_order() -> None:
    items = [{"id": name, "p_kpa": n} for n, name in enumerate(["z", "a", "m/~", "b"])]
    document = {"id": JOB, "tests": {"actuator": {"sweep": items}}}
    sweep = folded(document)["tests"]["actuator"]["sweep"]
    assert [row["p_kpa"] for row in sweep] == [0, 1, 2, 3]
    assert [row["id"] for row in sweep][:2] == ["z", "a"]


def test_the_same_document_gives_the_same_bytes() -> None:
    assert demo.operations() == demo.operations()
    assert len(set(demo.operations())) == len({read(text)["id"] for text in demo.operations()})


def test_the_demo_job_is_put_in_once(app: Flask, client: FlaskClient) -> None:
    context = app.extensions[KEY]
    connection = database.connect(context.database)
    assert demo.there(connection) is None
    for _ in range(2):
        demo.put_in(connection, context.blobs)
    connection.close()
    (listed,) = client.get("/api/jobs").json
    assert listed["id"] == demo.document()["id"]
    assert (listed["conflicts"], listed["waiting"]) == (0, 0)
    assert client.get("/api/standing").json["number"] == len(demo.operations())


def test_the_demo_job_shows_a_fault_that_is_proved_and_mended() -> None:
    verdict = calc.judge(demo.document())
    assert (verdict["conclusion"]["fault"], verdict["conclusion"]["standing"]) == (
        "actuator_opens_late",
        "proved",
    )
    assert verdict["adjustment"]["rod_turns"] == pytest.approx(3.6)
    assert verdict["repair_proof"]["proved"] is True


def test_every_photo_of_the_demo_job_lies_beside_it() -> None:
    import hashlib

    there = {hashlib.sha256(path.read_bytes()).hexdigest() for path in demo.FOLDER.glob("*.jpg")}
    assert {photo["sha256"] for photo in demo.document()["photos"]} == there
