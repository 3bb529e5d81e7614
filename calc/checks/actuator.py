"""The wastegate actuator on hand pump, gauge and T-piece: free, and in limits, are two questions.

For a vacuum actuator the pressures are negative; 'early', 'late' and loss go by the depth.
"""

from collections.abc import Sequence
from math import hypot

from calc.checks.evidence import STANDARD, Evidence
from calc.checks.finding import Check, Finding, all_true
from calc.signals.breakpoint import SweepFit, fit_sweep
from calc.signals.hysteresis import hysteresis as hysteresis_width
from calc.signals.refusal import CannotFit
from calc.uncertainty.decision import Limit
from calc.uncertainty.gauge import Pressure, difference

HYSTERESIS_KPA, VACUUM_HYSTERESIS_KPA = 15.0, 5.0
BACK_ON_STOP_MM = 0.5  # travel left at nought that still counts as back; common practice, no source
MOVED_MM = 0.5


def start(evidence: Evidence, check: Check) -> Finding:
    """Pressure at which the rod first moves."""
    fit = rising_fit(evidence)
    if fit is not None:
        return _fitted(evidence, check, fit.first_movement, fit.se_first_movement, "actuator_start_kpa")
    return _typed(evidence, check, "first_movement_kpa", "actuator_start_kpa")


def full(evidence: Evidence, check: Check) -> Finding:
    """Pressure at the end of the rod's travel."""
    fit = rising_fit(evidence)
    if fit is not None and fit.full_travel is not None:
        return _fitted(evidence, check, fit.full_travel, fit.se_full_travel or 0.0, "actuator_full_kpa")
    return _typed(evidence, check, "full_travel_kpa", "actuator_full_kpa")


def travel(evidence: Evidence, check: Check) -> Finding:
    """How far the rod goes in the sweep, once the sweep is past the start limit."""
    rows = _sweep(evidence, "rising")
    limit, start_limit = evidence.limit("actuator_travel_mm"), evidence.limit("actuator_start_kpa")
    if not rows:
        return check.missing()
    deepest = max(abs(p) for _, p, _ in rows)
    if start_limit is not None and deepest <= _far_end(start_limit):
        return check.missing("sweep_too_short")
    pointer, _, reach = max(rows, key=lambda row: row[2])
    return check.judged(reach, STANDARD["travel_mm"], limit, (f"{pointer}/travel_mm",))


def rate(evidence: Evidence, check: Check) -> Finding:
    """Travel per pressure: tells a wrong or weak spring from wrong preload."""
    fit = rising_fit(evidence)
    if fit is None:
        return check.missing()
    rows = _sweep(evidence, "rising")
    gauge = _gauge(evidence, fit.first_movement)
    # the class error may differ between both ends of the movement; half of it is allowed for that
    last = fit.full_travel if fit.full_travel is not None else max(abs(p) for _, p, _ in rows)
    tilt = fit.rate * gauge.shared / 2.0 / max(1.0, last - fit.first_movement)
    return check.judged(
        fit.rate,
        hypot(fit.se_rate, tilt),
        _rate_limit(evidence),
        tuple(f"{pointer}/travel_mm" for pointer, _, _ in rows),
        may_acquit=gauge.known,
    )


def hysteresis(evidence: Evidence, check: Check) -> Finding:
    """How far apart the rising and the falling line lie at the same travel: twice the friction."""
    rising, falling = _sweep(evidence, "rising"), _sweep(evidence, "falling")
    try:
        width = hysteresis_width(*_columns(rising), *_columns(falling))
    except CannotFit:
        return check.missing()
    limit, typical = evidence.limit("actuator_hysteresis_kpa"), False
    if limit is None:
        typical = True
        limit = Limit(high=VACUUM_HYSTERESIS_KPA if evidence.kind.vacuum else HYSTERESIS_KPA)
    gauge = _gauge(evidence, width)
    places = tuple(f"{pointer}/p_kpa" for pointer, _, _ in falling)
    doubt = hypot(gauge.own, gauge.own) if gauge.known else gauge.shared
    return check.judged(width, doubt, limit, places, may_acquit=gauge.known, typical=typical)


def hold(evidence: Evidence, check: Check) -> Finding:
    """Pressure lost a minute with the pump closed off: the diaphragm. The same gauge's class cancels."""
    before = evidence.test_pressure("actuator", "hold/p_kpa")
    after = evidence.test_pressure("actuator", "hold/p_end_kpa")
    seconds = evidence.number("/tests/actuator/hold/t_s")
    limit = evidence.limit("actuator_hold_loss_kpa_per_min")
    if before is None or after is None or seconds is None or seconds <= 0.0:
        return check.missing()
    gap, doubt = difference(after, before)
    lost = gap if evidence.kind.vacuum else -gap
    minutes = seconds / 60.0
    places = tuple(f"/tests/actuator/hold/{key}" for key in ("p_kpa", "p_end_kpa", "t_s"))
    return check.judged(lost / minutes, doubt / minutes, limit, places, may_acquit=before.known)


def moves(evidence: Evidence, check: Check) -> Finding:
    """Does the rod move when driven: as found by hand, or in the sweep past its start limit."""
    free = evidence.get("/tests/actuator/linkage_free")
    if free is not None:
        return check.flag(bool(free), ("/tests/actuator/linkage_free",))
    rows, limit = _sweep(evidence, "rising"), evidence.limit("actuator_start_kpa")
    if not rows:
        return check.missing()
    pointer, pressure, _ = max(rows, key=lambda row: abs(row[1]))
    reach = max(row[2] for row in rows)
    if reach >= MOVED_MM:
        return check.flag(True, (f"{pointer}/travel_mm",))
    if limit is None or abs(pressure) <= _far_end(limit) + 2.0 * _gauge(evidence, pressure).uncertainty:
        return check.missing("sweep_too_short")
    return check.flag(False, (f"{pointer}/travel_mm",))


def returns(evidence: Evidence, check: Check) -> Finding:
    """Does the rod come back to its stop: as seen, or at the end of the falling sweep."""
    seen = evidence.get("/tests/actuator/returns_to_stop")
    if seen is not None:
        return check.flag(bool(seen), ("/tests/actuator/returns_to_stop",))
    rows = _sweep(evidence, "falling")
    if not rows:
        return check.missing()
    pointer, pressure, left = min(rows, key=lambda row: abs(row[1]))
    if abs(pressure) > 2.0 * max(_gauge(evidence, pressure).uncertainty, 1.0):
        return check.missing("sweep_too_short")
    return check.flag(left <= BACK_ON_STOP_MM, (f"{pointer}/travel_mm",))


def rising_fit(evidence: Evidence) -> SweepFit | None:
    """First movement, end of travel and rate of the rising sweep, as depth; None if it cannot be fitted."""
    try:
        return fit_sweep(*_columns(_sweep(evidence, "rising")))
    except CannotFit:
        return None


def _columns(rows: Sequence[tuple[str, float, float]]) -> tuple[list[float], list[float]]:
    return [abs(p) for _, p, _ in rows], [x for _, _, x in rows]


def _sweep(evidence: Evidence, direction: str) -> list[tuple[str, float, float]]:
    """Rows of the bench sweep in one direction: pointer, pressure with the zero taken out, travel."""
    gauge = evidence.get("/tests/actuator/gauge")
    return [
        (pointer, evidence.pressure(item["p_kpa"], gauge).value, item["travel_mm"])
        for pointer, item in evidence.items("/tests/actuator/sweep")
        if (item.get("direction") or "rising") == direction
        and item.get("p_kpa") is not None
        and item.get("travel_mm") is not None
    ]


def _gauge(evidence: Evidence, at_kpa: float) -> Pressure:
    return evidence.pressure(at_kpa, evidence.get("/tests/actuator/gauge"))


def _fitted(evidence: Evidence, check: Check, depth: float, se: float, limit: str) -> Finding:
    value = -depth if evidence.kind.vacuum else depth
    gauge = _gauge(evidence, value)
    pointers = tuple(f"{pointer}/p_kpa" for pointer, _, _ in _sweep(evidence, "rising"))
    return check.judged(
        value, hypot(se, gauge.shared), evidence.limit(limit), pointers, may_acquit=gauge.known
    )


def _typed(evidence: Evidence, check: Check, key: str, limit: str) -> Finding:
    read = evidence.test_pressure("actuator", key)
    if read is None:
        return check.missing()
    return check.judged(
        read.value,
        read.uncertainty,
        evidence.limit(limit),
        (f"/tests/actuator/{key}",),
        may_acquit=read.known,
    )


def _far_end(limit: Limit) -> float:
    return max(abs(end) for end in (limit.low, limit.high) if end is not None)


def _rate_limit(evidence: Evidence) -> Limit | None:
    """Travel limit ÷ (full limit − start limit), end against end."""
    reach = _both_ends(evidence.limit("actuator_travel_mm"))
    first, last = (_both_ends(evidence.limit(f"actuator_{end}_kpa")) for end in ("start", "full"))
    if reach is None or first is None or last is None:
        return None
    widest, narrowest = last[1] - first[0], last[0] - first[1]
    return None if narrowest <= 0.0 else Limit(reach[0] / widest, reach[1] / narrowest)


def _both_ends(limit: Limit | None) -> tuple[float, float] | None:
    """Both ends as depths, the smaller first; None where one is open."""
    if limit is None or limit.low is None or limit.high is None:
        return None
    near, far = sorted((abs(limit.low), abs(limit.high)))
    return near, far


def rod(evidence: Evidence, check: Check) -> Finding:
    """An electric actuator: goes where it is commanded, stops learned, and the rod was seen moving."""
    test = "/tests/electric_actuator"
    commanded, reported = evidence.number(f"{test}/commanded_pct"), evidence.number(f"{test}/reported_pct")
    flags = all_true(
        check, evidence, ((f"{test}/end_stops_learned", True), (f"{test}/rod_seen_moving", True))
    )
    if flags.outcome == "outside" or commanded is None or reported is None:
        return flags
    doubt = hypot(STANDARD["share_pct"], STANDARD["share_pct"])
    places = (f"{test}/commanded_pct", f"{test}/reported_pct")
    return check.judged(commanded - reported, doubt, Limit(-5.0, 5.0), places, typical=True)
