"""Files that are no log: one clear line, whatever they hold."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from calc.errors import UnreadableLog
from calc.logs import read_log
from tests.house.source import ROOT

HEAD = b"Time [s],Engine speed [rpm],Boost pressure actual [mbar]\n"
ROWS = b"".join(b"%.1f,%d,%d\n" % (row / 10, 900 + row, 1000 + row) for row in range(50))
NAMES = b"name,street,town\n" + b"Ada,Mill Lane 4,Ely\nBob,High Street 2,York\n" * 20
ZIP = b"PK\x03\x04" + bytes(range(256)) * 20
PICTURE = b"\x89PNG\r\n\x1a\n" + bytes(range(256)) * 20


def hostile() -> dict[str, bytes]:
    """Forty files by what is wrong with them."""
    return {
        "empty": b"",
        "spaces": b"  \n \t\n\n",
        "mark alone": b"\xef\xbb\xbf",
        "one word": b"boost",
        "one line": HEAD,
        "header alone twice": HEAD + HEAD,
        "one row": HEAD + b"0.0,900,1000\n",
        "no header": ROWS,
        "no header, semicolons": ROWS.replace(b",", b";"),
        "no channel": b"Time [s],Coolant [degC]\n" + b"".join(b"%d,80\n" % row for row in range(20)),
        "no times": b"Boost pressure actual [mbar],Engine speed [rpm]\n" + b"1000,900\n" * 20,
        "times stand still": HEAD + b"1.0,900,1000\n" * 30,
        "times all text": HEAD + b"soon,900,1000\n" * 30,
        "names and streets": NAMES,
        "prose": b"The car pulled well. Then it did not, and we stopped.\n" * 40,
        "prose with commas": b"First, we drove, then, slowly, it stopped, and, well, that was, it\n" * 40,
        "program": b"def f(x):\n    return [x, x + 1]\n" * 30,
        "JSON": json.dumps({"t_s": [0, 1], "boost": [1, 2]}).encode(),
        "JSON lines": b'{"t": 0.1, "boost": 1012}\n' * 30,
        "XML": b"<log><row t='0'/></log>\n" * 30,
        "web page": b"<!doctype html><html><body><table><tr><td>1</td></tr></table></body></html>\n" * 20,
        "archive": ZIP,
        "old spreadsheet": b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(5000),
        "PDF": b"%PDF-1.7\n" + bytes(range(256)) * 20,
        "compressed": b"\x1f\x8b\x08" + bytes(range(256)) * 20,
        "picture": PICTURE,
        "photo": b"\xff\xd8\xff\xe0" + bytes(range(256)) * 20,
        "database": b"SQLite format 3\x00" + bytes(5000),
        "zero bytes": bytes(100_000),
        "a zero byte in a log": HEAD + ROWS + b"\x00" + ROWS,
        "every byte": bytes(range(1, 256)) * 40,
        "control signs": b"\x01\x02\x03,\x04\x05\n" * 100,
        "half of UTF-16": b"\xff\xfe" + b"a\x00b\x00\xd8",
        "one line of 40 MB": b"1,2," * 10_000_000,
        "one line of 20 MB": b"1,2," * 5_000_000,
        "40 MB": HEAD + ROWS * 60_000,
        "a line of 1 MB in a log": HEAD + ROWS + b"9," * 500_000 + b"\n" + ROWS,
        "a quote that never ends": HEAD + b'0.0,900,"1000\n' + ROWS * 400,
        "too many columns": b",".join([b"boost"] * 2_000) + b"\n" + (b"1," * 1_999 + b"1\n") * 5,
        "two million empty lines": HEAD + b"\n" * 2_000_000,
        "fractions of nothing": HEAD + b"nan,inf,-inf\n" * 50,
    }  # fmt: skip


HOSTILE = hostile()


def test_there_are_forty() -> None:
    assert len(HOSTILE) >= 40
    assert len(set(HOSTILE.values())) == len(HOSTILE)


@pytest.mark.parametrize("name", HOSTILE)
def test_a_file_that_is_no_log_gets_one_line(name: str) -> None:
    with pytest.raises(UnreadableLog) as caught:
        read_log(HOSTILE[name])
    said = str(caught.value)
    assert said
    assert len(said) < 300
    assert "\n" not in said


def command(*arguments: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [sys.executable, "-m", "calc", *arguments], cwd=ROOT, capture_output=True, check=False
    )


def test_the_command_prints_a_run(tmp_path: Path) -> None:
    log = tmp_path / "run.csv"
    log.write_bytes(HEAD + ROWS)
    wish = tmp_path / "map.json"
    wish.write_text(
        json.dumps({"boost_actual_kpa_abs": {"column": "Boost pressure actual [mbar]", "unit": "kPa"}})
    )
    done = command("read-log", str(log), "--columns", str(wish), "--barometric-kpa-abs", "99.5")
    assert (done.returncode, done.stderr) == (0, b"")
    run = json.loads(done.stdout)
    assert run["channels"]["boost_actual_kpa_abs"][:2] == [1000.0, 1001.0]
    assert run["channels"]["t_s"][:2] == [0.0, 0.1]


@pytest.mark.parametrize(
    ("name", "arguments"),
    [
        ("one line of 20 MB", []),
        ("archive", []),
        ("one row", ["--barometric-kpa-abs", "ninety"]),
        ("one row", ["--cylinders", "4.5"]),
        ("one row", ["--columns", "nowhere.json"]),
        ("one row", ["--loud"]),
    ],
)
def test_the_command_refuses_in_one_line(name: str, arguments: list[str], tmp_path: Path) -> None:
    log = tmp_path / "run.csv"
    log.write_bytes(HOSTILE[name])
    done = command("read-log", str(log), *arguments)
    assert done.returncode == 2
    assert done.stdout == b""
    assert done.stderr.count(b"\n") == 1
    assert b"Traceback" not in done.stderr
