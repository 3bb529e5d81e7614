"""The shapes of a language's catalogue: every language is a module with the same names, made of these."""

from collections.abc import Mapping
from typing import NamedTuple


class CheckWords(NamedTuple):
    """title; what was read; what low means; what high means; the customer's name for what was tested."""

    title: str
    reads: str
    low: str
    high: str
    plain: str


class FaultWords(NamedTuple):
    """title; the whole sentence for the technician; the customer's sentence; what it means for them; cure."""

    title: str
    sentence: str
    customer: str
    means: str
    cure: str


class FigureWords(NamedTuple):
    """decimal sign; limits of one and of two ends; units that this language writes in its own way."""

    decimal_sign: str
    at_most: str
    at_least: str
    between: str
    units: Mapping[str, str]
