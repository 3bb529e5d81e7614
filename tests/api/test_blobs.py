"""`/api/blobs/<sha256>`: kept as they came, or not at all."""

import hashlib
from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient

from api.store.blobs import Blobs
from tests.api.phone import CHANGE

PHOTO = b"\xff\xd8\xff\xe0" + bytes(range(256)) * 2000
NAME = hashlib.sha256(PHOTO).hexdigest()


def put(client: FlaskClient, name: str, data: bytes) -> int:
    return client.put(f"/api/blobs/{name}", data=data, headers=CHANGE).status_code


def test_a_blob_comes_back_with_the_bytes_it_came_with(client: FlaskClient) -> None:
    assert client.head(f"/api/blobs/{NAME}").status_code == 404
    assert put(client, NAME, PHOTO) == 201
    assert put(client, NAME, PHOTO) == 200
    assert client.head(f"/api/blobs/{NAME}").status_code == 200
    assert client.get(f"/api/blobs/{NAME}").data == PHOTO


def test_a_blob_never_runs_as_a_page_of_ours(client: FlaskClient) -> None:
    page = b"<script>alert(1)</script>"
    name = hashlib.sha256(page).hexdigest()
    put(client, name, page)
    headers = client.get(f"/api/blobs/{name}").headers
    assert headers["Content-Type"] == "application/octet-stream"
    assert headers["Content-Disposition"].startswith("attachment")
    assert headers["Content-Security-Policy"].startswith("sandbox")


def test_bytes_that_do_not_match_their_name_are_refused_and_leave_nothing(
    client: FlaskClient, app: Flask
) -> None:
    assert put(client, NAME, PHOTO[:-1]) == 422
    assert client.head(f"/api/blobs/{NAME}").status_code == 404
    assert list(app.extensions["teepiece"].blobs.incoming.iterdir()) == []


@pytest.mark.parametrize("name", ["abc", NAME.upper(), NAME + "0", "..%2f" + NAME[:60], NAME[:63] + "g"])
def test_a_name_that_is_no_hash_is_refused(client: FlaskClient, name: str) -> None:
    assert put(client, name, PHOTO) in (400, 403, 404, 405)
    assert client.get(f"/api/blobs/{name}").status_code == 404


def test_over_16_mb_is_refused(client: FlaskClient) -> None:
    data = bytes(16 * 1024 * 1024 + 1)
    assert put(client, hashlib.sha256(data).hexdigest(), data) == 413


def test_what_a_crash_left_half_received_goes_at_the_next_start(tmp_path: Path) -> None:
    blobs = Blobs(tmp_path)
    blobs.prepare()
    (blobs.incoming / "half").write_bytes(b"half")
    blobs.prepare()
    assert list(blobs.incoming.iterdir()) == []


def test_a_disk_that_fails_while_writing_keeps_no_blob(
    client: FlaskClient, app: Flask, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", fail)
    assert put(client, NAME, PHOTO) == 507
    monkeypatch.undo()
    assert client.head(f"/api/blobs/{NAME}").status_code == 404
    assert put(client, NAME, PHOTO) == 201


def part(client: FlaskClient, start: int, end: int, name: str = NAME, data: bytes = PHOTO) -> tuple[int, int]:
    """Send the bytes from `start` to before `end`; the status, and where the server stands then."""
    span = {"Content-Range": f"bytes {start}-{end - 1}/{len(data)}"}
    answer = client.put(f"/api/blobs/{name}", data=data[start:end], headers=CHANGE | span)
    return answer.status_code, int(answer.headers.get("Upload-Offset", -1))


def test_a_blob_comes_in_parts_and_goes_on_where_it_broke_off(client: FlaskClient, app: Flask) -> None:
    half, end = len(PHOTO) // 2, len(PHOTO)
    assert part(client, 0, half) == (202, half)
    app.extensions["teepiece"].blobs.prepare()  # as at a new start
    assert client.head(f"/api/blobs/{NAME}").headers["Upload-Offset"] == str(half)
    assert part(client, half, end) == (201, end)
    assert client.get(f"/api/blobs/{NAME}").data == PHOTO


@pytest.mark.parametrize("start", [0, 10, 99_999, 100_001, 300_000])
def test_a_part_at_another_place_is_answered_with_the_right_one(client: FlaskClient, start: int) -> None:
    part(client, 0, 100_000)
    assert part(client, start, start + 1000) == (409, 100_000)
    assert part(client, 100_000, len(PHOTO)) == (201, len(PHOTO))


def test_parts_that_do_not_make_the_blob_are_refused_and_begin_anew(client: FlaskClient) -> None:
    other = bytes(len(PHOTO))
    assert part(client, 0, 1000, data=other) == (202, 1000)
    assert part(client, 1000, len(PHOTO))[0] == 422
    assert client.head(f"/api/blobs/{NAME}").headers["Upload-Offset"] == "0"
    assert part(client, 0, len(PHOTO)) == (201, len(PHOTO))


def test_a_crash_just_before_the_name_is_finished_when_it_is_asked_for(
    client: FlaskClient, app: Flask
) -> None:
    (app.extensions["teepiece"].blobs.incoming / f"{NAME}.part").write_bytes(PHOTO)
    assert client.head(f"/api/blobs/{NAME}").status_code == 200
    assert client.get(f"/api/blobs/{NAME}").data == PHOTO


@pytest.mark.parametrize(
    "span", ["bytes 5-4/10", "bytes 0-10/10", "bytes 0-9/*", "lines 0-9/10", "bytes 0-8/10", "bytes -1-9/10"]
)
def test_a_range_that_is_none_is_refused(client: FlaskClient, span: str) -> None:
    headers = CHANGE | {"Content-Range": span}
    assert client.put(f"/api/blobs/{NAME}", data=bytes(10), headers=headers).status_code in (400, 422)


def test_parts_of_more_than_16_mb_are_refused(client: FlaskClient) -> None:
    headers = CHANGE | {"Content-Range": f"bytes 0-9/{16 * 1024 * 1024 + 1}"}
    assert client.put(f"/api/blobs/{NAME}", data=bytes(10), headers=headers).status_code == 413
