"""The road run as moments: what the car said and what the gauges said at one instant of a pull.

Typed rows (`noted`) and gauge readings belong together by pull and nearest engine speed, else by time.
A typed row counts as settled at full load where the contract's words allow it: pedal down, specified near
its peak of the pull, and not still spooling up at low engine speed.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from calc.checks.evidence import Evidence
from calc.uncertainty.gauge import Pressure

FULL_PEDAL_PCT = 95.0
SAME_SPEED_RPM = 150.0
SAME_TIME_S = 2.0
NEAR_PEAK_SHARE = 0.03
ARRIVED_KPA = 9.0
SPOOLED_RPM = 2300.0
CHARGE_SIDE = ("charge_circuit", "after_cooler")


@dataclass(slots=True)
class Moment:
    """One instant of a pull: channel values by their contract name, gauges by where they sit."""

    pointer: str
    pull: int | None
    said: Mapping[str, Any]
    gauges: dict[str, tuple[Pressure, str]] = field(default_factory=dict)

    def number(self, channel: str) -> float | None:
        """A channel's value at this instant."""
        found = self.said.get(channel)
        return None if found is None else float(found)

    def place(self, channel: str) -> str:
        """Where a channel's value was read from."""
        return f"{self.pointer}/{channel}"

    def gauge_at(self, *places: str) -> tuple[Pressure, str] | None:
        """The first gauge reading found at one of the places."""
        return next((self.gauges[place] for place in places if place in self.gauges), None)


def runs(evidence: Evidence, phase: str = "before_repair") -> Iterator[tuple[str, Mapping[str, Any]]]:
    """The road runs of a phase, with their pointers."""
    for pointer, run in evidence.items("/tests/road"):
        if (run.get("phase") or "before_repair") == phase:
            yield pointer, run


def is_normal(run: Mapping[str, Any]) -> bool:
    """Whether the boost control was left to work as it does on the road."""
    return (run.get("control") or "normal") == "normal"


def moments(evidence: Evidence, phase: str = "before_repair") -> list[Moment]:
    """Every moment of the normal runs of a phase, gauges laid beside the rows they belong to."""
    found: list[Moment] = []
    for pointer, run in runs(evidence, phase):
        if is_normal(run):
            found.extend(_run_moments(evidence, pointer))
    return found


def settled(evidence: Evidence, phase: str = "before_repair") -> list[Moment]:
    """The moments that may be judged: full load, specified near its peak, boost no longer on its way."""
    found = moments(evidence, phase)
    peaks: dict[tuple[str, int | None], float] = {}
    for moment in found:
        specified = moment.number("boost_specified_kpa_abs")
        if specified is not None:
            key = _pull_key(moment)
            peaks[key] = max(peaks.get(key, specified), specified)
    return [moment for moment in found if _is_settled(moment, peaks.get(_pull_key(moment)), evidence)]


def peak_readings(evidence: Evidence, phase: str = "before_repair") -> list[tuple[Pressure, str]]:
    """Every gauge reading of the charge circuit in normal runs, tell-tale maxima included."""
    found = []
    for pointer, run in runs(evidence, phase):
        if is_normal(run):
            for place, item in evidence.items(f"{pointer}/readings"):
                if _at(item) in CHARGE_SIDE and item.get("p_kpa") is not None:
                    found.append((evidence.pressure(item["p_kpa"], item.get("gauge")), f"{place}/p_kpa"))
    return found


def _run_moments(evidence: Evidence, pointer: str) -> list[Moment]:
    rows = [Moment(place, item.get("pull"), item) for place, item in evidence.items(f"{pointer}/noted")]
    lone: list[Moment] = []
    for place, item in evidence.items(f"{pointer}/readings"):
        if item.get("p_kpa") is None or item.get("peak"):
            continue
        read = evidence.pressure(item["p_kpa"], item.get("gauge"))
        home = _beside(item, rows) or _beside(item, lone)
        if home is None:
            home = Moment(place, item.get("pull"), _instant(item))
            lone.append(home)
        home.gauges.setdefault(_at(item), (read, f"{place}/p_kpa"))
    return rows + lone


def _instant(item: Mapping[str, Any]) -> dict[str, Any]:
    return {key: item[key] for key in ("engine_rpm", "t_s") if item.get(key) is not None}


def _beside(item: Mapping[str, Any], rows: list[Moment]) -> Moment | None:
    """The row a gauge reading belongs to: same pull and nearest engine speed, else nearest time."""
    pull = item.get("pull")
    same = [row for row in rows if pull is None or row.pull is None or row.pull == pull]
    near = _nearest(item, same, "engine_rpm", SAME_SPEED_RPM)
    if near is None and not _both_have(item, same, "engine_rpm"):
        near = _nearest(item, same, "t_s", SAME_TIME_S)
    if near is None and len(same) == 1 and not _both_have(item, same, "engine_rpm", "t_s"):
        return same[0]
    return near


def _nearest(item: Mapping[str, Any], rows: list[Moment], key: str, reach: float) -> Moment | None:
    if item.get(key) is None:
        return None
    apart = [(abs(row.said[key] - item[key]), row) for row in rows if row.said.get(key) is not None]
    gap, row = min(apart, key=lambda pair: pair[0], default=(reach + 1.0, None))
    return row if gap <= reach else None


def _both_have(item: Mapping[str, Any], rows: list[Moment], *keys: str) -> bool:
    return any(
        item.get(key) is not None and any(row.said.get(key) is not None for row in rows) for key in keys
    )


def _at(item: Mapping[str, Any]) -> str:
    return item.get("at") or "charge_circuit"


def _pull_key(moment: Moment) -> tuple[str, int | None]:
    return moment.pointer.rsplit("/", 2)[0], moment.pull


def _is_settled(moment: Moment, peak: float | None, evidence: Evidence) -> bool:
    pedal, specified = moment.number("pedal_pct"), moment.number("boost_specified_kpa_abs")
    if pedal is not None and pedal < FULL_PEDAL_PCT:
        return False
    if specified is None or peak is None:
        return specified is None
    if specified < peak * (1.0 - NEAR_PEAK_SHARE):
        return False
    return not _still_spooling(moment, specified, evidence)


def _still_spooling(moment: Moment, specified: float, evidence: Evidence) -> bool:
    rpm = moment.number("engine_rpm")
    if rpm is None or rpm > SPOOLED_RPM:
        return False
    gauge = moment.gauge_at(*CHARGE_SIDE)
    boost = moment.number("boost_actual_kpa_abs")
    if gauge is not None:
        boost = gauge[0].value + evidence.barometric.value
    return boost is not None and boost < specified - ARRIVED_KPA
