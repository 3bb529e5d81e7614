"""Pressures along the way of the air, the turbocharger's wheels, and what the eye decides."""

from calc.checks.evidence import STANDARD, Evidence
from calc.checks.finding import Check, Finding, all_true
from calc.uncertainty.gauge import difference


def intake_depression(evidence: Evidence, check: Check) -> Finding:
    """Depression before the compressor at full load, written as a depression."""
    return _full_load(evidence, check, "intake_depression", "intake_depression_kpa", sign=-1.0)


def exhaust_back_pressure(evidence: Evidence, check: Check) -> Finding:
    """Pressure behind the turbine at full load."""
    return _full_load(evidence, check, "exhaust_back_pressure", "exhaust_back_pressure_kpa")


def cooler_drop(evidence: Evidence, check: Check) -> Finding:
    """Pressure lost over the charge-air cooler at full load; one gauge's class error cancels."""
    before = evidence.test_pressure("cooler_drop", "before_kpa")
    after = evidence.test_pressure("cooler_drop", "after_kpa")
    if before is None or after is None:
        return check.missing()
    if evidence.get("/tests/cooler_drop/load") == "none":
        return check.missing("not_at_full_load")
    drop, doubt = difference(before, after)
    places = ("/tests/cooler_drop/before_kpa", "/tests/cooler_drop/after_kpa")
    return check.judged(drop, doubt, evidence.limit("cooler_drop_kpa"), places, may_acquit=before.known)


def vacuum_supply(evidence: Evidence, check: Check) -> Finding:
    """Vacuum that the pump and reservoir give."""
    read = evidence.test_pressure("vacuum_supply", "p_kpa")
    if read is None:
        return check.missing()
    return check.judged(
        read.value,
        read.uncertainty,
        evidence.limit("vacuum_supply_kpa"),
        ("/tests/vacuum_supply/p_kpa",),
        may_acquit=read.known,
    )


def bypass_hold(evidence: Evidence, check: Check) -> Finding:
    """Pressure that the compressor bypass valve holds, and whether it seats."""
    if evidence.get("/tests/bypass_valve/seats") is False:
        return check.flag(False, ("/tests/bypass_valve/seats",))
    read = evidence.test_pressure("bypass_valve", "hold_kpa")
    if read is None:
        return all_true(check, evidence, (("/tests/bypass_valve/seats", True),))
    return check.judged(
        read.value,
        read.uncertainty,
        evidence.limit("bypass_hold_kpa"),
        ("/tests/bypass_valve/hold_kpa",),
        may_acquit=read.known,
    )


def radial_play(evidence: Evidence, check: Check) -> Finding:
    """Shaft play across."""
    return _play(evidence, check, "radial_play_mm", "shaft_radial_play_mm")


def axial_play(evidence: Evidence, check: Check) -> Finding:
    """Shaft play along."""
    return _play(evidence, check, "axial_play_mm", "shaft_axial_play_mm")


def wheels(evidence: Evidence, check: Check) -> Finding:
    """Compressor wheel whole, shaft spins free."""
    test = "/tests/turbo_inspection"
    return all_true(check, evidence, ((f"{test}/wheel_damage", False), (f"{test}/spins_free", True)))


def wastegate_seat(evidence: Evidence, check: Check) -> Finding:
    """The valve in the housing seats and is whole (exhaust off, or by borescope)."""
    test = "/tests/wastegate_inspection"
    return all_true(check, evidence, ((f"{test}/seats", True), (f"{test}/damage", False)))


def exhaust_leak(evidence: Evidence, check: Check) -> Finding:
    """No soot and no hiss at the joints before the turbine."""
    return all_true(check, evidence, (("/tests/exhaust_leak/soot_or_hiss", False),))


def egr_closes(evidence: Evidence, check: Check) -> Finding:
    """The exhaust recirculation valve closes."""
    return all_true(check, evidence, (("/tests/egr/closes", True),))


def throttle_opens(evidence: Evidence, check: Check) -> Finding:
    """Throttle and intake flaps open fully."""
    return all_true(check, evidence, (("/tests/throttle/opens_fully", True),))


def engine_health(evidence: Evidence, check: Check) -> Finding:
    """Fuel pressure in order, no misfire, compression even."""
    test = "/tests/engine_health"
    places = (
        (f"{test}/fuel_pressure_in_order", True),
        (f"{test}/misfire", False),
        (f"{test}/compression_even", True),
    )
    return all_true(check, evidence, places)


def _full_load(evidence: Evidence, check: Check, test: str, limit: str, sign: float = 1.0) -> Finding:
    read = evidence.test_pressure(test, "p_kpa")
    if read is None:
        return check.missing()
    if evidence.get(f"/tests/{test}/load") == "none":
        return check.missing("not_at_full_load")
    return check.judged(
        sign * read.value,
        read.uncertainty,
        evidence.limit(limit),
        (f"/tests/{test}/p_kpa",),
        may_acquit=read.known,
    )


def _play(evidence: Evidence, check: Check, key: str, limit: str) -> Finding:
    value = evidence.number(f"/tests/turbo_inspection/{key}")
    if value is None:
        return check.missing()
    return check.judged(
        value, STANDARD["play_mm"], evidence.limit(limit), (f"/tests/turbo_inspection/{key}",)
    )
