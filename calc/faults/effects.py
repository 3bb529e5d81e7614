"""What a defect of the size measured does to boost: computed from the readings, never guessed.

Each function gives an `Effect` (signed, more boost positive) or None where the size was not measured.
"""

from collections.abc import Callable
from math import hypot, inf

from calc.checks.evidence import STANDARD, Evidence
from calc.checks.finding import Finding
from calc.checks.moments import settled
from calc.checks.run_log import CHARGE_SIDE
from calc.errors import OutOfRange
from calc.faults.model import Effect, Findings
from calc.physics.engine_air import speed_density_mass_flow
from calc.physics.orifice import mass_flow
from calc.physics.solenoid import two_orifice_pressure
from calc.physics.units import kelvin

ENGINE_EFFICIENCY, ENGINE_AIR_EXPANDED = 0.9, 0.10  # share; engine-air doubt is 5 to 10 %, common practice
DISCHARGE_COEFFICIENT = 0.62
CHARGE_AIR_C = 45.0  # where no charge temperature was read; common practice, no source
FULL_LOAD_RPM = 3500.0  # where no engine speed was noted; common practice, no source
ACTUATOR_ML = 60.0  # volume behind the diaphragm where it was not typed; common practice, no source
EMPTY_SHARE = 0.05  # of the pressure held; less is left than a gauge shows
TORN_SHARE_A_MINUTE = 0.2  # of the pressure held
RESTRICTOR_M2 = 0.8e-6  # a 1 mm supply restrictor; common practice, no source
WASTEGATE_OPEN_SHARE = 0.3  # of the way from first movement to full travel where base boost settles


def unbounded(sign: int) -> Callable[[Evidence, Findings], Effect | None]:
    """Boost runs away in one direction until the control unit cuts."""
    return lambda evidence, findings: Effect(sign * inf, 0.0)


def preload(evidence: Evidence, findings: Findings) -> Effect | None:
    """Base boost moves with the start pressure: error of the start from the middle of its limit.

    For vacuum a start at less depth closes the vanes or the gate earlier, so boost rises by it.
    """
    start = findings["actuator_start"]
    limit = start.limit
    if start.value is None or limit is None:
        return None
    ends = [end for end in (limit.low, limit.high) if end is not None]
    middle = limit.middle if limit.middle is not None else ends[0]
    half_width = (ends[-1] - ends[0]) / 2.0
    return Effect(start.value - middle, hypot(start.expanded_uncertainty or 0.0, half_width))


def leak(evidence: Evidence, findings: Findings) -> Effect | None:
    """What the measured hole loses at full load, as a share of the engine's air, taken from the boost.

    share = m_hole / m_engine (choked orifice; speed-density); boost lost = share · absolute pressure, for
    a compressor that cannot give more.
    """
    hole = findings["charge_leak_hole"]
    litres = evidence.number("/vehicle/displacement_l")
    if hole.value is None or not litres:
        return None
    pressure, rpm = _full_load(evidence)
    temperature, ambient = kelvin(CHARGE_AIR_C), evidence.barometric.value * 1e3
    area, doubt = hole.facts["area_m2"], hole.facts["area_u_m2"]
    try:
        engine = speed_density_mass_flow(ENGINE_EFFICIENCY, litres / 1e3, rpm, pressure * 1e3, temperature)
        lost = mass_flow(DISCHARGE_COEFFICIENT, max(area, 0.0), pressure * 1e3, ambient, temperature)
    except OutOfRange:
        return None
    share = lost / engine
    relative = hypot(ENGINE_AIR_EXPANDED, 2.0 * doubt / area if area > 0.0 else 1.0)
    if hole.lower_bound:
        return Effect(-inf, 0.0)
    return Effect(-share * pressure, share * pressure * relative)


def diaphragm(evidence: Evidence, findings: Findings) -> Effect | None:
    """A leaking diaphragm bleeds the control line: supply restrictor and leak in series.

    The hold test's loss gives the leak's area (isothermal volume); the control pressure that it costs has
    to be made up by boost. Emptied in the test, the leak has no upper bound. A tear opens further on the
    road than on the pump, so the loss of a fair share of the pressure is not sized (common practice).
    """
    hold = findings["actuator_hold"]
    loss, held = hold.value, evidence.number("/tests/actuator/hold/p_kpa")
    if hold.facts.get("pump_cannot_reach"):
        return Effect(-inf if evidence.kind.vacuum else inf, 0.0)
    if loss is None or not held:
        return None
    left = evidence.number("/tests/actuator/hold/p_end_kpa") or 0.0
    sign = -1.0 if evidence.kind.vacuum else 1.0
    if abs(left) <= EMPTY_SHARE * abs(held):
        return Effect(sign * inf, 0.0)
    if loss >= TORN_SHARE_A_MINUTE * abs(held):
        return None
    volume = evidence.number("/tests/actuator/hold/volume_ml") or ACTUATOR_ML
    ambient = evidence.barometric.value * 1e3
    pressure, _ = _full_load(evidence)
    if held <= 0.0:
        return Effect(-max(loss, 0.0) / 60.0, 0.0)  # a vacuum pump makes up for a weep at once
    per_second = max(loss, 0.0) * 1e3 / 60.0 * volume * 1e-6 / (287.05 * kelvin(20.0))
    try:
        area = per_second / mass_flow(1.0, 1.0, ambient + held * 1e3, ambient, kelvin(20.0))
        supply = max(pressure * 1e3, ambient + 1e3)
        left = two_orifice_pressure(area / RESTRICTOR_M2, supply, ambient)
    except OutOfRange:
        return None
    missing = (supply - left) / 1e3
    return Effect(missing, 0.5 * missing)


def sensor(evidence: Evidence, findings: Findings) -> Effect | None:
    """A sensor that reads high by so much holds real boost low by as much."""
    for name in ("road_sensor", "rest_charge_pressure"):
        found = findings[name]
        if found.outcome == "outside" and found.value is not None:
            return Effect(-found.value, found.expanded_uncertainty or 0.0)
    return None


def fail_safe(evidence: Evidence, findings: Findings) -> Effect | None:
    """A dead solenoid leaves base boost, or runs to the other end, by what the duty does on this car."""
    rises = evidence.kind.unplugged_raises_boost
    if rises is None:
        return None
    if rises:
        return Effect(inf, 0.0)
    aimed = _aimed(evidence)
    base = _base_boost(evidence)
    if aimed is None or base is None:
        return Effect(-inf, 0.0)
    gauge = aimed - evidence.barometric.value
    return Effect(min(0.0, base[0] - gauge), base[1])


def excess(name: str, sign: float) -> Callable[[Evidence, Findings], Effect | None]:
    """Boost lost by as much as a pressure drop lies beyond its limit."""

    def effect(evidence: Evidence, findings: Findings) -> Effect | None:
        found = findings[name]
        if found.outcome != "outside" or found.value is None or found.limit is None:
            return None
        end = found.limit.nearest_end(found.value)
        return None if end is None else Effect(sign * abs(found.value - end), _expanded(found))

    return effect


def _expanded(found: Finding) -> float:
    return found.expanded_uncertainty or 0.0


def _full_load(evidence: Evidence) -> tuple[float, float]:
    """Absolute charge pressure and engine speed of the pulls, or what the maker aims at. [kPa, rev/min]"""
    for moment in settled(evidence):
        rpm = moment.number("engine_rpm") or FULL_LOAD_RPM
        gauge = moment.gauge_at(*CHARGE_SIDE)
        if gauge is not None:
            return gauge[0].value + evidence.barometric.value, rpm
        said = moment.number("boost_actual_kpa_abs") or moment.number("boost_specified_kpa_abs")
        if said is not None:
            return said, rpm
    peak = evidence.limit("boost_specified_peak_kpa_abs")
    ends = [end for end in (peak.low, peak.high) if end is not None] if peak else []
    return (ends[-1] if ends else 200.0), FULL_LOAD_RPM


def _aimed(evidence: Evidence) -> float | None:
    aimed = [moment.number("boost_specified_kpa_abs") for moment in settled(evidence)]
    given = [value for value in aimed if value is not None]
    return max(given) if given else None


def _base_boost(evidence: Evidence) -> tuple[float, float] | None:
    """Base boost and its expanded doubt: the maker's, else from the actuator's limits. [kPa]"""
    base = evidence.limit("base_boost_kpa")
    if base is not None and base.low is not None and base.high is not None:
        return (base.low + base.high) / 2.0, (base.high - base.low) / 2.0
    start, full = evidence.limit("actuator_start_kpa"), evidence.limit("actuator_full_kpa")
    if start is None or full is None or start.middle is None or full.middle is None:
        return None
    way = full.middle - start.middle
    return start.middle + WASTEGATE_OPEN_SHARE * way, WASTEGATE_OPEN_SHARE * way + STANDARD["request_kpa"]
