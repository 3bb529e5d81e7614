"""What the lines before the header say of the day and the engine."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from calc.logs.units import UNITS, plain, unit_of

LEAST_KPA, MOST_KPA = 50.0, 112.0  # station pressures where people drive
_NUMBER = r"(-?\d+(?:[.,]\d+)?)"
_BAROMETER = re.compile(
    r"(?:baro\w*|atmos\w*|luftdruck|umgebungs\w*druck|ambient (?:air )?pressure|pression ambiante"
    rf"|presion ambiente)[^\d\n-]{{0,40}}?{_NUMBER}[^\w%\n]*([a-z]+)?"
)
_LITRES = re.compile(
    rf"(?:displacement|engine size|hubraum|cylindree|cilindrada)[^\d\n]{{0,30}}?{_NUMBER}[^\w\n]*"
    r"(cm3|ccm|cc|cm|l|dm3|litres?|liter|litros?)?\b"
)
_CYLINDERS = re.compile(
    r"(?:(?:number of )?cylinders?|zylinder\w*|(?:nombre de )?cylindres?|(?:numero de )?cilindros?)\b"
    r"[^\d\n]{0,20}?(\d{1,2})\b"
)


@dataclass(frozen=True, slots=True)
class Preamble:
    """Barometric pressure [kPa], displacement [l], cylinders; None where it is not said."""

    barometric: float | None = None
    litres: float | None = None
    cylinders: int | None = None


def read_preamble(lines: Sequence[str]) -> Preamble:
    """Facts found by the trade's words with a number behind them."""
    text = plain("\n".join(lines).replace("³", "3")).replace(";", " ").replace("\t", " ").replace('"', " ")
    return Preamble(_barometric(text), _litres(text), _cylinders(text))


def _barometric(text: str) -> float | None:
    for found in _BAROMETER.finditer(text):
        value = float(found[1].replace(",", "."))
        unit = unit_of(found[2]) if found[2] else None
        factors = [unit.factor] if unit is not None and unit.family == "pressure" else _guessed(value)
        for factor in factors:
            if LEAST_KPA <= value * factor <= MOST_KPA:
                return value * factor
    return None


def _guessed(value: float) -> list[float]:
    return [UNITS[name].factor for name in ("kpa", "hpa", "bar", "psi", "inhg")]


def _litres(text: str) -> float | None:
    for found in _LITRES.finditer(text):
        value = float(found[1].replace(",", "."))
        small = (found[2] or "").startswith("c") or value > 60.0
        litres = value / 1000.0 if small else value
        if 0.1 <= litres <= 60.0:
            return litres
    return None


def _cylinders(text: str) -> int | None:
    return next((int(found[1]) for found in _CYLINDERS.finditer(text) if 1 <= int(found[1]) <= 24), None)
