"""Hostile texts in every field that the contract knows, the estimate's and the signature's included."""

import pytest

from tests.api.attack import attacked_by, harm_in, structure_of
from tests.api.every_field import filled_with
from tests.api.hostile import HOSTILE
from tests.api.paper import drawn, missing_words

AT_ONCE = 14  # texts of which each job holds one more often than others
SHORT = 200  # signs


@pytest.fixture(scope="module")
def quiet() -> list[int]:
    return structure_of(drawn(filled_with(["quiet words"])))


@pytest.mark.parametrize("first", range(0, len(HOSTILE), AT_ONCE))
def test_hostile_texts_change_nothing_but_themselves(first: int, quiet: list[int]) -> None:
    """Nothing in a text is fetched, run or taken as markup, and each is printed as it stands."""
    texts = HOSTILE[first : first + AT_ONCE]
    pdf, asked = attacked_by(texts)
    assert asked == []
    assert harm_in(pdf) == []
    assert structure_of(pdf) == quiet
    plain = [one for one in texts if one.isascii() and one.isprintable() and len(one) < SHORT]
    assert missing_words(plain, pdf) == []


def test_there_are_enough_of_them() -> None:
    assert len(set(HOSTILE)) >= 50
