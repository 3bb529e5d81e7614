"""The phone's texts come from one place, which knows the language."""

import pytest

from tests.house.source import named, script_imports

DOORS = {"pwa/words/words.js", "pwa/words/copy.js", "pwa/words/language.js"}


@pytest.mark.parametrize("name", [name for name in named(".js", under="pwa/") if "/words/" not in name])
def test_no_screen_asks_one_language(name: str) -> None:
    assert {file for file in script_imports(name) if "/words/" in file} <= DOORS
