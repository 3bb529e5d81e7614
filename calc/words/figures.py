"""Figures as a technician reads them: pressures in the workshop's unit, decimals that fit the doubt.

Documents hold kPa; a unit changes only what is written in sentences and figures. Factors: NIST SP 811.
"""

from dataclasses import dataclass
from math import isinf

from calc.physics.units import convert
from calc.uncertainty.decision import Limit
from calc.words.catalogue import FigureWords

DECIMALS = {"kPa": 1, "bar": 2, "psi": 1, "mbar": 0, "inHg": 1}
PLAIN = {
    "mm": ("mm", 2),
    "ohm": ("ohm", 1),
    "V": ("V", 2),
    "pct": ("%", 0),
    "degC": ("°C", 0),
    "g/s": ("g/s", 1),
    "ratio": ("", 2),
}
TRAVEL_DECIMALS = {"kPa": 3, "bar": 1, "psi": 2, "mbar": 4, "inHg": 2}
MOST_FINER = 2
MINUS = "\N{MINUS SIGN}"


@dataclass(frozen=True, slots=True)
class Figures:
    """Writes values of the contract's units for one reader.

    pressure_unit : kPa, bar, psi, mbar or inHg. [-]
    words : the language's decimal sign, limits and units. [-]
    """

    pressure_unit: str
    words: FigureWords

    def unit(self, unit: str) -> str:
        """The unit as printed: kPa of the document becomes the reader's."""
        shown = self._unit(unit)
        return self.words.units.get(shown, shown)

    def _unit(self, unit: str) -> str:
        if unit in ("kPa", "kPa_abs"):
            return self.pressure_unit
        if unit == "kPa/min":
            return f"{self.pressure_unit}/min"
        if unit == "mm/kPa":
            return f"mm/{self.pressure_unit}"
        return PLAIN.get(unit, ("", 0))[0]

    def number(self, value: float, unit: str, finer: int = 0) -> str:
        """A value of a document's unit, without its unit; with so many more decimals than usual."""
        return "∞" if isinf(value) else self.spelled(self._digits(value, unit, finer))

    def spelled(self, digits: str) -> str:
        """A formatted number as this language writes it: decimal sign, a true minus, none before nought."""
        if float(digits) == 0.0:
            digits = digits.lstrip("-")
        return digits.replace("-", MINUS).replace(".", self.words.decimal_sign)

    def _digits(self, value: float, unit: str, finer: int) -> str:
        if unit in ("kPa", "kPa_abs", "kPa/min"):
            shown, decimals = convert(value, "kPa", self.pressure_unit), DECIMALS[self.pressure_unit]
        elif unit == "mm/kPa":
            shown = value / convert(1.0, "kPa", self.pressure_unit)
            decimals = TRAVEL_DECIMALS[self.pressure_unit]
        else:
            shown, decimals = value, PLAIN.get(unit, ("", 0))[1]
        return f"{shown:.{decimals + finer}f}"

    def with_unit(self, value: float, unit: str) -> str:
        """A value with its unit: `0.96 bar`."""
        return " ".join(part for part in (self.number(value, unit), self.unit(unit)) if part)

    def measured(self, value: float, expanded: float | None, unit: str, *, signed: bool = False) -> str:
        """A value with its doubt and unit: `0.96 ± 0.08 bar`."""
        finer = 0 if expanded is None else self._hidden_digits(expanded, unit)
        number = self.number(value, unit, finer)
        if signed and value > 0.0:
            number = f"+{number}"
        if expanded:
            number = f"{number} ± {self.number(expanded, unit, finer)}"
        return " ".join(part for part in (number, self.unit(unit)) if part)

    def _hidden_digits(self, expanded: float, unit: str) -> int:
        """How many more decimals show a doubt that would print as nought."""
        for finer in range(MOST_FINER):
            if expanded <= 0.0 or float(self._digits(expanded, unit, finer)) > 0.0:
                return finer
        return MOST_FINER

    def limit(self, limit: Limit, unit: str) -> str:
        """A limit with its unit: `0.60 to 0.80 bar`, `at most 5 kPa/min`, `± 10 kPa`."""
        low, high = limit.low, limit.high
        suffix = f" {self.unit(unit)}" if self.unit(unit) else ""
        if low is None and high is not None:
            return self.words.at_most.format(high=f"{self.number(high, unit)}{suffix}")
        if high is None and low is not None:
            return self.words.at_least.format(low=f"{self.number(low, unit)}{suffix}")
        if low is None or high is None:
            return ""
        if low == -high:
            return f"± {self.number(high, unit)}{suffix}"
        ends = {"low": self.number(low, unit), "high": f"{self.number(high, unit)}{suffix}"}
        return self.words.between.format(**ends)
