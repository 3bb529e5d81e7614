"""The smallest defect that a check says it shows, against simulated detection at just that size.

What a check says is taken from a reading of a sound car, with its errors. Each simulated job has its limit at
another place between the marks of the dial, since a maker's limit does not follow a workshop's divisions.
Model of instruments and cars: `simulated.py`.
"""

import math
import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from calc.checks.instruments import smallest_shown
from tests.calc.uncertainty.simulated import CASES, OUTSIDE, Case, Job, Shop, Truth
from tests.full.registry import Row, full_run

WHOLE, SMALL = 1_000, 60
SLOW = ("actuator_start, sweep", "actuator_rate, sweep", "actuator_hysteresis")


@dataclass(frozen=True)
class Defect:
    """Limits shifted by up to 1 of a step, and a car whose true value is the one wanted."""

    spec: Callable[[float], Job]
    at: Callable[[Truth, float], Truth]
    high: bool = True


def _band(key: str, low: float, high: float, step: float) -> Callable[[float], Job]:
    return lambda shift: {key: {"min": low + shift * step, "max": high + shift * step}}


def _most(key: str, high: float, step: float) -> Callable[[float], Job]:
    return lambda shift: {key: {"max": high + shift * step}}


def _width(key: str, width: float, step: float) -> Callable[[float], Job]:
    return lambda shift: {key: width + shift * step}


def _put(key: str, scale: float = 1.0) -> Callable[[Truth, float], Truth]:
    return lambda truth, value: {**truth, key: scale * value}


def _rates(shift: float) -> Job:
    """Limits of which the rate's follow: travel ÷ (full − start)."""
    travel = {"min": 9.0 + 0.2 * shift, "max": 12.0 + 0.2 * shift}
    ends = {"actuator_start_kpa": {"min": 60, "max": 80}, "actuator_full_kpa": {"min": 140, "max": 160}}
    return {"actuator_travel_mm": travel, **ends}


START = Defect(_band("actuator_start_kpa", 60.0, 80.0, 5.0), _put("start"))
DEFECTS = {
    "actuator_start, one reading": START,
    "actuator_start, sweep": START,
    "actuator_rate, sweep": Defect(_rates, _put("rate")),
    "actuator_hysteresis": Defect(_most("actuator_hysteresis_kpa", 12.0, 5.0), _put("f", 0.5)),
    "actuator_hold": Defect(_most("actuator_hold_loss_kpa_per_min", 5.0, 5.0), _put("loss")),
    "charge_leak_hole": Defect(_most("charge_leak_hole_mm", 0.9, 0.2), _put("mm")),
    "cooler_drop": Defect(_most("cooler_drop_kpa", 15.0, 5.0), _put("drop")),
    "rest_charge_pressure": Defect(_width("rest_pressure_tolerance_kpa", 3.0, 1.0), _put("offset")),
    "solenoid_coil": Defect(_band("solenoid_coil_ohm_20c", 25.0, 35.0, 1.0), _put("ohm")),
    "road_real_boost": Defect(
        _width("boost_tolerance_kpa", 10.0, 5.0),
        lambda truth, error: {**truth, "aimed": OUTSIDE + truth["p"] - error},
    ),
    "road_sensor": Defect(_width("sensor_tolerance_kpa", 6.0, 5.0), _put("offset")),
    "road_air_mass (speed-density)": Defect(
        _band("volumetric_efficiency", 0.78, 1.0, 0.02), _put("ve"), False
    ),
}


@full_run("smallest shown", "How often a check says outside at the smallest defect that it says it shows")
def shown(small: bool) -> Iterator[Row]:
    for case in CASES:
        slow = case.name in SLOW
        if case.name in DEFECTS and not (small and slow):
            yield detected(case, DEFECTS[case.name], SMALL if small else WHOLE // 2 if slow else WHOLE)


def detected(case: Case, defect: Defect, count: int) -> Row:
    """Share outside at the limit itself, at the critical value, and at the value found in 95 of 100."""
    rng = random.Random(f"smallest shown {case.name}")
    found = [0, 0, 0]
    for _ in range(count):
        spec, truth = defect.spec(rng.random()), {**case.drawn(rng), **case.nominal}
        for place, value in enumerate(_stated(case, defect, truth, spec, rng)):
            car = defect.at(truth, value)
            found[place] += case.examined(car, Shop(rng), spec).outcome == "outside"
    at_limit, called, surely = (each / count for each in found)
    chance = 2.0 * math.sqrt(0.05 * 0.95 / count)
    return Row(
        case.name,
        f"{100 * at_limit:.1f} % at the limit, {100 * called:.0f} % from where it is called, "
        f"{100 * surely:.1f} % of what is found nearly always, of {count}",
        "at most 5 %, 30 to 70 %, at least 95 %",
        holds=at_limit <= 0.05 + chance and 0.3 <= called <= 0.7 and surely >= 0.95 - chance,
    )


def _stated(
    case: Case, defect: Defect, truth: Truth, spec: Job, rng: random.Random
) -> tuple[float, float, float]:
    """Limit, critical value and minimum detectable value on the side of the defect, as the check says."""
    sound = case.examined(truth, Shop(rng), spec)
    stated = smallest_shown(sound)
    assert stated is not None, sound
    assert sound.limit is not None
    side = "high" if defect.high else "low"
    limit, called, found = (getattr(each, side) for each in (sound.limit, stated.called, stated.found))
    return limit, called, found
