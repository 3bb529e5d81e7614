"""Jobs in the office: found by what people remember of them."""

import json
from collections.abc import Callable

import pytest

from api import demo
from tests.api.phone import new_id, operation
from tests.security.visitor import Visitor, Workshop

Bring = Callable[..., str]
FIRST = {
    "/opened_at": "2026-11-20T08:00:00+00:00",
    "/vehicle/registration": "AB 12 CDE",
    "/customer/name": "Ines Aalto",
    "/complaint/text": "boost cuts out at 100%",
}
SECOND = {
    "/opened_at": "2026-11-24T08:00:00+00:00",
    "/vehicle/registration": "XY 98 ZZZ",
    "/customer/name": "Jo Berg",
    "/vehicle/make": "Under_score",
}


@pytest.fixture
def jobs(bring: Bring) -> tuple[str, str]:
    return bring(FIRST), bring(SECOND)


@pytest.mark.parametrize(
    ("question", "found"),
    [
        ("", {0, 1}),
        ("words=ab12cde", {0}),
        ("words=AB+12+CDE", {0}),
        ("words=aalto", {0}),
        ("words=boost+ines", {0}),
        ("words=boost+berg", set()),
        ("words=100%25", {0}),
        ("words=%25", {0}),
        ("words=r_s", {1}),
        ("words=%27+OR+1%3D1+--", set()),
        ("since=2026-11-21", {1}),
        ("until=2026-11-21", {0}),
        ("since=2026-11-20&until=2026-11-20", {0}),
        ("since=yesterday", {0, 1}),
        ("fault=actuator_opens_late", set()),
    ],
)
def test_jobs_are_found(office: Visitor, jobs: tuple[str, str], question: str, found: set[int]) -> None:
    page = office.get(f"/office/jobs?{question}").text
    assert {number for number, job in enumerate(jobs) if f"/office/jobs/{job}" in page} == found


def test_a_job_is_found_by_its_fault(workshop: Workshop, office: Visitor) -> None:
    workshop.phone().sync(*demo.operations())
    address = f"/office/jobs/{demo.document()['id']}"
    assert address in office.get("/office/jobs?fault=actuator_opens_late").text
    assert address not in office.get("/office/jobs?fault=charge_air_leak").text
    assert address in office.get("/office/jobs?words=opens+late").text


def test_a_job_that_changed_is_found_by_what_is_new(
    workshop: Workshop, office: Visitor, bring: Bring
) -> None:
    job = bring(FIRST)
    assert job in office.get("/office/jobs?words=aalto").text
    change = operation(job, "/vehicle/vin", "WVWZZZ1JZ3W386752")
    workshop.phone().sync(json.dumps(change))
    assert job in office.get("/office/jobs?words=1jz3w").text


def test_an_unknown_job_is_said_on_a_page(office: Visitor) -> None:
    answer = office.get(f"/office/jobs/{new_id()}")
    assert answer.status_code == 404
    assert "There is no job of this number here." in answer.text
