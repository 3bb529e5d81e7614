"""From the complaint to the conclusion, test by test: by `next_test`, or by the order of the trade.

A simulated car answers one test at a time; the verdict on what is known so far says what comes next. Minutes
are those of trade-notes.md, counted here and not by the engine. Both ways stop at the same: a proof that is
the conclusion, or nothing left to do.
"""

from collections.abc import Callable, Mapping
from copy import deepcopy
from dataclasses import dataclass, field
from typing import Any

import calc
from fixtures.simulator.car import Car, merge

# trade-notes.md, 'Minutes a test costs'; a run with gauges is the run, 25, and the gauges on for it, 15
MINUTES: Mapping[str, int] = {
    "sensors_at_rest": 3,
    "turbo_inspection": 20,
    "exhaust_leak": 10,
    "smoke": 15,
    "charge_decay": 10,
    "actuator": 10,
    "electric_actuator": 10,
    "vacuum_supply": 5,
    "solenoid_electrical": 5,
    "solenoid_sweep": 10,
    "road_run": 25,
    "road_gauges": 40,
    "base_boost_run": 20,
    "intake_depression": 10,
    "exhaust_back_pressure": 20,
    "cooler_drop": 10,
    "bypass_valve": 10,
    "egr": 15,
    "throttle": 5,
    "engine_health": 30,
    "wastegate_inspection": 40,
}
DECAY_AFTER_SMOKE = 5
# trade-notes.md, 'The order of work': read, look, tightness, actuator, control side, the run with gauges;
# then what is left in the order of its list of minutes, and the valve inside the housing last
FIXED_ORDER = tuple(test for test in MINUTES if test != "road_run")

Verdict = Mapping[str, Any]
Chooser = Callable[[Verdict, list[str]], str | None]


@dataclass(frozen=True, slots=True)
class Group:
    """Faults that looked alike, nothing concluded: the test proposed then, and whether it told them apart."""

    faults: frozenset[str]
    test: str
    parted: bool
    others: tuple[str, ...]  # tests that were left beside it


@dataclass(slots=True)
class Walk:
    """What was done on one car, what it cost, what was concluded, and the groups met on the way."""

    tests: list[str] = field(default_factory=list)
    minutes: int = 0
    concluded: str | None = None
    groups: list[Group] = field(default_factory=list)


def by_next_test(verdict: Verdict, done: list[str]) -> str | None:
    """What the verdict proposes; never the same test again, whatever it could not read."""
    test = (verdict["next_test"] or {}).get("test")
    return None if test in done else test


def by_fixed_order(verdict: Verdict, done: list[str]) -> str | None:
    """The order of the trade, over the tests that this kind of car has."""
    left = [row["test"] for row in verdict["remaining"]]
    return next((test for test in FIXED_ORDER if test in left and test not in done), None)


def walk(car: Car, choose: Chooser) -> Walk:
    """Do one test after another until a proof is the conclusion, or nothing is left to do."""
    job: dict[str, Any] = {**car.job([]), "steps": []}
    verdict, way = calc.judge(job), Walk()
    while not proved(verdict) and (test := choose(verdict, way.tests)):
        before = verdict
        if test in car.tests:
            way.minutes += _cost(test, way.tests)
            merge(job["tests"], deepcopy(car.perform(test)))
        else:  # this car has no such part, or the workshop no gauge for it
            job["steps"].append({"id": test, "state": "does_not_apply"})
        way.tests.append(test)
        verdict = calc.judge(job)
        if test in car.tests:
            way.groups += _group(before, test, verdict)
    way.concluded = (verdict["conclusion"] or {}).get("fault")
    return way


def proved(verdict: Verdict) -> bool:
    """Whether a fault is proved and is the conclusion."""
    return (verdict["conclusion"] or {}).get("standing") == "proved"


def _cost(test: str, done: list[str]) -> int:
    return DECAY_AFTER_SMOKE if test == "charge_decay" and "smoke" in done else MINUTES[test]


def _group(before: Verdict, test: str, after: Verdict) -> list[Group]:
    """The group that stood first before a test, if there was one and nothing was concluded."""
    first = next(
        (row for row in before["faults"] if row["alike"] and row["standing"] in ("possible", "likely")), None
    )
    if before["conclusion"] or first is None:
        return []
    then = next(row for row in after["faults"] if row["fault"] == first["fault"])
    left = tuple(row["test"] for row in before["remaining"] if row["test"] != test)
    alike = frozenset((first["fault"], *first["alike"]))
    return [Group(alike, test, not set(first["alike"]) <= set(then["alike"]), left)]
