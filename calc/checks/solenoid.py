"""The control solenoid: coil, supply, ground, and whether the control pressure follows its duty."""

from itertools import pairwise
from math import hypot

from calc.checks.evidence import COIL_OHM, RELATIVE, STANDARD, VOLT, Evidence
from calc.checks.finding import Check, Finding
from calc.physics.solenoid import resistance_at_20c
from calc.uncertainty.decision import Limit

DROP_V = 0.5
FOLLOWS_PCT = {"changeover": 85.0, "bleed": 60.0, "unknown": 60.0}
OPEN_CIRCUIT_OHM = 1e5
UNKNOWN_TEMPERATURE_C, UNKNOWN_TEMPERATURE_STANDARD = 20.0, 10.0
COPPER_PER_KELVIN = 0.00393


def coil(evidence: Evidence, check: Check) -> Finding:
    """Coil resistance corrected to 20 degC (annealed copper)."""
    ohm = evidence.number("/tests/solenoid/coil_ohm")
    if ohm is None:
        return check.missing()
    typed = evidence.number("/tests/solenoid/coil_c")
    celsius, doubt_c = typed, STANDARD["coil_temperature_c"]
    if celsius is None:
        celsius, doubt_c = UNKNOWN_TEMPERATURE_C, UNKNOWN_TEMPERATURE_STANDARD
    celsius = max(-60.0, min(250.0, celsius))
    at_20 = resistance_at_20c(ohm, celsius)
    doubt = hypot(RELATIVE["coil"] * at_20, COIL_OHM, at_20 * COPPER_PER_KELVIN * doubt_c)
    places = ("/tests/solenoid/coil_ohm",) + (("/tests/solenoid/coil_c",) if typed is not None else ())
    limit = evidence.limit("solenoid_coil_ohm_20c")
    open_circuit = ohm >= OPEN_CIRCUIT_OHM
    if limit is None and open_circuit:
        limit = Limit(high=OPEN_CIRCUIT_OHM)
    return check.judged(at_20, doubt, limit, places, open_circuit=open_circuit)


def supply(evidence: Evidence, check: Check) -> Finding:
    """Voltage lost on the supply side with the coil energised."""
    return _drop(evidence, check, "supply_drop_v")


def ground(evidence: Evidence, check: Check) -> Finding:
    """Voltage lost on the ground side with the coil energised (a transistor switches it)."""
    return _drop(evidence, check, "ground_drop_v")


def hoses(evidence: Evidence, check: Check) -> Finding:
    """Control hoses sound and on their right ports."""
    sound = evidence.get("/tests/solenoid/hoses_sound")
    fault = evidence.get("/tests/solenoid/hoses_fault")
    if sound is None and fault is None:
        return check.missing()
    in_order = fault is None and bool(sound)
    places = ("/tests/solenoid/hoses_fault",) if fault is not None else ("/tests/solenoid/hoses_sound",)
    return check.flag(in_order, places, fault=fault)


def response(evidence: Evidence, check: Check) -> Finding:
    """Share of the supply over which the control pressure follows the duty in the bench sweep."""
    gauge = evidence.get("/tests/solenoid/gauge")
    rows = []
    for pointer, item in evidence.items("/tests/solenoid/sweep"):
        duty, fed, got = item.get("duty_pct"), item.get("supply_kpa"), item.get("control_kpa")
        if duty is None or fed is None or got is None:
            continue
        supply_read, control_read = evidence.pressure(fed, gauge), evidence.pressure(got, gauge)
        if abs(supply_read.value) > 4.0 * supply_read.own + 1.0:
            share = 100.0 * control_read.value / supply_read.value
            doubt = 100.0 * hypot(control_read.own, share / 100.0 * supply_read.own) / abs(supply_read.value)
            rows.append((duty, share, doubt, pointer, supply_read.known))
    if len(rows) < 2:
        return check.missing()
    rows.sort(key=lambda row: row[0])
    shares = [row[1] for row in rows]
    doubt = hypot(rows[0][2], rows[-1][2])
    span = max(shares) - min(shares)
    falls = shares[-1] < shares[0]
    steps = [(a[1] - b[1]) * (1 if falls else -1) for a, b in pairwise(rows)]
    back = max((-step for step in steps), default=0.0)
    monotone = back <= 2.0 * hypot(doubt, doubt)
    limit = Limit(low=FOLLOWS_PCT[evidence.kind.arrangement])
    places = tuple(f"{row[3]}/control_kpa" for row in rows)
    level = sum(1 for share in shares if share >= 50.0) * 2 >= len(shares)
    return check.judged(
        span if monotone else max(0.0, span - back),
        doubt,
        limit,
        places,
        may_acquit=rows[0][4] and monotone,
        typical=True,
        stays="passing" if level else "venting",
        by_bench=evidence.get("/tests/solenoid/driven_by") == "bench",
    )


def _drop(evidence: Evidence, check: Check, key: str) -> Finding:
    volts = evidence.number(f"/tests/solenoid/{key}")
    if volts is None:
        return check.missing()
    limit, typical = evidence.limit(key), False
    if limit is None:
        limit, typical = Limit(high=DROP_V), True
    doubt = hypot(RELATIVE["voltage"] * volts, VOLT)
    return check.judged(volts, doubt, limit, (f"/tests/solenoid/{key}",), typical=typical)
