"""Is the charge circuit tight? Smoke finds a leak, pressure decay sizes it."""

from dataclasses import dataclass, fields, replace
from math import hypot

from calc.checks.evidence import RELATIVE, STANDARD, Evidence, Value
from calc.checks.finding import Check, Finding
from calc.errors import OutOfRange
from calc.physics.leak import (
    Model,
    area_from_decay,
    mass_leak_rate,
    thermal_pressure_change,
    volume_from_strokes,
    volume_from_tank,
)
from calc.physics.orifice import hole_area, hole_diameter, mass_flow
from calc.physics.units import kelvin
from calc.uncertainty.decision import Limit, chances, outcome
from calc.uncertainty.gauge import Pressure, difference
from calc.uncertainty.propagation import propagate

TEST = "/tests/charge_decay"
VOLUME_KEYS = ("strokes", "stroke_ml", "tank_l", "tank_from_kpa", "tank_to_kpa", "from_kpa", "to_kpa")
WAYS = ("from", "to")
Reading = tuple[float, str, Pressure]  # time in s, where it stands, pressure

DISCHARGE_COEFFICIENT = 0.62
DISCHARGE_UNCERTAINTY = 0.03  # standard
WORKSHOP_AIR_C = 20.0
SMALL_FALL = 0.005  # share of the absolute start pressure below which the fall is taken as a straight line


def smoke_leak(evidence: Evidence, check: Check) -> Finding:
    """Was smoke seen? It accuses, it never clears: some leaks open only hot, at boost, or inside."""
    seen = evidence.get("/tests/smoke/leak_seen")
    places = [pointer for pointer, _ in evidence.items("/tests/smoke/places")]
    if seen is None and not places:
        return check.missing()
    leaking = bool(places) if seen is None else bool(seen)
    names = [str(item["where"]) for _, item in evidence.items("/tests/smoke/places") if item.get("where")]
    read_from = ("/tests/smoke/leak_seen",) if seen is not None else tuple(places)
    sizes = {item.get("size") for _, item in evidence.items("/tests/smoke/places")}
    return check.flag(not leaking, read_from, places=names, only_weeps=sizes == {"weep"})


@dataclass(frozen=True, slots=True)
class Decay:
    """Inputs of the decay model: gauge pressures and barometric in kPa, litres, seconds, degC."""

    start: float
    end: float
    seconds: float
    volume_l: float
    discharge: float
    air_c: float
    warmed_c: float
    barometric: float

    def area(self, model: Model = "isothermal") -> float:
        """Area of the sharp-edged hole that explains the fall, what warming did taken out. [m2]

        A rise counts as a fall the other way round, negative: doubt of a small fall reaches there.
        """
        temperature, ambient = kelvin(self.air_c), self.barometric * 1e3
        start = (self.start + self.barometric) * 1e3
        end = (self.end + self.barometric) * 1e3 * temperature / (temperature + self.warmed_c)
        top, bottom = max(start, end), min(start, end)
        volume = self.volume_l / 1e3
        if top - bottom > SMALL_FALL * top:
            size = area_from_decay(
                volume, self.discharge, top, bottom, self.seconds, ambient, temperature, model
            )
        else:
            loss = mass_leak_rate(volume, top, temperature, bottom, temperature, self.seconds)
            size = loss / mass_flow(self.discharge, 1.0, (top + bottom) / 2.0, ambient, temperature)
        return size if start >= end else -size

    def one_kelvin(self) -> float:
        """Pressure that cooling by one degree takes off a tight circuit. [kPa]"""
        return thermal_pressure_change((self.start + self.barometric) * 1e3, kelvin(self.air_c), 1.0) / 1e3


def charge_leak_hole(evidence: Evidence, check: Check) -> Finding:
    """The equivalent sharp-edged hole of the charge circuit, decided on its area.

    Isothermal vessel emptying through one hole (reference: `calc.physics.leak`); a fast blow-down lies
    between that and the adiabatic hole, which is given beside it. A circuit that emptied between two
    readings gives a lower bound, which may accuse and never clears.
    """
    read = decay_readings(evidence)
    if len(read) < 2:
        return check.missing()
    volume = circuit_volume(evidence)
    if volume is None:
        return check.missing("no_volume")
    first, last, emptied = _ends(read)
    rise, rise_doubt = difference(last[2], first[2])
    if last[0] <= first[0] or first[2].value <= 0.0 or rise > 2.0 * rise_doubt:
        return check.missing("no_fall_to_judge")
    end = last[2]
    if emptied:
        end = replace(end, value=max(end.value, 0.0) + 2.0 * end.uncertainty)
    known = first[2].known and last[2].known
    inputs = _decay(evidence, first[2], end, last[0] - first[0], volume)
    doubts = _decay_doubts(evidence, first[2], end, volume, known=known)
    shared = max(first[2].shared, end.shared) if known else 0.0
    try:
        area, doubt = inputs.area(), _area_doubt(inputs, doubts, shared)
        adiabatic = inputs.area("adiabatic")
    except OutOfRange:
        return check.missing("no_fall_to_judge")
    places = (f"{first[1]}/p_kpa", f"{last[1]}/p_kpa", volume.pointer)
    found = _decided(check, area, doubt, evidence.limit("charge_leak_hole_mm"), known and not emptied)
    bound = {
        "adiabatic_mm": _diameter_mm(adiabatic),
        "adiabatic_area_m2": adiabatic,
        "one_kelvin_kpa": inputs.one_kelvin(),
        # the part of the doubt that grows with the hole
        "area_relative": hypot(
            volume.uncertainty / volume.value, DISCHARGE_UNCERTAINTY / DISCHARGE_COEFFICIENT
        ),
    }
    return replace(found, read_from=places, lower_bound=emptied, facts={**found.facts, **bound})


def _decay(evidence: Evidence, start: Pressure, end: Pressure, seconds: float, volume: Value) -> Decay:
    warmed, air = evidence.number(f"{TEST}/air_end_c"), air_temperature(evidence)
    return Decay(
        start=start.value,
        end=end.value,
        seconds=seconds,
        volume_l=volume.value,
        discharge=DISCHARGE_COEFFICIENT,
        air_c=air,
        warmed_c=0.0 if warmed is None else max(-60.0, min(60.0, warmed - air)),
        barometric=evidence.barometric.value,
    )


def _decay_doubts(
    evidence: Evidence, start: Pressure, end: Pressure, volume: Value, *, known: bool
) -> dict[str, float]:
    """Standard uncertainty of each input of the decay, the gauge's class left out where it is shared."""
    warmed = evidence.number(f"{TEST}/air_end_c")
    return {
        "start": start.own if known else start.uncertainty,
        "end": end.own if known else end.uncertainty,
        "volume_l": volume.uncertainty,
        "discharge": DISCHARGE_UNCERTAINTY,
        "air_c": STANDARD["temperature_c"],
        "warmed_c": 0.0 if warmed is None else STANDARD["temperature_difference_c"],
        "barometric": evidence.barometric.uncertainty,
    }


def decay_readings(evidence: Evidence) -> list[Reading]:
    """The decay's readings by time."""
    gauge = evidence.get(f"{TEST}/gauge")
    rows = [
        (float(item["t_s"]), pointer, evidence.pressure(item["p_kpa"], gauge))
        for pointer, item in evidence.items(f"{TEST}/readings")
        if item.get("t_s") is not None and item.get("p_kpa") is not None
    ]
    return sorted(rows, key=lambda row: row[0])


def _ends(read: list[Reading]) -> tuple[Reading, Reading, bool]:
    """First reading, the last one that still holds pressure, and whether the circuit emptied before it."""
    holding = [row for row in read if row[2].value > 2.0 * row[2].own + 1.0]
    if len(holding) >= 2 and holding[0] is read[0]:
        return read[0], holding[-1], False
    return read[0], read[1], True


def air_temperature(evidence: Evidence) -> float:
    """Temperature of the air in the circuit: as typed, else that outside, else a workshop's. [degC]"""
    air = evidence.number(f"{TEST}/air_c")
    if air is None:
        air = evidence.number("/site/ambient_c")
    return WORKSHOP_AIR_C if air is None else max(-60.0, min(150.0, air))


def circuit_volume(evidence: Evidence) -> Value | None:
    """Volume of the charge circuit: as typed, else by a tank of known volume, else by pump strokes. [l]"""
    place = f"{TEST}/volume_l"
    typed, doubt = evidence.number(place), evidence.number(f"{TEST}/volume_u_l")
    if typed is not None and typed > 0.0:
        return Value(typed, RELATIVE["volume"] * typed if doubt is None else abs(doubt) / 2.0, place)
    try:
        return _measured_volume(evidence)
    except OutOfRange:
        return None


def _measured_volume(evidence: Evidence) -> Value | None:
    place, gauge = f"{TEST}/volume_by", evidence.get(f"{TEST}/gauge")
    told = {key: evidence.number(f"{place}/{key}") for key in VOLUME_KEYS}
    given = {key: value for key, value in told.items() if value is not None}
    rise = [evidence.pressure(given[key], gauge) for key in ("from_kpa", "to_kpa") if key in given]
    if len(rise) < 2:
        return None
    outside = evidence.barometric.value
    start, end = (evidence.absolute(read).value * 1e3 for read in rise)
    if {"tank_l", "tank_from_kpa", "tank_to_kpa"} <= set(given):
        before, after = (
            evidence.absolute(evidence.pressure(given[f"tank_{way}_kpa"], gauge)).value * 1e3 for way in WAYS
        )
        cubic_metres = volume_from_tank(given["tank_l"] / 1e3, before, after, start, end)
    elif {"strokes", "stroke_ml"} <= set(given):
        cubic_metres = volume_from_strokes(
            given["strokes"], given["stroke_ml"] / 1e6, start, end, outside * 1e3
        )
    else:
        return None
    gap, doubt = difference(rise[1], rise[0])
    relative = hypot(RELATIVE["volume"], doubt / gap)
    return Value(cubic_metres * 1e3, cubic_metres * 1e3 * relative, place)


def _area_doubt(inputs: Decay, doubts: dict[str, float], shared: float) -> float:
    """Standard uncertainty of the area; the gauge's class error shifts start and end alike."""
    values = {item.name: getattr(inputs, item.name) for item in fields(inputs)}

    def area(shift: float = 0.0, **changed: float) -> float:
        moved = {"start": changed["start"] + shift, "end": changed["end"] + shift}
        return Decay(**{**changed, **moved}).area()

    return propagate(area, {**values, "shift": 0.0}, {**doubts, "shift": shared})


def _decided(check: Check, area: float, doubt: float, limit: Limit | None, may_acquit: bool) -> Finding:
    diameter = _diameter_mm(area)
    widest, narrowest = _diameter_mm(area + 2.0 * doubt), _diameter_mm(area - 2.0 * doubt)
    expanded = max(widest - diameter, diameter - narrowest if area > 2.0 * doubt else 0.0)
    found = Finding(
        check.name,
        check.unit,
        value=diameter,
        uncertainty=expanded / 2.0,
        limit=limit,
        source=check.source,
        facts={"area_m2": area, "area_u_m2": doubt, "widest_mm": widest},
    )
    if limit is None:
        return replace(found, facts={**found.facts, "because": "no_limit"})
    areas = Limit(_area(limit.low), _area(limit.high))
    seen = chances(area, doubt, areas)
    return replace(found, chances=seen, outcome=outcome(area, areas, seen, may_acquit=may_acquit))


def _diameter_mm(area: float) -> float:
    return hole_diameter(max(area, 0.0)) * 1e3


def _area(diameter_mm: float | None) -> float | None:
    return None if diameter_mm is None else hole_area(diameter_mm / 1e3)
