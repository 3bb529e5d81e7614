"""The house from outside: the top level, and words that do not belong in it."""

import re

from tests.house.source import files, text

TOP_LEVEL = {"README.md", "DEVELOPERS.md", "pyproject.toml", "pwa", "api", "calc", "tests", "fixtures"}
PICTURES = (".png", ".jpg", ".webp", ".woff2", ".ttf", ".pdf", ".zip", ".db")

# Written in pieces, so that this file does not hold what it looks for.
STRANGERS = re.compile(
    "|".join(
        [
            "seed " + "document",
            "tran" + "script",
            "python" + "hosted",
            "npm" + r"js\.(?:org|com)",
            "pypi" + r"\.org",
            "debian" + r"\.org/debian",
            r"(?<![\w.>~*])/(?:home|root|tmp|work)/\w",
        ]
    ),
    re.IGNORECASE,
)


def test_the_top_level_is_what_the_map_says() -> None:
    top = {name.split("/")[0] for name in files()}
    assert {name for name in top if not name.startswith(".")} == TOP_LEVEL


def test_no_word_that_does_not_belong() -> None:
    found = [
        f"{name}:{number}: {line.strip()[:80]}"
        for name in files()
        if not name.endswith(PICTURES)
        for number, line in enumerate(text(name).splitlines(), start=1)
        if STRANGERS.search(line)
    ]
    assert found == []


def test_the_search_finds_what_it_looks_for() -> None:
    for stranger in ("see /" + "tmp/x", "a tran" + "script", "from pypi" + ".org"):
        assert STRANGERS.search(stranger)
    for friend in ("/api/jobs/<id>/receipt", "https://example.org/" + "work/x", "/vendor/font"):
        assert not STRANGERS.search(friend)
