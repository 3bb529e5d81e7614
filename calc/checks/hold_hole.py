"""The actuator's hold loss as the sharp-edged hole that would lose as much from its own volume."""

from calc.checks.evidence import RELATIVE, Evidence
from calc.checks.tightness import DISCHARGE_COEFFICIENT, DISCHARGE_UNCERTAINTY, WORKSHOP_AIR_C
from calc.errors import OutOfRange
from calc.physics.leak import area_from_decay, mass_leak_rate
from calc.physics.orifice import hole_diameter, mass_flow
from calc.physics.units import kelvin
from calc.uncertainty.propagation import propagate

HOLD = "/tests/actuator/hold"
AIR = kelvin(WORKSHOP_AIR_C)


def hole_of_hold(evidence: Evidence) -> tuple[float, float] | None:
    """Diameter of the hole and its U [mm]; None without the actuator's volume, time and both pressures.

    One gauge's class error shifts both pressures alike and is left out of their difference.
    """
    volume, seconds = evidence.number(f"{HOLD}/volume_ml"), evidence.number(f"{HOLD}/t_s")
    before, after = (evidence.test_pressure("actuator", f"hold/{key}") for key in ("p_kpa", "p_end_kpa"))
    if not volume or not seconds or before is None or after is None:
        return None
    outside = evidence.barometric

    def area(start: float, end: float, litres: float, cd: float, ambient: float) -> float:
        kept = (litres / 1e3, (start + ambient) * 1e3, (end + ambient) * 1e3, seconds, ambient * 1e3)
        return _drawn_in(*kept, cd) if evidence.kind.vacuum else _let_out(*kept, cd)

    values = {
        "start": before.value,
        "end": after.value,
        "litres": volume / 1e3,
        "cd": DISCHARGE_COEFFICIENT,
        "ambient": outside.value,
    }
    doubts = {
        "start": before.own if before.known else before.uncertainty,
        "end": after.own if after.known else after.uncertainty,
        "litres": RELATIVE["volume"] * volume / 1e3,
        "cd": DISCHARGE_UNCERTAINTY,
        "ambient": outside.uncertainty,
    }
    try:
        size, u = area(**values), propagate(area, values, doubts)
    except OutOfRange:
        return None
    mm, widest, narrowest = (1e3 * hole_diameter(max(0.0, size + step)) for step in (0.0, 2.0 * u, -2.0 * u))
    return mm, max(widest - mm, mm - narrowest)


def _let_out(volume: float, start: float, end: float, seconds: float, ambient: float, cd: float) -> float:
    """Area through which a chamber under pressure empties; negative for a rise. [m2]"""
    top, bottom = max(start, end), min(start, end)
    size = area_from_decay(volume, cd, top, max(bottom, ambient), seconds, ambient, AIR)
    return size if start >= end else -size


def _drawn_in(volume: float, start: float, end: float, seconds: float, ambient: float, cd: float) -> float:
    """Area through which the atmosphere fills a chamber under vacuum, at its mean pressure. [m2]"""
    gained = -mass_leak_rate(volume, start, AIR, end, AIR, seconds)
    through_a_square_metre = mass_flow(cd, 1.0, ambient, min((start + end) / 2.0, ambient), AIR)
    if through_a_square_metre <= 0.0:
        raise OutOfRange("no vacuum stands in the chamber, so nothing flows in")
    return gained / through_a_square_metre
