"""The control pressure that a duty should give: two passages in series, fitted to this car's bench sweep.

Bleed: a fixed restrictor from the supply, the vent's area grows with its share of the period. Changeover:
the supply's area goes with the one share, the vent's with the other. The vent of a pressure car leads to the
compressor's inlet, which lies below the atmosphere on the road and at it on the bench.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import fsum, hypot, inf, sqrt

from calc.checks import solenoid
from calc.checks.evidence import STANDARD, Evidence
from calc.checks.finding import Check
from calc.errors import OutOfRange
from calc.physics.solenoid import orifice_ratio, two_orifice_pressure
from calc.uncertainty.propagation import propagate

VENT_TO_SUPPLY = {"changeover": (1.4, 0.2), "bleed": (2.0, 0.3)}  # with standard uncertainty; the bleed's:
# 28 kPa left of 105 at 92 %, the trade's own example
MODEL_STANDARD = 0.02  # of the ratio: lines and edges; common practice, no source
INLET_KPA, INLET_STANDARD_KPA = 3.0, 1.5  # depression at the compressor's inlet; common practice, no source
TELLS = (0.03, 0.97)  # shares of the supply between which a pressure tells of both passages
SAME_MODEL = 2.0  # standard deviations by which a sweep that its fit describes may scatter about it
FEWEST_TO_INTERPOLATE = 3
DUTY_REACH_PCT = 5.0
FITTED = "fitted sweep"


@dataclass(frozen=True, slots=True)
class Fit:
    """Vent to supply area of this car, with its standard uncertainty. [-]"""

    ratio: float
    uncertainty: float


@dataclass(frozen=True, slots=True)
class Opening:
    """A row of the bench sweep: at a duty, the vent so many times as wide as the supply, with its doubt."""

    duty: float
    vent: float | None
    share: float
    size: float
    own: float


def expected_ratio(evidence: Evidence, duty_pct: float, supply_kpa: float) -> tuple[float, float] | None:
    """Expected control ÷ supply pressure (gauge) and its standard uncertainty; None where nothing tells."""
    found = _size_at(evidence, duty_pct)
    if found is None:
        return None
    size, doubt = found
    inlet, inlet_doubt = _inlet(evidence)
    values = {"size": size, "inlet": inlet}

    def ratio(size: float, inlet: float) -> float:
        return _ratio(evidence, max(size, 0.0), supply_kpa, inlet)

    try:
        spread = propagate(ratio, values, {"size": doubt, "inlet": inlet_doubt})
        return ratio(**values), hypot(spread, MODEL_STANDARD)
    except OutOfRange:
        return None


def fitted(evidence: Evidence) -> Fit | None:
    """Vent to supply area by least squares over the bench sweep; None where the sweep does not tell it.

    The sweep has to be in order, its arrangement known, and its rows as near to the fit as their doubt.
    """
    if FITTED not in evidence.worked_out:
        evidence.worked_out[FITTED] = _fit(evidence)
    found: Fit | None = evidence.worked_out[FITTED]
    return found


def _fit(evidence: Evidence) -> Fit | None:
    kind = evidence.kind
    if kind.arrangement not in VENT_TO_SUPPLY:
        return None
    rows = [
        (row.vent, row.size * (1.0 if kind.arrangement == "bleed" else 1.0 - row.vent), row.own)
        for row in _openings(evidence)
        if row.vent is not None and 0.0 < row.vent < 1.0 + (kind.arrangement == "bleed") and _tells(row)
    ]
    if not rows:
        return None
    weights = [(vent / own) ** 2 for vent, _, own in rows]
    ratio = fsum(size * vent / own**2 for vent, size, own in rows) / fsum(weights)
    apart = fsum(((size - ratio * vent) / own) ** 2 for vent, size, own in rows) / len(rows)
    if ratio <= 0.0 or apart > SAME_MODEL**2:
        return None
    return Fit(ratio, sqrt(max(1.0, apart) / fsum(weights)))


def _tells(row: Opening) -> bool:
    return TELLS[0] < row.share < TELLS[1]


def _openings(evidence: Evidence) -> list[Opening]:
    """The rows of a sweep that is in order, each with the opening that its pressure tells."""
    check = Check("solenoid_response", "pct", "", solenoid.response)
    if solenoid.response(evidence, check).outcome == "outside":
        return []
    found = []
    for row in solenoid.sweep(evidence):
        share = min(max(row.share / 100.0, 0.0), 1.0)
        size, narrow, wide = (
            _size(evidence, row.supply, min(max(share + step, 0.001), 0.999))
            for step in (0.0, row.own / 100.0, -row.own / 100.0)
        )
        own = max((wide - narrow) / 2.0, 1e-6)
        vent = evidence.kind.vent_share(row.duty)
        found.append(Opening(row.duty, vent, share, size, own))
    return found


def _size(evidence: Evidence, supply_kpa: float, share: float) -> float:
    """How many times as wide as the supply's passage the vent is on the bench."""
    ambient, fed = evidence.barometric.value * 1e3, supply_kpa * 1e3
    between = ambient + share * fed
    try:
        if fed < 0.0:
            size = orifice_ratio(between, ambient, ambient + fed)
            return inf if size == 0.0 else 1.0 / size
        return orifice_ratio(between, ambient + fed, ambient)
    except OutOfRange:
        return inf


def _size_at(evidence: Evidence, duty_pct: float) -> tuple[float, float] | None:
    """Vent to supply at a duty with its standard uncertainty: this car's own, else the usual one."""
    kind, own = evidence.kind, fitted(evidence)
    if kind.actuator == "electric":
        return None
    if own is None and (between := _interpolated(_openings(evidence), duty_pct)) is not None:
        return between
    vent = kind.vent_share(duty_pct)
    if vent is None or kind.arrangement not in VENT_TO_SUPPLY:
        return None
    ratio, doubt = (own.ratio, own.uncertainty) if own else VENT_TO_SUPPLY[kind.arrangement]
    factor = vent if kind.arrangement == "bleed" else vent / max(1e-3, 1.0 - vent)
    late = STANDARD["share_pct"] / 100.0 / max(vent, 0.01)
    if kind.arrangement == "changeover":
        late /= max(1e-2, 1.0 - vent)
    return ratio * factor, factor * hypot(doubt, ratio * min(late, 1.0))


def _interpolated(rows: Sequence[Opening], duty_pct: float) -> tuple[float, float] | None:
    """Straight lines between the sweep's rows, along the vent's share of both passages."""
    if len(rows) < FEWEST_TO_INTERPOLATE:
        return None
    if not rows[0].duty - DUTY_REACH_PCT <= duty_pct <= rows[-1].duty + DUTY_REACH_PCT:
        return None
    at = min(max(duty_pct, rows[0].duty), rows[-1].duty)
    for first, last in pairwise(rows):
        if at <= last.duty and last.duty > first.duty:
            way = (at - first.duty) / (last.duty - first.duty)
            ends = [_of_both(size) for size in (first.size, last.size)]
            of_both = ends[0] + way * (ends[1] - ends[0])
            doubt = max(_of_both(row.size + row.own) - _of_both(row.size) for row in (first, last))
            narrow, size, wide = (_from_both(of_both + step) for step in (-doubt, 0.0, doubt))
            return size, (wide - narrow) / 2.0
    return None


def _of_both(size: float) -> float:
    return 1.0 if size == inf else size / (1.0 + size)


def _from_both(share: float) -> float:
    held = min(max(share, 0.0), 0.999)
    return held / (1.0 - held)


def _inlet(evidence: Evidence) -> tuple[float, float]:
    """How far below the atmosphere the vent ends on the road, with its standard uncertainty. [kPa]"""
    if evidence.kind.vacuum:
        return 0.0, 0.0
    read = evidence.test_pressure("intake_depression", "p_kpa")
    if read is not None and evidence.get("/tests/intake_depression/load") != "none" and read.value < 0.0:
        return -read.value, min(read.uncertainty, INLET_STANDARD_KPA)
    return INLET_KPA, INLET_STANDARD_KPA


def _ratio(evidence: Evidence, size: float, supply_kpa: float, inlet_kpa: float) -> float:
    """Control ÷ supply (gauge) for a vent so many times as wide as the supply's passage.

    Where vacuum is the supply, air comes in by the vent and leaves by the supply.
    """
    ambient, fed = evidence.barometric.value * 1e3, supply_kpa * 1e3
    if fed < 0.0:
        turned_over = inf if size <= 0.0 else 1.0 / size
        return (two_orifice_pressure(turned_over, ambient, ambient + fed) - ambient) / fed
    return (two_orifice_pressure(size, fed + ambient, ambient - inlet_kpa * 1e3) - ambient) / fed
