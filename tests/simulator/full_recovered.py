"""Injected sensor offsets, sensor gains and leaks: is the true value inside the doubt that is stated?

Each is put into the parts of a simulated sound car, which is then driven and tested as any other.
"""

from collections.abc import Callable, Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from math import sqrt
from random import Random
from typing import Any

import calc
from fixtures.simulator import make
from fixtures.simulator.car import Car, drive
from fixtures.simulator.gas import hole_area
from tests.full.registry import Row, full_run
from tests.simulator.full_sound import SETS

WHOLE, SMALL = 500, 24
COVERED = 0.95
RESTS = ("sensors_at_rest",)
ROAD = ("sensors_at_rest", "road_gauges")
Verdict = dict[str, Any]


@dataclass(frozen=True)
class Injected:
    """A change of a sound car, the tests then made, and what must be found again."""

    name: str
    change: Callable[[Car, Random], None]
    tests: tuple[str, ...]
    found: Callable[[Verdict], tuple[float, float] | None]
    true: Callable[[Car], float]


def _offset(car: Car, rng: Random) -> None:
    car.car.parts.pressure_offset += rng.uniform(-20.0, 20.0)


def _gain(car: Car, rng: Random) -> None:
    car.car.parts.pressure_gain += rng.uniform(-0.15, 0.15)


def _hole(car: Car, rng: Random) -> None:
    car.car.parts.leak_area = hole_area(0.6 * (5.0 / 0.6) ** rng.random())


def _finding(verdict: Verdict, check: str) -> Verdict:
    return next(found for found in verdict["findings"] if found["check"] == check)


def _value(check: str) -> Callable[[Verdict], tuple[float, float] | None]:
    def found(verdict: Verdict) -> tuple[float, float] | None:
        row = _finding(verdict, check)
        return None if row["value"] is None else (row["value"], row["expanded_uncertainty"])

    return found


def _line(key: str) -> Callable[[Verdict], tuple[float, float] | None]:
    def found(verdict: Verdict) -> tuple[float, float] | None:
        line = _finding(verdict, "road_sensor").get("line")
        doubt = key.replace("_kpa", "_expanded_kpa") if "_kpa" in key else f"{key}_expanded"
        return None if line is None else (line[key], line[doubt])

    return found


def _sensor_error(car: Car, pressure: float) -> float:
    parts = car.car.parts
    return parts.pressure_offset + (parts.pressure_gain - 1.0) * (pressure - 100.0)


def _decided_area(verdict: Verdict) -> tuple[float, float] | None:
    """The hole as its diameter; an emptied circuit gives a lower bound and no interval."""
    row = _finding(verdict, "charge_leak_hole")
    emptied = row["value"] is None or row["figure"].startswith("≥")
    return None if emptied else (row["value"], row["expanded_uncertainty"])


INJECTED = (
    Injected("sensor offset, at rest", _offset, RESTS, _value("rest_charge_pressure"),
             lambda car: _sensor_error(car, car.site.barometric)),
    Injected("sensor offset, line of rest and road", _offset, ROAD, _line("offset_kpa"),
             lambda car: _sensor_error(car, 0.0)),
    Injected("sensor gain, line of rest and road", _gain, ROAD, _line("gain"),
             lambda car: car.car.parts.pressure_gain),
    Injected("hole, pressure decay", _hole, ("charge_decay",), _decided_area,
             lambda car: sqrt(car.car.parts.leak_area / hole_area(1.0))),
)  # fmt: skip


@full_run("recovered", "Offsets, gains and leaks put into simulated cars, found again within their doubt")
def recovered(small: bool) -> Iterator[Row]:
    count = SMALL if small else WHOLE
    with ProcessPoolExecutor(2) as pool:
        for place, injected in enumerate(INJECTED):
            answers = list(pool.map(one, [place] * count, range(count), chunksize=10))
            known = [inside for inside in answers if inside is not None]
            share = sum(known) / len(known)
            chance = 2.0 * sqrt(COVERED * (1.0 - COVERED) / len(known)) if small else 0.0
            yield Row(
                injected.name,
                f"{100.0 * share:.1f} % of {len(known)} ({count - len(known)} gave no figure)",
                "at least 95 %",
                holds=share >= COVERED - chance,
            )


def one(place: int, number: int) -> bool | None:
    """Whether the true value lies inside the expanded interval; None where no figure was given."""
    injected = INJECTED[place]
    car = make(f"injected {number}", None, aged=number % 2 == 1, gauges=SETS[number // 2 % len(SETS)])
    injected.change(car, car.rng("injected"))
    if "road_gauges" in injected.tests:
        car.run = drive(car.car, car.site, car.rng("drive"), "normal", 2)
    found = injected.found(calc.judge(car.job(list(injected.tests))))
    return None if found is None else abs(found[0] - injected.true(car)) <= found[1]
