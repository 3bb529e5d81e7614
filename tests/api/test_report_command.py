"""`python3 -m api report`: a PDF from a document on disk, or one line and an exit status."""

import json
from pathlib import Path
from typing import Any

import pytest

from api import demo
from api.__main__ import command_line, write_report
from api.pdf import process
from tests.api.paper import opened


def test_the_command_writes_the_same_report_without_a_server(tmp_path: Path) -> None:
    output = tmp_path / "out.pdf"
    words = ["report", str(demo.FOLDER / "job.json"), "-o", str(output), "--form", "short", "--photos"]
    assert write_report(command_line().parse_args([*words, str(demo.FOLDER)])) == 0
    with opened(output.read_bytes()) as pdf:
        assert len(pdf.pages[0].get_images()) == 4


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ('{"format": "job/1"}', ': "id" is missing'),
        ('{"format": "job/1", "id": "x", "gauges": 1}', "/gauges: "),
        ("", ": "),
        (None, "No such file"),
    ],
)
def test_a_document_that_cannot_be_read_is_one_line_and_exit_2(
    tmp_path: Path, capsys: Any, text: str | None, says: str
) -> None:
    document = tmp_path / "job.json"
    if text is not None:
        document.write_text(text)
    choice = command_line().parse_args(["report", str(document), "-o", str(tmp_path / "out.pdf")])
    assert write_report(choice) == 2
    error = capsys.readouterr().err
    assert says in error
    assert error.count("\n") == 1
    assert not (tmp_path / "out.pdf").exists()


def test_a_report_that_cannot_be_written_says_where(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Any
) -> None:
    monkeypatch.setattr(process, "draw", lambda _request: b"%PDF")
    document = tmp_path / "job.json"
    document.write_text(json.dumps({"format": "job/1", "id": "x"}))
    output = tmp_path / "no" / "out.pdf"
    assert write_report(command_line().parse_args(["report", str(document), "-o", str(output)])) == 1
    assert str(output) in capsys.readouterr().err
