"""The hostile inputs, kind by kind: what an attacker on the Wi-Fi, or a broken phone, might send.

    python3 -m tests.security.hostile_inputs     # counts them

An input is counted once, in however many places and on however many pages it is tried. `test_hostile.py`
tries them on the server, `test_hostile_memory.py` the large ones on a server of their own. The texts go into
PDFs in `tests/api/test_report_hostile.py`, on screens in real Chromium in `tests/browser/test_hostile.py`.
"""

import io
import json
import stat
import struct
import sys
import zipfile
from collections.abc import Callable, Mapping, Sized
from typing import Any

from tests.api.hostile import TEXTS
from tests.api.phone import new_id, operation
from tests.security.hostile_pictures import MORE, NONE

PATHS = [
    "/../api/secret.py",
    "/..%2f..%2fapi/app.py",
    "/%2e%2e/%2e%2e/etc/passwd",
    "/....//....//etc/passwd",
    "/..\\..\\windows\\win.ini",
    "/%5c..%5c..%5cetc",
    "/%252e%252e%252fetc%252fpasswd",
    "/..;/..;/etc/passwd",
    "/file:///etc/passwd",
    "//etc/passwd",
    "/.git/config",
    "/.hidden",
    "/__init__.py",
    "/app.js%00.html",
    "/app.js/",
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
    "/api/jobs/x/reports/..%2f..%2f..%2fworkshop.sqlite3.pdf",
    "/office/jobs/%00",
    "/office/people/' OR ''='",
    "/" + "a" * 8000,
    "/\u202e\U0001f600",
]
QUESTIONS = ["'", '"', "' OR '1'='1", "%' --", "\\", "_%", "\x00", "a" * 5000, "1e999", "[]", "1;SELECT 1"]


def nested(depth: int) -> bytes:
    """Lists in lists."""
    return b"[" * depth + b"]" * depth


def batch(value: bytes) -> bytes:
    """A body of `/api/sync` with this in place of its operations."""
    return b'{"operations": ' + value + b', "number": 0, "hash": ""}'


BODIES: dict[str, list[bytes]] = {
    "JSON of another form": [
        b"",
        b"null",
        b"[]",
        b"{",
        b'{"operations": [], "number": 0}',
        b'{"operations": [], "number": NaN, "hash": ""}',
        b'{"operations": [], "number": 1e999, "hash": ""}',
        b'{"operations": [], "number": ' + b"9" * 5000 + b', "hash": ""}',
        b'{"operations": [], "number": -1, "hash": ""}',
        b'{"operations": [], "number": true, "hash": ""}',
        batch(b"[null]"),
        b'{"a": 1, "a": 2}',
        b'{"operations": [], "number": 0, "hash": "", "erasures": [{"id": "x", "job": "y", "path": "/"}]}',
    ],
    "deep JSON": [
        nested(60_000),
        batch(nested(10_000)),
        b'{"a":' * 30_000 + b"1" + b"}" * 30_000,
        b"[" * 100_000,
    ],
    "10 MB JSON": [
        b'{"x": "' + b"a" * 10_000_000 + b'"}',
        batch(b"[" + b'"",' * 3_300_000 + b'""]'),
        b'{"operations": [], "number": ' + b"1" * 10_000_000 + b"}",
    ],
    "bad UTF-8": [
        b"\xff\xfe\xfd",
        batch(b'["\xc3\x28"]'),
        batch(b'["\xc0\xaf"]'),  # the slash, written too long
        batch(b'["\xed\xa0\x80"]'),  # half of a pair
        batch(b'["\xf4\x90\x80\x80"]'),  # beyond the last sign
        batch(b'["\xe2\x82"]'),  # cut short
        batch(b'["\xe9"]'),  # another coding
        batch(b"[]").decode().encode("utf-16"),
    ],
}
OPERATIONS = [
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
]


def packed(members: Mapping[str, bytes], **more: Any) -> bytes:
    """A zip of these members; `more` holds further ones with a ZipInfo of their own."""
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as archive:
        for name, data in members.items():
            archive.writestr(name, data)
        for info, data in more.values():
            archive.writestr(info, data)
    return file.getvalue()


MANIFEST = json.dumps({"format": "teepiece-copy/1"}).encode()


def link_out() -> bytes:
    """A symbolic link in place of the list of operations."""
    info = zipfile.ZipInfo("operations.jsonl")
    info.external_attr = (stat.S_IFLNK | 0o777) << 16
    return packed({"copy.json": MANIFEST}, link=(info, b"../../cookies.key"))


def claiming(size: int, truth: int) -> bytes:
    """So many noughts in a member whose headers both say another size."""
    whole = packed({"copy.json": bytes(truth)})
    return whole.replace(struct.pack("<I", truth), struct.pack("<I", size))


def tighter_than_deflate() -> bytes:
    """200 MB that swell from some kilobytes, most of it from each piece that is read (bzip2)."""
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_BZIP2, compresslevel=9) as archive:
        archive.writestr("copy.json", MANIFEST)
        archive.writestr("operations.jsonl", bytes(200_000_000))
    return file.getvalue()


COPIES: dict[str, Callable[[], bytes]] = {
    "no zip": lambda: b"PK\x03\x04 and nothing else",
    "one large member": lambda: packed({"operations.jsonl": bytes(300_000_000)}),
    "a large list": lambda: packed({"copy.json": bytes(200_000_000)}),
    "a large list behind a good head": lambda: packed(
        {"copy.json": MANIFEST, "operations.jsonl": bytes(100_000_000)}
    ),
    "a way out": lambda: packed({"../../cookies.key": bytes(10), "copy.json": bytes(2)}),
    "a way from the root": lambda: packed({"/etc/cookies.key": bytes(10), "copy.json": bytes(2)}),
    "a link out": link_out,
    "thousands": lambda: packed({f"blobs/{number:064x}": bytes(1) for number in range(2_000)}),
    "a zip in a zip": lambda: packed({"copy.json": packed({"copy.json": bytes(1_000_000)})}),
    "deep JSON": lambda: packed({"copy.json": nested(100_000), "operations.jsonl": b""}),
    "bad UTF-8": lambda: packed({"copy.json": MANIFEST, "operations.jsonl": b'{"operation": "\xff"}\n'}),
    "headers that say less": lambda: claiming(10, 20_000_000),
    "headers that say two gigabytes": lambda: claiming(2_000_000_000, 20_000_000),
    "packed more tightly than any copy": tighter_than_deflate,
}
HEADERS = [
    "x\r\nBcc: all@example.com",
    "x\nBcc: b@example.com",
    "x\rBcc: b@example.com",
    "x\r\n Bcc: b@example.com",
    "x\r\n\r\nanother body",
    "x\r\n.\r\nMAIL FROM:<b@example.com>",
    "x\x00y",
    "x\x0bBcc: b@example.com",
    "x\x85Bcc: b@example.com",
    "\u2028Bcc: b",
    "\u2029Bcc: b",
    "=?utf-8?q?=0aBcc:?=",
    "=?utf-8?b?DQpCY2M6IGJAZXhhbXBsZS5jb20=?=",
    "ü" * 500,
]
CELLS = [
    "=1+1",
    "+1+1",
    "-1+1",
    "@SUM(A1)",
    "+44 20",
    " =1",
    "\t=1",
    "\r=1",
    "\n=1",
    "=cmd|' /C calc'!A0",
    "-0.35+cmd|' /C calc'!A0",
    '=HYPERLINK("http://127.0.0.1:9/","press")',
]
CELLS_OF_TWO = ["x;=1+1", 'x","=1+1', "x\t=1+1", "x\r\n=1+1"]  # where a spreadsheet might begin another cell
REQUESTS: list[tuple[str, str, dict[str, str]]] = [
    ("POST", "/api/sync", {"Content-Type": "text/plain; charset=utf-7"}),
    ("POST", "/sign-in", {"Content-Type": "multipart/form-data; boundary=" + "b" * 300}),
    ("POST", "/sign-in", {"Content-Type": "multipart/form-data"}),
    ("PUT", "/api/blobs/" + "0" * 64, {"Content-Range": "bytes 0-1/" + "9" * 40}),
    ("PUT", "/api/blobs/" + "0" * 64, {"Content-Range": "bytes 5-1/9"}),
    ("GET", "/app.js", {"Range": "bytes=0-" + "0,1-" * 5000}),
    ("GET", "/", {"If-None-Match": '"' * 5000}),
    ("GET", "/", {"Accept-Encoding": "br;q=nonsense, gzip;q=1e9"}),
    ("GET", "/", {"Accept-Language": "de;q=" + "9" * 4000}),
    ("GET", "/office/jobs", {"Cookie": "__Host-teepiece=" + "A" * 4000}),
    ("GET", "/office/jobs", {"Cookie": "__Host-teepiece=.eJx.x.x; __Host-teepiece-phone=\u00ff"}),
    ("GET", "/office/jobs", {"X-Forwarded-For": "127.0.0.1", "X-Forwarded-Host": "evil.example"}),
    ("GET", "/office/jobs", {"Host": "evil.example"}),
    ("TRACE", "/", {}),
    ("DELETE", "/api/jobs", {}),
    ("PROPFIND", "/", {}),
]
ORIGINS = ["null", "https://evil.example", "http://teepiece.home.arpa:8443", None]

KINDS: dict[str, Sized] = {
    **{f"texts: {kind}": texts for kind, texts in TEXTS.items()},
    "path tricks in addresses": PATHS,
    "SQL and more in questions": QUESTIONS,
    **{f"bodies: {kind}": bodies for kind, bodies in BODIES.items()},
    "operations that are none": OPERATIONS,
    "SVG and other photos that are none, 200 megapixels among them": NONE,
    "polyglot photos": MORE,
    "zip bombs and other copies that are none": COPIES,
    "header injection in e-mails": HEADERS,
    "formula cells": CELLS + CELLS_OF_TWO,
    "strange requests": REQUESTS,
    "foreign origins": ORIGINS,
}


if __name__ == "__main__":
    for kind, inputs in KINDS.items():
        sys.stdout.write(f"{len(inputs):4}  {kind}\n")
    sys.stdout.write(f"{sum(map(len, KINDS.values())):4}  in all\n")
