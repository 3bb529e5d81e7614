"""Erasing a customer: gone from the file, refused when late, known again from wherever a record is left."""

import json
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from api.app import create_app
from api.erasure import PERSONAL, Eraser, of_customer
from api.store import database, erasures
from api.store.erasures import own_key
from tests.api.phone import Phone, new_id, operation, own_hash
from tests.api.test_blobs import NAME, PHOTO, put

SECRET = "Zaphira Quillfeather"


@pytest.fixture
def job(client: FlaskClient) -> str:
    job = new_id()
    add = operation(job, "/photos/p1", {"rank": "h0abcd", "sha256": NAME, "caption": SECRET}, do="add")
    name, later = (
        operation(job, "/customer/name", SECRET),
        operation(job, "/customer/email", f"{SECRET}@example.org"),
    )
    Phone(client).sync(name, operation(job, "/spec/source", "kept"), later, add)
    put(client, NAME, PHOTO)
    return job


def erase(app: Flask, job: str, photos: tuple[str, ...] = ("p1",)) -> None:
    context = app.extensions["teepiece"]
    data = Path(context.database).parent
    with closing(database.connect(context.database)) as connection:
        Eraser(data, context.blobs).merge(connection, of_customer(own_key(connection), job, photos))


def files_with(data: Path, text: str) -> list[str]:
    """Files in which the text stands, as bytes: database, write-ahead log, anything."""
    return [path.name for path in data.rglob("*") if path.is_file() and text.encode() in path.read_bytes()]


@pytest.fixture
def log_stays(data: Path) -> Iterator[None]:
    """A connection that stays open, as a server at work has one."""
    with closing(database.connect(data / "workshop.sqlite3")) as open_:
        open_.execute("SELECT COUNT(*) FROM operations").fetchone()
        yield


def test_nothing_of_it_is_left_in_any_file(
    log_stays: None, app: Flask, data: Path, client: FlaskClient, job: str
) -> None:
    assert "workshop.sqlite3-wal" in files_with(data, SECRET)
    erase(app, job)
    assert files_with(data, SECRET) == []
    assert client.get(f"/api/jobs/{job}").json == {"format": "job/1", "id": job, "spec": {"source": "kept"}}
    assert client.head(f"/api/blobs/{NAME}").status_code == 404


def test_a_photo_that_another_job_shows_stays(app: Flask, client: FlaskClient, job: str) -> None:
    other = operation(new_id(), "/photos/q1", {"rank": "h0abcd", "sha256": NAME}, do="add")
    Phone(client).sync(other)
    erase(app, job)
    assert client.get(f"/api/blobs/{NAME}").data == PHOTO


def test_the_list_stays_whole_for_a_new_phone(app: Flask, client: FlaskClient, job: str) -> None:
    before = Phone(client)
    before.sync()
    erase(app, job)
    phone = Phone(client)
    reply = phone.post([]).json
    assert [entry["number"] for entry in reply["entries"]] == [1, 2, 3, 4]
    assert [entry["operation"] is None for entry in reply["entries"]] == [True, False, True, True]
    assert (reply["number"], reply["hash"]) == (before.number, own_hash(before.entries))


def test_a_receipt_has_no_line_for_it(app: Flask, client: FlaskClient, job: str) -> None:
    erase(app, job)
    receipt = client.get(f"/api/jobs/{job}/receipt").json
    assert (receipt["operations"], receipt["blobs"]) == (1, 0)


def test_what_comes_late_is_refused(app: Flask, client: FlaskClient, job: str) -> None:
    phone = Phone(client)
    phone.sync()
    again = json.loads(phone.entries[0]["operation"])
    erase(app, job)
    assert phone.sync(again, operation(job, "/customer/phone", "0")) == ["refused", "refused"]
    assert phone.sync(operation(job, "/complaint/text", "still taken")) == ["applied"]


def test_a_record_is_known_again_from_the_file(app: Flask, data: Path, pwa: Path, job: str) -> None:
    """The database is an older one, without the record."""
    old = (data / "workshop.sqlite3").read_bytes()
    wal = data / "workshop.sqlite3-wal"
    old_log = wal.read_bytes() if wal.exists() else b""
    erase(app, job)
    (data / "workshop.sqlite3").write_bytes(old)
    (data / "workshop.sqlite3-wal").write_bytes(old_log)
    (data / "workshop.sqlite3-shm").unlink(missing_ok=True)
    client = create_app(data, pwa=pwa).test_client()
    assert "customer" not in client.get(f"/api/jobs/{job}").json
    assert files_with(data, SECRET) == []


def test_a_record_is_known_again_from_the_database(app: Flask, data: Path, pwa: Path, job: str) -> None:
    erase(app, job)
    file = data / "erasures.jsonl"
    kept = file.read_text()
    file.unlink()
    create_app(data, pwa=pwa)
    assert sorted(file.read_text().split("\n")) == sorted(kept.split("\n"))


def test_a_line_that_a_crash_cut_short_harms_no_other(app: Flask, data: Path, pwa: Path, job: str) -> None:
    erase(app, job)
    file = data / "erasures.jsonl"
    with file.open("a") as torn:
        torn.write('{"id": "019ac0')
    client = create_app(data, pwa=pwa).test_client()
    other = new_id()
    Phone(client).sync(operation(other, "/customer/name", "B"))
    erase(app, other, ())
    assert len(Eraser(data, app.extensions["teepiece"].blobs).records()) == 2 * len(PERSONAL) + 1


def test_a_phone_brings_a_record_back(app: Flask, client: FlaskClient, job: str) -> None:
    record = {"id": new_id(), "job": job, "path": "/customer"}
    own = erasures.sum_of([erasures.Erasure(**record)])
    phone = Phone(client)
    reply = phone.post([], erasures=[record], erasures_sum=own).json
    assert (reply["erasures"], reply["erasures_sum"]) == ([], own)
    assert "customer" not in client.get(f"/api/jobs/{job}").json
    assert phone.post([], erasures_sum="").json["erasures"] == [record]
    with closing(database.connect(app.extensions["teepiece"].database)) as connection:
        deeds = connection.execute("SELECT about FROM audit WHERE did LIKE '%brought an erasure%'").fetchall()
    assert deeds == [(job,)]  # told once, however often it is brought


@pytest.mark.parametrize(
    "bad",
    [
        {"id": "x", "job": new_id(), "path": "/customer"},
        {"id": new_id(), "job": new_id(), "path": "/tests/actuator"},
        {"id": new_id(), "job": new_id(), "path": "/customerX"},
        {"id": new_id(), "path": "/customer"},
        "text",
    ],
)
def test_a_phone_can_erase_nothing_but_the_person(client: FlaskClient, job: str, bad: Any) -> None:
    answer = Phone(client).post([], erasures=[bad])
    assert (answer.status_code, answer.json["error"]) == (400, "bad_erasure")
    assert client.get(f"/api/jobs/{job}").json["spec"] == {"source": "kept"}
