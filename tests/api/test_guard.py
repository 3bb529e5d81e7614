"""What the server refuses before it looks, and what every answer carries (OWASP ASVS 5.0: 3.4, 3.5)."""

import pytest
from flask.testing import FlaskClient


@pytest.mark.parametrize(
    "host", ["evil.example", "192.168.1.9:8000", "localhost.evil.example", "127.0.0.1.nip.io"]
)
def test_a_foreign_host_name_is_refused(client: FlaskClient, host: str) -> None:
    answer = client.get("/health", headers={"Host": host})
    assert (answer.status_code, answer.json["error"]) == (400, "unknown_host")


@pytest.mark.parametrize("host", ["localhost", "localhost:8000", "127.0.0.1:49152"])
def test_a_loopback_name_is_served(client: FlaskClient, host: str) -> None:
    assert client.get("/health", headers={"Host": host}).status_code == 200


@pytest.mark.parametrize(
    "origin", [None, "null", "http://evil.example", "https://localhost", "http://localhost:81"]
)
def test_a_change_from_a_foreign_origin_is_refused(client: FlaskClient, origin: str | None) -> None:
    headers = {"X-Teepiece": "1"} | ({"Origin": origin} if origin else {})
    answer = client.post("/api/sync", json={}, headers=headers)
    assert (answer.status_code, answer.json["error"]) == (403, "foreign_origin")


def test_a_change_without_our_header_is_refused(client: FlaskClient) -> None:
    answer = client.post("/api/sync", json={}, headers={"Origin": "http://localhost"})
    assert (answer.status_code, answer.json["error"]) == (403, "no_header")


@pytest.mark.parametrize("address", ["/", "/app.js", "/health", "/none", "/api/none"])
def test_every_answer_carries_the_policy(client: FlaskClient, address: str) -> None:
    headers = client.get(address).headers
    policy = headers["Content-Security-Policy"]
    assert "default-src 'self'" in policy
    assert "'unsafe-inline'" not in policy
    assert "'unsafe-eval'" not in policy
    assert headers["X-Content-Type-Options"] == "nosniff"


def test_answers_of_the_api_are_kept_by_nobody(client: FlaskClient) -> None:
    assert client.get("/api/none").headers["Cache-Control"] == "no-store"
