"""The test that settles most, a minute: expected information over the tests not yet done.

Safety comes first: no full-load pull before tightness and a look at wheel and shaft, and where a pull would
tell most, what it waits for is proposed in its place. No exhaust is removed while a cheaper test can still
decide. A set-up that stands makes a test cheaper; minutes are the workshop's own where it has set them.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import fsum

from calc.checks import TEST_OF_CHECK
from calc.checks.evidence import Evidence, Kind
from calc.faults.information import Outlook
from calc.faults.meanings import Meaning, meanings
from calc.faults.model import SOUND, Fault, Findings
from calc.faults.weigh import BASELINE, Weighed

MINUTES: Mapping[str, float] = {
    "smoke": 15,
    "charge_decay": 10,
    "actuator": 10,
    "wastegate_inspection": 40,
    "solenoid_electrical": 5,
    "solenoid_sweep": 10,
    "sensors_at_rest": 3,
    "road_run": 25,
    "road_gauges": 40,  # the run and, 15 more, the gauges on for it
    "turbo_inspection": 20,
    "intake_depression": 10,
    "exhaust_back_pressure": 20,
    "cooler_drop": 10,
    "vacuum_supply": 5,
    "bypass_valve": 10,
    "exhaust_leak": 10,
    "egr": 15,
    "throttle": 5,
    "engine_health": 30,
    "electric_actuator": 10,
    "base_boost_run": 20,
}
DECAY_AFTER_SMOKE = 5.0
FULL_LOAD = (
    "road_run",
    "road_gauges",
    "base_boost_run",
    "intake_depression",
    "exhaust_back_pressure",
    "cooler_drop",
)
TIGHTNESS = ("charge_decay", "smoke")  # either lets the pulls go on; the cheaper first
LAST = ("wastegate_inspection",)  # exhaust off, or a borescope: after all that is cheaper and can decide
DECIDES = 0.02  # a test that is expected to tell so much can still decide [nat]
APART = 0.3  # of the cars with two faults, so many more of the one show a state: it tells them apart
LEFT_TOGETHER = 0.8  # of what tests tell one by one, so much is left where they are done one after another
WORTH_DOING = 1e-3  # a test that tells less than this is not worth its minutes [nat]

# what each test is really made for: it counts as done when these are examined
KEYS: Mapping[str, tuple[str, ...]] = {
    "actuator": ("actuator_start", "actuator_full", "actuator_hold", "actuator_moves", "actuator_returns"),
    "solenoid_electrical": ("solenoid_coil", "solenoid_supply", "solenoid_ground"),
    "solenoid_sweep": ("solenoid_response", "control_hoses"),
    "sensors_at_rest": ("rest_charge_pressure", "rest_pedal", "rest_temperatures"),
    "road_run": ("road_tracking", "road_authority"),
    "road_gauges": ("road_real_boost", "road_sensor", "road_control_pressure"),
    "turbo_inspection": ("turbo_wheels", "turbo_radial_play"),
}
# what any run shows beside boost itself; what only says the same again is left out
ON_THE_RUN = (
    "road_authority",
    "road_specified",
    "road_request",
    "road_pedal",
    "road_air_mass",
    "road_reduced_power",
    "road_hunting",
)
# steps that hold more than the test of their own name
STEPS: Mapping[str, tuple[str, ...]] = {
    "solenoid": ("solenoid_electrical",),
    "road": ("road_run", "road_gauges"),
}
SPOKEN_OF = 3  # faults named for a test


@dataclass(frozen=True, slots=True)
class NextTest:
    """A test worth doing: its contract name, minutes, information in nats, and the faults it tells of.

    results : what each result would mean; of the first test alone.
    """

    test: str
    minutes: float
    information: float
    tells: tuple[str, ...]
    results: tuple[Meaning, ...] = ()


def remaining(evidence: Evidence, findings: Findings) -> list[str]:
    """Tests of this kind of car that are not yet done, in the order of the trade."""
    aside = _put_aside(evidence)
    return [
        test
        for test in MINUTES
        if applies(test, evidence.kind) and test not in aside and not _done(test, evidence, findings)
    ]


def minutes_of(test: str, evidence: Evidence, findings: Findings) -> float:
    """What a test costs now: the workshop's own figure, else the default, less for a set-up that stands."""
    own = (evidence.get("/workshop/minutes") or {}).get(test)
    if own is not None and own > 0.0:
        return float(own)
    if test == "charge_decay" and findings["smoke_leak"].examined:
        return DECAY_AFTER_SMOKE
    return MINUTES[test]


def ranked(evidence: Evidence, findings: Findings, weighed: Sequence[Weighed]) -> list[NextTest]:
    """The tests that may be done now, the most telling a minute first."""
    kind = evidence.kind
    open_tests = remaining(evidence, findings)
    speaking = {test: _open_checks(test, evidence, findings) for test in open_tests}
    outlook = Outlook(findings, weighed, kind)
    worth = {test: outlook.information(test, speaking[test]) for test in open_tests}
    minutes = {test: minutes_of(test, evidence, findings) for test in open_tests}
    rates = {test: worth[test] / minutes[test] for test in open_tests}
    needs = _needed_first(evidence, findings, open_tests)
    if needs and all(need in rates for need in needs):
        first = max(needs, key=lambda need: rates[need])
        behind = [_rate((*needs, test), worth, minutes) for test in open_tests if test in FULL_LOAD]
        rates[first] = max([rates[first], *behind])
    _gauges_on_for_the_same_run(rates, worth, minutes)
    allowed = [
        test
        for test in open_tests
        if not (test in FULL_LOAD and needs) and rates[test] * minutes[test] >= WORTH_DOING
    ]
    group = _first_group(weighed)
    apart = [test for test in allowed if outlook.spread_of(group, test, speaking[test]) >= APART]
    deciding = any(worth[test] >= DECIDES for test in apart or allowed if test not in LAST)
    allowed.sort(
        key=lambda test: (
            bool(apart) and test not in apart,
            deciding and test in LAST,
            -round(rates[test], 9),
        )
    )
    return [
        NextTest(
            test,
            minutes[test],
            worth[test],
            _tells(speaking[test], weighed, kind),
            meanings(test, speaking[test], outlook) if test == allowed[0] else (),
        )
        for test in allowed
    ]


def _gauges_on_for_the_same_run(
    rates: dict[str, float], worth: Mapping[str, float], minutes: Mapping[str, float]
) -> None:
    """Gauges go on for a run that is due, if their own minutes tell more than any other test's."""
    run, gauges = "road_run", "road_gauges"
    if run not in rates or gauges not in rates or minutes[gauges] <= minutes[run]:
        return
    added = (worth[gauges] - worth[run]) / (minutes[gauges] - minutes[run])
    if added >= max((rate for test, rate in rates.items() if test not in (run, gauges)), default=0.0):
        rates[gauges] = max(rates[gauges], rates[run] + 1e-6)


def _first_group(weighed: Sequence[Weighed]) -> frozenset[str]:
    """The most probable fault and those that look like it; empty where none do.

    That no fault was found is none of them: no test parts it from a cause outside the table.
    """
    running = [
        (item, frozenset((item.fault.name, *item.alike)) - {"no_fault_found"})
        for item in weighed
        if item.standing in ("possible", "likely") and item.fault.name != "no_fault_found"
    ]
    groups = [(item.probability, group) for item, group in running if len(group) > 1]
    return max(groups, key=lambda each: each[0])[1] if groups else frozenset()


def _rate(tests: Sequence[str], worth: Mapping[str, float], minutes: Mapping[str, float]) -> float:
    """Information a minute of several tests in a row, which tell less than the sum. [nat/min]"""
    return LEFT_TOGETHER * fsum(worth[test] for test in tests) / fsum(minutes[test] for test in tests)


def applies(test: str, kind: Kind) -> bool:
    """Whether this kind of boost control has the test."""
    if test == "vacuum_supply":
        return kind.vacuum
    if test == "electric_actuator":
        return kind.actuator == "electric"
    if test in ("actuator", "solenoid_electrical", "solenoid_sweep"):
        return kind.actuator != "electric"
    if test == "wastegate_inspection":
        return kind.device == "wastegate"
    if test == "base_boost_run":
        return kind.actuator == "pressure" and kind.unplugged_raises_boost is False
    return True


def _done(test: str, evidence: Evidence, findings: Findings) -> bool:
    """Whether nothing more of the test is to be read: every key check examined, or lacking only a limit."""
    keys = KEYS.get(test) or tuple(name for name, of in TEST_OF_CHECK.items() if of == test)
    if test == "road_gauges" and evidence.kind.arrangement == "unknown":
        keys = ("road_real_boost", "road_sensor")
    return all(findings[name].examined or findings[name].value is not None for name in keys)


def _put_aside(evidence: Evidence) -> set[str]:
    """Tests whose step the technician has marked as not applying to this car."""
    steps = (step for _, step in evidence.items("/steps") if step.get("state") == "does_not_apply")
    names = [str(step.get("id")) for step in steps]
    return {test for name in names for test in STEPS.get(name, (name,))}


def _needed_first(evidence: Evidence, findings: Findings, open_tests: Sequence[str]) -> tuple[str, ...]:
    """What a full-load pull waits for: tightness and a look at wheel and shaft, neither of them dangerous."""
    needs = []
    if not findings["smoke_leak"].examined and findings["charge_leak_hole"].value is None:
        needs.append(next((test for test in TIGHTNESS if test in open_tests), TIGHTNESS[0]))
    oil = evidence.get("/tests/turbo_inspection/oil_in_outlet")
    if findings["turbo_wheels"].outcome != "within" or oil is True:
        needs.append("turbo_inspection")
    return tuple(needs)


def _open_checks(test: str, evidence: Evidence, findings: Findings) -> tuple[str, ...]:
    """The checks that the test would still decide, those that carry most first."""
    names = KEYS.get(test) or tuple(name for name, of in TEST_OF_CHECK.items() if of == test)
    if test == "road_gauges":
        names += ON_THE_RUN
    elif test == "road_run":
        names = ("road_tracking", *ON_THE_RUN)
    no_model = evidence.kind.arrangement == "unknown" and not evidence.get("/tests/solenoid/sweep")
    if no_model or evidence.kind.actuator == "electric":
        names = tuple(name for name in names if name != "road_control_pressure")
    return tuple(name for name in names if not findings[name].examined)


def _tells(names: Sequence[str], weighed: Sequence[Weighed], kind: Kind) -> tuple[str, ...]:
    """The likeliest faults that this test speaks of, at most three."""
    speaking = [
        item
        for item in weighed
        if item.standing not in ("ruled_out", "proved")
        and any(_speaks_of(item.fault, name, kind) for name in names)
    ]
    speaking.sort(key=lambda item: -item.probability)
    return tuple(item.fault.name for item in speaking[:SPOKEN_OF])


def _speaks_of(fault: Fault, name: str, kind: Kind) -> bool:
    sound = BASELINE.get(name, SOUND)
    pictures = [picture.shows[name] for picture in fault.on_road(kind) if name in picture.shows]
    spreads = pictures or [fault.shows.get(name, sound)]
    return any(max(abs(one.low - sound.low), abs(one.high - sound.high)) > 0.2 for one in spreads)
