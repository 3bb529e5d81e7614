"""Weighing: how probable each fault is after the tests done, and what may be said of it.

For one fault the likelihood of a finding is the mean of its spread over the chances of the reading
(below, inside, above). A coarse reading has chances everywhere and so says little. Bench findings
multiply; the road run is one joint picture, a mixture of the ways in which the fault can show there, and
beside it the course of its pulls (`traces`), which weighs by less than a half.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from math import exp, fsum, log

from calc.checks import ROAD_TESTS, TEST_OF_CHECK
from calc.checks.course import course
from calc.checks.evidence import Evidence, Kind
from calc.checks.finding import Finding
from calc.faults import faults_of
from calc.faults.complaint import complaint_weight, reproduced_weight, was_felt
from calc.faults.model import SOUND, Fault, Findings, Picture, Spread, fits_word, low
from calc.faults.traces import trace_log
from calc.uncertainty.decision import Chances

DEPTH_CHECKS = ("actuator_start", "actuator_full")
HOLE_OF_A_SOUND_CAR = Spread(0.0, 0.97, 0.03)

# what a car without the fault shows; common practice, no source
BASELINE: Mapping[str, Spread] = {
    "smoke_leak": low(0.05),  # a weep at a joint that nobody would mend
    "charge_leak_hole": HOLE_OF_A_SOUND_CAR,
    "road_specified": Spread(0.04, 0.92, 0.04),  # the limit is seldom known well
    "road_air_mass": Spread(0.04, 0.92, 0.04),  # engine-air doubt is 5 to 10 %
}

# a check that says again what others said is passed over where those were examined
ECHOES: Mapping[str, tuple[str, ...]] = {
    "road_tracking": ("road_real_boost", "road_sensor"),
    "road_peak": ("road_real_boost",),
    "road_overboost": ("road_real_boost",),
    "road_correction": ("road_authority",),
}
HALF = ("actuator_full",)  # shares its gauge's class error with first movement
SPEAKS = 2.0  # a finding so many times likelier with the fault than without speaks for it
SHOWN = 60.0  # a part measured directly and found bad, against the same trace without that measurement
MISSED = 0.25  # of the faults whose part a direct measurement cleared, those that were there all the same
MISFIT = 0.05  # of the cars with a fault, those that show a pattern which speaks against it
CLEARED_BY_ROAD = 100.0
SAME_TRACE = log(10.0)  # below strong evidence (Jeffreys' scale, from memory) nothing is told apart
LIKELY = 0.90
RUNNING = ("possible", "likely")
SAME_SHARE_DIGITS = 12


@dataclass(slots=True)
class Weighed:
    """One fault after weighing."""

    fault: Fault
    probability: float
    by_checks: float = 0.0  # its probability before the course of the pulls is looked at
    standing: str = "possible"
    proof: tuple[str, ...] = ()
    speaks_for: list[str] = field(default_factory=list)
    speaks_against: list[str] = field(default_factory=list)
    alike: list[str] = field(default_factory=list)
    explains: str = "unknown"


def weigh(evidence: Evidence, findings: Findings) -> list[Weighed]:
    """Every fault of this kind of boost control with its probability and standing, in the table's order."""
    kind = evidence.kind
    faults = faults_of(kind)
    counted = {name: found for name, found in findings.items() if _counts(name, findings)}
    checked = [_log_likelihood(fault, counted, kind) + _of_pattern(fault, findings, kind) for fault in faults]
    run = course(evidence)
    scores = [
        score + trace_log(fault.name, kind, run) + log(reproduced_weight(fault, evidence))
        for fault, score in zip(faults, checked, strict=True)
    ]
    priors = prior_weights(evidence, faults)
    by_checks, posterior = (_posterior(logs, priors) for logs in (checked, scores))
    weighed = [Weighed(*each) for each in zip(faults, posterior, by_checks, strict=True)]
    road = [_road_log(fault, counted, kind) for fault in faults]
    for index, item in enumerate(weighed):
        item.proof = item.fault.proof(findings, kind)
        _speak(item, counted, kind)
        item.standing = _standing(item, findings, counted, kind, _without(road, index))
    _name_alikes(weighed, scores)
    if was_felt(evidence):
        _name_what_is_outside(weighed, checked)
    return weighed


def _of_pattern(fault: Fault, findings: Findings, kind: Kind) -> float:
    """What several checks say together, as a log: the part shown bad, or cleared; a pattern that misfits."""
    direct = log(SHOWN) if fault.proof(findings, kind) else 0.0
    if not direct and is_cleared(fault, findings, kind):
        direct = log(MISSED)
    return direct + (log(MISFIT) if fault.against_where(findings, kind) else 0.0)


def is_cleared(fault: Fault, findings: Findings, kind: Kind) -> bool:
    """Whether a direct measurement clears the part."""
    by_hand = fault.cleared_by
    if by_hand and all(findings[name].outcome == "within" for name in by_hand):
        return True
    return bool(fault.cleared_where(findings, kind))


def prior_weights(evidence: Evidence, faults: Sequence[Fault]) -> list[float]:
    """The workshop's own weights where the job carries them, else all alike; the complaint beside them."""
    typed = evidence.get("/workshop/priors") or {}
    weights = [
        (float(typed[fault.name]) if (typed.get(fault.name) or 0.0) > 0.0 else 1.0)
        * complaint_weight(fault, evidence)
        for fault in faults
    ]
    total = fsum(weights)
    return [weight / total for weight in weights]


def expected(fault: Fault, check: str, kind: Kind) -> Spread:
    """A check's spread in cars with the fault: its own, else the mean of its pictures, else a sound car's."""
    if check in fault.shows:
        return fault.shows[check]
    pictures = [p for p in fault.on_road(kind) if check in p.shows]
    if not pictures:
        return BASELINE.get(check, SOUND)
    rest = BASELINE.get(check, SOUND)
    missing = 1.0 - fsum(p.share for p in pictures)
    parts = [(p.share, p.shows[check]) for p in pictures] + [(missing, rest)]
    return Spread(
        fsum(share * spread.low for share, spread in parts),
        fsum(share * spread.inside for share, spread in parts),
        fsum(share * spread.high for share, spread in parts),
    )


def likelihood(seen: Chances, spread: Spread) -> float:
    """Mean of a spread over the chances of a reading. [-]"""
    return fsum((seen.low * spread.low, seen.inside * spread.inside, seen.high * spread.high))


def seen_as(name: str, found: Finding, kind: Kind) -> Chances:
    """A finding's chances; for a vacuum actuator's pressures turned round, so that 'low' is less depth."""
    seen = found.chances
    if seen is None:
        raise ValueError(f"{name} was not examined")
    if kind.vacuum and name in DEPTH_CHECKS:
        return Chances(seen.high, seen.inside, seen.low)
    return seen


def _counts(name: str, findings: Findings) -> bool:
    if not findings[name].examined:
        return False
    others = ECHOES.get(name, ())
    if name == "road_correction":
        return findings["road_authority"].outcome != "outside"
    return not others or not all(findings[other].examined for other in others)


def _weight(name: str) -> float:
    return 0.5 if name in HALF else 1.0


def _log_likelihood(fault: Fault, counted: Findings, kind: Kind) -> float:
    bench = fsum(
        _weight(name) * log(likelihood(seen_as(name, found, kind), _bench_spread(fault, name, found)))
        for name, found in counted.items()
        if TEST_OF_CHECK[name] not in ROAD_TESTS
    )
    return bench + _road_log(fault, counted, kind)


def _bench_spread(fault: Fault, name: str, found: Finding) -> Spread:
    if name not in fault.shows or not fits_word(fault, name, found):
        return BASELINE.get(name, SOUND)
    return fault.shows[name]


def _road_log(fault: Fault, counted: Findings, kind: Kind) -> float:
    """Log likelihood of the whole road run: a mixture over the fault's pictures."""
    names = [name for name in counted if TEST_OF_CHECK[name] in ROAD_TESTS]
    pictures = tuple(fault.on_road(kind)) or (Picture(1.0, {}, ""),)
    logs = [
        log(max(picture.share, 1e-12))
        + fsum(
            log(likelihood(seen_as(name, counted[name], kind), _road_spread(fault, picture, name)))
            for name in names
        )
        for picture in pictures
    ]
    top = max(logs)
    return top + log(fsum(exp(value - top) for value in logs))


def _road_spread(fault: Fault, picture: Picture, name: str) -> Spread:
    return picture.shows.get(name) or fault.shows.get(name) or BASELINE.get(name, SOUND)


def _posterior(scores: Sequence[float], priors: Sequence[float]) -> list[float]:
    return _normalised([score + log(prior) for score, prior in zip(scores, priors, strict=True)])


def _normalised(logs: Sequence[float]) -> list[float]:
    """Shares of 1; exp and log differ in the last bit between phone and server, alike faults stay alike."""
    top = max(logs)
    weights = [exp(value - top) for value in logs]
    total = fsum(weights)
    return [round(weight / total, SAME_SHARE_DIGITS) for weight in weights]


def _without(road: Sequence[float], index: int) -> float:
    """Mean road likelihood over all other faults, as a log, less that of this one."""
    others = [value for other, value in enumerate(road) if other != index]
    top = max(others)
    return top + log(fsum(exp(value - top) for value in others) / len(others)) - road[index]


def _speak(item: Weighed, counted: Findings, kind: Kind) -> None:
    for name, found in counted.items():
        seen = seen_as(name, found, kind)
        with_fault = likelihood(seen, _shown(item.fault, name, found, kind))
        without = likelihood(seen, BASELINE.get(name, SOUND))
        if with_fault >= SPEAKS * without and item.fault.name != "no_fault_found":
            item.speaks_for.append(name)
        elif item.fault.name == "no_fault_found":
            (item.speaks_for if found.outcome == "within" else item.speaks_against).append(name)
        elif without >= SPEAKS * with_fault:
            item.speaks_against.append(name)


def _shown(fault: Fault, name: str, found: Finding, kind: Kind) -> Spread:
    """A check's spread under the fault, as `expected`, unless the finding's own word says otherwise."""
    return expected(fault, name, kind) if fits_word(fault, name, found) else BASELINE.get(name, SOUND)


def _bears(fault: Fault, name: str, kind: Kind) -> bool:
    """Whether a check's spread under the fault differs from a sound car's by more than a trifle."""
    here, sound = expected(fault, name, kind), BASELINE.get(name, SOUND)
    return max(abs(here.low - sound.low), abs(here.high - sound.high)) > 0.05


def _standing(item: Weighed, findings: Findings, counted: Findings, kind: Kind, without: float) -> str:
    if item.proof:
        return "proved"
    if item.fault.name not in ("no_fault_found", "other_cause") and not any(
        _bears(item.fault, name, kind) for name in counted
    ):
        return "not_examined"
    if not counted:
        return "not_examined"
    if is_cleared(item.fault, findings, kind):
        return "ruled_out"
    if without > log(CLEARED_BY_ROAD):
        return "ruled_out"
    return "likely" if _is_likely(item, findings, kind) else "possible"


def _is_likely(item: Weighed, findings: Findings, kind: Kind) -> bool:
    """The course of a pull puts suspects in order; it convicts nobody: the checks alone must do."""
    may_be = item.fault.likely_where(findings, kind)
    if item.fault.likely_by_rule:
        return may_be
    return may_be and min(item.probability, item.by_checks) >= LIKELY and bool(item.speaks_for)


def _name_alikes(weighed: Sequence[Weighed], scores: Sequence[float]) -> None:
    """Faults in the running that the tests done do not tell apart, whatever was thought before."""
    running = [
        (item, score)
        for item, score in zip(weighed, scores, strict=True)
        if item.standing in RUNNING and item.fault.name != "no_fault_found"
    ]
    for item, score in running:
        item.alike = [
            other.fault.name
            for other, theirs in running
            if other is not item and abs(score - theirs) <= SAME_TRACE
        ]


def _name_what_is_outside(weighed: Sequence[Weighed], checked: Sequence[float]) -> None:
    """A complaint that was felt, and no check that tells: no fault found and a cause outside the table.

    By the checks alone: no simulated causes stand for all that there are.
    """
    scores = {item.fault.name: (item, score) for item, score in zip(weighed, checked, strict=True)}
    (nothing, one), (elsewhere, other) = scores["no_fault_found"], scores["other_cause"]
    if nothing.standing in RUNNING and elsewhere.standing in RUNNING and abs(one - other) <= SAME_TRACE:
        nothing.alike.append(elsewhere.fault.name)
        elsewhere.alike.append(nothing.fault.name)
