"""The test that settles most, a minute: expected information over the tests not yet done.

Information is the mutual information of fault and outcome, over the outcomes that each fault makes (its
spreads, its pictures on the road). Safety comes first: no full-load pull before tightness and a look at
wheel and shaft; no exhaust removed while a cheaper test can still decide.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from math import fsum, log

from calc.checks import TEST_OF_CHECK
from calc.checks.evidence import Evidence, Kind
from calc.faults.model import SOUND, Fault, Findings, Picture, Spread
from calc.faults.weigh import BASELINE, ROAD_TESTS, Weighed

MINUTES: Mapping[str, float] = {
    "smoke": 15,
    "charge_decay": 10,
    "actuator": 10,
    "wastegate_inspection": 40,
    "solenoid_electrical": 5,
    "solenoid_sweep": 10,
    "sensors_at_rest": 3,
    "road_run": 25,
    "road_gauges": 40,
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
GAUGES_WITH_RUN = 15.0  # gauges on for a run that is made anyway
FULL_LOAD = (
    "road_run",
    "road_gauges",
    "base_boost_run",
    "intake_depression",
    "exhaust_back_pressure",
    "cooler_drop",
)
LAST = ("wastegate_inspection",)  # exhaust off, or a borescope: after all that is cheaper
LEADING = 3  # checks of one test that carry most; the others of that test hang on them

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


@dataclass(frozen=True, slots=True)
class NextTest:
    """A test worth doing: its contract name, minutes, information in nats, and the faults it tells apart."""

    test: str
    minutes: float
    information: float
    tells: tuple[str, ...]


def remaining(evidence: Evidence, findings: Findings) -> list[str]:
    """Tests of this kind of car that are not yet done, in the order of the trade."""
    return [test for test in MINUTES if applies(test, evidence.kind) and not _done(test, evidence, findings)]


def minutes_of(test: str, evidence: Evidence, findings: Findings) -> float:
    """What a test costs now: the workshop's own figure, else the default, less for a set-up that stands."""
    own = (evidence.get("/workshop/minutes") or {}).get(test)
    if own is not None and own > 0.0:
        return float(own)
    if test == "charge_decay" and findings["smoke_leak"].examined:
        return DECAY_AFTER_SMOKE
    if test == "road_gauges" and not findings["road_tracking"].examined:
        return MINUTES["road_gauges"]
    return MINUTES[test]


def ranked(evidence: Evidence, findings: Findings, weighed: Sequence[Weighed]) -> list[NextTest]:
    """The tests that may be done now, the most telling a minute first."""
    open_tests = remaining(evidence, findings)
    worth = {test: _information(test, findings, weighed, evidence.kind) for test in open_tests}
    minutes = {test: minutes_of(test, evidence, findings) for test in open_tests}
    rates = {test: worth[test] / minutes[test] for test in open_tests}
    needs = _needed_first(evidence, findings)
    for test in open_tests:
        if test in FULL_LOAD and needs and all(need in rates for need in needs):
            through = worth[test] / (minutes[test] + fsum(minutes[need] for need in needs))
            rates[needs[0]] = max(rates[needs[0]], through)
    allowed = [test for test in open_tests if not (test in FULL_LOAD and needs) and rates[test] > 1e-7]
    allowed.sort(key=lambda test: (test in LAST, -rates[test]))
    return [
        NextTest(test, minutes[test], worth[test], _tells(test, findings, weighed, evidence.kind))
        for test in allowed
    ]


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


def _needed_first(evidence: Evidence, findings: Findings) -> tuple[str, ...]:
    """What a full-load pull waits for: tightness and a look at wheel and shaft, neither of them dangerous."""
    needs = []
    if not findings["smoke_leak"].examined and findings["charge_leak_hole"].value is None:
        needs.append("charge_decay")
    oil = evidence.get("/tests/turbo_inspection/oil_in_outlet")
    if findings["turbo_wheels"].outcome != "within" or oil is True:
        needs.append("turbo_inspection")
    return tuple(needs)


def _open_checks(test: str, findings: Findings) -> list[str]:
    names = KEYS.get(test) or tuple(name for name, of in TEST_OF_CHECK.items() if of == test)
    return [name for name in names if not findings[name].examined][:LEADING]


def _pictures(fault: Fault, test: str, kind: Kind) -> Sequence[Picture]:
    if test not in ROAD_TESTS:
        return (Picture(1.0, {}, ""),)
    return tuple(fault.on_road(kind)) or (Picture(1.0, {}, ""),)


def _outcomes(fault: Fault, test: str, names: Sequence[str], kind: Kind) -> list[float]:
    """Probability of each joint outcome (low, inside, high of every check) in cars with the fault."""
    pictures = _pictures(fault, test, kind)
    table: list[float] = []
    spreads = [
        (picture.share, [_spread(fault, picture, name, kind) for name in names]) for picture in pictures
    ]
    for state in product(range(3), repeat=len(names)):
        table.append(
            fsum(
                share * _product([part[side] for part, side in zip(parts, state, strict=True)])
                for share, parts in spreads
            )
        )
    return table


def _spread(fault: Fault, picture: Picture, name: str, kind: Kind) -> tuple[float, float, float]:
    spread: Spread = picture.shows.get(name) or fault.shows.get(name) or BASELINE.get(name, SOUND)
    return spread.low, spread.inside, spread.high


def _product(values: Sequence[float]) -> float:
    result = 1.0
    for value in values:
        result *= value
    return result


def _information(test: str, findings: Findings, weighed: Sequence[Weighed], kind: Kind) -> float:
    names = _open_checks(test, findings)
    if not names:
        return 0.0
    tables = [(item.probability, _outcomes(item.fault, test, names, kind)) for item in weighed]
    return fsum(_cell([(share, table[cell]) for share, table in tables]) for cell in range(3 ** len(names)))


def _cell(shares: Sequence[tuple[float, float]]) -> float:
    whole = fsum(share * chance for share, chance in shares)
    if whole <= 0.0:
        return 0.0
    return fsum(share * chance * log(chance / whole) for share, chance in shares if share * chance > 0.0)


def _tells(test: str, findings: Findings, weighed: Sequence[Weighed], kind: Kind) -> tuple[str, ...]:
    """The likeliest faults that this test speaks of, at most three."""
    names = _open_checks(test, findings)
    speaking = [
        item
        for item in weighed
        if item.standing not in ("ruled_out", "proved")
        and any(_speaks_of(item.fault, test, name, kind) for name in names)
    ]
    speaking.sort(key=lambda item: -item.probability)
    return tuple(item.fault.name for item in speaking[:3])


def _speaks_of(fault: Fault, test: str, name: str, kind: Kind) -> bool:
    sound = BASELINE.get(name, SOUND)
    for picture in _pictures(fault, test, kind):
        low, _, high = _spread(fault, picture, name, kind)
        if max(abs(low - sound.low), abs(high - sound.high)) > 0.2:
            return True
    return False
