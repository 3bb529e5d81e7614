"""`/desk`: the list of jobs, one job, and photos as copies that are safe to show."""

import hashlib
import io
import re

import pytest
from flask.testing import FlaskClient
from PIL import Image

from api import demo
from tests.api.phone import CHANGE, made

DEMO = str(demo.document()["id"])


def put_photo(client: FlaskClient, data: bytes) -> str:
    name = hashlib.sha256(data).hexdigest()
    assert client.put(f"/api/blobs/{name}", data=data, headers=CHANGE).status_code == 201
    return name


def test_a_photo_is_shown_as_a_copy_without_what_the_camera_wrote(client: FlaskClient) -> None:
    picture, exif = Image.new("RGB", (2400, 1200), "#336699"), Image.Exif()
    exif[0x010E] = "the owner's name"  # Exif 2.32: ImageDescription
    exif[0x0112] = 6  # Orientation: turned a quarter
    photo = io.BytesIO()
    picture.save(photo, "JPEG", exif=exif)
    name = put_photo(client, photo.getvalue())
    answer = client.get(f"/desk/photos/{name}.jpg")
    assert (answer.status_code, answer.mimetype) == (200, "image/jpeg")
    assert b"owner" not in answer.data
    assert Image.open(io.BytesIO(answer.data)).size == (800, 1600)
    assert client.get(f"/api/blobs/{name}").data == photo.getvalue()


@pytest.mark.parametrize("kind", ["svg", "text", "bomb", "torn"])
def test_what_is_no_picture_is_not_shown(client: FlaskClient, kind: str) -> None:
    name = put_photo(client, unfit(kind))
    assert client.get(f"/desk/photos/{name}.jpg").status_code == 404


def unfit(kind: str) -> bytes:
    """Bytes that must not be decoded: another format, no format, 100 million pixels, half a picture."""
    if kind == "svg":
        return b'<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>'
    if kind == "text":
        return b"time,boost\n0,1\n"
    file = io.BytesIO()
    size = (10_000, 10_000) if kind == "bomb" else (300, 300)
    Image.new("L", size).save(file, "PNG")
    return file.getvalue() if kind == "bomb" else file.getvalue()[:60]


def test_the_desk_lists_jobs_and_shows_one(demo_client: FlaskClient) -> None:
    listed = demo_client.get("/desk").text
    assert f"/desk/jobs/{DEMO}" in listed
    verdict = demo_client.get(f"/api/jobs/{DEMO}/verdict?unit=bar").json
    page = demo_client.get(f"/desk/jobs/{DEMO}").text
    figures = [finding["figure"] for finding in verdict["findings"] if finding["figure"]]
    for words in [verdict["adjustment"]["says"], *figures, *verdict["cautions"]]:
        assert words.replace("'", "&#39;") in page
    assert page.count("<img ") == 4


def test_the_desk_keeps_to_the_policy_and_to_no_cache(demo_client: FlaskClient) -> None:
    for address in ("/desk", f"/desk/jobs/{DEMO}"):
        answer = demo_client.get(address)
        assert "'unsafe-inline'" not in answer.headers["Content-Security-Policy"]
        assert answer.headers["Cache-Control"] == "no-store"
        assert not re.search(r"<script|<style|\sstyle=|\son\w+=", answer.text)


def test_words_of_a_job_are_no_markup_at_the_desk(client: FlaskClient) -> None:
    evil = "<script>alert(1)</script>"
    places = ["/vehicle/registration", "/vehicle/make", "/customer/name", "/complaint/text", "/technician"]
    job = made(client, *((place, evil) for place in places))
    for address in ("/desk", f"/desk/jobs/{job}"):
        page = client.get(address).text
        assert "<script" not in page
        assert "&lt;script&gt;" in page


def test_an_empty_workshop_says_what_to_do(client: FlaskClient) -> None:
    assert "No job has reached the workshop yet" in client.get("/desk").text
