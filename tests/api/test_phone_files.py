"""The phone's files: types, compression, the release list, the engine's archive."""

import gzip
import io
import json
import zipfile
from collections.abc import Callable
from pathlib import Path

import brotli
import pytest
from flask.testing import FlaskClient

from api.release import engine_zip


def release(client: FlaskClient) -> dict[str, dict]:
    text = client.get("/release.js").text
    return json.loads(text.removeprefix("self.RELEASE = ").rstrip().removesuffix(";"))


def test_health_says_that_the_server_is_up(client: FlaskClient) -> None:
    assert client.get("/health").json == {"status": "ok"}


def test_the_root_is_the_shell_page(client: FlaskClient) -> None:
    answer = client.get("/")
    assert (answer.status_code, answer.mimetype) == (200, "text/html")
    assert "<title>shell</title>" in answer.text


# Media types: RFC 9239 for JavaScript; application/wasm as registered at IANA.
@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("/app.js", "text/javascript"),
        ("/vendor/pyodide/pyodide.mjs", "text/javascript"),
        ("/vendor/pyodide/pyodide.asm.wasm", "application/wasm"),
    ],
)
def test_a_module_has_the_type_that_browsers_demand(client: FlaskClient, name: str, kind: str) -> None:
    assert client.get(name).mimetype == kind


@pytest.mark.parametrize(("coding", "unpack"), [("br", brotli.decompress), ("gzip", gzip.decompress)])
def test_a_coding_carries_the_same_bytes(client: FlaskClient, coding: str, unpack: Callable) -> None:
    plain = client.get("/app.js").data
    pressed = client.get("/app.js", headers={"Accept-Encoding": coding})
    assert pressed.headers["Content-Encoding"] == coding
    assert unpack(pressed.data) == plain
    assert len(pressed.data) < len(plain)


def test_an_unchanged_file_costs_no_bytes_the_second_time(client: FlaskClient) -> None:
    first = client.get("/app.js")
    second = client.get("/app.js", headers={"If-None-Match": first.headers["ETag"]})
    assert (second.status_code, second.data) == (304, b"")
    assert first.headers["Cache-Control"] == "no-cache"


@pytest.mark.parametrize(
    "name",
    [
        "/.hidden",
        "/../conftest.py",
        "/%2e%2e/pwa/app.js",
        "/vendor",
        "/a\\b",
        "/none.js",
        "/%00",
        "/./app.js",
        "/vendor/./pyodide/pyodide.mjs",
    ],
)
def test_only_files_of_the_app_are_served(client: FlaskClient, name: str) -> None:
    answer = client.get(name)
    assert answer.status_code == 404
    assert answer.json["error"] == "not_found"


def test_the_release_lists_the_shell_and_the_engine_apart(client: FlaskClient) -> None:
    lists = release(client)
    assert lists["shell"]["files"] == ["/app.js", "/"]
    assert [name for name, _ in lists["engine"]["files"]] == [
        "/vendor/pyodide/pyodide.asm.wasm",
        "/vendor/pyodide/pyodide.mjs",
        "/engine/calc.zip",
    ]


def test_every_file_of_the_release_can_be_fetched_with_the_size_listed(client: FlaskClient) -> None:
    lists = release(client)
    assert all(client.get(name).status_code == 200 for name in lists["shell"]["files"])
    sizes = {name: len(client.get(name).data) for name, _ in lists["engine"]["files"]}
    assert sizes == dict(map(tuple, lists["engine"]["files"]))
    assert lists["engine"]["bytes"] == sum(sizes.values())


def test_a_changed_file_is_a_new_shell_and_leaves_the_engine(client: FlaskClient, pwa: Path) -> None:
    before = release(client)
    (pwa / "app.js").write_text("export const answer = 43;\n")
    after = release(client)
    assert after["shell"]["version"] != before["shell"]["version"]
    assert after["engine"] == before["engine"]


def test_the_archive_holds_the_engine_and_has_the_same_bytes_twice(tmp_path: Path) -> None:
    package = tmp_path / "calc"
    (package / "physics").mkdir(parents=True)
    (package / "__init__.py").write_text("VERSION = '0'\n")
    (package / "physics/air.py").write_text("GAMMA = 1.4\n")
    first, second = engine_zip(package).data, engine_zip(package).data
    assert first == second
    with zipfile.ZipFile(io.BytesIO(first)) as archive:
        assert archive.namelist() == ["calc/__init__.py", "calc/physics/air.py"]
        assert archive.read("calc/physics/air.py") == b"GAMMA = 1.4\n"
    (package / "physics/air.py").write_text("GAMMA = 1.39\n")
    with zipfile.ZipFile(io.BytesIO(engine_zip(package).data)) as archive:
        assert archive.read("calc/physics/air.py") == b"GAMMA = 1.39\n"
