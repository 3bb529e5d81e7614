"""From the complaint to the conclusion, test by test: by `next_test`, or by the order of the trade.

A simulated car answers one test at a time; the verdict on what is known so far says what comes next. Minutes
are the trade's usual ones, counted here and not by the engine. Both ways stop at the same: a proof that is
the conclusion, or nothing left to do.
"""

from collections.abc import Callable, Mapping
from copy import deepcopy
from dataclasses import dataclass, field
from typing import Any

import calc
from fixtures.simulator.car import Car, merge
from tests.verdict.score import SOUND

# common practice, no source; a run with gauges is the run, 25, and the gauges on for it, 15
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
TOLD_APART, LEAST_SHARE = 10.0, 1e-4
RUNNING = ("possible", "likely")  # standings of a fault that is neither proved nor ruled out
FULL_LOAD = (
    "road_run",
    "road_gauges",
    "base_boost_run",
    "intake_depression",
    "exhaust_back_pressure",
    "cooler_drop",
)
# the order of work of the trade (common practice, no source): read, look, tightness, actuator, control
# side, the run with gauges; then what is left in the order of these minutes, the valve in the housing last
FIXED_ORDER = tuple(test for test in MINUTES if test != "road_run")

Verdict = Mapping[str, Any]
Chooser = Callable[[Verdict, list[str]], str | None]


@dataclass(frozen=True, slots=True)
class Group:
    """Faults that looked alike, nothing concluded: the test proposed then, and whether it told them apart.

    can : whether any test that was left, and that was safe to make then, does so on this car.
    """

    faults: frozenset[str]
    test: str
    parted: bool
    can: bool


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
        if test not in car.tests:  # this car has no such part, or the workshop no gauge for it
            job["steps"].append({"id": test, "state": "does_not_apply"})
        else:
            way.minutes += _cost(test, way.tests)
            way.groups += _group(car, job, verdict, test)
            job = _with(car, job, test)
        way.tests.append(test)
        verdict = calc.judge(job)
    way.concluded = (verdict["conclusion"] or {}).get("fault")
    return way


def proved(verdict: Verdict) -> bool:
    """Whether a fault is proved and is the conclusion."""
    return (verdict["conclusion"] or {}).get("standing") == "proved"


def _cost(test: str, done: list[str]) -> int:
    return DECAY_AFTER_SMOKE if test == "charge_decay" and "smoke" in done else MINUTES[test]


def _with(car: Car, job: Mapping[str, Any], test: str) -> dict[str, Any]:
    """The job with one more test done."""
    after = deepcopy(dict(job))
    merge(after["tests"], deepcopy(car.perform(test)))
    return after


def _group(car: Car, job: Mapping[str, Any], verdict: Verdict, test: str) -> list[Group]:
    """The group that stands first before a test, if there is one and nothing is concluded."""
    first = next((row for row in verdict["faults"] if row["for"] and _alike(row)), None)
    if verdict["conclusion"] or first is None:
        return []
    parted = _parts(first, verdict, calc.judge(_with(car, job, test)))
    left = [row["test"] for row in verdict["remaining"] if row["test"] in car.tests]
    others = [other for other in left if other not in FULL_LOAD or _may_pull(job)]
    can = parted or any(_parts(first, verdict, calc.judge(_with(car, job, other))) for other in others)
    return [Group(frozenset((first["fault"], *_alike(first))), test, parted, can)]


def _alike(row: Mapping[str, Any]) -> list[str]:
    """The faults that look like one in the running; no test parts 'no fault' from an unlisted cause."""
    if row["standing"] not in RUNNING or row["fault"] == SOUND:
        return []
    return [name for name in row["alike"] if name != SOUND]


def _may_pull(job: Mapping[str, Any]) -> bool:
    """Whether tightness, wheel and shaft were looked at: no full-load pull before that."""
    done = job["tests"]
    return ("smoke" in done or "charge_decay" in done) and "turbo_inspection" in done


def _parts(first: Mapping[str, Any], before: Verdict, after: Verdict) -> bool:
    """Whether some fault no longer looks like the one that stood first, or the test itself would part them.

    Faults look alike while the evidence favours none by ten times; a test that moves the odds of two by as
    much has told them apart, also where it only takes back what had spoken the other way.
    """
    then = next(row for row in after["faults"] if row["fault"] == first["fault"])
    if not set(_alike(first)) <= set(then["alike"]):
        return True
    moved = (
        _odds(after, first["fault"], other) / _odds(before, first["fault"], other) for other in _alike(first)
    )
    return any(max(change, 1.0 / change) >= TOLD_APART for change in moved)


def _odds(verdict: Verdict, one: str, other: str) -> float:
    shares = {row["fault"]: max(row["probability"], LEAST_SHARE) for row in verdict["faults"]}
    return float(shares[one] / shares[other])
