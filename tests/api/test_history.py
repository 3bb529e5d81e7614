"""A car's history: its jobs by registration or VIN, found through an index."""

from contextlib import closing

from flask import Flask
from flask.testing import FlaskClient

from api.context import KEY
from api.store import database, jobs
from tests.api.phone import made


def test_a_car_is_known_by_its_plate_or_its_number(app: Flask, client: FlaskClient) -> None:
    first = made(client, ("/vehicle/registration", "ex-43 21"), ("/vehicle/vin", "ABC 123"))
    second = made(client, ("/vehicle/registration", "EX 4321"))
    third = made(client, ("/vehicle/registration", "NEW 1"), ("/vehicle/vin", "abc123"))
    stranger = made(client, ("/vehicle/registration", "ÄX 1"))
    nameless = made(client, ("/complaint/text", "slow"))
    with closing(database.connect(app.extensions[KEY].database)) as connection:
        found = [one.id for one in jobs.of_the_car(connection, "EX4321", "ABC123")]
        assert found == [third, second, first]
        assert [one.id for one in jobs.of_the_car(connection, "äx-1", "")] == []
        assert [one.id for one in jobs.of_the_car(connection, "Äx1", "")] == [stranger]
        assert jobs.of_the_car(connection, "", "") == []
        plan = " ".join(
            row[3]
            for row in connection.execute(f"EXPLAIN QUERY PLAN {jobs.OF_THE_CAR}", ("a", "a", "b", "b"))
        )
    assert nameless not in found
    assert "jobs_by_registration" in plan
    assert "jobs_by_vin" in plan


def test_the_office_shows_what_was_here_before(client: FlaskClient) -> None:
    first = made(client, ("/vehicle/registration", "EX 1"), ("/opened_at", "2025-03-02T08:00:00+00:00"))
    later = made(client, ("/vehicle/registration", "ex1"))
    page = client.get(f"/office/jobs/{later}").text
    assert "This car was here before" in page
    assert f"/office/jobs/{first}" in page
    assert "2025-03-02" in page
