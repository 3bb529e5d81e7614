"""A customer's data, given out and erased (`operations.md`, Erasure)."""

import io
import json
import zipfile
from collections.abc import Callable

from tests.api.phone import operation
from tests.security.visitor import Visitor, Workshop

Bring = Callable[..., str]
PHOTO = b"\xff\xd8\xff the bytes of a photo"
PERSON = {
    "/customer/name": "Ines Aalto",
    "/customer/email": "ines@aalto.example",
    "/vehicle/registration": "AB 12 CDE",
    "/site/ambient_c": 12,
}


def test_jobs_of_the_same_customer_are_put_together(office: Visitor, bring: Bring) -> None:
    first = bring(PERSON)
    same_mail = bring({"/customer/email": "INES@aalto.example"})
    same_car = bring({"/customer/name": "ines  aalto", "/vehicle/registration": "ab12cde"})
    stranger = bring({"/customer/name": "Ines Aalto", "/vehicle/registration": "ZZ 1"})
    nobody = bring({"/site/ambient_c": 1})
    exported = office.get(f"/office/customers/{first}/export.zip").data
    with zipfile.ZipFile(io.BytesIO(exported)) as archive:
        held = {name.split("/")[0] for name in archive.namelist()}
    assert held == {first, same_mail, same_car}
    assert not held & {stranger, nobody}


def test_the_export_holds_the_job_and_its_photos_as_they_came(office: Visitor, bring: Bring) -> None:
    job = bring(PERSON, photo=PHOTO)
    answer = office.get(f"/office/customers/{job}/export.zip")
    with zipfile.ZipFile(io.BytesIO(answer.data)) as archive:
        document = json.loads(archive.read(f"{job}/job.json"))
        photos = [archive.read(name) for name in archive.namelist() if not name.endswith(".json")]
    assert document["customer"]["name"] == "Ines Aalto"
    assert photos == [PHOTO]
    assert answer.headers["Content-Disposition"].startswith("attachment")


def erase(owner: Visitor, page: str, *jobs: str, **more: str) -> int:
    form = {"jobs": list(jobs), "sure": "1", **more}
    return owner.fill(f"/office/customers/{page}", form, to=f"/office/customers/{page}/erase").status_code


def test_the_erased_person_is_gone_and_the_measurement_stays(
    workshop: Workshop, owner: Visitor, bring: Bring
) -> None:
    job = bring(PERSON, photo=PHOTO)
    assert job in owner.get("/office/jobs?words=aalto").text
    assert erase(owner, job, job, photos="1") == 302
    document = owner.get(f"/api/jobs/{job}").json
    assert "customer" not in document
    assert document["site"]["ambient_c"] == 12
    assert job not in owner.get("/office/jobs?words=aalto").text
    kept = b"".join(path.read_bytes() for path in workshop.data.rglob("*") if path.is_file())
    assert b"Aalto" not in kept
    assert PHOTO not in kept


def test_what_comes_late_for_it_is_refused(workshop: Workshop, owner: Visitor, bring: Bring) -> None:
    job = bring(PERSON)
    erase(owner, job, job)
    answer = workshop.phone().sync(json.dumps(operation(job, "/customer/name", "Ines Aalto"))).json
    assert answer["answers"][0]["answer"] == "refused"


def test_only_the_ticked_jobs_are_erased_and_only_when_sure(owner: Visitor, bring: Bring) -> None:
    first, second = bring(PERSON), bring(PERSON)
    assert erase(owner, first, first, sure="") == 200
    assert erase(owner, first) == 200
    assert erase(owner, first, second) == 302
    assert owner.get(f"/api/jobs/{first}").json["customer"]["name"] == "Ines Aalto"
    assert "customer" not in owner.get(f"/api/jobs/{second}").json


def test_a_job_of_somebody_else_cannot_be_slipped_in(owner: Visitor, bring: Bring) -> None:
    first, stranger = bring(PERSON), bring({"/customer/name": "Jo Berg"})
    assert erase(owner, first, stranger) == 200
    assert owner.get(f"/api/jobs/{stranger}").json["customer"]["name"] == "Jo Berg"


def test_the_trail_says_so_without_the_name(owner: Visitor, bring: Bring) -> None:
    job = bring(PERSON)
    owner.get(f"/office/customers/{job}/export.zip")
    erase(owner, job, job)
    trail = owner.get("/office/trail").text
    assert "erased the customer" in trail
    assert "exported a customer" in trail
    assert "Aalto" not in trail
