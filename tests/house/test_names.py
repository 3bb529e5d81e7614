"""What README and DEVELOPERS.md name is there: files, folders, modules, pictures."""

import re
from fnmatch import fnmatch

import pytest

from tests.house.source import ROOT, files, text

PAGES = ("README.md", "DEVELOPERS.md")
FILE = re.compile(r"[a-z_][\w./<>-]*\.(?:py|js|mjs|html|css|json|md|sql|txt|toml|webp|png|webmanifest)")
FOLDER = re.compile(r"[a-z_][\w./-]*/")
MODULE = re.compile(r"python3 -m ([a-z_][\w.]*)")
PICTURE = re.compile(r'src="([^"]+)"')
# Given out by the server, or made by whoever runs it.
NOT_OURS = {"certificates/"}


def spoken(page: str) -> set[str]:
    """What stands between backticks, outside of blocks."""
    return set(re.findall(r"`([^`\n]+)`", text(page)))


def is_there(name: str) -> bool:
    """As a path from the top, or as the end of one; `<...>` stands for any name."""
    if (ROOT / name).exists():
        return True
    pattern = re.sub(r"<[^>]*>", "*", name.strip("/"))
    found = {*files(), *(name.rpartition("/")[0] for name in files())}
    found |= {name.rpartition("/")[0] for name in found}
    return any(fnmatch(one, pattern) or fnmatch(one, f"*/{pattern}") for one in found)


@pytest.mark.parametrize("page", PAGES)
def test_every_file_and_folder_named_is_there(page: str) -> None:
    named = {one for one in spoken(page) if FILE.fullmatch(one) or FOLDER.fullmatch(one)} - NOT_OURS
    assert len(named) > 5
    assert {one for one in named if not is_there(one)} == set()


@pytest.mark.parametrize("page", PAGES)
def test_every_module_that_is_to_be_run_is_there(page: str) -> None:
    modules = set(MODULE.findall(text(page)))
    assert modules
    places = {one: ROOT / one.replace(".", "/") for one in modules}
    assert {
        one
        for one, place in places.items()
        if not (place.with_suffix(".py").is_file() or (place / "__main__.py").is_file())
    } == set()


def test_every_picture_of_the_readme_is_there_and_has_its_words() -> None:
    assert {one for one in PICTURE.findall(text("README.md")) if not (ROOT / one).is_file()} == set()
    assert all("alt=" in tag for tag in re.findall(r"<img[^>]*>", text("README.md")))


def test_a_name_that_is_gone_is_found() -> None:
    assert is_there("calc/faults/weigh.py")
    assert is_there("access.py")
    assert is_there("api/words/<language>.py")
    assert not is_there("calc/faults/nobody.py")
    assert not is_there("tests/nowhere/")
