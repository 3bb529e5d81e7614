"""The actuator moves at less, or at more, pressure than its limit: preload too small, or too great.

What it does    Pressure-opened: early gives boost away, late lets it rise. Vacuum: the other way round.
Speaks for      first movement and full travel both moved the same way from their limits.
Against         first movement within its limit, or moved to the other side.
Can mislead     a gate held off its seat looks late; a rod that sticks looks late going up and early coming
                down; a weak spring moves full travel more than first movement.
Proof           first movement outside, full travel moved the same way, travel not outside, and the rod
                returns to its stop.
Cure            turns on the rod, within what the maker allows; then the same test again.
Next test       the actuator on the hand pump.
"""

from calc.checks.evidence import Kind
from calc.checks.finding import Finding
from calc.faults import effects
from calc.faults.model import PNEUMATIC, Fault, Findings, Picture, Spread, high, low, outside, within
from calc.faults.pictures import boost_falls, boost_rises

MOVED_FURTHER, GAP_KPA = 1.7, 5.0  # more than this is no shift of both; common practice, no source
MOVED_ALONG = 0.4  # of the first movement's error that full travel must share; common practice, no source


def _moved_the_same_way(start: Finding, full: Finding) -> bool:
    """Whether full travel lies to the same side of its middle by a fair share of the start's error."""
    if start.value is None or full.value is None or start.limit is None or full.limit is None:
        return False
    if start.limit.middle is None or full.limit.middle is None:
        return full.outcome == "outside" and full.side == start.side
    start_error, full_error = start.value - start.limit.middle, full.value - full.limit.middle
    alike = abs(full_error) >= MOVED_ALONG * abs(start_error) and not span_changed(start, full)
    return start_error * full_error > 0.0 and alike


def span_changed(start: Finding, full: Finding) -> bool:
    """Whether full travel moved so much further than first movement that the rate must be wrong."""
    if start.value is None or full.value is None or start.limit is None or full.limit is None:
        return False
    if start.limit.middle is None or full.limit.middle is None:
        return False
    start_error, full_error = start.value - start.limit.middle, full.value - full.limit.middle
    return abs(full_error) > MOVED_FURTHER * abs(start_error) + GAP_KPA


def proof(side: str, findings: Findings) -> tuple[str, ...]:
    """Start outside on one side, full moved along, nothing else wrong with the rod or its spring."""
    start, full = findings["actuator_start"], findings["actuator_full"]
    if not outside(findings, "actuator_start", side) or not _moved_the_same_way(start, full):
        return ()
    spoiled = ("actuator_travel", "actuator_moves", "actuator_rate", "wastegate_seat")
    if any(outside(findings, check) for check in spoiled) or not within(findings, "actuator_returns"):
        return ()
    return ("actuator_start", "actuator_full")


def cleared(side: str, findings: Findings) -> tuple[str, ...]:
    """First movement within its limit, or outside on the other side."""
    if within(findings, "actuator_start") and not outside(findings, "actuator_full", side):
        return ("actuator_start",)
    other = "high" if side == "low" else "low"
    return ("actuator_start",) if outside(findings, "actuator_start", other) else ()


def only_the_end_moved(findings: Findings, kind: Kind) -> bool:
    """Full travel outside and much further off than first movement: a rate, not a preload."""
    full = findings["actuator_full"]
    return full.outcome == "outside" and span_changed(findings["actuator_start"], full)


def side_of(early: bool, kind: Kind) -> str:
    """On which side of a limit 'early' lies: pressures of a vacuum actuator are negative."""
    return "low" if early != kind.vacuum else "high"


def on_road(early: bool, kind: Kind) -> tuple[Picture, ...]:
    """Early gives boost away on a pressure actuator and adds it on a vacuum one."""
    falls = early != kind.vacuum
    if falls:
        return boost_falls(hidden=0.30, used_up=0.62, base_boost=low(0.85))
    return boost_rises(hidden=0.25, used_up=0.68, base_boost=high(0.85))


EARLY_SHOWS: dict[str, Spread] = {"actuator_start": low(0.94), "actuator_full": low(0.85)}
LATE_SHOWS: dict[str, Spread] = {
    "actuator_start": high(0.94),
    "actuator_full": high(0.85),
    "cooler_drop": high(0.15),
}

EARLY = Fault(
    name="actuator_opens_early",
    location="actuator",
    shows=EARLY_SHOWS,
    on_road=lambda kind: on_road(True, kind),
    proof=lambda findings, kind: proof(side_of(True, kind), findings),
    cleared_where=lambda findings, kind: cleared(side_of(True, kind), findings),
    effect=effects.preload,
    against_where=only_the_end_moved,
    actuators=PNEUMATIC,
)

LATE = Fault(
    name="actuator_opens_late",
    location="actuator",
    shows=LATE_SHOWS,
    on_road=lambda kind: on_road(False, kind),
    proof=lambda findings, kind: proof(side_of(False, kind), findings),
    cleared_where=lambda findings, kind: cleared(side_of(False, kind), findings),
    effect=effects.preload,
    against_where=only_the_end_moved,
    actuators=PNEUMATIC,
)
