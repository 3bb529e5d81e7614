"""How far to turn the rod: pressure error × travel per pressure ÷ thread pitch."""

from dataclasses import dataclass
from math import hypot, sqrt

from calc.checks.actuator_sweep import rising_fit
from calc.checks.evidence import Evidence
from calc.checks.finding import Finding
from calc.errors import OutOfRange
from calc.faults.model import Findings
from calc.physics.actuator import rod_turns
from calc.uncertainty.gauge import difference

PRELOAD_FAULTS = {"actuator_opens_early": "more", "actuator_opens_late": "less"}


@dataclass(frozen=True, slots=True)
class Adjustment:
    """Turns to the middle of the limit and to its nearer end (None without rate or pitch), and which way."""

    turns: float | None
    turns_to_limit: float | None
    preload: str
    expanded: float | None = None  # U of the turns to the middle


def adjustment(fault: str, evidence: Evidence, findings: Findings) -> Adjustment | None:
    """The rod adjustment for a preload fault, or None for any other."""
    start = findings["actuator_start"]
    if fault not in PRELOAD_FAULTS or start.value is None or start.limit is None:
        return None
    preload, rate = PRELOAD_FAULTS[fault], _travel_per_kpa(evidence, findings)
    pitch = evidence.number("/spec/rod_thread_pitch_mm")
    nearest, middle = start.limit.nearest_end(start.value), start.limit.middle
    if rate is None or pitch is None or pitch <= 0.0 or nearest is None:
        return Adjustment(None, None, preload)
    target = nearest if middle is None else middle
    try:
        turns, to_limit = (_turns(start.value, end, rate, pitch) for end in (target, nearest))
    except OutOfRange:
        return Adjustment(None, None, preload)
    doubt = _doubt(evidence, findings, start, target, rate, pitch)
    return Adjustment(round(turns, 1), round(to_limit, 1), preload, round(2.0 * doubt, 1))


def _doubt(
    evidence: Evidence, findings: Findings, start: Finding, target: float, rate: float, pitch: float
) -> float:
    """Standard uncertainty of the turns: of the pressure that is wrong, and of the rate."""
    from_sweep = findings["actuator_rate"]
    rate_doubt = (
        from_sweep.uncertainty if rising_fit(evidence) else _typed_rate_doubt(evidence, findings, rate)
    )
    error = abs((start.value or 0.0) - target)
    return hypot(rate * (start.uncertainty or 0.0), error * (rate_doubt or 0.0)) / pitch


def _typed_rate_doubt(evidence: Evidence, findings: Findings, rate: float) -> float:
    """The travel lies anywhere in its limit; one gauge's class cancels in the difference of the pressures."""
    travel = evidence.limit("actuator_travel_mm")
    ends = [evidence.test_pressure("actuator", key) for key in ("first_movement_kpa", "full_travel_kpa")]
    if travel is None or ends[0] is None or ends[1] is None:
        return 0.0
    gap, doubt = difference(ends[1], ends[0])
    width = 0.0 if travel.low is None or travel.high is None else travel.high - travel.low
    middle = travel.middle or travel.low or travel.high or 1.0
    return rate * hypot(width / (2.0 * sqrt(3.0)) / middle, doubt / gap if gap else 0.0)


def _turns(start_kpa: float, target_kpa: float, mm_per_kpa: float, pitch_mm: float) -> float:
    """In the formula's units: pascal, metres per pascal, metres."""
    return rod_turns(abs(start_kpa - target_kpa) * 1e3, mm_per_kpa * 1e-6, pitch_mm * 1e-3)


def _travel_per_kpa(evidence: Evidence, findings: Findings) -> float | None:
    """From the sweep, else the middle of the travel limit over (full travel − first movement). [mm/kPa]"""
    fit = rising_fit(evidence)
    if fit is not None:
        return fit.rate
    travel = evidence.limit("actuator_travel_mm")
    start, full = findings["actuator_start"].value, findings["actuator_full"].value
    if travel is None or start is None or full is None or abs(full) <= abs(start):
        return None
    middle = travel.middle if travel.middle is not None else (travel.low or travel.high)
    return None if not middle else middle / abs(full - start)
