"""Backup and restore: whole or refused; what was erased stays erased; nobody stays signed in."""

import json
import sqlite3
import subprocess
import sys
import zipfile
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from api import backup
from api.app import create_app
from api.erasure import Eraser, of_customer
from api.store import database
from api.store.erasures import own_key
from tests.api.phone import CHANGE, Phone, new_id, operation
from tests.api.test_blobs import NAME, PHOTO, put

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def job(client: FlaskClient) -> str:
    """A job with a customer and a photo, in the workshop."""
    job = new_id()
    photo = operation(job, "/photos/p1", {"rank": "h0abcd", "sha256": NAME}, do="add")
    Phone(client).sync(
        operation(job, "/customer/name", "Ada Quill"), operation(job, "/spec/source", "x"), photo
    )
    put(client, NAME, PHOTO)
    return job


def document(data: Path, pwa: Path, job: str) -> dict[str, Any]:
    return create_app(data, pwa=pwa).test_client().get(f"/api/jobs/{job}").json


def test_a_backup_put_back_elsewhere_is_the_same_workshop(
    client: FlaskClient, data: Path, pwa: Path, job: str, tmp_path: Path
) -> None:
    before = client.get(f"/api/jobs/{job}").json
    backup.back_up(data, tmp_path / "all.zip")
    assert backup.restore(tmp_path / "all.zip", tmp_path / "other") is None
    assert document(tmp_path / "other", pwa, job) == before
    there = create_app(tmp_path / "other", pwa=pwa).test_client()
    assert there.get(f"/api/blobs/{NAME}").data == PHOTO
    assert (
        there.get(f"/api/jobs/{job}/receipt").json["sha256"]
        == client.get(f"/api/jobs/{job}/receipt").json["sha256"]
    )


def test_what_was_there_is_moved_aside(
    client: FlaskClient, data: Path, pwa: Path, job: str, tmp_path: Path
) -> None:
    backup.back_up(data, tmp_path / "all.zip")
    Phone(client).sync(operation(job, "/complaint/text", "later"))
    aside = backup.restore(tmp_path / "all.zip", data)
    assert "complaint" not in document(data, pwa, job)
    assert aside
    assert document(aside, pwa, job)["complaint"]["text"] == "later"


@pytest.mark.parametrize("member", [backup.DATABASE, f"photos/{NAME}"])
@pytest.mark.parametrize("harm", ["turned", "missing"])
def test_a_damaged_backup_is_refused_and_nothing_changed(
    data: Path, pwa: Path, job: str, tmp_path: Path, member: str, harm: str
) -> None:
    backup.back_up(data, tmp_path / "all.zip")
    harmed(tmp_path / "all.zip", tmp_path / "harmed.zip", member, harm)
    before = document(data, pwa, job)
    with pytest.raises(backup.BackupError, match="Nothing was changed"):
        backup.restore(tmp_path / "harmed.zip", data)
    assert document(data, pwa, job) == before


def harmed(source: Path, target: Path, member: str, harm: str) -> None:
    with zipfile.ZipFile(source) as whole, zipfile.ZipFile(target, "w") as broken:
        for name in whole.namelist():
            data = bytearray(whole.read(name))
            if name == member:
                data[len(data) // 2] ^= 1
            if name != member or harm == "turned":
                broken.writestr(name, bytes(data))


@pytest.mark.parametrize("cut", [0, 10, 0.5, 0.99])
def test_a_file_cut_short_is_refused(data: Path, job: str, tmp_path: Path, cut: float) -> None:
    backup.back_up(data, tmp_path / "all.zip")
    whole = (tmp_path / "all.zip").read_bytes()
    (tmp_path / "cut.zip").write_bytes(whole[: int(cut * len(whole)) if cut < 1 else int(cut)])
    with pytest.raises(backup.BackupError, match="cannot be read as a backup"):
        backup.restore(tmp_path / "cut.zip", data)


def test_a_foreign_zip_is_refused(data: Path, job: str, tmp_path: Path) -> None:
    with zipfile.ZipFile(tmp_path / "foreign.zip", "w") as foreign:
        foreign.writestr("../escape", "x")
    with pytest.raises(backup.BackupError, match="no backup"):
        backup.restore(tmp_path / "foreign.zip", data)
    manifest = {"format": backup.FORMAT, "sha256": {backup.DATABASE: "", "../escape": ""}}
    with zipfile.ZipFile(tmp_path / "worse.zip", "w") as foreign:
        foreign.writestr("../escape", "x")
        foreign.writestr(backup.MANIFEST, json.dumps(manifest))
    with pytest.raises(backup.BackupError):
        backup.restore(tmp_path / "worse.zip", data)
    assert not (data.parent / "escape").exists()


def test_an_erasure_after_the_backup_is_not_undone_by_it(
    app: Flask, data: Path, pwa: Path, job: str, tmp_path: Path
) -> None:
    backup.back_up(data, tmp_path / "all.zip")
    with closing(database.connect(data / backup.DATABASE)) as connection:
        Eraser(data, app.extensions["teepiece"].blobs).merge(
            connection, of_customer(own_key(connection), job, ["p1"])
        )
    backup.restore(tmp_path / "all.zip", data)
    found = document(data, pwa, job)
    assert "customer" not in found
    assert "photos" not in found
    assert found["spec"] == {"source": "x"}
    assert b"Ada Quill" not in (data / backup.DATABASE).read_bytes()
    assert not list(data.glob("blobs/*/" + NAME))


def test_a_restore_ends_all_sessions(data: Path, job: str, tmp_path: Path) -> None:
    with closing(sqlite3.connect(data / backup.DATABASE)) as connection:
        connection.execute("INSERT INTO people VALUES ('p', 'n', 'owner', 'x', '2026', NULL)")
        connection.execute("INSERT INTO sessions VALUES ('s', 't', 'p', NULL, '2026', '2026', '')")
        connection.commit()
    backup.back_up(data, tmp_path / "all.zip")
    backup.restore(tmp_path / "all.zip", data)
    with closing(sqlite3.connect(data / backup.DATABASE)) as connection:
        assert connection.execute("SELECT COUNT(*) FROM sessions").fetchone() == (0,)


def test_a_restore_is_refused_while_a_server_runs(data: Path, job: str, tmp_path: Path) -> None:
    backup.back_up(data, tmp_path / "all.zip")
    with backup.only_user(data), pytest.raises(backup.BackupError, match="End the server first"):
        backup.restore(tmp_path / "all.zip", data)


NIGHT = datetime(2026, 11, 25, 3, 0, tzinfo=UTC)


def test_a_nightly_backup_is_put_back_with_its_photos(
    data: Path, pwa: Path, job: str, tmp_path: Path
) -> None:
    before = document(data, pwa, job)
    made = backup.nightly(data, NIGHT)
    (data / backup.DATABASE).unlink()
    (data / "blobs" / NAME[:2] / NAME).unlink()
    backup.restore(made, data)
    assert document(data, pwa, job) == before
    assert create_app(data, pwa=pwa).test_client().get(f"/api/blobs/{NAME}").data == PHOTO


def test_a_nightly_backup_from_before_an_erasure_can_be_put_back(
    app: Flask, data: Path, pwa: Path, job: str
) -> None:
    made = backup.nightly(data, NIGHT)
    with closing(database.connect(data / backup.DATABASE)) as connection:
        Eraser(data, app.extensions["teepiece"].blobs).merge(
            connection, of_customer(own_key(connection), job, ["p1"])
        )
    backup.nightly(data, NIGHT + timedelta(days=1))
    backup.restore(made, data)
    assert "customer" not in document(data, pwa, job)
    assert (data / backup.NIGHTLY / "photos" / NAME).read_bytes() == b""


def test_a_photo_that_the_disk_lost_stays_in_the_nightly_backups(data: Path, pwa: Path, job: str) -> None:
    backup.nightly(data, NIGHT)
    (data / "blobs" / NAME[:2] / NAME).unlink()
    made = backup.nightly(data, NIGHT + timedelta(days=1))
    backup.restore(made, data)
    assert create_app(data, pwa=pwa).test_client().get(f"/api/blobs/{NAME}").data == PHOTO


def test_a_damaged_photo_spoils_no_nightly_backup(data: Path, pwa: Path, job: str) -> None:
    before = document(data, pwa, job)
    (data / "blobs" / NAME[:2] / NAME).write_bytes(PHOTO[:-1])
    made = backup.nightly(data, NIGHT)
    assert not (data / backup.NIGHTLY / "photos" / NAME).exists()
    backup.restore(made, data)
    assert document(data, pwa, job) == before


def test_nightly_backups_are_kept_seven_days_and_four_weeks(data: Path, job: str) -> None:
    for day in range(45):
        backup.nightly(data, NIGHT + timedelta(days=day))
    kept = sorted(path.stem for path in (data / backup.NIGHTLY).glob("*.zip"))
    assert kept[-7:] == [f"{NIGHT + timedelta(days=day):%Y-%m-%d}" for day in range(38, 45)]
    weeks = [datetime.fromisoformat(one).strftime("%G-%V") for one in kept[:-7]]
    assert len(weeks) == len(set(weeks)) == 4


@pytest.mark.parametrize(
    ("latest", "now", "due"),
    [
        (None, NIGHT, True),
        (NIGHT, NIGHT.replace(hour=23), False),
        (NIGHT, NIGHT + timedelta(days=1), True),
        (NIGHT, (NIGHT + timedelta(days=1)).replace(hour=1), False),  # not before two o'clock ...
        (NIGHT, (NIGHT + timedelta(days=2)).replace(hour=1), True),  # ... unless a night was missed
    ],
)
def test_when_a_backup_is_due(tmp_path: Path, latest: datetime | None, now: datetime, due: bool) -> None:
    if latest:
        (tmp_path / backup.NIGHTLY).mkdir()
        (tmp_path / backup.NIGHTLY / f"{latest:%Y-%m-%d}.zip").touch()
    assert backup.is_due(tmp_path, now) is due


def test_the_commands_say_what_they_did(data: Path, job: str, tmp_path: Path) -> None:
    def command(*words: str) -> subprocess.CompletedProcess[str]:
        call = [sys.executable, "-m", "api", "--data", str(data), *words]
        return subprocess.run(call, cwd=ROOT, capture_output=True, text=True, check=False)

    file = str(tmp_path / "all.zip")
    assert command("backup", file).stdout.startswith("Backed up to")
    restored = command("restore", file)
    assert (restored.returncode, restored.stdout[:8]) == (0, "Put back")
    Path(file).write_bytes(b"no backup")
    refused = command("restore", file)
    assert (refused.returncode, refused.stderr.count("\n")) == (1, 1)
    assert CHANGE
