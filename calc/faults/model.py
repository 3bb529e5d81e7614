"""What a fault is to the engine: where it sits, what its tests show, what the road shows, what proves it.

Every number here is a likelihood: of a hundred cars with this fault, how many show that state. 'State' is
where the true value of a check lies: below, inside or above its limit (for a yes-or-no check 'low' is
'not in order').
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from calc.checks.evidence import Evidence, Kind
from calc.checks.finding import Finding

Findings = Mapping[str, Finding]
REST = 0.015  # of a hundred cars, those that show a state which no reason speaks for
ALL_DEVICES = ("wastegate", "variable_geometry")
ALL_ACTUATORS = ("pressure", "vacuum", "electric")
PNEUMATIC = ("pressure", "vacuum")


@dataclass(frozen=True, slots=True)
class Spread:
    """Shares of the cars with a fault whose true value lies low, inside and high. They sum to 1."""

    low: float
    inside: float
    high: float


def low(share: float) -> Spread:
    """So many lie below the limit (or are not in order), the rest inside."""
    return Spread(share, max(0.0, 1.0 - share - REST), REST)


def high(share: float) -> Spread:
    """So many lie above the limit, the rest inside."""
    return Spread(REST, max(0.0, 1.0 - share - REST), share)


def both(below: float, above: float) -> Spread:
    """So many lie below, so many above."""
    return Spread(below, 1.0 - below - above, above)


WORD_OF: Mapping[str, str] = {"control_hoses": "fault", "solenoid_response": "stays"}
SOUND = Spread(REST, 1.0 - 2.0 * REST, REST)


@dataclass(frozen=True, slots=True)
class Picture:
    """One way in which a fault shows on the road: its share of the cases, and each check's spread."""

    share: float
    shows: Mapping[str, Spread]
    why: str


@dataclass(frozen=True, slots=True)
class Effect:
    """What a defect of the size measured does to boost: signed, more boost positive. [kPa]

    An infinite value means: without bound in that direction, until the control unit cuts.
    """

    boost_kpa: float
    expanded: float


def nothing_proves(findings: Findings, kind: Kind) -> tuple[str, ...]:
    """For faults that no direct measurement can show."""
    return ()


def anywhere(findings: Findings, kind: Kind) -> bool:
    """For faults that may be called likely whenever they are probable."""
    return True


def nowhere(findings: Findings, kind: Kind) -> bool:
    """For what is never called likely by exclusion alone."""
    return False


def no_effect(evidence: Evidence, findings: Findings) -> Effect | None:
    """For defects whose size is not measured: what they do to boost is not known."""
    return None


@dataclass(frozen=True, slots=True)
class Fault:
    """One row of the contract's table of locations.

    shows : check -> spread of its true value in cars with this fault; checks not named are as in sound cars.
    on_road : the pictures that the road run shows, for a kind of boost control.
    proof : the direct measurements that show the defect (names of checks), or nothing.
    cleared_by : checks, all of which inside clear the part.
    cleared_where : a further rule of the fault's own.
    words : check -> what an outside finding's own word may be in cars with this fault (which hose fault was
        seen, how the solenoid answered); another word is as rare as a mistake.
    against_where : a pattern across checks that cars with this fault hardly ever show.
    likely_where : whether it may be called likely once it is probable.
    likely_by_rule : whether `likely_where` alone decides, whatever the probability.
    """

    name: str
    location: str
    shows: Mapping[str, Spread] = field(default_factory=dict)
    on_road: Callable[[Kind], Sequence[Picture]] = lambda kind: ()
    proof: Callable[[Findings, Kind], tuple[str, ...]] = nothing_proves
    cleared_by: tuple[str, ...] = ()
    cleared_where: Callable[[Findings, Kind], tuple[str, ...]] = nothing_proves
    effect: Callable[[Evidence, Findings], Effect | None] = no_effect
    devices: tuple[str, ...] = ALL_DEVICES
    actuators: tuple[str, ...] = ALL_ACTUATORS
    words: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    against_where: Callable[[Findings, Kind], bool] = nowhere
    likely_where: Callable[[Findings, Kind], bool] = anywhere
    likely_by_rule: bool = False

    def fits(self, kind: Kind) -> bool:
        """Whether this kind of boost control can have the fault."""
        return kind.device in self.devices and kind.actuator in self.actuators


def fits_word(fault: Fault, check: str, found: Finding) -> bool:
    """Whether the word that an outside finding carries is one that the fault makes."""
    if found.outcome != "outside" or check not in fault.words:
        return True
    said = found.facts.get(WORD_OF[check])
    return said is None or said in fault.words[check]


def outside(findings: Findings, check: str, side: str | None = None) -> bool:
    """Whether a check lies outside its limit, on the side named."""
    found = findings[check]
    return found.outcome == "outside" and (side is None or found.side == side)


def within(findings: Findings, *checks: str) -> bool:
    """Whether every check named lies inside its limit."""
    return all(findings[check].outcome == "within" for check in checks)


def proved_by(
    check: str, side: str | None = None, *, unless: str | None = None
) -> Callable[[Findings, Kind], tuple[str, ...]]:
    """The plain proof: one direct check outside its limit, unless another that makes the same is outside."""

    def proof(findings: Findings, kind: Kind) -> tuple[str, ...]:
        spoiled = unless is not None and outside(findings, unless)
        return (check,) if outside(findings, check, side) and not spoiled else ()

    return proof


FLOW_RAISED = (
    ("charge_leak_hole", None),
    ("bypass_hold", None),
    ("road_air_mass", "high"),
    ("road_real_boost", "high"),
    ("road_peak", "high"),
    ("road_tracking", "high"),
)
TIGHTNESS = ("smoke_leak", "charge_leak_hole")
BOOST = ("road_real_boost", "road_peak", "road_tracking")


def smoke_shows_leak(findings: Findings) -> bool:
    """Smoke that is no mere weep, where no decay within its limit clears it."""
    only_weeps = bool(findings["smoke_leak"].facts.get("only_weeps"))
    return outside(findings, "smoke_leak") and not only_weeps and not within(findings, "charge_leak_hole")


def flow_raised(findings: Findings) -> bool:
    """Whether more air flows than limits of pressure drops are made for: a leak, an excess of boost."""
    by_figures = any(outside(findings, check, side) for check, side in FLOW_RAISED)
    return by_figures or smoke_shows_leak(findings)


def flow_known(findings: Findings) -> bool:
    """Whether tightness and boost were looked at, and boost stands: else the flow may be raised unseen."""
    seen = all(any(findings[check].examined for check in checks) for checks in (TIGHTNESS, BOOST))
    return seen and not outside(findings, "road_hunting")


def flow_usual(findings: Findings) -> bool:
    """Whether as much air flows as limits of pressure drops are made for, and this was looked at."""
    return flow_known(findings) and not flow_raised(findings)


def drop_proves(
    check: str, *, usual: float, unknown: float, raised: float
) -> Callable[[Findings, Kind], tuple[str, ...]]:
    """The proof by a drop of pressure beyond so many times its limit, by what is known of the flow.

    A drop rises with about the square of the flow (ISO 5167-1), its limit is for the flow of a sound car.
    """

    def proof(findings: Findings, kind: Kind) -> tuple[str, ...]:
        drop = findings[check]
        if not outside(findings, check, "high") or drop.value is None or drop.limit is None:
            return ()
        times = raised if flow_raised(findings) else usual if flow_usual(findings) else unknown
        return (check,) if drop.value > times * (drop.limit.high or 0.0) else ()

    return proof


def named_by(check: str, word: str) -> Callable[[Findings, Kind], tuple[str, ...]]:
    """The proof by a check outside its limit whose finding carries the word."""

    def proof(findings: Findings, kind: Kind) -> tuple[str, ...]:
        said = findings[check].facts.get(WORD_OF[check])
        return (check,) if outside(findings, check) and said == word else ()

    return proof


def any_of(*checks: str) -> Callable[[Findings, Kind], tuple[str, ...]]:
    """The proof by any of several direct checks outside."""

    def proof(findings: Findings, kind: Kind) -> tuple[str, ...]:
        return tuple(check for check in checks if outside(findings, check))

    return proof
