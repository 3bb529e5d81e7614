"""The wastegate actuator on hand pump, gauge and T-piece: free, and in limits, are two questions.

For a vacuum actuator the pressures are negative; 'early', 'late' and loss go by the depth.
"""

from collections.abc import Sequence
from dataclasses import replace
from math import hypot, sqrt
from statistics import median

from calc.checks.actuator_sweep import Row, break_doubt, columns, rising_fit, sweep_gauge, sweep_rows
from calc.checks.evidence import STANDARD, Evidence
from calc.checks.finding import Check, Finding, all_true
from calc.signals.breakpoint import SweepFit
from calc.signals.hysteresis import EDGE, gaps
from calc.signals.refusal import CannotFit
from calc.uncertainty.decision import Chances, Limit
from calc.uncertainty.gauge import Pressure, difference
from calc.uncertainty.propagation import few_points

HYSTERESIS_KPA, VACUUM_HYSTERESIS_KPA = 15.0, 5.0
BACK_ON_STOP_MM = 0.5  # travel left at nought that still counts as back; common practice, no source
NEXT_TO_NOTHING = 0.25  # of the start limit; common practice, no source
DOES_NOT_HOLD = Chances(0.0, 0.05, 0.95)  # all that was pumped was gone at once
MOVED_MM = 0.5
MEDIAN = 1.2533  # a median's standard error over that of a mean, normal errors: sqrt(π/2)
STALLED_ROWS = 3  # rising readings, the last no higher than before, from which a pump is at its end


def start(evidence: Evidence, check: Check) -> Finding:
    """Pressure at which the rod first moves.

    From a sweep, at least one reading's own doubt stands for the scatter, so that the doubt is up to 15 %
    wider than simulation says; the wider one is used.
    """
    fit = rising_fit(evidence)
    if fit is not None:
        return _fitted(evidence, check, fit, fit.first_movement, fit.se_first_movement, "actuator_start_kpa")
    return _typed(evidence, check, "first_movement_kpa", "actuator_start_kpa")


def full(evidence: Evidence, check: Check) -> Finding:
    """Pressure at the end of the rod's travel."""
    fit = rising_fit(evidence)
    if fit is not None and fit.full_travel is not None:
        se = fit.se_full_travel or 0.0
        return _fitted(evidence, check, fit, fit.full_travel, se, "actuator_full_kpa")
    return _typed(evidence, check, "full_travel_kpa", "actuator_full_kpa")


def travel(evidence: Evidence, check: Check) -> Finding:
    """How far the rod goes in the sweep, once the sweep is past the start limit.

    A sweep broken off while the rod still moves, short of the full limit, gives a lower bound.
    """
    rows = sweep_rows(evidence, "rising")
    limit, start_limit = evidence.limit("actuator_travel_mm"), evidence.limit("actuator_start_kpa")
    if not rows:
        return check.missing()
    if start_limit is not None and rows[-1].depth <= _far_end(start_limit):
        return check.missing("sweep_too_short")
    farthest = max(rows, key=lambda row: row.travel)
    found = check.judged(farthest.travel, STANDARD["travel_mm"], limit, (f"{farthest.pointer}/travel_mm",))
    if _still_moving(evidence, rows):
        found = replace(found, lower_bound=True)
        if found.side == "low":
            found = replace(found, outcome="undecided")
    return found


def _still_moving(evidence: Evidence, rows: Sequence[Row]) -> bool:
    """Whether the sweep ends short of the full limit while the rod is still on its way."""
    limit = evidence.limit("actuator_full_kpa")
    if limit is None or len(rows) < 2 or rows[-1].depth >= _near_end(limit):
        return False
    return rows[-1].travel - rows[-2].travel > 2.0 * STANDARD["travel_mm"]


def rate(evidence: Evidence, check: Check) -> Finding:
    """Travel per pressure: tells a wrong or weak spring from wrong preload.

    Half of the class error may tilt the scale over the movement. A gauge with one fixed error does not, so
    that the doubt is up to 40 % wider than simulation says; the wider one is used.
    """
    fit = rising_fit(evidence)
    if fit is None:
        return check.missing()
    rows = sweep_rows(evidence, "rising")
    gauge = sweep_gauge(evidence, fit.first_movement)
    # the class error may differ between both ends of the movement; half of it is allowed for that
    last = fit.full_travel if fit.full_travel is not None else rows[-1].depth
    tilt = fit.rate * gauge.shared / 2.0 / max(1.0, last - fit.first_movement)
    return check.judged(
        fit.rate,
        hypot(fit.se_rate * few_points(fit.freedom), tilt),
        _rate_limit(evidence),
        tuple(f"{row.pointer}/{key}" for row in rows for key in ("p_kpa", "travel_mm")),
        may_acquit=gauge.known,
        grows=2,  # a steeper movement has fewer rows, and the class tilts it more
    )


def hysteresis(evidence: Evidence, check: Check) -> Finding:
    """How far apart the rising and the falling line lie at the same travel: twice the friction.

    The opening line between two points is smoother than one of them, so that the doubt is up to 35 % wider
    than simulation says; the wider one is used.
    """
    rising, falling = sweep_rows(evidence, "rising"), sweep_rows(evidence, "falling")
    try:
        apart = gaps(*columns(rising), *columns(falling))
    except CannotFit:
        return check.missing()
    width = median(apart)
    limit, typical = evidence.limit("actuator_hysteresis_kpa"), False
    if limit is None:
        typical = True
        limit = Limit(high=VACUUM_HYSTERESIS_KPA if evidence.kind.vacuum else HYSTERESIS_KPA)
    gauge = sweep_gauge(evidence, rising[-1].pressure)
    places = tuple(f"{row.pointer}/p_kpa" for row in (*rising, *falling))
    read = hypot(gauge.own, gauge.own) if gauge.known else gauge.shared
    doubt = hypot(read, _pressure_of_travel(rising)) * min(1.0, MEDIAN / sqrt(len(apart)))
    return check.judged(width, doubt, limit, places, may_acquit=gauge.known, typical=typical)


def _pressure_of_travel(rising: Sequence[Row]) -> float:
    """What the doubt of two travels amounts to in pressure, by the mean rate of the sweep. [kPa]"""
    low, high = min(row.travel for row in rising), max(row.travel for row in rising)
    moving = [row for row in rising if low + EDGE * (high - low) <= row.travel <= high - EDGE * (high - low)]
    if len(moving) < 2 or moving[-1].travel <= moving[0].travel:
        return 0.0
    pressure_per_mm = (moving[-1].depth - moving[0].depth) / (moving[-1].travel - moving[0].travel)
    return hypot(STANDARD["travel_mm"], STANDARD["travel_mm"]) * pressure_per_mm


def hold(evidence: Evidence, check: Check) -> Finding:
    """Pressure lost a minute with the pump closed off: the diaphragm. The same gauge's class cancels.

    A pump that cannot bring the actuator to its start limit says as much: all that it brought would be
    gone within the minute, a lower bound.
    """
    before = evidence.test_pressure("actuator", "hold/p_kpa")
    after = evidence.test_pressure("actuator", "hold/p_end_kpa")
    seconds = evidence.number("/tests/actuator/hold/t_s")
    limit = evidence.limit("actuator_hold_loss_kpa_per_min")
    if before is None or after is None or seconds is None or seconds <= 0.0:
        return _pump_cannot_reach(evidence, check, limit)
    if _brought_next_to_nothing(evidence, before.value):
        return _pump_cannot_reach(evidence, check, limit)
    gap, doubt = difference(after, before)
    lost = gap if evidence.kind.vacuum else -gap
    minutes = seconds / 60.0
    places = tuple(f"/tests/actuator/hold/{key}" for key in ("p_kpa", "p_end_kpa", "t_s"))
    found = check.judged(lost / minutes, doubt / minutes, limit, places, may_acquit=before.known)
    return replace(found, lower_bound=abs(after.value) <= 2.0 * after.own + 1.0 and lost > 0.0)


def _pump_cannot_reach(evidence: Evidence, check: Check, limit: Limit | None) -> Finding:
    """The most that pumping gave stays short of the start limit: typed as `hold`, or a stalled sweep."""
    start_limit = evidence.limit("actuator_start_kpa")
    reached = _most_that_pumping_gave(evidence)
    if start_limit is None or reached is None:
        return check.missing()
    pointer, depth, gauge = reached
    if depth + 2.0 * gauge.uncertainty >= _near_end(start_limit):
        return check.missing()
    doubt = gauge.uncertainty if gauge.known else gauge.shared
    found = check.judged(max(depth, 0.0), doubt, limit, (pointer,), may_acquit=False, pump_cannot_reach=True)
    if limit is not None:
        found = replace(found, outcome="outside", chances=DOES_NOT_HOLD)
    return replace(found, lower_bound=True)


def _brought_next_to_nothing(evidence: Evidence, p_kpa: float) -> bool:
    """Whether a hold began so far below the start limit that nobody would have stopped pumping there."""
    start_limit = evidence.limit("actuator_start_kpa")
    return start_limit is not None and abs(p_kpa) < NEXT_TO_NOTHING * _near_end(start_limit)


def _most_that_pumping_gave(evidence: Evidence) -> tuple[str, float, Pressure] | None:
    sign = -1.0 if evidence.kind.vacuum else 1.0
    typed = evidence.test_pressure("actuator", "hold/p_kpa")
    if typed is not None:
        return "/tests/actuator/hold/p_kpa", sign * typed.value, typed
    rows = sweep_rows(evidence, "rising", by_depth=False)
    if len(rows) < STALLED_ROWS:
        return None
    last, before = rows[-1], rows[:-1]
    gauge = sweep_gauge(evidence, last.pressure)
    if last.depth > max(row.depth for row in before) + gauge.own:
        return None
    return f"{last.pointer}/p_kpa", max(row.depth for row in rows), gauge


def moves(evidence: Evidence, check: Check) -> Finding:
    """Does the rod move when driven: as found by hand, and in the sweep past its start limit."""
    place = "/tests/actuator/linkage_free"
    free = evidence.get(place)
    if free is False:
        return check.flag(False, (place,))
    driven = _moves_in_sweep(evidence, check)
    return driven if free is None or driven.outcome == "outside" else check.flag(True, (place,))


def _moves_in_sweep(evidence: Evidence, check: Check) -> Finding:
    rows, limit = sweep_rows(evidence, "rising"), evidence.limit("actuator_start_kpa")
    if not rows:
        return check.missing()
    last = rows[-1]
    read_from = (f"{last.pointer}/travel_mm",)
    if max(row.travel for row in rows) >= MOVED_MM:
        return check.flag(True, read_from)
    if (
        limit is None
        or last.depth <= _far_end(limit) + 2.0 * sweep_gauge(evidence, last.pressure).uncertainty
    ):
        return check.missing("sweep_too_short")
    return check.flag(False, read_from)


def returns(evidence: Evidence, check: Check) -> Finding:
    """Does the rod come back to its stop: as seen, and at the end of the falling sweep."""
    place = "/tests/actuator/returns_to_stop"
    seen = evidence.get(place)
    if seen is False:
        return check.flag(False, (place,))
    released = _returns_in_sweep(evidence, check)
    return released if seen is None or released.outcome == "outside" else check.flag(True, (place,))


def _returns_in_sweep(evidence: Evidence, check: Check) -> Finding:
    rows = sweep_rows(evidence, "falling")
    if not rows:
        return check.missing()
    released = min(rows, key=lambda row: abs(row.depth))
    if abs(released.depth) > 2.0 * max(sweep_gauge(evidence, released.pressure).uncertainty, 1.0):
        return check.missing("sweep_too_short")
    return check.flag(released.travel <= BACK_ON_STOP_MM, (f"{released.pointer}/travel_mm",))


def _fitted(evidence: Evidence, check: Check, fit: SweepFit, depth: float, se: float, limit: str) -> Finding:
    """A break of the fit: the scatter of the sweep, at least one reading's, joined with the gauge's class."""
    value = -depth if evidence.kind.vacuum else depth
    gauge = sweep_gauge(evidence, value)
    return check.judged(
        value,
        hypot(break_doubt(se, fit.freedom, gauge), gauge.shared),
        evidence.limit(limit),
        tuple(f"{row.pointer}/p_kpa" for row in sweep_rows(evidence, "rising")),
        may_acquit=gauge.known,
        by_depth=evidence.kind.vacuum,
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
        by_depth=evidence.kind.vacuum,
    )


def _far_end(limit: Limit) -> float:
    return max(abs(end) for end in (limit.low, limit.high) if end is not None)


def _near_end(limit: Limit) -> float:
    return min(abs(end) for end in (limit.low, limit.high) if end is not None)


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
