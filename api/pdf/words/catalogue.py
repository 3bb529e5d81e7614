"""The shape of a language's catalogue: every text of the report that does not come from the verdict."""

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True)
class Words:
    """One language. `text` holds the phrases by name; curly braces in them are filled in.

    A second language is a second object of this shape; a test holds that no name is missing in any.
    """

    language: str
    decimal_sign: str
    group_sign: str
    lowers_inside: bool  # whether a name loses its capital letter inside a sentence
    day: str
    months: tuple[str, ...]
    units: Mapping[str, str]
    answers: tuple[str, str]
    outcomes: Mapping[str, str]
    standings: Mapping[str, str]
    explains: Mapping[str, str]
    sections: Mapping[str, str]
    labels: Mapping[str, str]
    values: Mapping[str, str]
    stations: Mapping[str, tuple[str, str]]
    text: Mapping[str, str]

    def say(self, name: str, /, **filling: str) -> str:
        """The phrase of that name with its braces filled."""
        return self.text[name].format(**filling)
