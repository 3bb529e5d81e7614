"""How cars with a fault spread over the course of a road run, and how strongly that speaks.

`calc.checks.course` gives numbers, `EDGES` cuts each into a few ranges, and the tables of `shares_*` say how
many of a hundred simulated cars with a fault lie in each (`python3 -m tests.verdict.calibrate` makes them
from calibration seeds). The numbers of one pull hang together, and a simulator is not the road: so they weigh
by less than a half (`TEMPER`), and no table makes a range impossible (`SMOOTHING`).
"""

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from functools import cache
from math import exp, fsum, log

from calc.checks.evidence import Kind
from calc.faults import shares_electric, shares_pressure, shares_vacuum_vgt, shares_vacuum_wastegate

EDGES: Mapping[str, tuple[float, ...]] = {
    "arrival_rpm": (2300.0, 3000.0, 9000.0),
    "low_share": (-0.35, -0.12, -0.04, 0.04),
    "middle_share": (-0.25, -0.12, -0.04, 0.04, 0.12),
    "bend_share": (-0.12, -0.03, 0.03, 0.12),
    "excess_share": (0.05, 0.12, 0.25, 0.4),
    "over_base_share": (-0.4, -0.1, 0.25, 0.8, 1.2),
    "towards_more_pct": (15.0, 40.0, 70.0, 88.0),
    "throttle_pct": (60.0, 85.0),
    "egr_pct": (8.0,),
    "warmth_k": (15.0, 28.0, 40.0, 55.0),
    "filling": (0.72, 0.82, 0.9, 0.98, 1.08, 1.2),
    "ask_kpa": (-25.0, -8.0, 8.0),
    "aim_kpa": (-35.0, -12.0, 12.0, 30.0),
    "control_share": (0.05, 0.15, 0.35, 0.6, 0.85),
    "control_miss": (-0.4, -0.2, -0.08, 0.08, 0.2, 0.4),
    "control_reach": (-0.8, -0.3, 0.1, 0.6, 1.2, 2.0),
}
TEMPER = 0.35  # the best calibrated of 0.35, 0.4, 0.5 on seeds that the tables were not made from
SMOOTHING = 0.08  # of each table's weight, what all faults together show
SPEAKS = 1.5
ANY = "any"  # stands for a fault that no table holds: what all of them together show
# a fault that shows in one of several ways, each whole: its numbers taken one by one would fit neither
WAYS = {"control_hoses_swapped": ("solenoid_passes_all", "solenoid_vents_all")}
OPEN_ENDED = {"other_cause": 0.6}  # five simulated causes do not stand for all that there are


def trace_log(fault: str, kind: Kind, course: Mapping[str, float]) -> float:
    """How likely the course of the run is with a fault, tempered, as a log."""
    logs = [fsum(trace_logs(way, kind, course)) for way in WAYS.get(fault, (fault,))]
    top = max(logs)
    return top + log(fsum(exp(value - top) for value in logs) / len(logs))


def trace_logs(fault: str, kind: Kind, course: Mapping[str, float]) -> list[float]:
    """The same number by number, in the order of `EDGES`."""
    table = tables_of(kind.device, kind.actuator)
    return [
        TEMPER * log(table[name].get(fault, table[name][ANY])[bisect_right(EDGES[name], course[name])])
        for name in EDGES
        if name in course and name in table
    ]


def speaking_for(fault: str, kind: Kind, course: Mapping[str, float]) -> list[str]:
    """The numbers that cars with this fault show more often than others, in the order of `EDGES`."""
    table, found = tables_of(kind.device, kind.actuator), []
    for name in EDGES:
        if name in course and fault in table.get(name, {}):
            place = bisect_right(EDGES[name], course[name])
            if table[name][fault][place] >= SPEAKS * table[name][ANY][place]:
                found.append(name)
    return found


@cache
def tables_of(device: str, actuator: str) -> Mapping[str, Mapping[str, Sequence[float]]]:
    """Number → fault → share of each range, smoothed."""
    if actuator == "vacuum":
        rows = (shares_vacuum_vgt if device == "variable_geometry" else shares_vacuum_wastegate).SHARES
    else:
        rows = (shares_electric if actuator == "electric" else shares_pressure).SHARES
    counted: dict[str, dict[str, list[float]]] = {}
    for fault, row in rows.items():
        for part in row.split(", "):
            name, *counts = part.split()
            counted.setdefault(name, {})[fault] = [float(count) for count in counts]
    return {name: _smoothed(faults) for name, faults in counted.items()}


def _smoothed(faults: Mapping[str, Sequence[float]]) -> dict[str, list[float]]:
    shared = _normal([fsum(column) + 1.0 for column in zip(*faults.values(), strict=True)])
    found = {ANY: shared}
    for fault, counts in faults.items():
        keep = 1.0 - OPEN_ENDED.get(fault, SMOOTHING)
        own = _normal([count + 0.5 for count in counts])
        found[fault] = [keep * mine + (1.0 - keep) * all_ for mine, all_ in zip(own, shared, strict=True)]
    return found


def _normal(counts: Sequence[float]) -> list[float]:
    total = fsum(counts)
    return [count / total for count in counts]
