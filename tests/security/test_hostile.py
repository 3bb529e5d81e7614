"""What an attacker on the Wi-Fi, or a broken phone, might send: refused, or shown as text.

The inputs are listed and counted in `hostile_inputs.py`.
"""

import hashlib
import io
import json

import pytest

from tests.api.hostile import HOSTILE
from tests.api.phone import new_id, operation
from tests.api.skeleton import Skeleton, Tag, made_of
from tests.security.hostile_inputs import (
    BODIES,
    COPIES,
    KINDS,
    OPERATIONS,
    ORIGINS,
    PATHS,
    QUESTIONS,
    REQUESTS,
)
from tests.security.hostile_pictures import MORE, PICTURES
from tests.security.visitor import Visitor, Workshop

PLACES = (
    "/technician",
    "/customer/name",
    "/customer/email",
    "/customer/phone",
    "/vehicle/registration",
    "/vehicle/vin",
    "/vehicle/make",
    "/vehicle/model",
    "/vehicle/engine",
    "/vehicle/fuel",
    "/vehicle/tyre",
    "/complaint/text",
    "/spec/source",
)
SENDABLE = [text for text in HOSTILE if "\ud800" not in text]
NAMES = [text for text in SENDABLE if len(text) < 100]


def bring(phone: Visitor, text: str) -> str:
    """A job that holds the text wherever words belong."""
    job = new_id()
    made = [operation(job, place, text) for place in PLACES]
    made.append(operation(job, f"/steps/{new_id()}", {"state": "in_order", "note": text}, do="add"))
    made.append(operation(job, f"/tests/smoke/places/{new_id()}", {"where": text, "size": "weep"}, do="add"))
    answer = phone.sync(*(json.dumps(one) for one in made))
    assert answer.status_code == 200
    assert {one["answer"] for one in answer.json["answers"]} == {"applied"}
    return job


def job_pages(job: str) -> list[str]:
    return [f"/office/jobs/{job}", f"/desk/jobs/{job}"]


@pytest.fixture
def owner(workshop: Workshop) -> Visitor:
    return workshop.signed_in("owner")


@pytest.fixture
def plain(workshop: Workshop, owner: Visitor) -> list[list[tuple[Tag, ...]]]:
    """What the pages of a job are made of when its words are harmless."""
    job = bring(workshop.phone(), "harmless")
    return [made_of(owner.get(page).text) for page in job_pages(job)]


def test_every_text_is_shown_as_text(
    workshop: Workshop, owner: Visitor, plain: list[list[tuple[Tag, ...]]]
) -> None:
    phone = workshop.phone()
    for text in SENDABLE:
        job = bring(phone, text)
        answers = [owner.get(page) for page in job_pages(job)]
        assert [answer.status_code for answer in answers] == [200] * 2, text
        assert [made_of(answer.text) for answer in answers] == plain, text
        assert job in owner.get("/office/jobs").text


def test_the_lists_show_them_as_text_too(workshop: Workshop, owner: Visitor) -> None:
    """Rows of other lengths, made of what harmless rows are made of."""
    phone = workshop.phone()
    first = bring(phone, "harmless")
    pages = ("/office/jobs", "/desk", f"/office/customers/{first}")
    tags = [set(Skeleton(owner.get(page).text).tags) for page in pages]
    jobs = [bring(phone, text) for text in SENDABLE]
    while "still to be read" in owner.get("/office/jobs").text:
        pass
    for page, known in zip(pages, tags, strict=True):
        for job in jobs if first in page else jobs[:1]:
            assert set(Skeleton(owner.get(page.replace(first, job)).text).tags) <= known


@pytest.mark.parametrize(
    ("page", "form", "field"),
    [
        ("/office/gauges", {"kind": "analogue", "read_to": "half"}, "label"),
        ("/office/prices", {"kind": "part", "unit": "piece", "price": "1", "tax_pct": "19"}, "name"),
        ("/office/people", {"role": "office", "password": "four green wagons drift"}, "person"),
        (
            "/office/limits",
            {"make": "m", "model": "m", "engine": "e", "quantity": "cooler_drop_kpa", "most": "15"},
            "source",
        ),
        (
            "/office/workshop",
            {"currency": "EUR", "tax_pct": "19", "unit": "bar"},
            "name",
        ),
    ],
)
def test_what_is_typed_in_the_office_is_shown_as_text(
    workshop: Workshop, owner: Visitor, page: str, form: dict[str, str], field: str
) -> None:
    """A row is added for each text that is one line; the page's make-up is that of harmless rows."""
    kept = 0
    for number, text in enumerate(NAMES):
        answer = owner.fill(page, form | {field: f"{text} {number}"})
        assert answer.status_code in (200, 302), text
        kept += answer.status_code == 302
    assert kept > len(NAMES) / 2
    shown = Skeleton(owner.get(page).text).tags
    assert {tag for tag, *_ in shown} & {
        "iframe",
        "object",
        "embed",
        "svg",
        "base",
        "style",
        "comment",
    } == set()
    assert [one for one in shown if any(name.startswith("on") for name in one[1:])] == []
    assert sum(tag == "script" for tag, *_ in shown) == 0


@pytest.mark.parametrize("path", PATHS)
def test_tricks_with_paths_lead_nowhere(owner: Visitor, path: str) -> None:
    answer = owner.get(path)
    assert answer.status_code in (301, 308, 400, 404)
    assert b"root:" not in answer.data
    assert b"SQLite" not in answer.data


@pytest.mark.parametrize("text", QUESTIONS)
@pytest.mark.parametrize(
    "name", ["words", "since", "until", "fault", "before", "limit", "unit", "form", "next"]
)
def test_questions_in_the_address_break_nothing(owner: Visitor, name: str, text: str) -> None:
    for page in ("/office/jobs", "/office/trail", "/api/jobs", "/desk", "/sign-in"):
        assert owner.get(page, query_string={name: text}).status_code in (200, 400)


@pytest.mark.parametrize(
    "body", [body for bodies in BODIES.values() for body in bodies], ids=lambda body: repr(body[:40])
)
def test_json_that_is_none_is_refused(workshop: Workshop, body: bytes) -> None:
    answer = workshop.phone().send("POST", "/api/sync", data=body, content_type="application/json")
    assert answer.status_code in (400, 413)
    assert set(answer.json) == {"error", "says"}


@pytest.mark.parametrize("text", OPERATIONS, ids=lambda text: repr(text[:40]))
def test_an_operation_that_is_none_is_refused_alone(workshop: Workshop, text: str) -> None:
    good = json.dumps(operation(new_id(), "/customer/name", "Ines"))
    answer = workshop.phone().sync(text, good)
    assert answer.status_code == 200
    assert [one["answer"] for one in answer.json["answers"]] == ["refused", "applied"]


@pytest.mark.parametrize("name", PICTURES)
def test_a_picture_that_is_none_is_no_page_either(workshop: Workshop, name: str) -> None:
    """Given out as a download in a sandbox; what is shown is decoded in a bounded process."""
    data, phone = PICTURES[name](), workshop.phone()
    sha256 = hashlib.sha256(data).hexdigest()
    assert phone.send("PUT", f"/api/blobs/{sha256}", data=data).status_code == 201
    raw, shown = phone.get(f"/api/blobs/{sha256}"), phone.get(f"/desk/photos/{sha256}.jpg")
    assert raw.headers["Content-Security-Policy"].startswith("sandbox")
    assert raw.headers["Content-Disposition"].startswith("attachment")
    assert raw.headers["X-Content-Type-Options"] == "nosniff"
    assert raw.mimetype in ("application/octet-stream", "image/jpeg", "image/png")
    if name in MORE:
        assert shown.mimetype == "image/jpeg"
        assert [word for word in (b"PK\x03", b"script", b"%PDF", b"Exif") if word in shown.data] == []
    else:
        assert shown.status_code == 404
        assert data not in shown.data or not data


@pytest.mark.parametrize("name", COPIES)
def test_a_copy_that_is_none_or_a_bomb_is_refused(workshop: Workshop, owner: Visitor, name: str) -> None:
    key = (workshop.data / "cookies.key").read_bytes()
    data = COPIES[name]()
    answer = owner.send("POST", "/api/copies", data=data, content_type="application/zip")
    assert answer.status_code in (413, 422)
    file = (io.BytesIO(data), "copy.zip")
    page = owner.fill("/office/backups", {"file": file}, to="/office/backups/take-in")
    assert page.status_code in (413, 422)
    assert (workshop.data / "cookies.key").read_bytes() == key


@pytest.mark.parametrize(("method", "path", "headers"), REQUESTS)
def test_strange_requests_get_a_plain_answer(
    workshop: Workshop, method: str, path: str, headers: dict[str, str]
) -> None:
    answer = workshop.phone().send(method, path, headers=headers, data=b"x")
    assert answer.status_code < 500
    assert "evil.example" not in str(answer.headers)


@pytest.mark.parametrize("origin", ORIGINS)
@pytest.mark.parametrize("path", ["/api/sync", "/office/prices", "/sign-in", "/office/phones/code"])
def test_a_change_from_a_foreign_page_is_refused(workshop: Workshop, path: str, origin: str | None) -> None:
    """Cross-site request forgery, with all cookies (ASVS 3.5.1 to 3.5.3)."""
    headers = {"X-Teepiece": "1"} | ({"Origin": origin} if origin else {})
    answer = workshop.phone("owner").client.post(
        path, base_url="https://teepiece.home.arpa:8443", headers=headers
    )
    assert (answer.status_code, b"foreign_origin" in answer.data or b"did not come from" in answer.data) == (
        403,
        True,
    )


@pytest.mark.parametrize("path", ["/office/prices", "/office/people", "/office/phones/code", "/sign-out"])
def test_a_form_without_its_token_changes_nothing(owner: Visitor, path: str) -> None:
    assert owner.send("POST", path, data={"name": "x"}).status_code == 400
    assert owner.is_signed_in()


# What issues a workshop's Wi-Fi brings: each of these words stands in the name of a kind that is not empty.
EXPECTED = (
    "path tricks", "SQL", "HTML", "SVG", "polyglot photos", "200 megapixels", "zip bombs", "header injection",
    "formula cells", "10 MB JSON", "deep JSON", "bad UTF-8",
)  # fmt: skip
FEWEST = 200


def test_there_are_enough_inputs_of_every_kind() -> None:
    print(f"{sum(map(len, KINDS.values()))} hostile inputs")
    assert sum(map(len, KINDS.values())) >= FEWEST
    assert [word for word in EXPECTED if not any(word in kind for kind in KINDS)] == []
    assert [kind for kind, inputs in KINDS.items() if not inputs] == []
    texts = [repr(one) for kind, inputs in KINDS.items() if isinstance(inputs, list) for one in inputs]
    assert [one for one in set(texts) if texts.count(one) > 1] == []  # none is counted twice
