"""Each dependency has its reason in DEVELOPERS.md, is used, and is newer than its known holes."""

import re
import sys
import tomllib
from importlib.metadata import version

import pytest

from tests.house.source import named, python_imports, text

PROJECT = tomllib.loads(text("pyproject.toml"))["project"]
RUNTIME: list[str] = PROJECT["dependencies"]
TESTS: list[str] = PROJECT["optional-dependencies"]["tests"]

IMPORTED_AS = {
    "argon2-cffi": "argon2",
    "flask-wtf": "flask_wtf",
    "pillow": "PIL",
    "pdfminer.six": "pdfminer",
}
STARTED_NOT_IMPORTED = {"pytest-xdist", "ruff", "mypy", "bandit"}
OUR_OWN = {"api", "calc", "tests", "fixtures"}

# Lowest version without the advisories named; the one place where they are kept.
ADVISORIES = {
    "flask": ("3.1.3", "CVE-2026-27205"),
    "jinja2": ("3.1.6", "CVE-2024-56326, CVE-2025-27516"),
    "waitress": ("3.0.1", "CVE-2024-49768, CVE-2024-49769"),
    "cryptography": ("44.0.1", "CVE-2024-12797"),
    "werkzeug": ("3.1.6", "CVE-2023-25577, CVE-2025-66221, CVE-2026-21860, CVE-2026-27199"),
    "weasyprint": (
        "70.0",
        "CVE-2024-28184, CVE-2025-68616, CVE-2026-49452, CVE-2026-55073, GHSA-jf6q-chmf-3h3v",
    ),
}

# The same for what our dependencies bring with them: what is installed is looked at.
BROUGHT_ALONG = {
    "h11": ("0.16.0", "CVE-2025-43859"),
    "h2": ("4.3.0", "CVE-2025-57804"),
}


def split(requirement: str) -> tuple[str, str]:
    name, _, least = requirement.partition(">=")
    return name, least


def ordered(release: str) -> list[int]:
    return [int(part) for part in re.findall(r"\d+", release)]


def module(requirement: str) -> str:
    name = split(requirement)[0]
    return IMPORTED_AS.get(name, name)


def third_party(under: str) -> set[str]:
    roots = {dotted.split(".")[0] for name in named(".py", under=under) for dotted in python_imports(name)}
    return roots - OUR_OWN - set(sys.stdlib_module_names)


@pytest.mark.parametrize("requirement", RUNTIME + TESTS)
def test_developers_says_why_it_is_here(requirement: str) -> None:
    name, least = split(requirement)
    assert least, "every dependency states its lowest version"
    assert re.search(rf"^\| `{re.escape(name)}` \| \S.{{10,}}", text("DEVELOPERS.md"), re.MULTILINE)


@pytest.mark.parametrize("name", ADVISORIES)
def test_it_is_newer_than_its_known_holes(name: str) -> None:
    mended = ordered(ADVISORIES[name][0])
    assert ordered(dict(map(split, RUNTIME))[name]) >= mended
    assert ordered(version(name)) >= mended


@pytest.mark.parametrize("name", BROUGHT_ALONG)
def test_what_comes_along_is_newer_than_its_known_holes(name: str) -> None:
    assert ordered(version(name)) >= ordered(BROUGHT_ALONG[name][0])


def test_the_server_imports_what_it_declares_and_nothing_else() -> None:
    assert third_party("api/") == {module(requirement) for requirement in RUNTIME}


def test_the_tests_import_what_they_declare_and_nothing_else() -> None:
    declared = {module(requirement) for requirement in TESTS} - STARTED_NOT_IMPORTED
    assert third_party("tests/") | third_party("fixtures/") <= declared | {module(r) for r in RUNTIME}
    assert declared <= third_party("tests/")
