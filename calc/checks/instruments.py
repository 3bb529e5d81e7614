"""What the instruments of this job can show at all: the smallest defect, the hose, the calibration."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from math import hypot, sqrt
from statistics import NormalDist
from typing import Any

from calc.checks.evidence import Evidence
from calc.checks.finding import Finding
from calc.errors import OutOfRange
from calc.physics.hose import (
    acoustic_delay,
    filling_reynolds,
    filling_time_constant,
    hose_volume,
    resonance_frequency,
)
from calc.physics.orifice import hole_area, hole_diameter
from calc.physics.roots import crossing
from calc.physics.units import kelvin
from calc.uncertainty.decision import CONFIDENCE, Limit, chances
from calc.uncertainty.gauge import read

ONE_SIDED = 1.6449  # standard uncertainties beyond an end from which 95 % lie outside
Z_95 = NormalDist().inv_cdf(CONFIDENCE)  # the same to the last bit, where it takes the place of a search
OUT_OF_REACH = 9.0  # standard uncertainties between the ends from which the other adds nothing to a double
ROUNDS, MOST_GROWTH = 30, 10.0
EYE = "flag"  # unit of what is seen or not: no size is measured
GAUGE_VOLUME = 20e-6  # m3, what a Bourdon tube and its fitting hold; common practice, no source
STEEPEST_KPA_PER_S = 25.0  # the steepest boost that still counts as settled
HALF_THE_HOSE = 0.5
TURBULENT = 2_000.0  # Reynolds number above which Poiseuille flow no longer holds; textbook, from memory
NOTHING = 0.1  # share of the gauge's doubt below which a delay changes nothing; a rule of this house


@dataclass(frozen=True, slots=True)
class Shown:
    """What a check can show with this job's instruments, in the check's own unit.

    called : a reading beyond these is called outside (critical value, ISO 11843-1).
    found : a defect so large is called outside in 95 of 100 such tests (minimum detectable value, the same).
    clears : whether any reading could be called within; False: the gauge is too coarse for the limit.
    """

    called: Limit
    found: Limit
    clears: bool = True


def smallest_shown(finding: Finding) -> Shown | None:
    """The smallest defect that a finding's instruments show; None where nothing is measured against a limit.

    For the hole the doubt grows with the hole itself, so that the area is solved for; where a finding's doubt
    `grows` with a power of its value, it is carried over to the value asked about.
    """
    if finding.limit is None or finding.uncertainty is None or not finding.examined:
        return None
    if finding.unit == EYE:
        return None
    if "area_m2" in finding.facts:
        return _smallest_hole(finding, finding.limit.high)
    low, high = finding.limit.low, finding.limit.high
    called = Limit(
        low=None if low is None else -_solved(finding, lambda u: _beyond(-low, _turned(high), u), low),
        high=None if high is None else _solved(finding, lambda u: _beyond(high, low, u), high),
    )
    found = Limit(
        low=None if called.low is None else -_solved(finding, _farther(-called.low), called.low),
        high=None if called.high is None else _solved(finding, _farther(called.high), called.high),
    )
    return Shown(called, found, _can_clear(finding.limit, finding.uncertainty))


def _turned(end: float | None) -> float | None:
    return None if end is None else -end


def _farther(value: float) -> Callable[[float], float]:
    return lambda u: value + ONE_SIDED * u


def _solved(finding: Finding, value_for: Callable[[float], float], start: float) -> float:
    """The value that follows from its own doubt: a few rounds, since doubts grow slowly."""
    u, power = finding.uncertainty or 0.0, finding.facts.get("grows", 0)
    if not power or not finding.value:
        return value_for(u)
    value = start
    for _ in range(ROUNDS):
        share = min(abs(value / finding.value), MOST_GROWTH)
        value = value_for(u * share**power)
    return value


def _can_clear(limit: Limit, u: float) -> bool:
    """Whether a reading in the middle of the limit could be called within; an open end leaves room."""
    return limit.middle is None or chances(limit.middle, u, limit).inside >= CONFIDENCE


def _beyond(end: float, other: float | None, u: float) -> float:
    """The value above an upper end at which the chance of lying inside has fallen to 5 %."""
    limit = Limit(other, end)

    def left(value: float) -> float:
        return (1.0 - CONFIDENCE) - chances(value, u, limit).inside

    if u > 0.0 and (other is None or end - other > OUT_OF_REACH * u):
        return end + Z_95 * u
    if u <= 0.0 or left(end) >= 0.0:
        return end
    return crossing(left, end, end + 2.0 * ONE_SIDED * u)


def _smallest_hole(finding: Finding, limit_mm: float | None) -> Shown | None:
    if limit_mm is None:
        return None
    area, u, relative = (finding.facts[key] for key in ("area_m2", "area_u_m2", "area_relative"))
    fixed = sqrt(max(0.0, u * u - (relative * area) ** 2))
    called = _area_beyond(hole_area(limit_mm / 1e3), fixed, relative)
    found = _area_beyond(called, fixed, relative)
    called_mm, found_mm = (1e3 * hole_diameter(size) for size in (called, found))
    return Shown(Limit(high=called_mm), Limit(high=found_mm))


def _area_beyond(end: float, fixed: float, relative: float) -> float:
    """The area whose own doubt leaves 5 % below an area. [m2]"""
    area = end
    for _ in range(60):
        area = end + ONE_SIDED * hypot(fixed, relative * area)
    return area


@dataclass(frozen=True, slots=True)
class Instrument:
    """A gauge of the job: its doubt, the days since its calibration, and what its hose does.

    expanded : U of a reading at nought, or None where the gauge says too little. [kPa]
    days : from calibration to the opening of the job, or None where a date is missing. [d]
    delay : time by which the gauge lags behind its place, or None without a hose. [s]
    ring : frequency at which hose and gauge ring by themselves, or None without a hose. [Hz]
    turbulent : whether air in the hose is too quick for the law by which `delay` was worked out.
    lag_kpa : what that amounts to in the steepest rise that counts as settled. [kPa]
    """

    gauge: str
    expanded: float | None
    days: int | None
    length_m: float | None
    bore_mm: float | None
    delay: float | None
    ring: float | None = None
    turbulent: bool = False

    @property
    def lag_kpa(self) -> float | None:
        """Error of a reading taken while boost rises by 25 kPa/s."""
        return None if self.delay is None else self.delay * STEEPEST_KPA_PER_S

    @property
    def hose_matters(self) -> bool:
        """Whether the hose adds more than a tenth of the gauge's own doubt, or by more than can be told."""
        lags = self.lag_kpa is not None and self.lag_kpa > NOTHING * (self.expanded or 15.0)
        return lags or self.turbulent


def instruments(evidence: Evidence) -> list[Instrument]:
    """Every gauge registered in the job, in its order."""
    return [_instrument(evidence, name, gauge) for name, gauge in evidence.gauges.items()]


def _instrument(evidence: Evidence, name: str, gauge: Mapping[str, Any]) -> Instrument:
    at_nought = read(gauge.get("zero_kpa") or 0.0, gauge)
    length, bore = gauge.get("hose_m"), gauge.get("hose_bore_mm")
    return Instrument(
        gauge=name,
        expanded=2.0 * at_nought.uncertainty if at_nought.known else None,
        days=_days_between(gauge.get("calibrated_on"), evidence.get("/opened_at")),
        length_m=None if length is None else float(length),
        bore_mm=None if bore is None else float(bore),
        delay=_hose_delay(evidence, length, bore),
        ring=_hose_ring(evidence, length, bore),
        turbulent=_hose_turbulent(evidence, length, bore),
    )


def _hose_ring(evidence: Evidence, length: float | None, bore_mm: float | None) -> float | None:
    if not length or not bore_mm:
        return None
    ambient = evidence.number("/site/ambient_c")
    try:
        return resonance_frequency(
            length, bore_mm / 1e3, GAUGE_VOLUME, kelvin(20.0 if ambient is None else ambient)
        )
    except OutOfRange:
        return None


def _hose_delay(evidence: Evidence, length: float | None, bore_mm: float | None) -> float | None:
    """The sound's way and the filling of gauge and half the hose, at the pressure of the air outside."""
    if not length or not bore_mm:
        return None
    ambient = evidence.number("/site/ambient_c")
    try:
        air = kelvin(20.0 if ambient is None else ambient)
        outside = evidence.barometric.value * 1e3
        filling = filling_time_constant(length, bore_mm / 1e3, GAUGE_VOLUME, outside, air, HALF_THE_HOSE)
        return acoustic_delay(length, air) + filling
    except OutOfRange:
        return None


def _hose_turbulent(evidence: Evidence, length: float | None, bore_mm: float | None) -> bool:
    """Whether gauge and hose fill so quickly, in the steepest rise, that the flow is not laminar."""
    if not length or not bore_mm:
        return False
    ambient = evidence.number("/site/ambient_c")
    try:
        bore, air = bore_mm / 1e3, kelvin(20.0 if ambient is None else ambient)
        filled = GAUGE_VOLUME + hose_volume(length, bore)  # all that passes the mouth of the hose
        return filling_reynolds(bore, filled, STEEPEST_KPA_PER_S * 1e3, air) > TURBULENT
    except OutOfRange:
        return False


def _days_between(calibrated_on: str | None, opened_at: str | None) -> int | None:
    try:
        days = [date.fromisoformat(str(text)[:10]) for text in (calibrated_on, opened_at) if text]
    except ValueError:
        return None
    return (days[1] - days[0]).days if len(days) == 2 else None
