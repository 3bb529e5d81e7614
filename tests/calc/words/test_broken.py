"""What is wrong with a document, in German: every reason of the broken documents, with what it quotes."""

import json
import re
from pathlib import Path

import pytest

import calc
from calc.words import broken

FOLDER = Path(__file__).resolve().parents[3] / "fixtures/broken"
REASONS = sorted({one["reason"] for one in json.loads((FOLDER / "index.json").read_text())["broken"]})
# Words that no German reason has.
ENGLISH = re.compile(
    r"\b(the|where|belongs?|not|missing|twice|unknown (word|gauge|fault|test)|has|of|here)\b"
)


@pytest.mark.parametrize("reason", REASONS)
def test_every_reason_is_told(reason: str) -> None:
    told = calc.told_broken(f"/a/place: {reason}", "de").removeprefix("/a/place: ")
    assert told != reason
    assert not ENGLISH.search(told.split("bekannt sind:")[0])
    assert set(re.findall(r"-?\d+(?:\.\d+)?|\"[^\"]*\"", reason)) <= set(
        re.findall(r"-?\d+(?:\.\d+)?|\"[^\"]*\"", told)
    )


def test_english_stays_as_the_contract_fixes_it() -> None:
    assert calc.told_broken("/site: not a finite number", "en") == "/site: not a finite number"


def test_a_reason_without_a_sentence_stays() -> None:
    assert calc.told_broken("/a: something new", "de") == "/a: something new"


def test_both_sides_have_the_same_blanks() -> None:
    for english, german in broken.GERMAN.items():
        assert sorted(broken.BLANK.findall(english)) == sorted(broken.BLANK.findall(german))
