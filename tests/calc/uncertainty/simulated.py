"""Simulated jobs whose true values are known: the world, the instruments, and what a technician writes down.

Model of the instruments: a gauge has one error for the whole job, drawn evenly within its class, and each
reading is off by up to half of what is read; everything else is off by a normal error of half the doubt that
the contract gives. Model of the cars: the project's own formulas.
"""

import random
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from calc.checks import BY_NAME
from calc.checks.evidence import Evidence
from calc.checks.finding import Finding
from calc.job import without_nulls
from calc.physics.engine_air import speed_density_mass_flow
from calc.physics.leak import pressure_after
from calc.physics.orifice import hole_area

Truth = dict[str, float]
Job = dict[str, Any]
OUTSIDE = 100.0  # kPa
READ_TO_KPA = 5.0  # half of a division of 10
CLASS_KPA = 6.4  # 1.6 % of 400
GAUGES = [
    {"id": name, "kind": "analogue", "span_kpa": [0, 400], "class_pct": 1.6, "division_kpa": 10}
    for name in ("g1", "g2")
]


@dataclass
class Shop:
    """Instruments of one job. `rounded`: what the division shows is written; else a draw as in JCGM 101."""

    rng: random.Random
    rounded: bool = True
    exact: bool = False
    errors: dict[str, float] = field(default_factory=dict)

    def gauge(self, kpa: float, name: str = "g1") -> float:
        if self.exact:
            return kpa
        error = self.errors.setdefault(name, self.rng.uniform(-CLASS_KPA, CLASS_KPA))
        if self.rounded:
            return READ_TO_KPA * round((kpa + error) / READ_TO_KPA)
        return kpa + error + self.rng.uniform(-READ_TO_KPA / 2.0, READ_TO_KPA / 2.0)

    def behind(self, shown: float, name: str = "g1") -> float:
        """The true pressure when the needle is brought to a mark."""
        if self.exact:
            return shown
        error = self.errors.setdefault(name, self.rng.uniform(-CLASS_KPA, CLASS_KPA))
        return shown - error - self.rng.uniform(-READ_TO_KPA / 2.0, READ_TO_KPA / 2.0)

    def other(self, value: float, expanded: float) -> float:
        return value if self.exact else self.rng.gauss(value, expanded / 2.0)


@dataclass(frozen=True)
class Case:
    """A check, cars for it, what is written down of one, and the true value of what the check gives."""

    check: str
    name: str
    drawn: Callable[[random.Random], Truth]
    written: Callable[[Truth, Shop], Job]
    true: Callable[[Truth], float]
    nominal: Truth

    def examined(self, truth: Truth, shop: Shop, spec: Job | None = None) -> Finding:
        job = {"format": "job/1", "id": "j", "gauges": GAUGES, **self.written(truth, shop)}
        job["spec"] = {**job.get("spec", {}), **(spec or {})}
        site = job.setdefault("site", {})
        site["barometric_kpa_abs"] = shop.other(OUTSIDE, 0.3)
        check = BY_NAME[self.check]
        return check.examine(Evidence(without_nulls(job)), check)


def _bench(**readings: Any) -> Job:
    return {"tests": {"actuator": {"gauge": "g1", **readings}}}


def _typed_start(truth: Truth, shop: Shop) -> Job:
    return _bench(first_movement_kpa=shop.gauge(truth["start"]))


def _sweep(truth: Truth, shop: Shop, friction: float = 0.0) -> list[dict[str, Any]]:
    def row(shown: float, shift: float, way: str) -> dict[str, Any]:
        driven = shop.behind(shown) - truth["start"] - shift
        travel = min(10.5, max(0.0, truth["rate"] * driven))
        return {"p_kpa": shown, "travel_mm": max(0.0, shop.other(travel, 0.2)), "direction": way}

    marks = [10.0 * step for step in range(21)]
    rising = [row(mark, friction, "rising") for mark in marks]
    return rising + [row(mark, -friction, "falling") for mark in reversed(marks) if friction]


def _hold(truth: Truth, shop: Shop) -> Job:
    end = truth["p"] - truth["loss"]
    hold = {"p_kpa": shop.gauge(truth["p"]), "t_s": 60.0, "p_end_kpa": shop.gauge(end)}
    return _bench(hold=hold)


def _decay(truth: Truth, shop: Shop) -> Job:
    ambient, area = OUTSIDE * 1e3, truth["cd"] * hole_area(truth["mm"] / 1e3)
    start = ambient + truth["p"] * 1e3
    T = truth["celsius"] + 273.15
    left = pressure_after(truth["litres"] / 1e3, area, start, truth["seconds"], ambient, T)
    readings = [(0.0, truth["p"]), (truth["seconds"], (left - ambient) / 1e3)]
    test = {
        "gauge": "g1",
        "volume_l": shop.other(truth["litres"], truth["litres"] * 0.1),
        "volume_u_l": truth["litres"] * 0.1,
        "air_c": shop.other(truth["celsius"], 2.0),
        "readings": [{"t_s": t, "p_kpa": shop.gauge(p)} for t, p in readings],
    }
    return {"tests": {"charge_decay": test}}


def _cars_with_holes(rng: random.Random) -> Truth:
    mm, litres = rng.uniform(0.5, 2.0), rng.uniform(5.0, 15.0)
    return {
        "mm": mm, "litres": litres, "p": rng.uniform(60.0, 100.0), "celsius": rng.uniform(5.0, 30.0),
        "seconds": rng.uniform(1.5, 3.0) * litres / mm**2, "cd": rng.gauss(0.62, 0.03),
    }  # fmt: skip


def _cooler(truth: Truth, shop: Shop) -> Job:
    before, after = shop.gauge(truth["p"]), shop.gauge(truth["p"] - truth["drop"])
    return {"tests": {"cooler_drop": {"gauge": "g1", "before_kpa": before, "after_kpa": after}}}


def _at_rest(truth: Truth, shop: Shop) -> Job:
    said = shop.other(OUTSIDE, 1.5) + truth["offset"]
    return {"tests": {"sensors_at_rest": {"charge_pressure_kpa_abs": said}}}


def _coil(truth: Truth, shop: Shop) -> Job:
    warm = truth["ohm"] * (1.0 + 0.00393 * (truth["celsius"] - 20.0))
    coil = {
        "coil_ohm": shop.other(warm, 0.02 * warm + 0.2),
        "coil_c": shop.other(truth["celsius"], 5.0),
    }
    return {"tests": {"solenoid": coil}, "spec": {"solenoid_coil_ohm_20c": {"min": 20, "max": 40}}}


def _response(truth: Truth, shop: Shop) -> Job:
    def row(duty: float) -> dict[str, float]:
        share = 1.0 - truth["span"] * duty / 100.0
        supply = truth["supply"]
        return {"duty_pct": duty, "supply_kpa": shop.gauge(supply), "control_kpa": shop.gauge(supply * share)}

    return {"tests": {"solenoid": {"gauge": "g1", "sweep": [row(0.0), row(100.0)]}}}


def _road(truth: Truth, shop: Shop) -> Job:
    actual = OUTSIDE + truth["p"]
    flow = speed_density_mass_flow(truth["ve"], 1.8e-3, truth["rpm"], actual * 1e3, truth["celsius"] + 273.15)
    rpm = shop.other(truth["rpm"], 0.01 * truth["rpm"])
    noted = {
        "pull": 1, "engine_rpm": rpm, "boost_specified_kpa_abs": truth["aimed"],
        "boost_actual_kpa_abs": shop.other(actual, 1.5) + truth["offset"],
        "air_mass_gps": shop.other(1e3 * flow, 0.03 * 1e3 * flow),
        "intake_air_c": shop.other(truth["celsius"], 2.0),
    }  # fmt: skip
    reading = {
        "pull": 1,
        "engine_rpm": rpm,
        "gauge": "g1",
        "at": "charge_circuit",
        "p_kpa": shop.gauge(truth["p"]),
    }
    run = {"id": "r1", "phase": "before_repair", "noted": [noted], "readings": [reading]}
    return {"tests": {"road": [run]}, "vehicle": {"displacement_l": 1.8}}


def _pulls(rng: random.Random) -> Truth:
    p = rng.uniform(80.0, 160.0)
    return {
        "p": p, "aimed": OUTSIDE + p + rng.uniform(-30.0, 30.0), "rpm": rng.uniform(2500.0, 4500.0),
        "ve": rng.uniform(0.7, 1.1), "celsius": rng.uniform(20.0, 60.0), "offset": rng.uniform(-15.0, 15.0),
    }  # fmt: skip


PULL = {"p": 121.0, "aimed": 221.0, "rpm": 3500.0, "ve": 0.9, "celsius": 40.0, "offset": 0.0}
STARTS = {"start": 77.3, "rate": 0.13}

CASES = (
    Case("actuator_start", "actuator_start, one reading", lambda rng: {"start": rng.uniform(40.0, 120.0)},
         _typed_start, lambda t: t["start"], STARTS),
    Case("actuator_start", "actuator_start, sweep",
         lambda rng: {"start": rng.uniform(50.0, 100.0), "rate": rng.uniform(0.12, 0.2)},
         lambda t, s: _bench(sweep=_sweep(t, s)), lambda t: t["start"], STARTS),
    Case("actuator_rate", "actuator_rate, sweep",
         lambda rng: {"start": rng.uniform(50.0, 100.0), "rate": rng.uniform(0.12, 0.2)},
         lambda t, s: _bench(sweep=_sweep(t, s)), lambda t: t["rate"], STARTS),
    Case("actuator_hysteresis", "actuator_hysteresis",
         lambda rng: {"start": rng.uniform(50.0, 80.0), "rate": rng.uniform(0.12, 0.16),
                      "f": rng.uniform(1.0, 10.0)},
         lambda t, s: _bench(sweep=_sweep(t, s, t["f"])), lambda t: 2.0 * t["f"], {**STARTS, "f": 4.0}),
    Case("actuator_hold", "actuator_hold",
         lambda rng: {"p": rng.uniform(100.0, 200.0), "loss": rng.uniform(0.0, 40.0)},
         _hold, lambda t: t["loss"], {"p": 150.0, "loss": 6.0}),
    Case("charge_leak_hole", "charge_leak_hole", _cars_with_holes, _decay, lambda t: t["mm"],
         {"mm": 1.0, "litres": 10.0, "p": 80.0, "celsius": 20.0, "seconds": 20.0, "cd": 0.62}),
    Case("cooler_drop", "cooler_drop",
         lambda rng: {"p": rng.uniform(80.0, 160.0), "drop": rng.uniform(2.0, 30.0)},
         _cooler, lambda t: t["drop"], {"p": 112.0, "drop": 8.0}),
    Case("rest_charge_pressure", "rest_charge_pressure", lambda rng: {"offset": rng.uniform(-10.0, 10.0)},
         _at_rest, lambda t: t["offset"], {"offset": 0.0}),
    Case("solenoid_coil", "solenoid_coil",
         lambda rng: {"ohm": rng.uniform(10.0, 60.0), "celsius": rng.uniform(0.0, 90.0)},
         _coil, lambda t: t["ohm"], {"ohm": 29.0, "celsius": 24.0}),
    Case("solenoid_response", "solenoid_response, 0 and 100 %",
         lambda rng: {"span": rng.uniform(0.5, 0.95), "supply": rng.uniform(70.0, 120.0)},
         _response, lambda t: 100.0 * t["span"], {"span": 0.9, "supply": 80.0}),
    Case("road_real_boost", "road_real_boost", _pulls, _road, lambda t: OUTSIDE + t["p"] - t["aimed"], PULL),
    Case("road_sensor", "road_sensor", _pulls, _road, lambda t: t["offset"], PULL),
    Case("road_air_mass", "road_air_mass (speed-density)", _pulls, _road, lambda t: t["ve"], PULL),
)  # fmt: skip
