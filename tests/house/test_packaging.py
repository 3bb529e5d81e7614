"""An installed copy has every file that the checkout's program reads."""

import fnmatch
import tomllib
from pathlib import PurePosixPath

from tests.house.source import files, named, text

SETUPTOOLS = tomllib.loads(text("pyproject.toml"))["tool"]["setuptools"]


def test_every_python_folder_says_that_it_is_a_package() -> None:
    """setuptools leaves a folder out that is not one."""
    folders = {str(PurePosixPath(name).parent) for name in named(".py") if name.startswith(("api/", "calc/"))}
    assert folders
    assert [folder for folder in sorted(folders) if f"{folder}/__init__.py" not in files()] == []


def test_every_data_file_of_the_server_is_packaged() -> None:
    globs = [pattern.removeprefix("**/") for pattern in SETUPTOOLS["package-data"]["api"]]
    data = [name for name in files() if name.startswith("api/") and not name.endswith(".py")]
    unpacked = [name for name in data if not any(fnmatch.fnmatch(name, glob) for glob in globs)]
    assert unpacked == []


def test_the_demo_job_is_packaged() -> None:
    globs = SETUPTOOLS["package-data"]["fixtures.demo"]
    data = [name for name in files() if name.startswith("fixtures/demo/") and not name.endswith(".py")]
    assert data
    assert [name for name in data if not any(fnmatch.fnmatch(name, f"*/{glob}") for glob in globs)] == []
