"""The languages of the report."""

from api.pdf.words.catalogue import Words
from api.pdf.words.english import WORDS as ENGLISH
from api.pdf.words.german import WORDS as GERMAN

__all__ = ["LANGUAGES", "Words", "words_for"]

_ALL = {words.language: words for words in (ENGLISH, GERMAN)}
LANGUAGES = tuple(_ALL)


def words_for(language: str) -> Words:
    """The catalogue of a language; KeyError for one that is not there."""
    return _ALL[language]
