"""An erasure that comes with a phone or in a copy: made here, it is carried out; made up, it changes nothing.

Erasing is the owner's (`access.txt`); a record itself says nothing of who made it (see `api/seal.py`).
"""

import io
import json
import zipfile
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from api import backup
from api.intake import FORMAT
from api.seal import is_ours, sealed
from api.store import database, erasures
from api.store.erasures import Erasure
from tests.api.phone import new_id, operation
from tests.security.visitor import Visitor, Workshop

NAME = "Ada Quill"
NO_KEY = bytes(32)


@pytest.fixture
def job(workshop: Workshop) -> str:
    job = new_id()
    answer = workshop.phone().sync(json.dumps(operation(job, "/customer/name", NAME)))
    assert answer.json["answers"][0]["answer"] == "applied"
    return job


def made_up(job: str) -> Erasure:
    return Erasure(new_id(), job, "/customer")


def bring(phone: Visitor, *records: Erasure) -> Any:
    body = {"device": "A", "number": 0, "hash": "", "operations": []}
    answer = phone.send("POST", "/api/sync", json=body | {"erasures": [one.as_json() for one in records]})
    assert answer.status_code == 200
    return answer.json["erasures"]


def is_named(workshop: Workshop, job: str) -> bool:
    document = workshop.signed_in("owner").get(f"/api/jobs/{job}").json
    return bool(document.get("customer", {}).get("name") == NAME)


def told(workshop: Workshop, word: str) -> list[str]:
    """What the trail's lines with that word are about."""
    with closing(workshop.connect()) as connection:
        rows = connection.execute("SELECT about FROM audit WHERE did LIKE ?", (f"%{word}%",)).fetchall()
    return [about for (about,) in rows]


def key_of(workshop: Workshop) -> bytes:
    with closing(workshop.connect()) as connection:
        return erasures.own_key(connection)


def forget_all(workshop: Workshop) -> None:
    """As after a backup from before was put back on another machine."""
    (workshop.data / "erasures.jsonl").unlink()
    with closing(workshop.connect()) as connection:
        connection.execute("DELETE FROM erasures")


@pytest.mark.parametrize("role", ["technician", "office"])
def test_a_made_up_erasure_changes_nothing_and_is_told_once(workshop: Workshop, job: str, role: str) -> None:
    phone = workshop.phone(role, f"the {role}'s phone")
    for _ in range(3):
        assert bring(phone, made_up(job), sealed(NO_KEY, job, "/customer/name"), made_up(new_id())) == []
    assert is_named(workshop, job)
    assert not (workshop.data / "erasures.jsonl").exists()
    assert told(workshop, "did not make") == [job]  # nothing of a job that is not here
    assert phone.sync(json.dumps(operation(job, "/customer/phone", "0"))).json["answers"][0]["answer"] == (
        "applied"
    )


def test_an_erasure_of_this_workshops_comes_back_with_any_phone(workshop: Workshop, job: str) -> None:
    owner = workshop.signed_in("owner")
    ticked = {"jobs": job, "sure": "y"}
    page = f"/office/customers/{job}"
    assert owner.fill(page, ticked, to=f"{page}/erase").status_code == 302
    known = bring(workshop.phone())
    assert {one["path"] for one in known} >= {"/customer", "/vehicle/vin"}
    forget_all(workshop)
    assert [one["id"] for one in bring(workshop.phone(), *(Erasure(**one) for one in known))] == [
        one["id"] for one in known
    ]
    assert told(workshop, "not known here") == [job]


def test_an_erasure_cannot_be_turned_to_another_job_or_place(workshop: Workshop, job: str) -> None:
    genuine = sealed(key_of(workshop), new_id(), "/customer")
    elsewhere = sealed(key_of(workshop), job, "/photos/p1")
    turned = [Erasure(genuine.id, job, "/customer"), Erasure(elsewhere.id, job, "/customer")]
    assert is_ours(key_of(workshop), genuine)
    assert [is_ours(key_of(workshop), one) for one in turned] == [False, False]
    assert bring(workshop.phone(), *turned) == []
    assert is_named(workshop, job)


def test_an_owners_phone_may_bring_any(workshop: Workshop, job: str) -> None:
    bring(workshop.phone("owner", "the owner's phone"), made_up(job))
    assert not is_named(workshop, job)
    assert told(workshop, "not known here") == [job]


@pytest.mark.parametrize(("role", "stays"), [("office", True), ("owner", False)])
def test_likewise_in_a_copy(workshop: Workshop, job: str, role: str, stays: bool) -> None:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as archive:
        archive.writestr("copy.json", json.dumps({"format": FORMAT}))
        archive.writestr("operations.jsonl", "")
        archive.writestr("erasures.json", json.dumps([made_up(job).as_json()]))
    answer = workshop.signed_in(role).send(
        "POST", "/api/copies", data=packed.getvalue(), content_type="application/zip"
    )
    assert answer.status_code == 200
    assert is_named(workshop, job) is stays


def test_the_key_goes_with_a_backup_to_another_machine(workshop: Workshop, tmp_path: Path) -> None:
    backup.back_up(workshop.data, tmp_path / "all.zip")
    backup.restore(tmp_path / "all.zip", tmp_path / "elsewhere")
    with closing(database.connect(tmp_path / "elsewhere" / backup.DATABASE)) as connection:
        assert erasures.own_key(connection) == key_of(workshop)


def test_every_workshop_has_a_key_of_its_own(workshop: Workshop, new_workshop: Workshop) -> None:
    assert len({key_of(workshop), key_of(new_workshop), NO_KEY}) == 3
