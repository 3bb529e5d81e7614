"""Numbers as they are printed: in the workshop's unit, with the digits that the reading had."""

from dataclasses import dataclass

MINUS = "−"


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

# What stands at the end of a key names the unit of its number (job-document contract, Units and signs).
SUFFIXES = {
    "_kpa_per_min": "/min",
    "_kpa_abs": "absolute",
    "_kpa": "",
    "_ohm_20c": "Ω at 20 °C",
    "_ohm": "Ω",
    "_kmh": "km/h",
    "_km": "km",
    "_mm": "mm",
    "_ml": "ml",
    "_gps": "g/s",
    "_rpm": "rpm",
    "_pct": "%",
    "_deg": "°",
    "_m": "m",
    "_l": "l",
    "_s": "s",
    "_v": "V",
    "_c": "°C",
}


def plain(number: float, fewest: int = 0, most: int = 6) -> str:
    """A number without trailing noughts beyond `fewest` decimals, and with a true minus sign."""
    text = f"{number:.{most}f}"
    whole, _, decimals = text.partition(".")
    decimals = decimals.rstrip("0").ljust(fewest, "0")
    shown = f"{whole}.{decimals}" if decimals else whole
    if not shown.strip("-0."):
        shown = shown.removeprefix("-")
    return shown.replace("-", MINUS)


def suffix_of(key: str) -> str | None:
    """The unit's ending in a key's name, or None."""
    return next((suffix for suffix in SUFFIXES if key.endswith(suffix)), None)


def is_pressure(key: str) -> bool:
    """Whether a key's number is a pressure."""
    return "_kpa" in (suffix_of(key) or "")


def amount(key: str, number: float, unit: str) -> str:
    """The number of a key without its unit, pressures in the unit asked for."""
    if not is_pressure(key):
        return plain(number)
    pressure = PRESSURE_UNITS[unit]
    return plain(number * pressure.per_kpa, pressure.fewest, pressure.most)


def unit_of(key: str, unit: str) -> str:
    """The unit that goes with `amount`, empty where the number has none."""
    suffix = suffix_of(key)
    if suffix is None:
        return ""
    if not is_pressure(key):
        return SUFFIXES[suffix]
    if suffix == "_kpa_per_min":
        return f"{unit}/min"
    return f"{unit} {SUFFIXES[suffix]}".rstrip()


def figure(key: str, number: float, unit: str) -> str:
    """The number of a key with its unit."""
    name = unit_of(key, unit)
    gap = "" if name == "°" else "\N{NO-BREAK SPACE}"
    return f"{amount(key, number, unit)}{gap}{name}".strip() if name else amount(key, number, unit)


def limit(key: str, ends: dict[str, float | None], unit: str) -> str:
    """A limit in words: `60 to 80 kPa`, `at most 5 kPa/min`, `at least 120 kPa`."""
    low, high = ends.get("min"), ends.get("max")
    if low is not None and high is not None:
        return f"{amount(key, low, unit)} to {figure(key, high, unit)}"
    if low is not None:
        return f"at least {figure(key, low, unit)}"
    if high is not None:
        return f"at most {figure(key, high, unit)}"
    return "not set"
