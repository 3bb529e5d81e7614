"""The server as a process: what it says at its start, what keeps it from starting, and its end."""

import os
import signal
import socket
import sqlite3
import subprocess
import sys
import urllib.request
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

import pytest

from api import server
from api.bootstrap import ROOT
from api.server import LOOPBACK, NotStartedError, serve

START = """
import sys
from api.__main__ import command_line, serve_here
sys.exit(serve_here(command_line().parse_args()))
"""


@contextmanager
def started(data: Path) -> Iterator[subprocess.Popen[str]]:
    command = [sys.executable, "-c", START, "--port", "0", "--data", str(data)]
    process = subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    try:
        yield process
    finally:
        process.kill()
        process.communicate()


def line(process: subprocess.Popen[str]) -> str:
    assert process.stdout is not None
    return process.stdout.readline()


def test_it_says_where_it_is_and_stops_clean(tmp_path: Path) -> None:
    with started(tmp_path / "data") as process:
        first, second = line(process), line(process)
        address = first.split()[3]
        assert str(tmp_path / "data") in first
        with urllib.request.urlopen(f"{address}/health", timeout=20) as answer:
            assert answer.status == 200
        desk = second.split()[-1]
        with urllib.request.urlopen(desk, timeout=60) as answer:
            assert b"Brindle Saloon" in answer.read()
        process.send_signal(signal.SIGTERM)
        out, error = process.communicate(timeout=60)
    assert "Stopped." in out
    assert (process.returncode, error) == (0, "")


def test_a_port_that_is_taken_is_said_in_a_line(tmp_path: Path) -> None:
    with closing(socket.create_server((LOOPBACK, 0))) as taken:
        port = taken.getsockname()[1]
        with pytest.raises(NotStartedError, match=f"{port} is taken .* --port {port + 1}"):
            serve(tmp_path, port)


def test_a_folder_that_is_a_file_is_said_in_a_line(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("no folder")
    with pytest.raises(NotStartedError, match="no data can be kept there"):
        serve(tmp_path / "file", 0)


def test_a_file_that_is_no_database_is_said_and_left_alone(tmp_path: Path) -> None:
    database = tmp_path / "workshop.sqlite3"
    database.write_bytes(b"these bytes are no database" * 100)
    with pytest.raises(NotStartedError, match="the database cannot be used"):
        serve(tmp_path, 0)
    assert database.read_bytes() == b"these bytes are no database" * 100


def test_data_of_a_later_release_is_said_and_left_alone(tmp_path: Path) -> None:
    serve_once(tmp_path)
    with closing(sqlite3.connect(tmp_path / "workshop.sqlite3")) as connection:
        connection.execute("INSERT INTO migrations VALUES (9999, 'from later', '2030-01-01')")
        connection.commit()
    with pytest.raises(NotStartedError, match="later release"):
        serve(tmp_path, 0)


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write everywhere")
def test_a_folder_that_cannot_be_written_is_said_in_a_line(tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    with pytest.raises(NotStartedError, match="no data can be kept there"):
        serve(tmp_path / "data", 0)


def test_a_workshop_that_holds_a_job_gets_no_demo_job(tmp_path: Path) -> None:
    _app, demo = server._open(tmp_path, demo=False)
    assert demo is None
    _app, demo = server._open(tmp_path, demo=True)
    assert demo is not None
    _app, again = server._open(tmp_path, demo=False)
    assert again == demo


def serve_once(folder: Path) -> None:
    server._open(folder, demo=False)
