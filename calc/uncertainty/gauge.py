"""What a pressure gauge can tell: the doubt of one reading, and what two readings share.

A gauge's class error is one unknown error for the whole job. Repeating a reading does not shrink it,
and it cancels in the difference of two readings near each other taken with the same gauge.

[EN837] EN 837-1:1996, table 11 (maximum permissible error, per cent of span) and the clause on ambient
temperature (0.04 % of span per kelvin away from 20 degC, from memory).
[GUM] JCGM 100:2008, 4.3.7 (rectangular distribution) and F.2.2.1 (resolution).
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import fsum, hypot, sqrt
from typing import Any

EN837_TEMPERATURE_SHARE = 0.0004  # of span, per kelvin away from 20 degC
REFERENCE_TEMPERATURE_C = 20.0
SHARE_READ = {"whole": 1.0, "half": 0.5, "fifth": 0.2}
DIVISIONS_OF_A_DIAL = 40  # where the division was not typed; common practice, no source
ASSUMED_STANDARD_UNCERTAINTY_KPA = 7.5  # a pressure whose gauge is not known: 15 kPa expanded
NEAR_SHARE_OF_SPAN = 0.25  # readings closer than this share most of the class error; common practice


@dataclass(frozen=True, slots=True)
class Pressure:
    """One pressure reading, its zero error taken out.

    value : the reading, gauge unless said otherwise. [kPa]
    own : standard uncertainty of this one reading (how finely it was read). [kPa]
    shared : standard uncertainty that every reading of this gauge shares (its class). [kPa]
    gauge : id of the gauge, or None where none is named.
    span : span of the gauge, or None. [kPa]
    disputed : whether another gauge of the job, at the same pressure, contradicts it.
    """

    value: float
    own: float
    shared: float
    gauge: str | None = None
    span: float | None = None
    disputed: bool = False

    @property
    def uncertainty(self) -> float:
        """Combined standard uncertainty. [kPa]"""
        return hypot(self.own, self.shared)

    @property
    def known(self) -> bool:
        """Whether the doubt comes from a gauge that nothing contradicts: else it may accuse, never acquit."""
        return self.gauge is not None and not self.disputed


def read(p_kpa: float, gauge: Mapping[str, Any] | None) -> Pressure:
    """A pressure read from a gauge of the job, corrected for the gauge's zero.

    Parameters
    ----------
    p_kpa : float
        What the gauge showed. [kPa]
    gauge : Mapping or None
        The gauge's entry in the job document, or None. [-]

    Returns
    -------
    Pressure

    Examples
    --------
    A dial of 0 to 400 kPa, class 1.6, 10 kPa divisions read to the half:

    >>> dial = {"id": "g1", "span_kpa": [0, 400], "class_pct": 1.6, "division_kpa": 10}
    >>> round(2 * read(96.0, dial).uncertainty, 3)
    7.934

    References
    ----------
    [EN837], [GUM].
    """
    if gauge is None:
        return Pressure(p_kpa, 0.0, ASSUMED_STANDARD_UNCERTAINTY_KPA)
    value = p_kpa - (gauge.get("zero_kpa") or 0.0)
    span = _span(gauge)
    parts = _digital(value, gauge) if gauge.get("kind") == "digital" else _analogue(gauge, span)
    if parts is None:
        return Pressure(value, 0.0, ASSUMED_STANDARD_UNCERTAINTY_KPA, span=span)
    own, shared = parts
    shared = hypot(shared, _temperature(gauge, span))
    return Pressure(value, own, shared, str(gauge.get("id", "")), span)


def difference(later: Pressure, earlier: Pressure) -> tuple[float, float]:
    """later − earlier and its standard uncertainty; one gauge's class error cancels. [kPa]

    Two readings of the same gauge share the class error as far as they are near each other: up to a
    quarter of the span apart it cancels whole, beyond that it counts in proportion to the distance.
    """
    gap = later.value - earlier.value
    own = hypot(later.own, earlier.own)
    same = later.gauge is not None and later.gauge == earlier.gauge
    if not same or later.span is None:
        return gap, hypot(own, later.shared, earlier.shared)
    beyond = max(0.0, abs(gap) / later.span - NEAR_SHARE_OF_SPAN)
    return gap, hypot(own, min(1.0, beyond) * later.shared)


def _span(gauge: Mapping[str, Any]) -> float | None:
    ends = gauge.get("span_kpa")
    return abs(float(ends[1]) - float(ends[0])) if ends else None


def _analogue(gauge: Mapping[str, Any], span: float | None) -> tuple[float, float] | None:
    class_pct = gauge.get("class_pct")
    if class_pct is None or not span:
        return None
    division = gauge.get("division_kpa") or span / DIVISIONS_OF_A_DIAL
    resolution = division * SHARE_READ[gauge.get("read_to") or "half"]
    return resolution / sqrt(12.0), class_pct / 100.0 * span / sqrt(3.0)


def _digital(value: float, gauge: Mapping[str, Any]) -> tuple[float, float] | None:
    share, counts = gauge.get("accuracy_pct_reading"), gauge.get("accuracy_counts")
    resolution = gauge.get("resolution_kpa")
    if share is None and (counts is None or resolution is None):
        return None
    limit = fsum(((share or 0.0) / 100.0 * abs(value), (counts or 0.0) * (resolution or 0.0)))
    return (resolution or 0.0) / sqrt(12.0), limit / sqrt(3.0)


def _temperature(gauge: Mapping[str, Any], span: float | None) -> float:
    used_at = gauge.get("used_at_c")
    if used_at is None or not span or gauge.get("kind") == "digital":
        return 0.0
    return EN837_TEMPERATURE_SHARE * abs(float(used_at) - REFERENCE_TEMPERATURE_C) * span / sqrt(3.0)
