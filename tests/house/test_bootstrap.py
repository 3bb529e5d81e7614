"""A bare machine becomes ready, a ready one is left alone, and what a person must do is said in a line."""

import ast
import subprocess
import sys
import tomllib
from pathlib import Path
from typing import Any, NoReturn

import pytest

from api import bootstrap
from tests.house.source import ROOT, text

PROJECT = tomllib.loads(text("pyproject.toml"))["project"]


@pytest.fixture
def checkout(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A checkout of its own, with a project file and a Python that looks installed."""
    project = tmp_path / "pyproject.toml"
    project.write_text(text("pyproject.toml"), encoding="utf-8")
    monkeypatch.setattr(bootstrap, "ROOT", tmp_path)
    monkeypatch.setattr(bootstrap, "PROJECT", project)
    python = tmp_path / ".venv" / "bin" / "python"
    python.parent.mkdir(parents=True)
    python.touch()
    return tmp_path


@pytest.fixture
def started(monkeypatch: pytest.MonkeyPatch) -> list[list[str]]:
    """Every program that would be started, in order; each of them succeeds."""
    commands: list[list[str]] = []

    def run(command: list[str], **_: Any) -> subprocess.CompletedProcess[str]:
        commands.append(command)
        return subprocess.CompletedProcess(command, 0)

    monkeypatch.setattr(bootstrap.subprocess, "run", run)
    return commands


def test_a_second_start_installs_nothing(checkout: Path, started: list[list[str]]) -> None:
    bootstrap.make_environment("tests")
    first = len(started)
    bootstrap.make_environment("tests")
    bootstrap.make_environment("")
    assert first > 0
    assert len(started) == first


def test_a_changed_project_file_installs_again(checkout: Path, started: list[list[str]]) -> None:
    bootstrap.make_environment("")
    first = len(started)
    with bootstrap.PROJECT.open("a", encoding="utf-8") as project:
        project.write("# changed\n")
    bootstrap.make_environment("")
    assert len(started) > first


def test_what_the_server_needs_is_not_enough_for_the_tests(checkout: Path, started: list[list[str]]) -> None:
    bootstrap.make_environment("")
    first = len(started)
    bootstrap.make_environment("tests")
    assert started[first:][-1][-1].endswith("[tests]")


def test_the_environment_is_made_when_its_python_is_gone(checkout: Path, started: list[list[str]]) -> None:
    bootstrap.make_environment("")
    (checkout / ".venv" / "bin" / "python").unlink()
    bootstrap.make_environment("")
    assert [sys.executable, "-m", "venv", "--clear", str(checkout / ".venv")] in started


def test_a_python_without_venv_says_which_package_brings_it(
    checkout: Path,
    started: list[list[str]],
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Debian keeps ensurepip in python3-venv."""
    (checkout / ".venv" / "bin" / "python").unlink()
    monkeypatch.setattr(bootstrap.importlib.util, "find_spec", lambda _: None)
    monkeypatch.setattr(bootstrap.os, "geteuid", lambda: 1000)
    with pytest.raises(bootstrap.NotReady, match="python3-venv"):
        bootstrap.make_environment("")
    assert "sudo apt-get install python3-venv" in capsys.readouterr().err
    assert started == []


def test_a_failed_install_is_said_and_not_remembered(checkout: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def run(command: list[str], **_: Any) -> subprocess.CompletedProcess[str]:
        return subprocess.CompletedProcess(command, 1 if "install" in command else 0)

    monkeypatch.setattr(bootstrap.subprocess, "run", run)
    for _ in range(2):
        with pytest.raises(bootstrap.NotReady, match="could not be installed"):
            bootstrap.make_environment("")


def test_a_checkout_that_cannot_be_written_uses_the_cache(
    checkout: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(bootstrap.os, "access", lambda *_: False)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    assert bootstrap.environment().is_relative_to(tmp_path / "cache")
    assert bootstrap.requirements("") == PROJECT["dependencies"]
    assert bootstrap.requirements("tests") == [
        *PROJECT["dependencies"],
        *PROJECT["optional-dependencies"]["tests"],
    ]


def test_an_old_python_is_refused_in_a_sentence(checkout: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(bootstrap, "LEAST_PYTHON", (99, 0))
    with pytest.raises(bootstrap.NotReady, match="newer is needed"):
        bootstrap.enter("api", [])


def test_an_old_python_can_read_the_file_that_refuses_it() -> None:
    for name in ("api/__init__.py", "api/__main__.py", "api/bootstrap.py"):
        ast.parse(text(name), feature_version=(3, 8))


def test_an_installed_copy_is_left_alone(
    tmp_path: Path, started: list[list[str]], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(bootstrap, "PROJECT", tmp_path / "pyproject.toml")
    bootstrap.enter("api", [])
    assert started == []


def test_without_rights_the_missing_libraries_are_named_in_one_line(
    started: list[list[str]], capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(bootstrap.os, "geteuid", lambda: 1000)
    bootstrap.install_debian_packages(["libpango-1.0-0", "libpangoft2-1.0-0"])
    said = capsys.readouterr()
    assert said.err.splitlines() == [
        "Not installed: libpango-1.0-0 libpangoft2-1.0-0. "
        "On Debian: sudo apt-get install libpango-1.0-0 libpangoft2-1.0-0"
    ]
    assert said.out == ""
    assert started == []


def test_with_rights_the_list_of_packages_is_refreshed_first(
    started: list[list[str]], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(bootstrap.os, "geteuid", lambda: 0)
    monkeypatch.setattr(bootstrap.shutil, "which", lambda program: program)
    bootstrap.install_debian_packages(["chromium"])
    assert [command[0] for command in started] == ["apt-get", "apt-get"]
    assert started[0][-1] == "update"
    assert started[1][-1] == "chromium"


def test_a_refusal_of_apt_stops_nothing(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(bootstrap.os, "geteuid", lambda: 0)
    monkeypatch.setattr(bootstrap.shutil, "which", lambda program: program)
    monkeypatch.setattr(bootstrap, "apt_get", lambda *_: False)
    bootstrap.install_debian_packages(["chromium"])
    assert "going on without" in capsys.readouterr().err


def test_a_library_that_does_not_load_is_missing(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(name: str) -> NoReturn:
        raise OSError(name)

    monkeypatch.setattr(bootstrap.ctypes, "CDLL", refuse)
    assert bootstrap.missing_debian_packages("") == [
        "libpango-1.0-0",
        "libpangoft2-1.0-0",
        "libharfbuzz-subset0",
    ]


def test_the_command_line_answers_before_anything_is_installed() -> None:
    """-S takes every installed package away: what is left is a bare Python."""
    bare = [sys.executable, "-S", "-m", "api", "--help"]
    answer = subprocess.run(bare, cwd=ROOT, capture_output=True, text=True, check=True)
    assert "--port" in answer.stdout


def test_the_engine_judges_on_a_bare_python() -> None:
    bare = [sys.executable, "-S", "-m", "calc", "judge", "fixtures/demo/job.json"]
    answer = subprocess.run(bare, cwd=ROOT, capture_output=True, text=True, check=True)
    assert answer.stdout.startswith("{")
