"""Every released form of the workshop's database opens in this release, whole, and goes on."""

import hashlib
import json
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from api.app import create_app
from api.fold.document import fold
from api.people import session
from api.store.migrations import MIGRATIONS
from tests.api.phone import Phone, operation

RELEASED = Path(__file__).resolve().parents[2] / "fixtures/released"
DERIVED = ("job_words",)  # what the office searches by: made anew from the jobs when it is asked for
JOB = "019ac0de-0000-7000-8000-00000000aaa1"
NEW = "019ac0de-0000-7000-8000-0000000000ff"
FIRST = "/tests/actuator/first_movement_kpa"


@pytest.fixture(params=sorted(RELEASED.glob("workshop-*.sql")), ids=lambda path: path.stem)
def data(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    """A data folder as that release left it."""
    folder = tmp_path / "data"
    folder.mkdir()
    with closing(sqlite3.connect(folder / "workshop.sqlite3")) as connection:
        connection.executescript(request.param.read_text("utf-8"))
    return folder


def operations_in(data: Path) -> list[tuple[int, str, str, bytes]]:
    with closing(sqlite3.connect(data / "workshop.sqlite3")) as connection:
        rows = connection.execute("SELECT number, id, hash, made FROM operations ORDER BY number").fetchall()
    return [(number, one, running, bytes(made)) for number, one, running, made in rows]


def test_every_operation_is_as_it_was(data: Path, pwa: Path) -> None:
    before = operations_in(data)
    create_app(data, pwa=pwa)
    assert operations_in(data) == before
    assert [number for number, *_ in before] == [*range(1, len(before) + 1)]
    assert len(before) >= 9


def rows_in(data: Path) -> dict[tuple[str, tuple[str, ...]], set[tuple[object, ...]]]:
    """Every row by its table and the table's columns."""
    with closing(sqlite3.connect(data / "workshop.sqlite3")) as connection:
        tables = connection.execute("SELECT name FROM sqlite_schema WHERE type = 'table'").fetchall()
        found = {}
        for (table,) in tables:
            read = connection.execute(f'SELECT * FROM "{table}"')  # noqa: S608  (a name from the file itself)
            found[table, tuple(column[0] for column in read.description)] = set(read)
    return found


def test_no_row_is_lost(data: Path, pwa: Path) -> None:
    """Of people, phones, gauges, letters, reports and the rest: each as it was, in the columns it had."""
    before = rows_in(data)
    create_app(data, pwa=pwa)
    after = {table: (columns, rows) for (table, columns), rows in rows_in(data).items()}
    for (table, columns), rows in before.items():
        now, kept = after[table]
        places = [now.index(column) for column in columns]
        narrowed = {tuple(row[place] for place in places) for row in kept}
        if table not in DERIVED:
            assert rows <= narrowed, table


def test_every_form_has_its_file() -> None:
    forms = {int(path.stem.rpartition("-")[2]) for path in RELEASED.glob("workshop-*.sql")}
    assert forms == {migration.number for migration in MIGRATIONS}


@pytest.fixture
def _at_the_machine(monkeypatch: pytest.MonkeyPatch) -> None:
    """Some of these workshops have accounts; who may do what is tested elsewhere."""
    monkeypatch.setattr(session, "is_open", lambda: True)


def test_every_step_is_on_record(data: Path, pwa: Path) -> None:
    create_app(data, pwa=pwa)
    with closing(sqlite3.connect(data / "workshop.sqlite3")) as connection:
        done = [number for (number,) in connection.execute("SELECT number FROM migrations ORDER BY number")]
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    assert done == [migration.number for migration in MIGRATIONS]


@pytest.mark.usefixtures("_at_the_machine")
def test_documents_are_the_folds_of_their_operations(data: Path, pwa: Path) -> None:
    client = create_app(data, pwa=pwa).test_client()
    listed = [json.loads(made) for *_, made in operations_in(data) if made]
    for job in {one["job"] for one in listed}:
        assert client.get(f"/api/jobs/{job}").json == fold(job, listed).document


@pytest.mark.usefixtures("_at_the_machine")
def test_work_goes_on_where_it_stood(data: Path, pwa: Path) -> None:
    client = create_app(data, pwa=pwa).test_client()
    phone = Phone(client)
    phone.sync()
    last = len(operations_in(data))
    assert phone.number == last
    rivals = [one for _, one, _, made in operations_in(data) if made and json.loads(made)["path"] == FIRST]
    assert phone.sync(operation(JOB, FIRST, 96, replaced=rivals, id=NEW)) == ["applied"]
    (summary,) = [one for one in client.get("/api/jobs").json if one["id"] == JOB]
    assert (phone.number, summary["conflicts"]) == (last + 1, 0)


@pytest.mark.usefixtures("_at_the_machine")
def test_an_erased_name_stays_erased(data: Path, pwa: Path) -> None:
    erased = not any(b"Ada Quill" in made for *_, made in operations_in(data))
    client = create_app(data, pwa=pwa).test_client()
    assert ("customer" not in client.get(f"/api/jobs/{JOB}").json) is erased


def test_the_files_are_those_that_were_released() -> None:
    """A released form is never changed; a new one gets a file and a line here."""
    sums = {path.name: hashlib.sha256(path.read_bytes()).hexdigest()[:16] for path in RELEASED.glob("*-*")}
    assert sums == RELEASED_SUMS


RELEASED_SUMS = {
    "phone-1.json": "e4b1b9c27638100b",
    "workshop-1.sql": "77485e426727efc9",
    "workshop-2.sql": "b2b848168d42586a",
    "workshop-3.sql": "0272425c201cfb6d",
    "workshop-4.sql": "20209722d7200318",
    "workshop-5.sql": "731e62c23d86cc9d",
    "workshop-6.sql": "6fe4891cecdf86ec",
    "workshop-7.sql": "12530f17961bb511",
}
