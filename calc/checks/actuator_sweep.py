"""The rows of the actuator's bench sweep, and the ramps fitted to them: rising and falling by themselves.

For a vacuum actuator the pressures are negative; everything here goes by the depth.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot

from calc.checks.evidence import Evidence
from calc.physics.actuator import friction_pressure
from calc.signals.breakpoint import SweepFit, fit_sweep
from calc.signals.refusal import CannotFit
from calc.uncertainty.gauge import Pressure
from calc.uncertainty.propagation import few_points


@dataclass(frozen=True, slots=True)
class Row:
    """One row of the bench sweep: pressure with the zero taken out, and how deep it drives. [kPa, mm]"""

    pointer: str
    pressure: float
    depth: float
    travel: float


def columns(rows: Sequence["Row"]) -> tuple[list[float], list[float]]:
    """Depths and travels of rows. [kPa, mm]"""
    return [row.depth for row in rows], [row.travel for row in rows]


def sweep_rows(evidence: Evidence, direction: str, *, by_depth: bool = True) -> list[Row]:
    """Rows of the bench sweep in one direction, by depth or as they were read."""
    gauge, sign = evidence.get("/tests/actuator/gauge"), -1.0 if evidence.kind.vacuum else 1.0
    rows = [
        Row(pointer, read.value, sign * read.value, float(item["travel_mm"]))
        for pointer, item in evidence.items("/tests/actuator/sweep")
        if (item.get("direction") or "rising") == direction
        and item.get("p_kpa") is not None
        and item.get("travel_mm") is not None
        for read in (evidence.pressure(item["p_kpa"], gauge),)
    ]
    return sorted(rows, key=lambda row: row.depth) if by_depth else rows


def sweep_gauge(evidence: Evidence, at_kpa: float) -> Pressure:
    """A pressure of the bench test with its gauge's doubt."""
    return evidence.pressure(at_kpa, evidence.get("/tests/actuator/gauge"))


def rising_fit(evidence: Evidence) -> SweepFit | None:
    """First movement, end of travel and rate of the rising sweep, as depth; None if it cannot be fitted."""
    return _fit(evidence, "rising")


def falling_fit(evidence: Evidence) -> SweepFit | None:
    """The same of the falling sweep: its first movement is where the rod comes to rest."""
    return _fit(evidence, "falling")


def _fit(evidence: Evidence, direction: str) -> SweepFit | None:
    place = f"{direction} fit"
    if place not in evidence.worked_out:
        try:
            evidence.worked_out[place] = fit_sweep(*columns(sweep_rows(evidence, direction)))
        except CannotFit:
            evidence.worked_out[place] = None
    fit: SweepFit | None = evidence.worked_out[place]
    return fit


def break_doubt(se: float, freedom: int, gauge: Pressure) -> float:
    """Standard uncertainty of a break, the class left out: its scatter, at least one reading's. [kPa]"""
    return max(se * few_points(freedom), gauge.own)


@dataclass(frozen=True, slots=True)
class Spring:
    """Spring and friction by both sweeps, each as a depth with its U. [kPa]

    rests : where the falling rod comes to rest.
    preload : pressure that the spring alone holds against.
    friction : pressure that friction takes, either way.
    falling_rate : travel per pressure on the way back. [mm/kPa]
    """

    rests: tuple[float, float]
    preload: tuple[float, float]
    friction: tuple[float, float]
    falling_rate: tuple[float, float]


def spring(evidence: Evidence) -> Spring | None:
    """What the two fits say apart: preload lies between them, friction is half their distance.

    The gauge's class error shifts rest and preload and falls out of the friction.
    """
    up, down = rising_fit(evidence), falling_fit(evidence)
    if up is None or down is None or up.first_movement < down.first_movement:
        return None
    gauge = sweep_gauge(evidence, up.first_movement)
    doubts = [break_doubt(fit.se_first_movement, fit.freedom, gauge) for fit in (up, down)]
    half = hypot(*doubts) / 2.0
    own = half if gauge.known else hypot(half, gauge.shared / 2.0)
    friction = friction_pressure(1e3 * up.first_movement, 1e3 * down.first_movement) / 1e3
    return Spring(
        rests=(down.first_movement, 2.0 * hypot(doubts[1], gauge.shared)),
        preload=(up.first_movement - friction, 2.0 * hypot(half, gauge.shared)),
        friction=(friction, 2.0 * own),
        falling_rate=(down.rate, 2.0 * down.se_rate * few_points(down.freedom)),
    )
