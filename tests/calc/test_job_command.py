"""The command from outside: exit status, one line, bytes; the fixtures of broken documents through it."""

import io
import json
import os
import subprocess
import sys
from pathlib import Path
from types import SimpleNamespace

import pytest

import calc
from calc.__main__ import main
from tests.calc.test_job_broken import BROKEN, INDEX

ROOT = Path(__file__).resolve().parents[2]
GOOD = ROOT / "fixtures" / "jobs" / "contract_example.json"
UMLAUT = b'{"format": "job/1", "id": "b1", "gauges": [{"kind": "M\xc3\xbcller"}]}'


def run(*arguments: str, given: bytes = b"", **environment: str) -> subprocess.CompletedProcess[bytes]:
    command = [sys.executable, "-m", "calc", *arguments]
    return subprocess.run(
        command, check=False, input=given, capture_output=True, cwd=ROOT, env={**os.environ, **environment}
    )


def refused(result: subprocess.CompletedProcess[bytes]) -> str:
    """The one line of a refusal."""
    assert (result.returncode, result.stdout) == (2, b"")
    line = result.stderr.decode()
    assert line.endswith("\n")
    assert len(line.splitlines()) == 1
    return line.rstrip("\n")


@pytest.mark.parametrize("broken", INDEX, ids=lambda broken: broken["file"])
def test_a_broken_document_ends_with_status_2_and_one_line(
    broken: dict[str, str], capfdbinary: pytest.CaptureFixture[bytes]
) -> None:
    status = main(["judge", str(BROKEN / broken["file"])])
    printed = capfdbinary.readouterr()
    assert (status, printed.out) == (2, b"")
    assert printed.err.decode() == f"{broken['pointer']}: {broken['reason']}\n".replace("a\nb", "a\\nb")


def test_the_contracts_own_example_of_a_refusal() -> None:
    result = run("judge", given=(BROKEN / "number_nan.json").read_bytes())
    assert refused(result) == "/tests/actuator/sweep/3/p_kpa: not a finite number"


def test_a_verdict_comes_from_a_file_and_from_standard_input_in_the_same_bytes() -> None:
    by_name = run("judge", str(GOOD))
    by_input = run("judge", given=GOOD.read_bytes(), PYTHONHASHSEED="7")
    assert (by_name.returncode, by_name.stderr) == (0, b"")
    assert by_name.stdout == by_input.stdout == calc.judge_text(GOOD.read_bytes()).encode()
    assert json.loads(by_name.stdout)["format"] == "verdict/1"


@pytest.mark.parametrize(
    "arguments", [(), ("weigh",), ("judge", "a.json", "b.json"), ("--judge",), ("judge", "--unit", "bar")]
)
def test_a_wrong_call_is_told_how_to_call(arguments: tuple[str, ...]) -> None:
    assert refused(run(*arguments)).startswith("use: python3 -m calc judge JOB.json")


def test_help_is_no_refusal() -> None:
    result = run("--help")
    assert (result.returncode, result.stderr) == (0, b"")
    assert result.stdout.startswith(b"use: ")


def test_a_file_that_is_missing_empty_or_no_file_is_refused(tmp_path: Path) -> None:
    (tmp_path / "empty.json").touch()
    assert refused(run("judge", str(tmp_path / "none.json"))).endswith("No such file or directory")
    assert refused(run("judge", str(tmp_path))).endswith("Is a directory")
    assert refused(run("judge", str(tmp_path / "two\nlines.json"))).count("\\n") == 1
    assert refused(run("judge", str(tmp_path / "empty.json"))).startswith(": empty")
    assert refused(run("judge")).startswith(": empty")


@pytest.mark.parametrize("locale", ["C", "C.UTF-8", "POSIX"])
def test_output_is_utf8_in_any_locale(locale: str) -> None:
    result = run("judge", given=UMLAUT, LC_ALL=locale, PYTHONIOENCODING="ascii", PYTHONUTF8="0")
    assert refused(result) == '/gauges/0/kind: unknown word "Müller", known are: analogue, digital'


def test_half_a_surrogate_pair_does_not_stop_the_printing() -> None:
    good = run("judge", given=b'{"format": "job/1", "id": "\\ud83d"}')
    assert (good.returncode, json.loads(good.stdout)["job"]) == (0, "\ufffd")
    assert refused(run("judge", given=b'{"format": "job/1", "id": "b1", "\\ud83d": NaN}')).startswith(
        "/\ufffd: "
    )


def test_a_reader_that_goes_away_is_no_fault() -> None:
    reading, writing = os.pipe()
    os.close(reading)
    with os.fdopen(writing, "wb") as nobody:
        command = [sys.executable, "-m", "calc", "judge", str(GOOD)]
        result = subprocess.run(command, check=False, stdout=nobody, stderr=subprocess.PIPE, cwd=ROOT)
    assert (result.returncode, result.stderr) == (0, b"")


def test_a_fault_of_our_own_is_one_line_and_status_1(
    monkeypatch: pytest.MonkeyPatch, capfdbinary: pytest.CaptureFixture[bytes]
) -> None:
    def faulty(_: bytes) -> str:
        raise ZeroDivisionError("first line\nsecond line")

    monkeypatch.setattr(calc, "judge_text", faulty)
    monkeypatch.setattr(sys, "stdin", SimpleNamespace(buffer=io.BytesIO(b"{}")))
    assert main(["judge"]) == 1
    line = b"a fault in calc itself: ZeroDivisionError: first line\\nsecond line\n"
    assert capfdbinary.readouterr() == (b"", line)


def test_the_standard_library_alone_is_enough() -> None:
    """As on a bare machine: no site packages, nothing of the user's, no variables."""
    command = [sys.executable, "-S", "-s", "-m", "calc", "judge", str(GOOD)]
    result = subprocess.run(command, check=False, capture_output=True, cwd=ROOT, env={})
    assert (result.returncode, result.stderr) == (0, b"")
