"""PDFs that left the house: kept byte for byte, listed with their sums, and gone with an erased customer."""

import hashlib
from contextlib import closing

import pytest
from flask import Flask
from flask.testing import FlaskClient

from api import demo
from api.context import KEY
from api.erasure import Eraser, of_customer
from api.pdf import process
from api.store import database
from api.store.erasures import own_key
from tests.api.phone import Phone, operation

DEMO = str(demo.document()["id"])
ADDRESS = f"/api/jobs/{DEMO}/report.pdf?form=short"


@pytest.fixture(autouse=True)
def drawing(monkeypatch: pytest.MonkeyPatch) -> None:
    """The bytes tell what they were drawn from; no page is laid out."""
    monkeypatch.setattr(process, "draw", lambda request: b"%PDF obj " + request.as_json.encode())


def sum_of(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def listed(client: FlaskClient) -> list[str]:
    return [one["sha256"] for one in client.get(f"/api/jobs/{DEMO}/reports").json["reports"]]


def test_each_pdf_is_kept_as_it_left_and_its_sum_is_shown(demo_client: FlaskClient) -> None:
    first = demo_client.get(ADDRESS).data
    Phone(demo_client).sync(operation(DEMO, "/tests/actuator/full_travel_kpa", 172))
    second = demo_client.get(ADDRESS).data
    assert set(listed(demo_client)) == {sum_of(first), sum_of(second)}
    earlier = demo_client.get(f"/api/jobs/{DEMO}/reports/{sum_of(first)}.pdf")
    assert earlier.data == first
    assert earlier.headers["Content-Security-Policy"].startswith("sandbox")
    for page in (f"/desk/jobs/{DEMO}", f"/office/jobs/{DEMO}"):
        assert sum_of(first) in demo_client.get(page).text


def test_the_same_is_not_drawn_twice(demo_client: FlaskClient, monkeypatch: pytest.MonkeyPatch) -> None:
    first = demo_client.get(ADDRESS).data
    monkeypatch.setattr(process, "draw", lambda _request: b"")
    assert demo_client.get(ADDRESS).data == first
    assert len(listed(demo_client)) == 1


def test_a_copy_is_told_from_a_changed_one(demo_client: FlaskClient) -> None:
    pdf = demo_client.get(ADDRESS).data
    changed = pdf.replace(b"obj", b"oBj", 1)
    ask = "/desk/check?sha256="
    assert "unchanged" in demo_client.get(ask + sum_of(pdf).upper()).text
    assert "No PDF with this SHA-256" in demo_client.get(ask + sum_of(changed)).text
    assert "64 digits" in demo_client.get(ask + "x").text
    assert demo_client.get(f"/api/jobs/{DEMO}/reports/{sum_of(changed)}.pdf").status_code == 404


def test_a_file_that_the_disk_changed_is_drawn_anew(demo_client: FlaskClient, app: Flask) -> None:
    pdf = demo_client.get(ADDRESS).data
    path = app.extensions[KEY].blobs.find(sum_of(pdf))
    path.write_bytes(b"rotten")
    assert path.read_bytes() != pdf
    assert demo_client.get(ADDRESS).data == pdf


def test_an_erased_customers_pdfs_are_gone(demo_client: FlaskClient, app: Flask) -> None:
    name = sum_of(demo_client.get(ADDRESS).data)
    context = app.extensions[KEY]
    with closing(database.connect(context.database)) as connection:
        Eraser(context.data, context.blobs).merge(connection, of_customer(own_key(connection), DEMO))
    assert listed(demo_client) == []
    assert context.blobs.find(name) is None


def test_what_is_drawn_while_a_customer_is_erased_is_not_kept(
    demo_client: FlaskClient, app: Flask, monkeypatch: pytest.MonkeyPatch
) -> None:
    context = app.extensions[KEY]

    def erased_meanwhile(_request: object) -> bytes:
        with closing(database.connect(context.database)) as connection:
            Eraser(context.data, context.blobs).merge(connection, of_customer(own_key(connection), DEMO))
        return b"%PDF of A. Sample"

    monkeypatch.setattr(process, "draw", erased_meanwhile)
    demo_client.get(ADDRESS)
    assert listed(demo_client) == []
    assert context.blobs.find(sum_of(b"%PDF of A. Sample")) is None
