"""Imports run downwards only: the arrows of DEVELOPERS.md, held."""

import sys

import pytest

from tests.house.source import ROOT, named, python_imports, script_imports, text

# The rooms of calc, lowest first; a room may use its own files and the rooms below it.
CALC_FLOORS = [
    {"errors"},
    {"reader"},
    {"physics"},
    {"signals", "uncertainty"},
    {"logs"},
    {"checks"},
    {"faults"},
    {"words"},
    {"verdict"},
    {"__init__"},
    {"__main__"},
]
READER_FILES = {"vocabulary", "contract", "strict_json", "places", "walk", "job"}
STORE_DOORS = {"pwa/store/workbook.js", "pwa/store/sync.js", "pwa/store/practice.js"}
ENGINE_DOOR = "pwa/engine/engine.js"


def calc_room(dotted: str) -> str:
    """``calc.checks.sweep`` lies in ``checks``, ``calc.job`` in ``reader``; ``calc`` itself is the door."""
    part = dotted.split(".")[1] if "." in dotted else "__init__"
    if part in READER_FILES:
        return "reader"
    return part if part in set().union(*CALC_FLOORS) else "__init__"


def own_room(name: str) -> str:
    part = name.split("/")[1].removesuffix(".py")
    return "reader" if part in READER_FILES else part


def calc_floor(room: str) -> int:
    return next(number for number, rooms in enumerate(CALC_FLOORS) if room in rooms)


def test_every_file_of_calc_has_a_room() -> None:
    rooms = {own_room(name) for name in named(".py", under="calc/")}
    assert rooms
    assert rooms <= set().union(*CALC_FLOORS)


@pytest.mark.parametrize("name", named(".py", under="calc/"))
def test_calc_imports_downwards(name: str) -> None:
    room = own_room(name)
    for dotted in python_imports(name):
        if dotted.split(".")[0] == "calc" and (other := calc_room(dotted)) != room:
            assert calc_floor(other) < calc_floor(room), f"{name} imports {dotted}"


@pytest.mark.parametrize("name", named(".py", under="calc/"))
def test_calc_stands_on_the_standard_library(name: str) -> None:
    roots = {dotted.split(".")[0] for dotted in python_imports(name)}
    assert roots <= {"calc", *sys.stdlib_module_names}


@pytest.mark.parametrize("name", named(".py", under="api/"))
def test_the_server_uses_the_public_names_of_calc(name: str) -> None:
    import calc

    used = {dotted.removeprefix("calc.") for dotted in python_imports(name) if dotted.split(".")[0] == "calc"}
    assert used - {"calc"} <= set(calc.__all__)


@pytest.mark.parametrize("name", named(".py", under="api/"))
def test_the_server_does_not_lean_on_tests_or_fixtures(name: str) -> None:
    roots = {dotted.split(".")[0] for dotted in python_imports(name)}
    assert not roots & {"tests", "fixtures", "pwa"}


def test_the_start_of_the_server_needs_only_the_standard_library() -> None:
    """`python3 -m api` begins before anything is installed."""
    for name in ("api/__init__.py", "api/bootstrap.py"):
        roots = {dotted.split(".")[0] for dotted in python_imports(name)}
        assert roots <= set(sys.stdlib_module_names), name


@pytest.mark.parametrize("name", named(".js", ".mjs", under="pwa/"))
def test_the_phone_imports_files_that_exist(name: str) -> None:
    missing = [path for path in script_imports(name) if not (ROOT / path).is_file()]
    assert missing == []


@pytest.mark.parametrize("name", named(".js", under="pwa/screens/") + named(".js", under="pwa/parts/"))
def test_screens_and_parts_use_only_the_doors(name: str) -> None:
    inside = [path for path in script_imports(name) if path.startswith(("pwa/store/", "pwa/engine/"))]
    assert set(inside) <= STORE_DOORS | {ENGINE_DOOR}


@pytest.mark.parametrize("name", named(".js", under="pwa/parts/"))
def test_parts_know_no_screen(name: str) -> None:
    assert [path for path in script_imports(name) if path.startswith("pwa/screens/")] == []


@pytest.mark.parametrize("name", named(".js", under="pwa/store/") + named(".js", under="pwa/engine/"))
def test_store_and_engine_know_no_screen_and_no_part(name: str) -> None:
    above = ("pwa/screens/", "pwa/parts/", "pwa/app.js")
    assert [path for path in script_imports(name) if path.startswith(above)] == []


def test_only_the_store_talks_to_the_server() -> None:
    """The service worker names /api/ too, to leave it alone."""
    allowed = ("pwa/store/", "pwa/sw.js")
    talkers = [name for name in named(".js", under="pwa/") if '"/api' in text(name) or "`/api" in text(name)]
    assert [name for name in talkers if not name.startswith(allowed)] == []


def test_only_store_engine_and_service_worker_fetch() -> None:
    allowed = ("pwa/store/", "pwa/engine/", "pwa/sw.js")
    fetchers = [name for name in named(".js", under="pwa/") if "fetch(" in text(name)]
    assert [name for name in fetchers if not name.startswith(allowed)] == []
