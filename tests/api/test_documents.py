"""Documents are kept up with their operations while the server is at work."""

import sqlite3
import time
from contextlib import closing

from flask import Flask
from flask.testing import FlaskClient

from api import documents
from api.context import KEY
from tests.api.phone import made

LONGEST_SECONDS = 20


def test_a_changed_job_is_kept_before_anybody_reads_it(app: Flask, client: FlaskClient) -> None:
    job = made(client, ("/vehicle/make", "Alder"))
    path = app.extensions[KEY].database
    with closing(sqlite3.connect(path)) as connection:
        assert connection.execute("SELECT job FROM behind").fetchall() == [(job,)]
        stop = documents.keep_up(path)
        try:
            end = time.monotonic() + LONGEST_SECONDS
            while connection.execute("SELECT job FROM behind").fetchone() and time.monotonic() < end:
                time.sleep(0.05)
        finally:
            stop.set()
        assert connection.execute("SELECT id FROM jobs").fetchall() == [(job,)]
