"""Hostile texts in every field that the contract knows, the estimate's and the signature's included."""

import pytest

from api.pdf import render
from tests.api.attack import QUIET, attacked_by, harm_in, makes_an_element, nested_in, page_of
from tests.api.hostile import HOSTILE
from tests.api.paper import missing_words

AT_ONCE = 16  # texts of which each job holds one more often than others
SHORT = 200  # signs


@pytest.fixture(scope="module")
def quiet() -> set[tuple[str, str]]:
    return nested_in(attacked_by([QUIET])[0])


@pytest.mark.parametrize("first", range(0, len(HOSTILE), AT_ONCE))
def test_hostile_texts_change_nothing_but_themselves(first: int, quiet: set[tuple[str, str]]) -> None:
    """Nothing in a text is fetched, run or taken as markup, and each is printed as it stands."""
    texts = HOSTILE[first : first + AT_ONCE]
    pdf, asked = attacked_by(texts)
    assert asked == []
    assert harm_in(pdf) == []
    assert nested_in(pdf) == quiet
    plain = [one for one in texts if one.isascii() and one.isprintable() and len(one) < SHORT]
    assert missing_words(plain, pdf) == []


@pytest.mark.parametrize("form", ["customer", "technical"])
def test_no_text_makes_an_element_of_the_page(form: str) -> None:
    """Each text alone, in every field."""
    assert [text for text in HOSTILE if makes_an_element(text, form)] == []


def test_an_element_would_be_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    unescaped = render._templates().overlay(autoescape=False)
    monkeypatch.setattr(render, "_templates", lambda: unescaped)
    page_of.cache_clear()
    try:
        assert makes_an_element("<h3>Another heading</h3>", "customer")
    finally:
        page_of.cache_clear()


def test_there_are_enough_of_them() -> None:
    assert len(set(HOSTILE)) >= 50
