"""What is wrong with a document, told to a person in their language.

The reader's own sentences are English and stay as they are: programs read them. Here each has its German;
what stands in braces is taken over, told too where it is one of the `VALUES`.
"""

import re
from collections.abc import Mapping
from functools import cache

GERMAN = {
    "larger than {size} MB": "größer als {size} MB",
    "empty: there is no job document in it": "leer: es ist kein Auftrag darin",
    "not UTF-8 text (line {line}, column {column})": "kein Text in UTF-8 (Zeile {line}, Spalte {column})",
    "not JSON: {what} (line {line}, column {column})": "kein JSON: {what} (Zeile {line}, Spalte {column})",
    "nested deeper than {depth} levels (line {line}, column {column})": (
        "tiefer als {depth} Ebenen verschachtelt (Zeile {line}, Spalte {column})"
    ),
    "nested deeper than {depth} levels": "tiefer als {depth} Ebenen verschachtelt",
    "not a finite number: a whole number of {digits} digits is too large": (
        "keine endliche Zahl: eine ganze Zahl von {digits} Ziffern ist zu groß"
    ),
    "not a finite number": "keine endliche Zahl",
    "{name} is missing": "{name} fehlt",
    "this name stands twice in its object": "dieser Name steht zweimal in seinem Objekt",
    "{value} as a name, where text belongs": "{value} als Name, wo Text stehen müsste",
    "the id {id} stands twice in this list": "die Kennung {id} steht zweimal in dieser Liste",
    "min {low} lies above max {high}": "das untere Ende {low} liegt über dem oberen {high}",
    "unknown word {word}, known are: {words}": "unbekanntes Wort {word}, bekannt sind: {words}",
    "unknown gauge {id}: no gauge of the job has this id": (
        "unbekanntes Messgerät {id}: kein Messgerät des Auftrags hat diese Kennung"
    ),
    "unknown fault {name}": "unbekannter Fehler {name}",
    "unknown test {name}": "unbekannte Prüfung {name}",
    "{count} values, but {name} has {length}": "{count} Werte, aber {name} hat {length}",
    "time goes back: {time} s after {latest} s": "die Zeit läuft zurück: {time} s nach {latest} s",
    "a list of {count}, where the lowest and the highest pressure of the scale belong": (
        "eine Liste von {count}, wo der niedrigste und der höchste Druck der Skala stehen müssten"
    ),
    "a scale from {low} to {high} does not rise": "eine Skala von {low} bis {high} steigt nicht",
    "{value} where an amount as text belongs, as in 12.50": (
        "{value}, wo ein Betrag als Text stehen müsste, wie 12.50"
    ),
    "{value} where an object {…} belongs": "{value}, wo ein Objekt {…} stehen müsste",
    "{value} where a list […] belongs": "{value}, wo eine Liste […] stehen müsste",
    "{value} where a number belongs": "{value}, wo eine Zahl stehen müsste",
    "{value} where text belongs": "{value}, wo Text stehen müsste",
    "{value} where true or false belongs": "{value}, wo wahr (true) oder falsch (false) stehen müsste",
}
# What a sentence says of a value, and why a text is no JSON.
GERMAN_VALUES = {
    "an object {…}": "ein Objekt {…}",
    "a list […]": "eine Liste […]",
    "a very large number": "eine sehr große Zahl",
    "a value that JSON does not have": "ein Wert, den JSON nicht kennt",
    "text after the end of the document": "Text nach dem Ende des Dokuments",
    "the document breaks off": "das Dokument bricht ab",
    "no value can be read here": "hier lässt sich kein Wert lesen",
    "text without its closing quotation mark": "Text ohne schließendes Anführungszeichen",
    "text with a character or escape that JSON does not allow": (
        "Text mit einem Zeichen, das JSON nicht erlaubt"
    ),
    "a colon is missing after the name": "nach dem Namen fehlt ein Doppelpunkt",
    "a comma is missing": "es fehlt ein Komma",
    "a name in quotation marks belongs here": "hier müsste ein Name in Anführungszeichen stehen",
    "a name that JSON does not allow": "ein Name, den JSON nicht erlaubt",
}
TOLD: Mapping[str, tuple[Mapping[str, str], Mapping[str, str]]] = {"de": (GERMAN, GERMAN_VALUES)}
BLANK = re.compile(r"\{(\w+)\}")


def told_broken(says: str, language: str) -> str:
    """The text of a `BrokenDocument` or `BrokenPlace` in a language; what has no sentence there stays.

    Parameters
    ----------
    says : str
        The text as raised: the place as a JSON Pointer, a colon, and the reason. [-]
    language : str
        One of `LANGUAGES`. [-]

    Examples
    --------
    >>> told_broken("/site/ambient_c: true where a number belongs", "de")
    '/site/ambient_c: true, wo eine Zahl stehen müsste'
    """
    place, colon, reason = says.partition(": ")
    return f"{place}{colon}{_told(reason, language)}" if language in TOLD else says


def _told(reason: str, language: str) -> str:
    sentences, values = TOLD[language]
    for english, german in sentences.items():
        if found := _pattern(english).fullmatch(reason):
            filled = {f"{{{name}}}": values.get(text, text) for name, text in found.groupdict().items()}
            return _filled(german, filled)
    return reason


def _filled(sentence: str, values: Mapping[str, str]) -> str:
    return BLANK.sub(lambda blank: values[blank[0]], sentence)


@cache
def _pattern(english: str) -> re.Pattern[str]:
    parts = BLANK.split(english)  # text, name, text, name, text
    for at, part in enumerate(parts):
        parts[at] = f"(?P<{part}>.+)" if at % 2 else re.escape(part)
    return re.compile("".join(parts), re.DOTALL)
