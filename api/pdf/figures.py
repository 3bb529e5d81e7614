"""Numbers, limits and dates as they are printed: in the workshop's unit, with the digits the reading had."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from api.pdf.words import Words

MINUS = "−"
NO_BREAK = "\N{NO-BREAK SPACE}"
GROUPED_FROM = 10_000


@dataclass(frozen=True)
class PressureUnit:
    """A unit of pressure: its name, how many of it one kPa is, the fewest and the most decimals printed."""

    name: str
    per_kpa: float
    fewest: int
    most: int


# Factors: NIST SP 811 (2008), appendix B.8; 1 bar = 100 kPa, 1 psi = 6.894757 kPa, 1 inHg = 3.386389 kPa.
PRESSURE_UNITS = {
    "kPa": PressureUnit("kPa", 1.0, 0, 2),
    "bar": PressureUnit("bar", 0.01, 2, 4),
    "mbar": PressureUnit("mbar", 10.0, 0, 1),
    "psi": PressureUnit("psi", 1 / 6.894757, 1, 2),
    "inHg": PressureUnit("inHg", 1 / 3.386389, 1, 2),
}

# What stands at the end of a key names the unit of its number (job-document contract, Units and signs); the
# longer endings first.
SUFFIXES = (
    "_kpa_per_min", "_kpa_abs", "_kpa", "_ohm_20c", "_ohm", "_kmh", "_km", "_mm", "_ml", "_gps", "_rpm",
    "_pct", "_deg", "_m", "_l", "_s", "_v", "_c", "_a",
)  # fmt: skip


def suffix_of(key: str) -> str | None:
    """The unit's ending in a key's name, or None."""
    return next((suffix for suffix in SUFFIXES if key.endswith(suffix)), None)


def is_pressure(key: str) -> bool:
    """Whether a key's number is a pressure."""
    return "_kpa" in (suffix_of(key) or "")


def is_number(given: Any) -> bool:
    """Whether a value of a document is a number; true and false are not."""
    return isinstance(given, int | float) and not isinstance(given, bool)


@dataclass(frozen=True)
class Printer:
    """Writes what a report shows, for one unit of pressure and one language."""

    unit: str
    words: Words

    @property
    def pressure(self) -> PressureUnit:
        """The unit of pressure with its factor."""
        return PRESSURE_UNITS[self.unit]

    def plain(self, number: float, fewest: int = 0, most: int = 6) -> str:
        """A number without trailing noughts beyond `fewest` decimals, and with a true minus sign."""
        group = "," if abs(number) >= GROUPED_FROM else ""
        whole, _, decimals = f"{number:{group}.{most}f}".partition(".")
        decimals = decimals.rstrip("0").ljust(fewest, "0")
        whole = whole.replace(",", self.words.group_sign)
        shown = f"{whole}{self.words.decimal_sign}{decimals}" if decimals else whole
        is_nought = not any(digit in shown for digit in "123456789")
        return shown.lstrip("-") if is_nought else shown.replace("-", MINUS)

    def amount(self, key: str, number: float) -> str:
        """The number of a key without its unit, pressures in the unit asked for."""
        if not is_pressure(key):
            return self.plain(number)
        return self.plain(number * self.pressure.per_kpa, self.pressure.fewest, self.pressure.most)

    def unit_of(self, key: str) -> str:
        """The unit that goes with `amount`, empty where the number has none."""
        suffix = suffix_of(key)
        if suffix is None:
            return ""
        return self.words.units[suffix].format(pressure=self.unit)

    def figure(self, key: str, number: float) -> str:
        """The number of a key with its unit."""
        name = self.unit_of(key)
        if not name:
            return self.amount(key, number)
        return f"{self.amount(key, number)}{'' if name == '°' else NO_BREAK}{name}"

    def limit(self, key: str, ends: Mapping[str, Any]) -> str:
        """A limit in words: `60 to 80 kPa`, `at most 5 kPa/min`, `at least 120 kPa`."""
        low, high = (ends.get(end) if is_number(ends.get(end)) else None for end in ("min", "max"))
        if low is not None and high is not None:
            return self.words.say("between", low=self.amount(key, low), high=self.figure(key, high))
        if low is not None:
            return self.words.say("at_least", figure=self.figure(key, low))
        if high is not None:
            return self.words.say("at_most", figure=self.figure(key, high))
        return self.words.say("no_limit")

    def day(self, text: Any) -> str:
        """A date in words, `25 November 2026`; as it stands where it cannot be read."""
        try:
            moment = datetime.fromisoformat(text)
        except (TypeError, ValueError):
            return text if isinstance(text, str) else ""
        month = self.words.months[moment.month - 1]
        return self.words.day.format(day=moment.day, month=month, year=moment.year)

    def label(self, key: str) -> str:
        """The name of a reading by its key."""
        if key in self.words.labels:
            return self.words.labels[key]
        stem = key.removesuffix(suffix_of(key) or "")
        return stem.replace("_", " ").strip().capitalize() or key

    def label_inside(self, key: str) -> str:
        """The name of a reading behind another one."""
        name = self.label(key)
        return name.lower() if self.words.lowers_inside else name

    def word(self, text: str) -> str:
        """A word of the contract in the reader's language; any other text as it stands."""
        return self.words.values.get(text, text)
