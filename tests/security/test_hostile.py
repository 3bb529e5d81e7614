"""What an attacker on the Wi-Fi, or a broken phone, might send: refused, or shown as text.

The texts are those of `tests/api/hostile.py`, which the PDFs are tested with too.
"""

import hashlib
import html.parser
import io
import json
import struct
import zipfile
import zlib
from collections.abc import Callable

import pytest

from tests.api.hostile import HOSTILE
from tests.api.phone import new_id, operation
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


class Skeleton(html.parser.HTMLParser):
    """A page without its words: tags in order, with the names of their attributes."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, ...]] = []
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, *(name for name, _ in attrs)))

    def handle_endtag(self, tag: str) -> None:
        self.tags.append((f"/{tag}",))

    def handle_comment(self, data: str) -> None:
        self.tags.append(("comment",))


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


def made_of(page: str) -> list[tuple[str, ...]]:
    """Every tag of a page, sorted: sections are laid into columns by how many lines their texts take."""
    return sorted(Skeleton(page).tags)


def job_pages(job: str) -> list[str]:
    return [f"/office/jobs/{job}", f"/desk/jobs/{job}"]


@pytest.fixture
def owner(workshop: Workshop) -> Visitor:
    return workshop.signed_in("owner")


@pytest.fixture
def plain(workshop: Workshop, owner: Visitor) -> list[list[tuple[str, ...]]]:
    """What the pages of a job are made of when its words are harmless."""
    job = bring(workshop.phone(), "harmless")
    return [made_of(owner.get(page).text) for page in job_pages(job)]


def test_every_text_is_shown_as_text(
    workshop: Workshop, owner: Visitor, plain: list[list[tuple[str, ...]]]
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
    tags = [set(made_of(owner.get(page).text)) for page in pages]
    jobs = [bring(phone, text) for text in SENDABLE]
    while "still to be read" in owner.get("/office/jobs").text:
        pass
    for page, known in zip(pages, tags, strict=True):
        for job in jobs if first in page else jobs[:1]:
            assert set(made_of(owner.get(page.replace(first, job)).text)) <= known


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


@pytest.mark.parametrize(
    "path",
    [
        "/../api/secret.py",
        "/..%2f..%2fapi/app.py",
        "/%2e%2e/%2e%2e/etc/passwd",
        "/....//....//etc/passwd",
        "/..\\..\\windows\\win.ini",
        "/%5c..%5c..%5cetc",
        "//etc/passwd",
        "/.git/config",
        "/.hidden",
        "/__init__.py",
        "/app.js%00.html",
        "/CON",
        "/NUL.txt",
        "/style/../../../etc/passwd",
        "/office/style/..%2f..%2fpages.py",
        "/office/style/../templates/office/frame.html",
        "/office/style/%2e%2e%2fpages.py",
        "/desk/photos/..%2f..%2fcookies.key.jpg",
        "/api/blobs/..%2fworkshop.sqlite3",
        "/api/blobs/" + "A" * 64,
        "/api/blobs/" + "0" * 63 + "/",
        "/api/jobs/' OR 1=1 --",
        "/api/jobs/%27%3B%20DROP%20TABLE%20jobs%3B--/verdict",
        "/office/jobs/%00",
        "/office/people/' OR ''='",
        "/" + "a" * 8000,
        "/\u202e\U0001f600",
    ],
)
def test_tricks_with_paths_lead_nowhere(owner: Visitor, path: str) -> None:
    answer = owner.get(path)
    assert answer.status_code in (301, 308, 400, 404)
    assert b"root:" not in answer.data
    assert b"SQLite" not in answer.data


@pytest.mark.parametrize("text", ["'", '"', "' OR '1'='1", "%' --", "\\", "_%", "\x00", "a" * 5000, "1e999"])
@pytest.mark.parametrize(
    "name", ["words", "since", "until", "fault", "before", "limit", "unit", "form", "next"]
)
def test_questions_in_the_address_break_nothing(owner: Visitor, name: str, text: str) -> None:
    for page in ("/office/jobs", "/office/trail", "/api/jobs", "/desk", "/sign-in"):
        assert owner.get(page, query_string={name: text}).status_code in (200, 400)


def nested(depth: int) -> bytes:
    return b"[" * depth + b"]" * depth


@pytest.mark.parametrize(
    "body",
    [
        b"",
        b"null",
        b"[]",
        b"{",
        b'{"operations": [], "number": 0}',
        b"\xff\xfe\xfd",
        b'{"operations": ["\xc3\x28"], "number": 0, "hash": ""}',
        b'{"operations": [], "number": NaN, "hash": ""}',
        b'{"operations": [], "number": 1e999, "hash": ""}',
        b'{"operations": [], "number": ' + b"9" * 5000 + b', "hash": ""}',
        b'{"operations": [], "number": -1, "hash": ""}',
        b'{"operations": [], "number": true, "hash": ""}',
        b'{"operations": [null], "number": 0, "hash": ""}',
        b'{"a": 1, "a": 2}',
        nested(60_000),
        b'{"operations": ' + nested(10_000) + b', "number": 0, "hash": ""}',
        b'{"x": "' + b"a" * 10_000_000 + b'"}',
        b'{"operations": [], "number": 0, "hash": "", "erasures": [{"id": "x", "job": "y", "path": "/"}]}',
    ],
    ids=lambda body: repr(body[:40]),
)
def test_json_that_is_none_is_refused(workshop: Workshop, body: bytes) -> None:
    answer = workshop.phone().send("POST", "/api/sync", data=body, content_type="application/json")
    assert answer.status_code in (400, 413)
    assert set(answer.json) == {"error", "says"}


@pytest.mark.parametrize(
    "text",
    [
        "",
        "{}",
        "[" * 5000,
        '{"id": 1e999}',
        json.dumps(operation(new_id(), "/__proto__/polluted", 1)),
        json.dumps(operation(new_id(), "/customer/../../id", "x")),
        json.dumps(operation(new_id(), "/customer/name", {"$gt": ""})),
        json.dumps(operation("../../etc", "/customer/name", "x")),
        json.dumps(operation(new_id(), "/photos/../x", {"sha256": "../../x"}, do="add")),
        json.dumps(operation(new_id(), "/customer/name", "x", replaced=["x" * 9000])),
        json.dumps(operation(new_id(), "/customer/name", "a" * 70_000)),
        json.dumps(operation(new_id(), "/customer/name", "half of a pair: \ud800")),
    ],
    ids=lambda text: repr(text[:40]),
)
def test_an_operation_that_is_none_is_refused_alone(workshop: Workshop, text: str) -> None:
    good = json.dumps(operation(new_id(), "/customer/name", "Ines"))
    answer = workshop.phone().sync(text, good)
    assert answer.status_code == 200
    assert [one["answer"] for one in answer.json["answers"]] == ["refused", "applied"]


def png(width: int, height: int) -> bytes:
    """A PNG that says its size and is nothing but one long run of noughts (PNG specification, section 11)."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    packer = zlib.compressobj(9)
    row = bytes(1 + width * 3)
    rows = b"".join(packer.compress(row) for _ in range(height)) + packer.flush()
    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", rows) + chunk(b"IEND", b"")


PICTURES = {
    "svg": b'<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"><script>alert(1)</script></svg>',
    "svg called png": b"\x89PNG\r\n\x1a\n<svg onload=alert(1)>",
    "page behind a picture's first bytes": b"\xff\xd8\xff<html><script>alert(1)</script></html>",
    "gif and script at once": b"GIF89a/*<svg/onload=alert(1)>*/=alert(1)//;",
    "zip behind a picture": png(2, 2) + b"PK\x03\x04",
    "200 megapixels": png(20_000, 10_000),
    "a size that no memory holds": b"\x89PNG\r\n\x1a\n"
    + struct.pack(">I", 13)
    + b"IHDR"
    + b"\x7f\xff\xff\xff" * 2
    + b"\x08\x02\0\0\0"
    + bytes(4),
    "EPS": b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 9 9\n(/etc/passwd) (r) file\n",
    "nothing": b"",
}


@pytest.mark.parametrize("name", PICTURES)
def test_a_picture_that_is_none_is_no_page_either(workshop: Workshop, name: str) -> None:
    """Given out as a download in a sandbox; what is shown is decoded in a bounded process."""
    data, phone = PICTURES[name], workshop.phone()
    sha256 = hashlib.sha256(data).hexdigest()
    assert phone.send("PUT", f"/api/blobs/{sha256}", data=data).status_code == 201
    raw, shown = phone.get(f"/api/blobs/{sha256}"), phone.get(f"/desk/photos/{sha256}.jpg")
    assert raw.headers["Content-Security-Policy"].startswith("sandbox")
    assert raw.headers["Content-Disposition"].startswith("attachment")
    assert raw.headers["X-Content-Type-Options"] == "nosniff"
    assert raw.mimetype in ("application/octet-stream", "image/jpeg", "image/png")
    if name == "zip behind a picture":
        assert shown.mimetype == "image/jpeg"
        assert b"PK" not in shown.data
    else:
        assert shown.status_code == 404
        assert data not in shown.data or not data


def bomb(names: dict[str, int]) -> bytes:
    """A small zip that says it is large: members of so many noughts."""
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as archive:
        for name, size in names.items():
            archive.writestr(name, bytes(size))
    return packed.getvalue()


COPIES: dict[str, Callable[[], bytes]] = {
    "no zip": lambda: b"PK\x03\x04 and nothing else",
    "one large member": lambda: bomb({"operations.jsonl": 300_000_000}),
    "a large list": lambda: bomb({"copy.json": 200_000_000}),
    "a way out": lambda: bomb({"../../cookies.key": 10, "copy.json": 2}),
    "thousands": lambda: bomb({f"blobs/{number:064x}": 1 for number in range(2_000)}),
}


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


@pytest.mark.parametrize(
    ("method", "path", "headers"),
    [
        ("POST", "/api/sync", {"Content-Type": "text/plain; charset=utf-7"}),
        ("POST", "/sign-in", {"Content-Type": "multipart/form-data; boundary=" + "b" * 300}),
        ("POST", "/sign-in", {"Content-Type": "multipart/form-data"}),
        ("PUT", "/api/blobs/" + "0" * 64, {"Content-Range": "bytes 0-1/" + "9" * 40}),
        ("PUT", "/api/blobs/" + "0" * 64, {"Content-Range": "bytes 5-1/9"}),
        ("GET", "/app.js", {"Range": "bytes=0-" + "0,1-" * 5000}),
        ("GET", "/", {"If-None-Match": '"' * 5000}),
        ("GET", "/", {"Accept-Encoding": "br;q=nonsense, gzip;q=1e9"}),
        ("GET", "/office/jobs", {"Cookie": "__Host-teepiece=" + "A" * 4000}),
        ("GET", "/office/jobs", {"Cookie": "__Host-teepiece=.eJx.x.x; __Host-teepiece-phone=\u00ff"}),
        ("GET", "/office/jobs", {"X-Forwarded-For": "127.0.0.1", "X-Forwarded-Host": "evil.example"}),
        ("TRACE", "/", {}),
        ("DELETE", "/api/jobs", {}),
        ("PROPFIND", "/", {}),
    ],
)
def test_strange_requests_get_a_plain_answer(
    workshop: Workshop, method: str, path: str, headers: dict[str, str]
) -> None:
    answer = workshop.phone().send(method, path, headers=headers, data=b"x")
    assert answer.status_code < 500
    assert "evil.example" not in str(answer.headers)


@pytest.mark.parametrize("origin", ["null", "https://evil.example", "http://teepiece.home.arpa:8443", None])
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
