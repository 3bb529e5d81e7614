"""The version stands in one place, and its change notes are the first that the app shows."""

import re
import tomllib

import calc
from tests.house.source import ROOT, text

CHANGES = "pwa/words/changes.js"
NOTE = re.compile(r'^ {6}\["(\w+)", "(.+)"\],$', re.MULTILINE)
KINDS = {"new", "mended", "false_alarm", "missed_fault"}


def releases() -> list[str]:
    return re.split(r'(?m)^    version: "', text(CHANGES))[1:]


def test_the_version_stands_in_one_place() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())
    assert "version" in project["project"]["dynamic"]
    assert project["tool"]["setuptools"]["dynamic"]["version"] == {"attr": "calc.VERSION"}


def test_the_latest_change_notes_are_this_versions() -> None:
    assert releases()[0].partition('"')[0] == calc.VERSION


def test_every_note_is_there_in_both_languages() -> None:
    for release in releases():
        english, german = (NOTE.findall(part) for part in release.split("de: [")[:2])
        assert english
        assert [kind for kind, _ in english] == [kind for kind, _ in german]
        assert {kind for kind, _ in english} <= KINDS
