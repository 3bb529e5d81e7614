"""Pages keep to the content security policy: no inline script or style, no text read as markup."""

import re
from html.parser import HTMLParser

import pytest

from tests.house.source import named, text

TEMPLATE_MARK = re.compile(r"\{[{%].*?[}%]\}", re.DOTALL)  # a template's own words are no attributes

SCRIPTS = named(".js", ".mjs", under="pwa/")
PAGES = named(".html", under="pwa/") + named(".html", under="api/")
TEXT_AS_CODE = re.compile(
    r"\.(?:innerHTML|outerHTML|srcdoc)\b|insertAdjacentHTML|document\.write|\beval\(|new Function\(|setHTML"
)


@pytest.mark.parametrize("name", SCRIPTS)
def test_no_script_reads_text_as_markup_or_code(name: str) -> None:
    assert TEXT_AS_CODE.findall(text(name)) == []


class Inline(HTMLParser):
    """Collects what the policy would refuse."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        names = dict(attrs)
        self.found += [f"{tag} {name}" for name in names if name == "style" or name.startswith("on")]
        if tag == "script" and "src" not in names:
            self.found.append("script without src")


@pytest.mark.parametrize("name", [name for name in PAGES if "/pdf/" not in name and "report" not in name])
def test_no_page_has_inline_script_or_style(name: str) -> None:
    page = Inline()
    page.feed(TEMPLATE_MARK.sub("", text(name)))
    assert page.found == []
    assert "<style" not in text(name)


@pytest.mark.parametrize("name", PAGES)
def test_every_page_says_its_language_and_encoding(name: str) -> None:
    if "<html" in text(name):
        assert re.search(r"<html[^>]* lang=", text(name))
        assert re.search(r"<meta charset=", text(name), re.IGNORECASE)
