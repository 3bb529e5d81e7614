"""The report's catalogues: every language has every name, and a language but English a word for every key."""

from collections.abc import Iterator
from dataclasses import fields
from string import Formatter
from typing import Any

import pytest

from api.pdf.words import LANGUAGES, Words, words_for
from calc import contract

ENGLISH = words_for("en")
OTHERS = [language for language in LANGUAGES if language != "en"]
PHRASES = ("outcomes", "standings", "explains", "sections", "stations", "units", "text")
SET_BY_THE_WORKSHOP = {"priors", "minutes"}  # how the engine weighs; on no report
OUR_OWN = {"job/1"}


def kinds(kind: Any, name: str = "") -> Iterator[tuple[str, Any]]:
    """Every key of the job document with its kind."""
    if isinstance(kind, contract.Group):
        for key, member in kind.members.items():
            yield key, member
            yield from kinds(member, key)
    elif isinstance(kind, contract.Items):
        yield from kinds(kind.item, name)


def placeholders(text: str) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(text) if name}


@pytest.mark.parametrize("language", OTHERS)
def test_a_language_has_the_same_phrases(language: str) -> None:
    words = words_for(language)
    for part in PHRASES:
        assert set(getattr(words, part)) == set(getattr(ENGLISH, part)), part
    for part in ("labels", "values"):
        assert set(getattr(words, part)) >= set(getattr(ENGLISH, part)), part
    differing = [
        name for name, text in words.text.items() if placeholders(text) != placeholders(ENGLISH.text[name])
    ]
    assert not differing


@pytest.mark.parametrize("language", OTHERS)
def test_no_phrase_is_empty(language: str) -> None:
    words = words_for(language)
    empty = {
        f"{field.name}/{name}"
        for field in fields(Words)
        if isinstance(texts := getattr(words, field.name), dict)
        for name, text in texts.items()
        if not text
    }
    assert empty == {"explains/unknown"}


@pytest.mark.parametrize("language", OTHERS)
def test_every_key_of_the_contract_has_a_name(language: str) -> None:
    """In English a key without a name reads well by itself; nowhere else."""
    assert {key for key, _ in kinds(contract.JOB)} <= set(words_for(language).labels)


@pytest.mark.parametrize("language", OTHERS)
def test_every_word_of_the_contract_has_a_word(language: str) -> None:
    listed = {
        word
        for key, kind in kinds(contract.JOB)
        if key not in SET_BY_THE_WORKSHOP
        for word in getattr(kind, "words", ())
    }
    assert listed - OUR_OWN <= set(words_for(language).values)


def test_german_outcomes_are_the_trades() -> None:
    """Fixed by the project's design."""
    assert words_for("de").outcomes == {
        "within": "in Ordnung",
        "outside": "beanstandet",
        "undecided": "offen",
        "not_examined": "nicht geprüft",
    }
