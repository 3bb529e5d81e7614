"""Connections between requests: used again, unless the file or the last request says otherwise."""

from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient

from api.store import database
from api.store.pool import MOST_IDLE, Pool


@pytest.fixture
def path(tmp_path: Path) -> Path:
    there = tmp_path / "workshop.sqlite3"
    database.connect(there).close()
    return there


def test_a_connection_is_used_again(path: Path) -> None:
    pool = Pool()
    first, second = pool.take(path), pool.take(path)
    assert first.connection is not second.connection
    pool.give_back(first, sound=True)
    assert pool.take(path) is first


def test_one_that_failed_or_did_not_end_its_transaction_is_not(path: Path) -> None:
    pool = Pool()
    failed, torn = pool.take(path), pool.take(path)
    torn.connection.execute("BEGIN")
    pool.give_back(failed, sound=False)
    pool.give_back(torn, sound=True)
    assert pool.take(path) not in (failed, torn)


def test_another_file_in_its_place_is_opened_anew(path: Path) -> None:
    pool = Pool()
    old = pool.take(path)
    pool.give_back(old, sound=True)
    path.rename(path.with_name("aside.sqlite3"))
    database.connect(path).close()
    assert pool.take(path) is not old


def test_another_file_that_came_during_the_request_is_opened_anew(path: Path) -> None:
    pool = Pool()
    old = pool.take(path)
    path.rename(path.with_name("aside.sqlite3"))
    database.connect(path).close()
    pool.give_back(old, sound=True)
    assert pool.take(path) is not old


def test_a_file_that_may_no_longer_be_written_is_opened_anew(path: Path) -> None:
    pool = Pool()
    old = pool.take(path)
    pool.give_back(old, sound=True)
    path.chmod(0o400)
    assert pool.take(path) is not old


def test_few_stay_open(path: Path) -> None:
    pool = Pool()
    taken = [pool.take(path) for _ in range(MOST_IDLE + 5)]
    for loan in taken:
        pool.give_back(loan, sound=True)
    again = [pool.take(path) for _ in range(MOST_IDLE + 5)]
    assert len(set(map(id, taken)) & set(map(id, again))) >= MOST_IDLE
    assert pool.take(path) not in taken


def test_a_request_that_the_database_failed_lets_go_of_its_connection(
    app: Flask, client: FlaskClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened = []
    connect = database.connect

    def counted(path: Path, *, of_one_thread: bool = True) -> object:
        opened.append(path)
        return connect(path, of_one_thread=of_one_thread)

    monkeypatch.setattr(database, "connect", counted)
    for _ in range(3):
        assert client.get("/api/standing").status_code == 200
    assert len(opened) == 1
    with database.connect(opened[0]) as breaker:
        breaker.execute("ALTER TABLE operations RENAME TO hidden")
    failed = client.get("/api/standing", headers={"Accept-Language": "de"})
    assert failed.status_code == 503
    assert "Nichts ist verloren" in failed.json["says"]
    with database.connect(opened[0]) as mender:
        mender.execute("ALTER TABLE hidden RENAME TO operations")
    opened.clear()
    assert client.get("/api/standing").status_code == 200
    assert len(opened) == 1
