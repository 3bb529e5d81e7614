"""The control solenoid: coil, supply, ground, and whether the control pressure follows its duty."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import hypot, sqrt

from calc.checks.evidence import STANDARD, Evidence, coil_doubt, voltage_doubt
from calc.checks.finding import Check, Finding
from calc.errors import OutOfRange
from calc.physics.solenoid import COPPER_COEFFICIENT, coil_temperature, resistance_at, resistance_at_20c
from calc.uncertainty.decision import Chances, Limit

DROP_V = 0.5
FOLLOWS_PCT = {"changeover": 85.0, "bleed": 60.0, "unknown": 60.0}
STANDS_STILL_PCT = 30.0  # of the supply: a wider answer is an answer; common practice, no source
OPEN_CIRCUIT_OHM = 1e5
UNKNOWN_TEMPERATURE_C, UNKNOWN_TEMPERATURE_STANDARD = 20.0, 10.0
HOTTEST_COIL_C = 150.0  # beyond this no heat explains a reading; common practice, no source
NOT_FOLLOWING = Chances(0.95, 0.05, 0.0)  # a step back beyond what two readings may be apart
APART = sqrt(6.0)  # standard uncertainties by which two rounded readings of one pressure may differ at most
JUMPS = 4.0  # times as steep as the sweep as a whole; common practice, no source


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
    warm = ohm / at_20 if at_20 else 1.0
    doubt = hypot(coil_doubt(ohm) / warm, at_20 * COPPER_COEFFICIENT * doubt_c / warm)
    places = ("/tests/solenoid/coil_ohm",) + (("/tests/solenoid/coil_c",) if typed is not None else ())
    limit = evidence.limit("solenoid_coil_ohm_20c")
    open_circuit = ohm >= OPEN_CIRCUIT_OHM
    typical = limit is None and open_circuit
    if typical:
        limit = Limit(high=OPEN_CIRCUIT_OHM)
    return check.judged(at_20, doubt, limit, places, typical=typical, open_circuit=open_circuit, grows=1)


@dataclass(frozen=True, slots=True)
class Warm:
    """The coil's limit at the temperature typed in, and from which temperature on heat explains the reading.

    celsius, low, high : that temperature and the limit's ends there; None where no temperature or limit was
        typed in. [degC, ohm]
    explained_at_c : mean temperature of the winding at which an intact coil reads as this one does; None
        where it reads no more than allowed, or more than heat explains. [degC]
    """

    celsius: float | None = None
    low: float | None = None
    high: float | None = None
    explained_at_c: float | None = None


def warm_coil(evidence: Evidence, found: Finding) -> Warm:
    """What the coil's own warmth does to its limit and may do to its reading."""
    ohm, celsius = evidence.number("/tests/solenoid/coil_ohm"), evidence.number("/tests/solenoid/coil_c")
    limit = evidence.limit("solenoid_coil_ohm_20c")
    if ohm is None or limit is None:
        return Warm()
    beyond = limit.high is not None and found.value is not None and found.value > limit.high
    hot = _explained_at(limit.high, ohm) if beyond else None
    if celsius is None:
        return Warm(explained_at_c=hot)
    try:
        low, high = (None if end is None else resistance_at(end, celsius) for end in (limit.low, limit.high))
    except OutOfRange:
        return Warm(explained_at_c=hot)
    return Warm(celsius, low, high, hot)


def _explained_at(high: float | None, ohm: float) -> float | None:
    try:
        celsius = None if high is None else coil_temperature(high, ohm)
    except OutOfRange:
        return None
    return celsius if celsius is not None and UNKNOWN_TEMPERATURE_C < celsius <= HOTTEST_COIL_C else None


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


@dataclass(frozen=True, slots=True)
class Row:
    """One duty of the bench sweep: the share of the supply that arrives. [%, kPa]

    supply : pressure fed, negative for vacuum. [kPa]
    own : standard uncertainty of the share from how finely both pressures were read. [%]
    shared : relative standard uncertainty of every share from the gauge's class. [-]
    """

    pointer: str
    duty: float
    supply: float
    share: float
    own: float
    shared: float
    known: bool


def response(evidence: Evidence, check: Check) -> Finding:
    """Share of the supply over which the control pressure follows the duty in the bench sweep.

    A step back beyond what two readings may be apart is not following, however far the rest reaches.
    """
    rows = sweep(evidence)
    if len(rows) < 2:
        return check.missing()
    falls = rows[-1].share < rows[0].share
    highest, lowest = max(rows, key=lambda row: row.share), min(rows, key=lambda row: row.share)
    span = highest.share - lowest.share
    monotone = all(_follows(before, after, falls) for before, after in pairwise(rows))
    found = check.judged(
        span if monotone else _longest_run(rows, falls),
        hypot(highest.own, lowest.own, span * highest.shared),
        Limit(low=FOLLOWS_PCT[evidence.kind.arrangement]),
        tuple(f"{row.pointer}/{key}" for row in rows for key in ("control_kpa", "supply_kpa")),
        may_acquit=all(row.known for row in rows),
        typical=True,
        monotone=monotone,
        jump=_jump(rows, span),
        stays=_manner(evidence, rows, span, falls),
        by_bench=evidence.get("/tests/solenoid/driven_by") == "bench",
    )
    if monotone or found.outcome == "outside":
        return found
    return replace(found, outcome="outside", chances=NOT_FOLLOWING)


def _jump(rows: Sequence[Row], span: float) -> tuple[float, float] | None:
    """The widest step that is a jump and no course: what it moves, within what duty; None: smooth. [%]"""
    whole = rows[-1].duty - rows[0].duty
    if whole <= 0.0:
        return None
    steps = [
        (abs(after.share - before.share), after.duty - before.duty, APART * hypot(before.own, after.own))
        for before, after in pairwise(rows)
    ]
    jumps = [(moved, duty) for moved, duty, u in steps if moved - u > JUMPS * span * duty / whole]
    return max(jumps, default=None)


def sweep(evidence: Evidence) -> list[Row]:
    """The rows of the bench sweep that hold a supply worth the name, by duty."""
    gauge = evidence.get("/tests/solenoid/gauge")
    rows = []
    for pointer, item in evidence.items("/tests/solenoid/sweep"):
        duty, fed, got = item.get("duty_pct"), item.get("supply_kpa"), item.get("control_kpa")
        if duty is None or fed is None or got is None:
            continue
        supply_read, control = evidence.pressure(fed, gauge), evidence.pressure(got, gauge)
        fed_kpa = supply_read.value
        if abs(fed_kpa) > 4.0 * supply_read.own + 1.0:
            ratio = control.value / supply_read.value
            known = supply_read.known  # what no gauge is known of shares nothing
            each = supply_read.own if known else supply_read.uncertainty
            own = 100.0 * each * hypot(1.0, ratio) / abs(fed_kpa)
            shared = supply_read.shared / abs(fed_kpa) if known else 0.0
            rows.append(Row(pointer, float(duty), fed_kpa, 100.0 * ratio, own, shared, known))
    return sorted(rows, key=lambda row: row.duty)


def _manner(evidence: Evidence, rows: Sequence[Row], span: float, falls: bool) -> str:
    """How the pressure goes with duty: always `passing`, always `venting`, `turned` round, in `part`."""
    if span <= STANDS_STILL_PCT:
        level = sum(1 for row in rows if row.share >= 50.0) * 2 >= len(rows)
        return "passing" if level else "venting"
    raises = evidence.kind.more_duty
    turned = raises is not None and falls != ((raises == "raises_boost") != evidence.kind.vacuum)
    return "turned" if turned else "part"


def _follows(before: Row, after: Row, falls: bool) -> bool:
    back = after.share - before.share if falls else before.share - after.share
    return back <= APART * hypot(before.own, after.own)


def _longest_run(rows: Sequence[Row], falls: bool) -> float:
    """The widest span of a stretch that follows."""
    widest, start = 0.0, 0
    for place in range(1, len(rows)):
        if not _follows(rows[place - 1], rows[place], falls):
            start = place
        widest = max(widest, abs(rows[place].share - rows[start].share))
    return widest


def _drop(evidence: Evidence, check: Check, key: str) -> Finding:
    volts = evidence.number(f"/tests/solenoid/{key}")
    if volts is None:
        return check.missing()
    limit, typical = evidence.limit(key), False
    if limit is None:
        limit, typical = Limit(high=DROP_V), True
    return check.judged(volts, voltage_doubt(volts), limit, (f"/tests/solenoid/{key}",), typical=typical)
