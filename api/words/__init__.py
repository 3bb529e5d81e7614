"""The texts of the server's own pages: one catalogue a language, English the measure of the others.

What is kept (the audit trail, the reason beside a letter) is kept in English and told anew in the language of
whoever reads it, so that another language changes no record.
"""

import re
from collections.abc import Mapping
from functools import cache

from markupsafe import Markup, escape

from api.words.english import TEXTS as ENGLISH
from api.words.german import TEXTS as GERMAN

CATALOGUES: Mapping[str, Mapping[str, str]] = {"en": ENGLISH, "de": GERMAN}
LANGUAGES = tuple(CATALOGUES)
NAMES = {"en": "English", "de": "Deutsch"}
USUAL = "en"

PLACEHOLDER = re.compile(r"\{(\w+)\}")


def text(language: str, name: str, /, **values: object) -> str:
    """The text of that name, its placeholders filled; KeyError for a name that is not there."""
    return CATALOGUES[language][name].format(**values)


def marked(language: str, name: str, /, **values: object) -> Markup:
    """The same for a page: the text and every value escaped, but for values that are marked up already."""
    return escape(CATALOGUES[language][name]).format(**values)


def retold(language: str, kept: str, *rooms: str) -> str:
    """A sentence that was kept in English, in that language; one that the catalogue lacks stays as it is.

    `rooms` are the first parts of names: `did` for the audit trail. What fills a placeholder is told too
    where the catalogue has a name for it: the role `owner` is `role.owner`.
    """
    for name in ENGLISH:
        if name.partition(".")[0] in rooms and (found := _pattern(name).fullmatch(kept)):
            told = {
                part: CATALOGUES[language].get(f"{part}.{word}", word)
                for part, word in found.groupdict().items()
            }
            return text(language, name, **told)
    return kept


@cache
def _pattern(name: str) -> re.Pattern[str]:
    parts = PLACEHOLDER.split(ENGLISH[name])  # text, name, text, name, text
    for place in range(1, len(parts), 2):
        parts[place] = f"(?P<{parts[place]}>.*)"
    for place in range(0, len(parts), 2):
        parts[place] = re.escape(parts[place])
    return re.compile("".join(parts), re.DOTALL)
