"""Many moments of a road run into one finding: the worst that is no mere noise, and why there is none."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import fsum
from typing import Any

from calc.checks.evidence import Evidence
from calc.checks.finding import Check, Finding
from calc.checks.moments import Moment, normal_logs, pull_key
from calc.uncertainty.decision import Limit

BOOST_KPA = 10.0
AGREE_SHARE = 0.4  # of the tolerance: moments of a pull nearer than this show one value


@dataclass(frozen=True, slots=True)
class Compared:
    """What one moment says of a check: a value with its standard uncertainty and places.

    gauge, own : the gauge that was read, and the uncertainty without what all its readings share.
    """

    moment: Moment
    value: float
    uncertainty: float
    places: tuple[str, ...]
    known: bool = True
    gauge: str | None = None
    own: float = 0.0


def by_pull(
    check: Check,
    seen: Sequence[Compared],
    limit: Limit,
    *,
    typical: bool,
    where: Mapping[tuple[str, int | None], Mapping[str, str]] | None = None,
) -> list[Finding]:
    """One finding a logged pull where its moments agree, else one a moment; typed rows each by itself.

    The worst of many moments that only differ by noise would be no true value of anything.
    """
    groups: dict[object, list[Compared]] = defaultdict(list)
    for one in seen:
        is_typed = one.moment.judged is None
        groups[id(one) if is_typed else (*pull_key(one.moment), len(one.moment.gauges) > 0)].append(one)
    judged = []
    for group in groups.values():
        more = dict((where or {}).get(pull_key(group[0].moment), {}))
        for one in [_together(group)] if _agree(group, limit) else group:
            judged.append(
                check.judged(
                    one.value,
                    one.uncertainty,
                    limit,
                    one.places,
                    may_acquit=one.known,
                    typical=typical,
                    **{**moment_facts(one.moment), **_by_gauge(one), **more},
                )
            )
    return judged


def _agree(group: Sequence[Compared], limit: Limit) -> bool:
    values = [one.value for one in group]
    width = (limit.high - limit.low) / 2.0 if limit.low is not None and limit.high is not None else 0.0
    return max(values) - min(values) <= max(AGREE_SHARE * width, 2.0 * max(one.uncertainty for one in group))


def _together(group: Sequence[Compared]) -> Compared:
    """Mean of a pull's moments, with the mean of their doubts: most of it they share."""
    count = len(group)
    value, doubt = fsum(one.value for one in group) / count, fsum(one.uncertainty for one in group) / count
    middle = min(group, key=lambda one: abs(one.value - value))
    known = all(one.known for one in group)
    own = fsum(one.own for one in group) / count
    gauge = middle.gauge if len({one.gauge for one in group}) == 1 else None
    return Compared(middle.moment, value, doubt, middle.places, known, gauge, own)


def _by_gauge(one: Compared) -> dict[str, Any]:
    return {} if one.gauge is None else {"gauge": one.gauge, "own": one.own}


def boost_tolerance(evidence: Evidence) -> Limit:
    """How far real or measured boost may lie from what is aimed at. [kPa]"""
    wanted = evidence.number("/spec/boost_tolerance_kpa")
    width = BOOST_KPA if wanted is None else abs(wanted)
    return Limit(-width, width)


def can_act(evidence: Evidence, aimed: float, error: float) -> bool:
    """Whether the device could bring boost down to the aim: it cannot go under its own base boost."""
    base = None if error <= 0.0 else evidence.limit("base_boost_kpa")
    if base is None or base.high is None or evidence.kind.actuator != "pressure":
        return True
    return evidence.above_the_air(aimed) >= base.high


def worst(judged: Iterable[Finding], check: Check, because: str | None = None) -> Finding:
    """The finding least likely to be inside its limit; of equals the one farthest from nought."""
    found = [item for item in judged if item.chances is not None]
    if not found:
        return check.missing(because or "no_reading")
    return min(
        found, key=lambda item: (item.chances.inside if item.chances else 1.0, -abs(item.value or 0.0))
    )


def farthest(judged: Sequence[Finding], check: Check, because: str | None) -> Finding:
    """The worst finding; where there is no limit to judge by, the highest value."""
    if judged and all(item.chances is None for item in judged):
        return max(judged, key=lambda item: item.value or 0.0)
    return worst(judged, check, because)


def because_of(evidence: Evidence, *channels: str, phase: str = "before_repair") -> str | None:
    """Why a log that holds these channels shows nothing; None where no log holds them."""
    logs = [log for log in normal_logs(evidence, phase) if log.usable]
    logs = [log for log in logs if all(name in log.channels for name in channels)]
    if not logs:
        return None
    if all(log.too_slow for log in logs):
        return "log_too_slow"
    pulls = [pull for log in logs for pull in log.pulls]
    if not pulls:
        return "no_pull"
    return None if any(pull.settling.judged for pull in pulls) else "never_settled"


def is_default(evidence: Evidence, key: str) -> bool:
    """Whether the tolerance is the contract's own, none being typed."""
    return evidence.number(f"/spec/{key}") is None


def moment_facts(moment: Moment) -> dict[str, Any]:
    """Where in the run a value was read, for its sentence."""
    channels = ("engine_rpm", "air_mass_gps")
    found: dict[str, Any] = {"pull": moment.pull, **{name: moment.number(name) for name in channels}}
    return {**found, "overdue": True} if moment.overdue else found
