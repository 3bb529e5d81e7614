"""Units as instruments write them: what they measure, and how to get to the contract's unit."""

import re
import unicodedata
from dataclasses import dataclass

from calc.physics.air import ICE_POINT
from calc.physics.units import PASCAL_PER

POUND_A_MINUTE = 453.59237 / 60.0
MILE = 1.609344


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit.

    family : pressure, share, fraction, turns, speed, temperature, flow, stroke, time. [-]
    name : as it is shown. [-]
    factor, offset : value · factor + offset is the contract's unit (stroke: mg a stroke). [-]
    kind : `absolute` or `gauge` where the unit itself says so, else None. [-]
    """

    family: str
    name: str
    factor: float = 1.0
    offset: float = 0.0
    kind: str | None = None


def _same(family: str, name: str, texts: str, factor: float = 1.0, offset: float = 0.0) -> dict[str, Unit]:
    """One unit under each of the texts, which a bar parts."""
    return dict.fromkeys(texts.split("|"), Unit(family, name, factor, offset))


def _pressure(name: str, texts: str) -> dict[str, Unit]:
    return _same("pressure", name, texts, factor=PASCAL_PER[name] / 1000.0)


_TURNS = (
    "rpm|1/min|/min|u/min|umin|upm|min-1|min^-1|tr/min|trs/min|t/min|tpm|rev/min|r/min|rev./min|giri/min|rpm."
    "|revs/min|v/min"
)
_STROKES = "stroke|str|st|hub|h|coup|cp|course|carrera|cyl|cycle|asp|stroke.|str.|cp.|carr|carr."
_SECONDS = "s|sec|secs|sek|seg|second|seconds|sekunde|sekunden|seconde|secondes|segundo|segundos|sec."
_MILLISECONDS = "ms|msec|millis|millisec|milliseconds|millisekunden|millisecondes|milisegundos|mseg|msek"
# of channels that the contract does not have: known, so that they are not taken for another
_OTHER = "v|mv|volt|a|ma|ohm|nm|kw|hp|ps|°|deg|°kw|mm|mm3|l|l/h|mpg|lambda|afr|km|mg|g|mm3/stroke|mg/i"
UNITS: dict[str, Unit] = {
    **_pressure("Pa", "pa"),
    **_pressure("hPa", "hpa"),
    **_pressure("mbar", "mbar|mb"),
    **_pressure("kPa", "kpa"),
    **_pressure("bar", "bar"),
    **_pressure("MPa", "mpa"),
    **_pressure("psi", "psi|lbf/in2"),
    **_pressure("inHg", "inhg|in.hg"),
    **_pressure("mmHg", "mmhg"),
    **_pressure("torr", "torr"),
    **_pressure("kgf/cm2", "kgf/cm2|kg/cm2"),
    **_pressure("atm", "atm"),
    **_pressure("inH2O", "inh2o"),
    **_same("share", "%", "%|pct|percent|prozent"),
    **_same("fraction", "1", "1|-|ratio", factor=100.0),
    **_same("turns", "rpm", _TURNS),
    **_same("turns", "1/s", "1/s|rev/s|u/s|tr/s|s-1", factor=60.0),
    **_same("speed", "km/h", "km/h|kmh|kph|km/std|kmph"),
    **_same("speed", "mph", "mph|mi/h|miles/h", factor=MILE),
    **_same("speed", "m/s", "m/s", factor=3.6),
    **_same("temperature", "degC", "degc|°c|c|celsius|grad c|deg c|gradc"),
    **_same("temperature", "degF", "degf|°f|f|fahrenheit|deg f", factor=5 / 9, offset=-160 / 9),
    **_same("temperature", "K", "k|kelvin|degk|°k", offset=-ICE_POINT),
    **_same("flow", "g/s", "g/s|gps|g/sec|gr/s|g/sek|g/seg"),
    **_same("flow", "kg/h", "kg/h|kg/hr|kg/std|kgh", factor=1.0 / 3.6),
    **_same("flow", "kg/s", "kg/s", factor=1000.0),
    **_same("flow", "g/min", "g/min", factor=1.0 / 60.0),
    **_same("flow", "kg/min", "kg/min", factor=1000.0 / 60.0),
    **_same("flow", "lb/min", "lb/min|lbs/min|lbm/min", factor=POUND_A_MINUTE),
    **_same("stroke", "mg/stroke", "|".join(f"mg/{word}" for word in _STROKES.split("|"))),
    **_same("stroke", "g/stroke", "g/stroke|g/str|g/hub|g/coup|g/carrera|g/cyl", factor=1000.0),
    **_same("time", "s", _SECONDS),
    **_same("time", "ms", _MILLISECONDS, factor=1e-3),
    **_same("time", "us", "us|µs|μs|microseconds", factor=1e-6),
    **_same("time", "min", "min|minutes|minuten", factor=60.0),
    **_same("time", "h", "h|hours", factor=3600.0),
    **_same("time", "days", "days", factor=86400.0),
    **_same("time", "clock", "hh:mm:ss|h:m:s|hh:mm:ss.fff|hms|hh:mm:ss.000|hh:mm:ss,fff"),
    **_same("other", "other", _OTHER),
}
_UNMARKED = "1|-|c|f|k|h|s|min|v|a|l|g|km|deg|m/s|pa|mm|ps|hp|mb|ratio|t/min|ms|us|days|st|mg|ma"
_NEEDS_A_MARK = frozenset(_UNMARKED.split("|"))  # as the last word of a name these mean something else
ABSOLUTE = re.compile(r"\b(?:abs\w*|absolut\w*)\b")
GAUGE = re.compile(r"\b(?:gauge|gage|rel\w*|uberdruck|surpression|sobrepresion|manometri\w*)\b")
_ALIKE = (
    ("³", "3"),
    ("²", "2"),
    ("⁻¹", "-1"),
    ("º", "°"),
    ("\\", "/"),
    (" / ", "/"),
    ("·", "."),
    ("° ", "°"),
)  # signs that mean the same
_KIND_BEHIND = {"a": "absolute", "g": "gauge"}


_UNIT_BEHIND = tuple(
    re.compile(pattern)
    for pattern in (
        r"^(.*\S)[\s,;:/]+(?:in\s+|en\s+)?(\S+\s+abs\w*\.?|\S+\s+rel\w*\.?|\S+\s+gauge)$",
        r"^(.*\S)\s+in\s+(\S+)$",
        r"^(.*\S)\s*[,;:]\s*(\S+)$",
        r"^(.*\S)\s+/\s*(\S+)$",
    )
)


def plain(text: str) -> str:
    """Lower case without accents, so that words of four languages can be compared."""
    lowered = text.replace("ß", "ss").casefold()
    if lowered.isascii():
        return lowered
    return "".join(sign for sign in unicodedata.normalize("NFKD", lowered) if not unicodedata.combining(sign))


def unit_of(text: str) -> Unit | None:
    """The unit that a text means, with `abs`, `(a)`, `psig` and the like taken as its kind; None: no unit."""
    clean = " ".join(_unify(text).split())
    if clean in UNITS:
        return UNITS[clean]
    spaced = plain(clean)
    kind = "absolute" if ABSOLUTE.search(spaced) else "gauge" if GAUGE.search(spaced) else None
    bare = GAUGE.sub("", ABSOLUTE.sub("", spaced)).strip(" .,;-_()[]/")
    if kind is None:
        bare, kind = _kind_behind(bare)
    found = UNITS.get(bare) or UNITS.get(bare.replace(" ", ""))
    if found is None or (kind is not None and found.family != "pressure"):
        return None
    return Unit(found.family, found.name, found.factor, found.offset, kind)


def trailing_unit(name: str) -> tuple[str, Unit | None]:
    """A header without brackets, its last word taken as the unit where it can only be one."""
    for pattern in _UNIT_BEHIND:
        found = pattern.match(name)
        if found is not None and (unit := unit_of(found[2])) is not None:
            return found[1], unit
    found = re.match(r"^(.*[^\s_])[\s_]+([^\s_]+)$", name)
    if (
        found is not None
        and _unify(found[2]) not in _NEEDS_A_MARK
        and (unit := unit_of(found[2])) is not None
    ):
        return found[1], unit
    return name, None


def _unify(text: str) -> str:
    """Signs that mean the same written alike."""
    text = text.strip().strip("[](){}<>").casefold()
    for old, new in _ALIKE:
        text = text.replace(old, new)
    return text.strip()


def _kind_behind(text: str) -> tuple[str, str | None]:
    """`psig`, `bar(a)`, `bar a`."""
    found = re.match(r"^(bar|mbar|psi|kpa|hpa)\s*\(?([ag])$", text)
    return (found[1], _KIND_BEHIND[found[2]]) if found is not None else (text, None)
