"""The course of a road run: what its pulls show beside the checks, as plain numbers.

No finding comes of these: they have no limit. They tell faults apart that the checks leave together, because
air lost at a joint, a gate off its seat and a weak engine make boost low in different parts of a pull.
Shares are of the boost aimed at; every number is the mean over the run's full-load pulls.
"""

from collections.abc import Iterator, Sequence
from math import fsum

from calc.checks.control_model import expected_ratio
from calc.checks.evidence import Evidence
from calc.checks.moments import logged_pulls, moments, set_right, settled
from calc.checks.road import filling
from calc.checks.road_control import supply_of
from calc.checks.run_log import SPECIFIED, LoggedPull
from calc.signals.settled import ARRIVED_KPA, NEAR_PEAK_SHARE

LOW, MIDDLE, TOP = (0.15, 0.35), (0.4, 0.65), (0.8, 1.0)  # parts of a pull's time up to a cut
LATER_HALF, LATER = (0.5, 0.95), (0.4, 1.0)
LEAST_BOOST_KPA, LEAST_SUPPLY_KPA, FEWEST_ROWS = 30.0, 30.0, 10
LEAST_ABOVE_BASE_KPA = 20.0
NEVER_RPM = 9_999.0


def course(evidence: Evidence) -> dict[str, float]:
    """Every number that this job's road runs give, by name; those that nothing tells are absent.

    arrival_rpm : engine speed at which real boost comes within 9 kPa of the aim; 9,999 where it never does
    low_share, middle_share : real boost less aim early in a pull and in its middle, of the aim
    bend_share : the same at the top, less that of the middle
    excess_share : largest real boost above the aim
    over_base_share : 0 at the turbocharger's base boost, 1 at the aim
    towards_more_pct : duty, counted towards more boost, late in a pull
    throttle_pct, egr_pct : what the car says of them late in a pull
    warmth_k : charge air above the air outside
    filling : air mass signal against what the engine must swallow
    ask_kpa, aim_kpa : aim less request; highest aim less the middle of the maker's limit
    control_share : control pressure of what feeds the solenoid
    control_miss : the same less what the duty should give
    control_reach : control pressure, 0 at the actuator's first movement, 1 at its full travel, by the limits
    """
    key = "course"
    if key not in evidence.worked_out:
        pulls = [dict(_of_pull(evidence, pull)) for pull in logged_pulls(evidence)]
        evidence.worked_out[key] = _means([*pulls, dict(_of_moments(evidence)), *_of_control(evidence)])
    found: dict[str, float] = evidence.worked_out[key]
    return found


def _means(parts: Sequence[dict[str, float]]) -> dict[str, float]:
    names = sorted({name for part in parts for name in part})
    found = {}
    for name in names:
        known = [part[name] for part in parts if name in part]
        found[name] = fsum(known) / len(known)
    return found


class _Trace:
    """Real boost against its aim in one pull, up to a cut."""

    def __init__(self, evidence: Evidence, pull: LoggedPull) -> None:
        add = set_right(evidence, pull.pointer.removesuffix("/channels")).value
        self.pull, self.times = pull, pull.times
        self.end = len(pull.times) - 1 if pull.settling.cut is None else pull.settling.cut
        self.aims = pull.channel(SPECIFIED)
        self.errors = [None if error is None else error + add for error in pull.errors]
        self.rows = [row for row in range(self.end + 1) if self.errors[row] is not None]
        self.top = max((aim for row in self.rows if (aim := self.aims[row]) is not None), default=0.0)

    def part(self, ends: tuple[float, float]) -> list[int]:
        """The rows in a part of the pull's time."""
        start, lasting = self.times[0], self.times[self.end] - self.times[0]
        low, high = (start + share * lasting for share in ends)
        return [row for row in self.rows if low <= self.times[row] <= high]

    def error(self, ends: tuple[float, float]) -> float | None:
        """Mean error over a part of the pull. [kPa]"""
        known = [error for row in self.part(ends) if (error := self.errors[row]) is not None]
        return fsum(known) / len(known) if known else None


def _of_pull(evidence: Evidence, pull: LoggedPull) -> Iterator[tuple[str, float]]:
    trace, outside = _Trace(evidence, pull), evidence.barometric.value
    aimed = trace.top - outside
    if len(trace.rows) < FEWEST_ROWS or aimed < LEAST_BOOST_KPA:
        return
    if (arrival := _arrival(trace)) is not None:
        yield "arrival_rpm", arrival
    low, middle, top = (trace.error(ends) for ends in (LOW, MIDDLE, TOP))
    if low is not None:
        yield "low_share", low / aimed
    if middle is not None:
        yield "middle_share", middle / aimed
        if top is not None:
            yield "bend_share", (top - middle) / aimed
    yield "excess_share", max(error for row in trace.rows if (error := trace.errors[row]) is not None) / aimed
    base, late = evidence.limit("base_boost_kpa"), trace.error(LATER_HALF)
    if base is not None and base.middle is not None and late is not None:
        room = max(aimed - base.middle, LEAST_ABOVE_BASE_KPA)
        yield "over_base_share", (aimed + late - base.middle) / room
    yield from _said(evidence, trace)


def _said(evidence: Evidence, trace: _Trace) -> Iterator[tuple[str, float]]:
    rows = trace.part(LATER_HALF)
    for channel in ("throttle_pct", "egr_pct"):
        if (said := trace.pull.mean(channel, rows)) is not None:
            yield channel, said
    duty = trace.pull.mean("duty_pct", rows)
    lean = None if duty is None else evidence.kind.towards_more_boost(duty)
    if lean is not None:
        yield "towards_more_pct", lean
    air = trace.pull.mean("manifold_air_c", trace.part(LATER))
    if air is None and evidence.get("/spec/intake_air_at") != "before_compressor":
        air = trace.pull.mean("intake_air_c", trace.part(LATER))
    outside = evidence.number("/site/ambient_c")
    if air is not None and outside is not None:
        yield "warmth_k", air - outside


def _arrival(trace: _Trace) -> float | None:
    speeds = trace.pull.channel("engine_rpm")
    for row in trace.rows:
        aim, error = trace.aims[row], trace.errors[row]
        near = aim is not None and aim >= (1.0 - NEAR_PEAK_SHARE) * trace.top
        if near and error is not None and error >= -ARRIVED_KPA:
            return speeds[row]
    return NEVER_RPM


def _of_moments(evidence: Evidence) -> Iterator[tuple[str, float]]:
    asked, aims, shares = [], [], []
    for moment in settled(evidence):
        aim, request = moment.number(SPECIFIED), moment.number("boost_request_kpa_abs")
        if aim is not None:
            aims.append(aim)
            if request is not None:
                asked.append(aim - request)
        if (share := filling(evidence, moment)) is not None:
            shares.append(share.value)
    peak = evidence.limit("boost_specified_peak_kpa_abs")
    if aims and peak is not None and peak.middle is not None:
        yield "aim_kpa", max(aims) - peak.middle
    if asked:
        yield "ask_kpa", fsum(asked) / len(asked)
    if shares:
        yield "filling", fsum(shares) / len(shares)


def _of_control(evidence: Evidence) -> Iterator[dict[str, float]]:
    start, full = evidence.limit("actuator_start_kpa"), evidence.limit("actuator_full_kpa")
    for moment in moments(evidence):
        control, supply = moment.gauge_at("control_line"), supply_of(evidence, moment)
        if control is None or supply is None or abs(supply.p_kpa) < LEAST_SUPPLY_KPA:
            continue
        share, duty = control[0].value / supply.p_kpa, moment.number("duty_pct")
        found = {"control_share": share}
        expected = None if duty is None else expected_ratio(evidence, duty, supply.p_kpa)
        if expected is not None:
            found["control_miss"] = share - expected[0]
        if start and full and start.middle is not None and full.middle is not None:
            way = full.middle - start.middle
            if way != 0.0:
                found["control_reach"] = (control[0].value - start.middle) / way
        yield found
