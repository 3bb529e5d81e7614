"""Is the charge circuit tight? Smoke finds a leak, pressure decay sizes it."""

from dataclasses import dataclass, replace
from math import fsum, hypot, sqrt

from calc.checks.evidence import RELATIVE, STANDARD, Evidence
from calc.checks.finding import Check, Finding
from calc.errors import OutOfRange
from calc.physics.leak import area_from_decay
from calc.physics.orifice import hole_area, hole_diameter, mass_flow
from calc.physics.units import kelvin
from calc.uncertainty.decision import Limit, chances, outcome
from calc.uncertainty.gauge import Pressure

DISCHARGE_COEFFICIENT = 0.62
DISCHARGE_UNCERTAINTY = 0.03  # standard
WORKSHOP_AIR_C = 20.0
SMALL_FALL = 0.005  # share of the absolute start pressure below which the fall is taken as a straight line
STEP = 1e-3  # relative step of the numerical derivatives


def smoke_leak(evidence: Evidence, check: Check) -> Finding:
    """Was smoke seen? It accuses, it never clears: some leaks open only hot, at boost, or inside."""
    seen = evidence.get("/tests/smoke/leak_seen")
    places = [pointer for pointer, _ in evidence.items("/tests/smoke/places")]
    if seen is None and not places:
        return check.missing()
    leaking = bool(places) if seen is None else bool(seen)
    names = [str(item["where"]) for _, item in evidence.items("/tests/smoke/places") if item.get("where")]
    read_from = ("/tests/smoke/leak_seen",) if seen is not None else tuple(places)
    return check.flag(not leaking, read_from, places=names)


@dataclass(frozen=True, slots=True)
class _Decay:
    """Inputs of the decay model: gauge pressures and barometric in kPa, litres, seconds, degC."""

    start: float
    end: float
    seconds: float
    volume_l: float
    discharge: float
    air_c: float
    barometric: float

    def area(self) -> float:
        """Area of the sharp-edged hole that explains the fall. [m2]"""
        start, end = (self.start + self.barometric) * 1e3, (self.end + self.barometric) * 1e3
        temperature, ambient = kelvin(self.air_c), self.barometric * 1e3
        if abs(start - end) > SMALL_FALL * start:
            return area_from_decay(
                self.volume_l / 1e3, self.discharge, start, end, self.seconds, ambient, temperature
            )
        mean = (start + end) / 2.0
        loss = self.volume_l / 1e3 * (start - end) / (self.seconds * 287.05 * temperature)
        return loss / mass_flow(self.discharge, 1.0, mean, ambient, temperature)


def charge_leak_hole(evidence: Evidence, check: Check) -> Finding:
    """The equivalent sharp-edged hole of the charge circuit, decided on its area.

    Isothermal vessel emptying through one hole (reference: `calc.physics.leak`). A circuit that
    emptied between two readings gives a lower bound, which may accuse and never clears.
    """
    rows = sorted(
        (
            (item["t_s"], pointer, item["p_kpa"])
            for pointer, item in evidence.items("/tests/charge_decay/readings")
            if item.get("t_s") is not None and item.get("p_kpa") is not None
        ),
        key=lambda row: row[0],
    )
    volume = evidence.number("/tests/charge_decay/volume_l")
    if len(rows) < 2:
        return check.missing()
    if volume is None or volume <= 0.0:
        return check.missing("no_volume")
    gauge = evidence.get("/tests/charge_decay/gauge")
    read = [(t, pointer, evidence.pressure(p, gauge)) for t, pointer, p in rows]
    first, last, emptied = _ends(read)
    if last is None or last[0] <= first[0] or first[2].value <= 0.0:
        return check.missing("no_fall_to_judge")
    end = last[2]
    if emptied:
        end = replace(end, value=max(end.value, 0.0) + 2.0 * hypot(end.own, end.shared))
        if end.value >= first[2].value:
            return check.missing("no_fall_to_judge")
    read_from = (f"{first[1]}/p_kpa", f"{last[1]}/p_kpa", "/tests/charge_decay/volume_l")
    inputs = _Decay(
        first[2].value,
        end.value,
        last[0] - first[0],
        volume,
        DISCHARGE_COEFFICIENT,
        _air_temperature(evidence),
        evidence.barometric.value,
    )
    try:
        area = inputs.area()
        doubt = _area_doubt(inputs, first[2], end, _volume_doubt(evidence, volume), evidence)
    except OutOfRange:
        return check.missing("no_fall_to_judge")
    return _decided(evidence, check, area, doubt, read_from, emptied, first[2].known)


def _ends(
    read: list[tuple[float, str, Pressure]],
) -> tuple[tuple[float, str, Pressure], tuple[float, str, Pressure] | None, bool]:
    """First reading, the last one that still holds pressure, and whether the circuit emptied before it."""
    holding = [row for row in read if row[2].value > 2.0 * row[2].own + 1.0]
    if len(holding) >= 2 and holding[0] is read[0]:
        return read[0], holding[-1], False
    return read[0], read[1] if len(read) > 1 else None, True


def _air_temperature(evidence: Evidence) -> float:
    air = evidence.number("/tests/charge_decay/air_c")
    if air is None:
        air = evidence.number("/site/ambient_c")
    return WORKSHOP_AIR_C if air is None else max(-60.0, min(150.0, air))


def _volume_doubt(evidence: Evidence, volume: float) -> float:
    typed = evidence.number("/tests/charge_decay/volume_u_l")
    return RELATIVE["volume"] * volume if typed is None else abs(typed) / 2.0


def _area_doubt(
    inputs: _Decay, start: Pressure, end: Pressure, volume_doubt: float, evidence: Evidence
) -> float:
    """Standard uncertainty of the area by first-order propagation; the gauge's class shifts both ends."""
    shared = max(start.shared, end.shared)
    both = replace(inputs, start=inputs.start + STEP, end=inputs.end + STEP).area() - inputs.area()
    shares = (
        _slope(inputs, "start") * start.own,
        _slope(inputs, "end") * end.own,
        both / STEP * shared,
        _slope(inputs, "volume_l") * volume_doubt,
        _slope(inputs, "discharge") * DISCHARGE_UNCERTAINTY,
        _slope(inputs, "air_c") * STANDARD["temperature_c"],
        _slope(inputs, "barometric") * evidence.barometric.uncertainty,
    )
    return sqrt(fsum(share * share for share in shares))


def _slope(inputs: _Decay, name: str) -> float:
    here: float = getattr(inputs, name)
    step = STEP * max(1.0, abs(here))
    up = replace(inputs, **{name: here + step}).area()
    down = replace(inputs, **{name: here - step}).area()
    return (up - down) / (2.0 * step)


def _decided(
    evidence: Evidence,
    check: Check,
    area: float,
    doubt: float,
    read_from: tuple[str, ...],
    emptied: bool,
    known: bool,
) -> Finding:
    diameter = hole_diameter(max(area, 0.0))
    widest = hole_diameter(max(area, 0.0) + 2.0 * doubt)
    narrowest = hole_diameter(max(area - 2.0 * doubt, 0.0))
    expanded = max(widest - diameter, diameter - narrowest if area > 2.0 * doubt else 0.0)
    limit = evidence.limit("charge_leak_hole_mm")
    found = Finding(
        check.name,
        check.unit,
        value=diameter * 1e3,
        uncertainty=expanded * 1e3 / 2.0,
        limit=limit,
        read_from=read_from,
        source=check.source,
        lower_bound=emptied,
        facts={"area_m2": area, "area_u_m2": doubt, "widest_mm": widest * 1e3},
    )
    if limit is None:
        return replace(found, facts={**found.facts, "because": "no_limit"})
    areas = Limit(_area(limit.low), _area(limit.high))
    seen = chances(area, doubt, areas)
    return replace(
        found,
        chances=seen,
        outcome=outcome(area, areas, seen, may_acquit=known and not emptied),
    )


def _area(diameter_mm: float | None) -> float | None:
    return None if diameter_mm is None else hole_area(diameter_mm / 1e3)
