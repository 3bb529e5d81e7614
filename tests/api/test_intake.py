"""A copy that a phone saved, taken in at the desk: bounded, held against its sums, and never twice."""

import io
import json
import struct
import zipfile
from typing import Any

import pytest
from flask.testing import FlaskClient

from tests.api.phone import CHANGE, Phone, new_id, operation
from tests.api.test_blobs import NAME, PHOTO

JOB = new_id()
MANIFEST = {"format": "teepiece-copy/1", "made_at": "2026-11-25T09:12:00+00:00", "device": "A"}


def lines(*operations: dict[str, Any]) -> str:
    return "".join(json.dumps({"number": None, "operation": json.dumps(one)}) + "\n" for one in operations)


def copy(files: dict[str, str | bytes]) -> bytes:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in files.items():
            archive.writestr(name, data)
    return packed.getvalue()


def whole(*operations: dict[str, Any], **more: str | bytes) -> bytes:
    files = {"copy.json": json.dumps(MANIFEST), "operations.jsonl": lines(*operations), "erasures.json": "[]"}
    return copy(files | {f"blobs/{NAME}.jpg": PHOTO, "index.html": "<!doctype html>"} | more)


def taken_in(client: FlaskClient, data: bytes) -> Any:
    return client.post("/api/copies", data=data, headers=CHANGE | {"Content-Type": "application/zip"})


def test_a_copy_brings_what_the_workshop_lacks_and_nothing_twice(client: FlaskClient) -> None:
    known, fresh = operation(JOB, "/spec/source", "x"), operation(JOB, "/complaint/text", "cuts out")
    Phone(client).sync(known)
    first = taken_in(client, whole(known, fresh)).json
    again = taken_in(client, whole(known, fresh)).json
    assert (first["applied"], first["duplicate"], first["photos"]) == (1, 1, 1)
    assert (again["applied"], again["duplicate"], again["photos"]) == (0, 2, 0)
    assert client.get(f"/api/jobs/{JOB}").json["complaint"] == {"text": "cuts out"}
    assert client.get(f"/api/blobs/{NAME}").data == PHOTO


def test_erasures_in_a_copy_come_first(client: FlaskClient) -> None:
    record = {"id": new_id(), "job": JOB, "path": "/customer"}
    name = operation(JOB, "/customer/name", "Ada Quill")
    answer = taken_in(client, whole(name, **{"erasures.json": json.dumps([record])})).json
    assert [one["reason"] for one in answer["refused"]] == ["what stood at this place was erased"]
    assert b"Ada Quill" not in Phone(client).post([]).data


def test_a_damaged_photo_is_named_and_the_rest_taken(client: FlaskClient) -> None:
    answer = taken_in(
        client, whole(operation(JOB, "/spec/source", "x"), **{f"blobs/{NAME}.jpg": PHOTO[:-1]})
    ).json
    assert (answer["applied"], answer["photos"]) == (1, 0)
    assert answer["refused"][0]["id"] == NAME


NOT_COPIES = {
    "no zip": b"PK but not really",
    "nothing": b"",
    "another format": copy({"copy.json": '{"format": "x"}', "operations.jsonl": ""}),
    "no list of operations": copy({"copy.json": json.dumps(MANIFEST)}),
    "a list that is no JSON": whole(**{"operations.jsonl": "{\n"}),
    "a list of other things": whole(**{"operations.jsonl": "[1]\n"}),
    "a line without end": whole(**{"operations.jsonl": '"' + "x" * 3_000_000}),
    "an erasure of measurements": whole(
        **{"erasures.json": json.dumps([{"id": new_id(), "job": JOB, "path": "/tests"}])}
    ),
}


@pytest.mark.parametrize("data", NOT_COPIES.values(), ids=NOT_COPIES)
def test_what_is_no_copy_is_refused_in_a_sentence(client: FlaskClient, data: bytes) -> None:
    answer = taken_in(client, data)
    assert answer.status_code == 422
    assert answer.json["says"].endswith(".")


def test_a_bomb_is_refused_before_it_is_unpacked(client: FlaskClient) -> None:
    """300 MB of noughts in 300 KB: more than a list of operations may hold."""
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("copy.json", json.dumps(MANIFEST))
        with archive.open("operations.jsonl", "w") as stream:
            for _ in range(300):
                stream.write(b"\n" * 1_000_000)
    assert taken_in(client, packed.getvalue()).status_code == 422


def test_a_size_that_is_a_lie_is_not_believed(client: FlaskClient) -> None:
    """The directory claims 10 bytes for a file of 17 MB (PKWARE appnote 4.3.12: uncompressed size)."""
    data = bytearray(whole(**{f"blobs/{NAME}.jpg": bytes(17_000_000)}))
    at = 0
    size = struct.pack("<L", 17_000_000)
    while (at := data.find(size, at)) >= 0:
        data[at : at + 4] = struct.pack("<L", 10)
    answer = taken_in(client, bytes(data))
    assert answer.status_code == 422 or answer.json["photos"] == 0
    assert client.head(f"/api/blobs/{NAME}").status_code == 404


def test_names_lead_nowhere(client: FlaskClient, tmp_path: Any) -> None:
    taken_in(client, whole(**{"../../escape": "x", "/blobs/../x": "y"}))
    assert not list(tmp_path.rglob("escape"))
