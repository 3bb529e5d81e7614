"""A fresh server and data folder for every test."""

from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient

from api import demo
from api.app import create_app
from api.context import KEY
from api.store import database


@pytest.fixture
def pwa(tmp_path: Path) -> Path:
    """A small stand-in for the phone's files."""
    folder = tmp_path / "pwa"
    (folder / "vendor/pyodide").mkdir(parents=True)
    (folder / "index.html").write_text("<!doctype html><title>shell</title>" + "<p>long enough</p>" * 40)
    (folder / "app.js").write_text("export const answer = 42;\n" * 100)
    (folder / "sw.js").write_text('importScripts("/release.js");\n')
    (folder / ".hidden").write_text("not for the phone")
    (folder / "vendor/pyodide/pyodide.mjs").write_text("export {};\n")
    (folder / "vendor/pyodide/LICENSE.txt").write_text("licence\n")
    (folder / "vendor/pyodide/pyodide.asm.wasm").write_bytes(b"\0asm" + bytes(1000))
    return folder


@pytest.fixture
def app(tmp_path: Path, pwa: Path) -> Flask:
    """A server over an empty data folder."""
    app = create_app(tmp_path / "data", pwa=pwa)
    app.testing = True
    return app


@pytest.fixture
def client(app: Flask) -> FlaskClient:
    """A browser of that server."""
    return app.test_client()


@pytest.fixture
def demo_client(app: Flask, client: FlaskClient) -> FlaskClient:
    """A browser of a workshop that holds the demo job."""
    context = app.extensions[KEY]
    connection = database.connect(context.database)
    demo.put_in(connection, context.blobs)
    connection.close()
    return client


@pytest.fixture
def data(app: Flask) -> Path:
    """The data folder of the server under test."""
    return Path(app.extensions[KEY].database).parent
