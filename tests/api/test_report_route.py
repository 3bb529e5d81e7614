"""`/api/jobs/<id>/report.pdf`: answers, headers, what is refused, and a real child process."""

import re
from contextlib import closing
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from api import demo, limits
from api import job as job_documents
from api.context import KEY
from api.pdf import process
from api.pdf.page import page
from api.store import database, settings
from tests.api.paper import opened, text_of
from tests.api.phone import Phone, made, operation

DEMO = str(demo.document()["id"])
NO_JOB = "019ac0de-0000-7000-8000-0000000000ff"


@pytest.fixture
def drawings(monkeypatch: pytest.MonkeyPatch) -> list[Any]:
    """What was asked to be drawn; nothing is."""
    asked: list[Any] = []
    monkeypatch.setattr(process, "draw", lambda request: asked.append(request) or b"%PDF-drawn")
    return asked


def report(client: FlaskClient, job: str = DEMO, **query: str) -> TestResponse:
    return client.get(f"/api/jobs/{job}/report.pdf", query_string=query)


def test_the_report_is_drawn_in_a_process_of_its_own_with_the_photos(demo_client: FlaskClient) -> None:
    answer = report(demo_client, form="short", unit="bar")
    assert (answer.status_code, answer.mimetype) == (200, "application/pdf")
    assert "0.96 bar" in text_of(answer.data)
    with opened(answer.data) as pdf:
        assert len(pdf.pages[0].get_images()) == 4
        attached = pdf.attachments["job.json"].get_file().read_bytes()
    assert attached == demo_client.get(f"/api/jobs/{DEMO}").data


def test_the_answer_never_runs_as_a_page_of_ours(demo_client: FlaskClient, drawings: list[Any]) -> None:
    headers = report(demo_client).headers
    assert headers["Content-Disposition"] == 'attachment; filename="EX-4321-customer.pdf"'
    assert headers["Content-Security-Policy"].startswith("sandbox")
    assert headers["X-Content-Type-Options"] == "nosniff"


def test_it_is_drawn_anew_only_when_something_changed(demo_client: FlaskClient, drawings: list[Any]) -> None:
    etag = report(demo_client).headers["ETag"]
    again = demo_client.get(f"/api/jobs/{DEMO}/report.pdf", headers={"If-None-Match": etag})
    assert (again.status_code, again.data, len(drawings)) == (304, b"", 1)
    assert report(demo_client, unit="psi").headers["ETag"] != etag
    Phone(demo_client).sync(operation(DEMO, "/tests/actuator/full_travel_kpa", 172))
    assert report(demo_client).headers["ETag"] != etag


def test_head_says_what_get_says(demo_client: FlaskClient, drawings: list[Any]) -> None:
    """RFC 9110, 9.3.2: the same header fields, and no body."""
    address = f"/api/jobs/{DEMO}/report.pdf"
    head, get = demo_client.head(address), demo_client.get(address)
    assert head.data == b""
    said, same = ({**answer.headers, "Date": ""} for answer in (head, get))
    assert said == same


@pytest.mark.parametrize(
    "query", [{"form": "long"}, {"paper": "a3"}, {"unit": "atm"}, {"language": "xx"}, {"unit": ""}]
)
def test_what_is_not_known_is_refused_by_name(demo_client: FlaskClient, query: dict[str, str]) -> None:
    answer = report(demo_client, **query)
    assert (answer.status_code, answer.json["error"]) == (400, f"unknown_{next(iter(query))}")


@pytest.mark.parametrize("address", ["/api/jobs/{}/report.pdf", "/api/jobs/{}/verdict", "/desk/jobs/{}"])
def test_a_job_that_is_not_here_is_not_found(client: FlaskClient, address: str) -> None:
    assert client.get(address.format(NO_JOB)).status_code == 404


@pytest.mark.parametrize("address", ["/api/jobs/{}/report.pdf", "/api/jobs/{}/verdict", "/desk/jobs/{}"])
def test_a_job_that_breaks_the_contract_names_the_place_and_keeps_everything(
    client: FlaskClient, address: str
) -> None:
    """What only the whole document can tell is found after the sync took it: an unknown gauge."""
    job = made(client, ("/tests/actuator/gauge", "g9"), ("/tests/actuator/first_movement_kpa", 96))
    answer = client.get(address.format(job))
    assert answer.status_code == 422
    assert "/tests/actuator/gauge" in answer.text
    assert client.get(f"/api/jobs/{job}").json["tests"]["actuator"]["first_movement_kpa"] == 96
    assert client.get("/desk").status_code == 200


def test_a_job_too_large_to_be_judged_is_said_so_and_kept(
    client: FlaskClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    job = made(client, ("/complaint/text", "x" * 500))
    monkeypatch.setattr(job_documents, "LARGEST", 400)
    answer = client.get(f"/api/jobs/{job}/verdict")
    assert (answer.status_code, answer.json["error"]) == (422, "broken_document")
    assert len(client.get(f"/api/jobs/{job}").json["complaint"]["text"]) == 500


@pytest.mark.parametrize(
    "registration", ['x"; filename="evil.exe', "a\r\nX-Evil: 1", "../../etc", "車両", "a" * 999]
)
def test_a_registration_cannot_leave_the_file_name(
    client: FlaskClient, drawings: list[Any], registration: str
) -> None:
    job = made(client, ("/vehicle/registration", registration))
    given = report(client, job).headers["Content-Disposition"]
    assert re.fullmatch(r'attachment; filename="[A-Za-z0-9-]{1,30}-customer\.pdf"', given)


@pytest.mark.parametrize(
    ("problem", "status"), [(process.BusyError(), 503), (limits.ChildFailedError("why"), 500)]
)
def test_a_report_that_cannot_be_drawn_is_said_and_hides_its_reasons(
    demo_client: FlaskClient, monkeypatch: pytest.MonkeyPatch, problem: Exception, status: int
) -> None:
    def fails(_request: Any) -> bytes:
        raise problem

    monkeypatch.setattr(process, "draw", fails)
    answer = report(demo_client)
    assert answer.status_code == status
    assert "why" not in answer.json["says"].split()


def test_few_reports_wait_and_one_more_is_turned_away() -> None:
    taken = [process._places.acquire(blocking=False) for _ in range(process.MOST_AT_ONCE)]
    try:
        with pytest.raises(process.BusyError):
            process.draw(None)  # type: ignore[arg-type]
    finally:
        for _ in taken:
            process._places.release()


def test_a_job_that_names_no_workshop_is_headed_by_the_one_that_was_set_up(
    app: Flask, client: FlaskClient, drawings: list[Any]
) -> None:
    job = made(client, ("/vehicle/make", "Brindle"))
    with closing(database.connect(app.extensions[KEY].database)) as connection:
        settings.write(connection, "workshop", {"name": "Quay Motors", "street": "1 Quay", "town": ""})
    report(client, job)
    shown = page(drawings[0])
    assert (shown["heading"], shown["address"]) == ("Quay Motors", "1 Quay")
