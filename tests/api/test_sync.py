"""`POST /api/sync` against the promises for operations, list and restart."""

import json
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from api.app import create_app
from api.exchange import take
from api.fold.document import fold
from api.fold.text import same
from api.store import database, erasures, jobs, operations
from api.store.erasures import Erasure
from tests.api.phone import CHANGE, Phone, new_id, operation, own_hash
from tests.api.vectors import VECTORS, bytes_as_made, named

FIRST = "/tests/actuator/first_movement_kpa"
FULL = "/tests/actuator/full_travel_kpa"


@pytest.fixture
def phone(client: FlaskClient) -> Phone:
    return Phone(client)


@pytest.fixture
def job() -> str:
    return new_id()


def document(client: FlaskClient, job: str) -> dict[str, Any]:
    return client.get(f"/api/jobs/{job}").json


def test_operations_are_applied_and_make_the_job(client: FlaskClient, phone: Phone, job: str) -> None:
    assert phone.sync(operation(job, FIRST, 96), operation(job, FULL, 171)) == ["applied", "applied"]
    expected = {"first_movement_kpa": 96, "full_travel_kpa": 171}
    assert document(client, job) == {"format": "job/1", "id": job, "tests": {"actuator": expected}}


def test_the_reply_brings_the_list_with_the_bytes_as_made(phone: Phone, job: str) -> None:
    text = json.dumps(operation(job, FIRST, 96.0), indent=1)
    reply = phone.post([text]).json
    assert reply["entries"] == [{"number": 1, "operation": text}]
    assert (reply["number"], reply["hash"]) == (1, own_hash(reply["entries"]))
    assert (reply["more"], reply["restart"], reply["erasures"]) == (False, False, [])


def test_an_operation_sent_twice_is_a_duplicate_and_listed_once(phone: Phone, job: str) -> None:
    one = operation(job, FIRST, 96)
    assert phone.sync(one, one) == ["applied", "duplicate"]
    assert phone.sync(one) == ["duplicate"]
    assert [entry["number"] for entry in phone.entries] == [1]


def test_the_same_id_with_other_bytes_is_refused_and_the_first_kept(
    client: FlaskClient, phone: Phone, job: str
) -> None:
    one = operation(job, FIRST, 96)
    assert phone.sync(one) == ["applied"]
    assert phone.sync(one | {"value": 69}) == ["refused"]
    assert document(client, job)["tests"]["actuator"]["first_movement_kpa"] == 96


def test_one_refused_operation_stops_no_other(client: FlaskClient, phone: Phone, job: str) -> None:
    batch = [operation(job, FIRST, 96), operation(job, "/nowhere/at_all", 1), operation(job, FULL, 171)]
    reply = phone.post([json.dumps(one) for one in batch]).json
    assert [answer["answer"] for answer in reply["answers"]] == ["applied", "refused", "applied"]
    assert reply["answers"][1]["id"] == batch[1]["id"]
    assert reply["answers"][1]["reason"]
    assert document(client, job)["tests"]["actuator"]["full_travel_kpa"] == 171


JOB = "019ac0de-0000-7000-8000-00000000aaaa"
BROKEN = {
    "no JSON": "{",
    "not an object": "[]",
    "NaN": json.dumps(operation(JOB, FIRST, float("nan"))),
    "a key twice": json.dumps(operation(JOB, FIRST, 96))[:-1] + ', "value": 97}',
    "an id that is no UUID": json.dumps(operation(JOB, FIRST, 96, id="a1")),
    "an id in capitals": json.dumps(operation(JOB, FIRST, 96, id="019AC0DE-0000-7000-8000-00000000AAAA")),
    "a job that is no UUID": json.dumps(operation("../../etc", FIRST, 96)),
    "a replaced that is no UUID": json.dumps(operation(JOB, FIRST, 96, replaced=["a1"])),
    "replaced missing": json.dumps({k: v for k, v in operation(JOB, FIRST, 96).items() if k != "replaced"}),
    "value missing": json.dumps({k: v for k, v in operation(JOB, FIRST, 96).items() if k != "value"}),
    "an unknown do": json.dumps(operation(JOB, FIRST, 96, do="increment")),
    "a time without zone": json.dumps(operation(JOB, FIRST, 96, at="2026-11-25T09:12:00")),
    "an item set": json.dumps(operation(JOB, "/gauges/g1", {"kind": "analogue"})),
    "an add outside any list": json.dumps(operation(JOB, FIRST, {"rank": "a"}, do="add")),
    "an add of a number": json.dumps(operation(JOB, "/gauges/g1", 3, do="add")),
    "a remove outside any list": json.dumps(operation(JOB, FIRST, do="remove")),
    "over 64 KB": json.dumps(operation(JOB, "/complaint/text", "x" * 65_536)),
    "half a surrogate pair": json.dumps(operation(JOB, "/complaint/text", "\ud800")),
    "nested without end": '{"value": ' + "[" * 20_000,
}


@pytest.mark.parametrize("text", BROKEN.values(), ids=BROKEN)
def test_a_broken_operation_is_refused_alone_with_a_reason(phone: Phone, text: str) -> None:
    good = operation(JOB, FULL, 171)
    reply = phone.post([text, json.dumps(good)]).json
    refused, applied = reply["answers"]
    assert refused["answer"] == "refused"
    assert refused["reason"]
    assert applied == {"id": good["id"], "answer": "applied"}


BODIES = [b"", b"{", b"[]", b"\xff", b'{"operations": 1}', b'{"operations": [1], "number": 0, "hash": ""}']
BODIES += [b'{"operations": [], "number": true, "hash": ""}', b'{"operations": [], "number": -1, "hash": ""}']
BODIES += [
    b'{"operations": [], "number": 1e400, "hash": ""}',
    b'{"operations": [], "number": 0}',
    b"[" * 50_000,
]


@pytest.mark.parametrize("body", BODIES)
def test_a_broken_request_gets_a_clear_error(client: FlaskClient, body: bytes) -> None:
    answer = client.post("/api/sync", data=body, headers=CHANGE)
    assert answer.status_code == 400
    assert answer.json["error"]
    assert answer.json["says"].endswith(".")


def test_a_batch_over_200_operations_or_256_kb_is_refused_whole(phone: Phone, job: str) -> None:
    many = phone.post([json.dumps(operation(job, FIRST, 1))] * 201)
    large = phone.post([json.dumps(operation(job, "/complaint/text", "x" * 60_000)) for _ in range(5)])
    assert (many.status_code, large.status_code) == (413, 413)
    assert phone.post([]).json["entries"] == []


def test_a_body_over_the_limit_of_the_route_is_refused(phone: Phone) -> None:
    assert phone.post(["x" * 1_100_000]).status_code == 413


def test_a_long_list_comes_in_pages_and_whole(client: FlaskClient, phone: Phone, job: str) -> None:
    for _ in range(3):
        phone.sync(*(operation(job, FIRST, 96) for _ in range(150)))
    newcomer = Phone(client)
    first = newcomer.post([]).json
    assert (len(first["entries"]), first["more"]) == (200, True)
    newcomer.sync()
    assert newcomer.entries == phone.entries
    assert newcomer.hash == own_hash(newcomer.entries)
    assert [entry["number"] for entry in newcomer.entries] == list(range(1, 451))


def test_a_second_sync_sends_nothing_new(phone: Phone, job: str) -> None:
    phone.sync(operation(job, FIRST, 96))
    reply = phone.post([]).json
    assert (reply["entries"], reply["number"], reply["hash"]) == ([], phone.number, phone.hash)


def test_two_phones_converge_on_one_job(client: FlaskClient, job: str) -> None:
    one, other = Phone(client), Phone(client)
    one.sync(operation(job, FIRST, 96))
    other.sync(operation(job, FIRST, 98, device="B"))
    one.sync()
    assert one.entries == other.entries
    listed = [json.loads(entry["operation"]) for entry in one.entries]
    assert same(fold(job, listed).document, document(client, job))
    assert client.get("/api/jobs").json[0]["conflicts"] == 1


def copy_database(source: Path, target: Path) -> None:
    with closing(sqlite3.connect(source)) as old, closing(sqlite3.connect(target)) as new:
        old.backup(new)


def test_after_a_restored_backup_the_phone_starts_again_and_nothing_is_lost(
    tmp_path: Path, pwa: Path, job: str
) -> None:
    data, backup = tmp_path / "data", tmp_path / "backup.sqlite3"
    first, lost, other = operation(job, FIRST, 96), operation(job, FULL, 171), operation(job, FULL, 150)
    phone = Phone(create_app(data, pwa=pwa).test_client())
    phone.sync(first)
    copy_database(data / "workshop.sqlite3", backup)
    phone.sync(lost)

    restored = tmp_path / "restored"
    restored.mkdir()
    copy_database(backup, restored / "workshop.sqlite3")
    client = create_app(restored, pwa=pwa).test_client()
    Phone(client).sync(other)

    phone.client = client
    reply = phone.post([]).json
    assert reply["restart"] is True
    assert [json.loads(entry["operation"])["id"] for entry in reply["entries"]] == [first["id"], other["id"]]
    phone.sync()
    assert phone.sync(first, lost) == ["duplicate", "applied"]
    assert {json.loads(entry["operation"])["id"] for entry in phone.entries} == {
        first["id"],
        lost["id"],
        other["id"],
    }


def test_a_phone_ahead_of_the_list_starts_again(phone: Phone, job: str) -> None:
    phone.sync(operation(job, FIRST, 96))
    reply = phone.post([], number=7, hash="0" * 64).json
    assert (reply["restart"], len(reply["entries"]), reply["number"]) == (True, 1, 1)


def test_an_operation_before_its_item_waits_and_then_counts(
    client: FlaskClient, phone: Phone, job: str
) -> None:
    add = operation(job, "/tests/actuator/sweep/s1", {"rank": "c0k3qa", "p_kpa": 60}, do="add")
    late = operation(job, "/tests/actuator/sweep/s1/p_kpa", 61, replaced=[add["id"]])
    assert phone.sync(late) == ["applied"]
    assert client.get("/api/jobs").json[0]["waiting"] == 1
    assert phone.sync(add) == ["applied"]
    assert document(client, job)["tests"]["actuator"]["sweep"] == [
        {"id": "s1", "rank": "c0k3qa", "p_kpa": 61}
    ]


def test_the_kept_document_can_be_made_again_from_its_operations(app: Flask, phone: Phone, job: str) -> None:
    phone.sync(operation(job, FIRST, 96), operation(job, FULL, 171))
    with closing(database.connect(Path(app.extensions["teepiece"].database))) as connection:
        before = jobs.find(connection, job)
        jobs.catch_up(connection)
        connection.execute("DELETE FROM jobs")
        for one in operations.job_ids(connection):
            jobs.remake(connection, one)
        assert jobs.find(connection, job) == before


def test_a_job_reads_the_same_before_and_after_its_document_is_kept(
    app: Flask, client: FlaskClient, phone: Phone, job: str
) -> None:
    other = new_id()
    phone.sync(operation(other, FIRST, 80), operation(job, FIRST, 96))
    with closing(database.connect(Path(app.extensions["teepiece"].database))) as connection:
        before = (jobs.find(connection, job), jobs.latest_first(connection), jobs.latest_first(connection, 1))
        assert jobs.catch_up(connection) == 2
        assert (jobs.find(connection, job), jobs.latest_first(connection)) == before[:2]
        phone.sync(operation(other, FULL, 171))
        assert [one.id for one in jobs.latest_first(connection)] == [other, job]
        assert [one.id for one in jobs.latest_first(connection, 1)] == [other]
        assert [one.id for one in jobs.latest_first(connection, after=2)] == [other]
        assert [one.id for one in jobs.latest_first(connection, before=3)] == [job]
        assert jobs.catch_up(connection) == 1
        assert jobs.catch_up(connection) == 0
    assert document(client, other)["tests"]["actuator"] == {
        "first_movement_kpa": 80,
        "full_travel_kpa": 171,
    }


@pytest.mark.parametrize("vector", **named([vector for vector in VECTORS if "arriving" in vector]))
def test_operations_that_arrive_get_the_answers_of_the_vector(
    tmp_path: Path, vector: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("api.operation._check_ids", lambda operation: None)  # the vectors' ids are short
    with closing(database.connect(tmp_path / "vector.sqlite3")) as connection:
        database.bring_up_to_date(connection)
        for erasure in vector.get("erasures", []):
            erasures.record(connection, Erasure(erasure["id"], erasure["job"], erasure["path"]))
        answers = take(connection, [bytes_as_made(one) for one in vector["arriving"]])
        listed = [one.text for one in operations.page_after(connection, 0)[0]]
    assert [answer.answer for answer in answers] == vector["answers"]
    assert listed == [bytes_as_made(one) for one in vector["operations"]]
