"""How much a test would tell: the mutual information of fault and outcome, and what each result would mean.

A test's outcome is the state of each of its open checks (below, inside, above its limit). Every fault makes
these by its spreads; on the road by a mixture of pictures, each weighed by what the road has shown already.
Faults that make a test's outcomes alike count as one. The states of the checks are gone through as a tree;
a branch that hardly any car takes is not followed to its end, and of many checks only those that tell most by
themselves are gone through: both leave out a little of what the test tells and add nothing.
"""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from math import exp, fsum, log, prod

from calc.checks import ROAD_TESTS, TEST_OF_CHECK
from calc.checks.evidence import Kind
from calc.faults.model import SOUND, Fault, Findings, Picture, Spread
from calc.faults.weigh import BASELINE, ECHOES, Weighed, likelihood, seen_as

HARDLY_EVER = 4e-3  # share of the cars below which a branch is followed no further
TOGETHER = 5  # checks of a test that are weighed jointly
NEVER = 1e-5  # a fault less probable than this is left out
STATES = ("low", "inside", "high")

Row = tuple[float, tuple[Spread, ...]]  # a picture's share, and the spread of each check in it


@dataclass(frozen=True, slots=True)
class Suspect:
    """A fault in the running, and the pictures that it may still show on the road, with their shares."""

    fault: Fault
    probability: float
    pictures: tuple[tuple[float, Picture | None], ...]

    def rows(self, names: Sequence[str], *, on_road: bool) -> tuple[Row, ...]:
        """How the checks named come out in cars with the fault."""
        pictures = self.pictures if on_road else ((1.0, None),)
        shares: dict[tuple[Spread, ...], float] = {}
        for share, picture in pictures:
            spreads = tuple(_spread(self.fault, picture, name) for name in names)
            shares[spreads] = shares.get(spreads, 0.0) + share
        return tuple((share, spreads) for spreads, share in shares.items())

    def chance(self, name: str, state: str, *, on_road: bool) -> float:
        """Share of the cars with the fault in which a check shows a state. [-]"""
        rows = self.rows((name,), on_road=on_road)
        return fsum(share * float(getattr(spreads[0], state)) for share, spreads in rows)


class Outlook:
    """What the tests not yet done may show, after what was found so far."""

    def __init__(self, findings: Findings, weighed: Sequence[Weighed], kind: Kind) -> None:
        running = [item for item in weighed if item.probability > NEVER]
        whole = fsum(item.probability for item in running)
        self.suspects = [
            Suspect(item.fault, item.probability / whole, _pictures(item.fault, findings, kind))
            for item in running
        ]

    @property
    def probabilities(self) -> dict[str, float]:
        """The faults in the running as they stand now. [-]"""
        return {one.fault.name: one.probability for one in self.suspects}

    def all_inside(self, test: str, names: Sequence[str]) -> dict[str, float]:
        """Share of the cars with each fault in which every check named is inside its limits. [-]"""
        on_road = test in ROAD_TESTS
        return {
            one.fault.name: fsum(
                share * prod(spread.inside for spread in spreads)
                for share, spreads in one.rows(names, on_road=on_road)
            )
            for one in self.suspects
        }

    def information(self, test: str, names: Sequence[str]) -> float:
        """Expected information of a test's checks about the faults. [nat]"""
        if len(names) > TOGETHER:
            alone = {name: self._joint(test, (name,)) for name in names}
            names = sorted(names, key=lambda name: -round(alone[name], 9))[:TOGETHER]
        return self._joint(test, names) if names else 0.0

    def after(self, test: str, name: str, state: str) -> tuple[float, list[tuple[Fault, float]]]:
        """How probable a state of a check is, and each fault's probability once it was seen, in order."""
        on_road = test in ROAD_TESTS
        joint = [
            (one.fault, one.probability * one.chance(name, state, on_road=on_road)) for one in self.suspects
        ]
        whole = fsum(share for _, share in joint)
        then = [(fault, share / whole) for fault, share in joint] if whole > 0.0 else []
        return whole, sorted(then, key=lambda one: -round(one[1], 9))

    def spread_of(self, group: Collection[str], test: str, names: Sequence[str]) -> float:
        """How far apart faults of a group lie on a test: the widest gap in a state's share. [-]"""
        members = [one for one in self.suspects if one.fault.name in group]
        if len(members) < 2:
            return 0.0
        on_road = test in ROAD_TESTS
        return max(
            (
                max(shares) - min(shares)
                for name in names
                for state in STATES
                for shares in [[one.chance(name, state, on_road=on_road) for one in members]]
            ),
            default=0.0,
        )

    def _joint(self, test: str, names: Sequence[str]) -> float:
        on_road = test in ROAD_TESTS
        together: dict[tuple[Row, ...], float] = {}
        for one in self.suspects:
            rows = one.rows(names, on_road=on_road)
            together[rows] = together.get(rows, 0.0) + one.probability
        if len(together) < 2:
            return 0.0
        entries = list(_entries(together))
        columns = [
            [[getattr(spreads[depth], state) for _, _, spreads in entries] for state in STATES]
            for depth in range(len(names))
        ]
        tree = _Tree([group for group, _, _ in entries], list(together.values()))
        return tree.below([mass for _, mass, _ in entries], columns)


def _entries(together: dict[tuple[Row, ...], float]) -> Iterator[tuple[int, float, tuple[Spread, ...]]]:
    """Group, mass and spreads of every picture of every group."""
    for group, (rows, probability) in enumerate(together.items()):
        for share, spreads in rows:
            yield group, probability * share, spreads


@dataclass(frozen=True, slots=True)
class _Tree:
    """The states of the checks as a tree: the group of each entry, the probability of each group."""

    group_of: Sequence[int]
    groups: Sequence[float]

    def below(self, masses: Sequence[float], columns: Sequence[Sequence[Sequence[float]]]) -> float:
        """Information of the leaves below a branch on which the entries have these masses. [nat]"""
        whole = fsum(masses)
        if not columns or whole < HARDLY_EVER:
            return self._leaf(masses, whole)
        return fsum(
            self.below([mass * chance for mass, chance in zip(masses, column, strict=True)], columns[1:])
            for column in columns[0]
        )

    def _leaf(self, masses: Sequence[float], whole: float) -> float:
        joint = [0.0] * len(self.groups)
        for group, mass in zip(self.group_of, masses, strict=True):
            joint[group] += mass
        return fsum(
            mass * log(mass / (prior * whole))
            for mass, prior in zip(joint, self.groups, strict=True)
            if mass > 0.0
        )


def _pictures(fault: Fault, findings: Findings, kind: Kind) -> tuple[tuple[float, Picture | None], ...]:
    """The fault's pictures with their shares after what the road has shown already."""
    pictures = tuple(fault.on_road(kind))
    if not pictures:
        return ((1.0, None),)
    seen = [
        (name, seen_as(name, found, kind))
        for name, found in findings.items()
        if found.examined and TEST_OF_CHECK[name] in ROAD_TESTS and name not in ECHOES
    ]
    logs = [
        log(max(picture.share, 1e-12))
        + fsum(log(likelihood(chances, _spread(fault, picture, name))) for name, chances in seen)
        for picture in pictures
    ]
    top = max(logs)
    weights = [exp(value - top) for value in logs]
    whole = fsum(weights)
    return tuple((weight / whole, picture) for weight, picture in zip(weights, pictures, strict=True))


def _spread(fault: Fault, picture: Picture | None, name: str) -> Spread:
    own = picture.shows.get(name) if picture is not None else None
    return own or fault.shows.get(name) or BASELINE.get(name, SOUND)
