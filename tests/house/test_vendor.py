"""What is vendored is what was published: bytes, names and licences as the list in pwa/vendor says."""

import hashlib
from pathlib import Path

import pytest

VENDOR = Path(__file__).resolve().parents[2] / "pwa" / "vendor"
LIST = VENDOR / "CHECKSUMS.txt"
OPEN_LICENCES = {"MPL-2.0", "OFL-1.1", "PSF-2.0", "MIT", "ISC", "BSD-3-Clause", "Apache-2.0"}


def rows() -> list[list[str]]:
    lines = LIST.read_text(encoding="utf-8").splitlines()
    return [line.split() for line in lines if not line.startswith("#")]


def test_every_vendored_file_is_listed_once() -> None:
    present = sorted(str(path.relative_to(VENDOR)) for path in VENDOR.rglob("*") if path.is_file())
    present.remove(LIST.name)
    assert [row[1] for row in rows()] == present


@pytest.mark.parametrize("row", rows(), ids=lambda row: row[1])
def test_vendored_bytes_are_the_published_ones(row: list[str]) -> None:
    digest, name, _package, version, licence = row
    assert hashlib.sha256((VENDOR / name).read_bytes()).hexdigest() == digest
    assert version[0].isdigit()
    assert licence in OPEN_LICENCES


def test_every_vendored_folder_carries_its_licence() -> None:
    folders = {(VENDOR / row[1]).parent for row in rows()}
    without = [folder.name for folder in folders if not (folder / "LICENSE.txt").is_file()]
    assert folders
    assert without == []


def test_the_engine_knows_no_package_to_download() -> None:
    lock = (VENDOR / "pyodide" / "pyodide-lock.json").read_text(encoding="utf-8")
    assert '"packages": {}' in lock
