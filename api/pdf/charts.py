"""Two drawings from the readings: the actuator against its limits, and the pulls of the road run."""

from collections.abc import Iterable
from dataclasses import dataclass
from math import floor, log10
from typing import Any

from api.pdf.figures import PRESSURE_UNITS, amount, figure
from api.pdf.pulls import Pull
from api.pdf.svg import BLUE, INK, PALE, VERMILION, drawing, element, line, text

WIDTH = 330.0
LEFT, RIGHT = 8.0, 322.0
LANE = 58.0


@dataclass(frozen=True)
class Scale:
    """A straight line from values to places on the paper."""

    low: float
    high: float
    left: float = LEFT
    right: float = RIGHT

    def at(self, value: float) -> float:
        """Where a value stands."""
        return self.left + (value - self.low) / (self.high - self.low) * (self.right - self.left)


@dataclass(frozen=True)
class Lane:
    """One reading against its limit: a bar of what is allowed, a mark with its doubt."""

    name: str
    value: float
    doubt: float
    low: float | None
    high: float | None
    is_outside: bool


def actuator(document: dict[str, Any], verdict: dict[str, Any], unit: str) -> str | None:
    """The pressures at which the rod moves and ends, or the whole sweep where it was taken."""
    lanes = _lanes(verdict)
    sweep = ((document.get("tests") or {}).get("actuator") or {}).get("sweep") or []
    points = [row for row in sweep if row.get("p_kpa") is not None and row.get("travel_mm") is not None]
    if len(points) > 2:
        return _sweep(points, lanes, unit)
    return _lanes_drawn(lanes, unit) if lanes else None


def road(pulls: list[Pull], unit: str) -> str | None:
    """For each pull what was aimed at, what the car says and what the gauge says, above the air pressure."""
    drawn = [pull for pull in pulls if pull.has_pair]
    if not drawn:
        return None
    scale = _around([value for pull in drawn for value in pull.values], zero=False)
    body = [part for row, pull in enumerate(drawn) for part in _pull(pull, scale, row * LANE, unit)]
    height = len(drawn) * LANE + 26
    words = "Boost on the road: " + "; ".join(pull.in_words(unit) for pull in drawn)
    return drawing(WIDTH, height, words, *body, *_axis(scale, height - 18, unit, "above air pressure"))


def _lanes(verdict: dict[str, Any]) -> list[Lane]:
    names = {"actuator_start": "rod just moves", "actuator_full": "end of travel"}
    findings = {finding["check"]: finding for finding in verdict.get("findings", [])}
    found = [(name, findings[check]) for check, name in names.items() if check in findings]
    return [_lane(name, finding) for name, finding in found if finding.get("value") is not None]


def _lane(name: str, finding: dict[str, Any]) -> Lane:
    ends = finding.get("limit") or {}
    doubt = finding.get("expanded_uncertainty") or 0.0
    outside = finding["outcome"] == "outside"
    return Lane(name, finding["value"], doubt, ends.get("min"), ends.get("max"), outside)


def _lanes_drawn(lanes: list[Lane], unit: str) -> str:
    ends = [end for lane in lanes for end in (lane.low, lane.high) if end is not None]
    marks = [side for lane in lanes for side in (lane.value - lane.doubt, lane.value + lane.doubt)]
    scale = _around([*ends, *marks], zero=True)
    body = [part for row, lane in enumerate(lanes) for part in _lane_drawn(lane, scale, row * LANE, unit)]
    height = len(lanes) * LANE + 26
    words = "The actuator: " + "; ".join(f"{lane.name} {figure('_kpa', lane.value, unit)}" for lane in lanes)
    return drawing(WIDTH, height, words, *body, *_axis(scale, height - 18, unit, "on the actuator"))


def _lane_drawn(lane: Lane, scale: Scale, top: float, unit: str) -> Iterable[str]:
    colour = VERMILION if lane.is_outside else BLUE
    middle = top + 36
    yield text(LEFT, top + 12, lane.name, font_weight="bold")
    yield from _allowed(lane, scale, middle)
    yield line(LEFT, middle, RIGHT, middle, stroke=INK, stroke_width=0.6)
    yield from _whisker(scale.at(lane.value - lane.doubt), scale.at(lane.value + lane.doubt), middle, colour)
    yield element("circle", cx=scale.at(lane.value), cy=middle, r=4.4, fill=colour)
    reading = f"{amount('_kpa', lane.value, unit)} ± {figure('_kpa', lane.doubt, unit)}"
    yield text(RIGHT, top + 12, reading, text_anchor="end", fill=colour, font_weight="bold")


def _allowed(lane: Lane, scale: Scale, middle: float) -> Iterable[str]:
    if lane.low is None and lane.high is None:
        return
    left = scale.at(lane.low) if lane.low is not None else scale.left
    right = scale.at(lane.high) if lane.high is not None else scale.right
    yield element("rect", x=left, y=middle - 10, width=right - left, height=20, fill=PALE)
    yield text((left + right) / 2, middle + 19, "allowed", text_anchor="middle", font_size=8.5)


def _whisker(left: float, right: float, y: float, colour: str) -> Iterable[str]:
    drawn = {"stroke": colour, "stroke_width": 1.6}
    yield line(left, y, right, y, **drawn)
    yield line(left, y - 4, left, y + 4, **drawn)
    yield line(right, y - 4, right, y + 4, **drawn)


def _pull(pull: Pull, scale: Scale, top: float, unit: str) -> Iterable[str]:
    middle = top + 36
    yield text(LEFT, top + 12, pull.title, font_weight="bold")
    yield line(LEFT, middle, RIGHT, middle, stroke=INK, stroke_width=0.6)
    if pull.aimed is not None:
        x = scale.at(pull.aimed)
        yield line(x, middle - 12, x, middle + 12, stroke=BLUE, stroke_width=3, stroke_dasharray="4 2")
        yield text(x, middle - 15, "aimed", text_anchor="middle", fill=BLUE, font_size=9)
    if pull.gauge is not None:
        x = scale.at(pull.gauge)
        yield element("circle", cx=x, cy=middle, r=5, fill=VERMILION)
        yield text(x, middle - 15, "gauge says", text_anchor="middle", fill=VERMILION, font_size=9)
    if pull.car is not None:
        x = scale.at(pull.car)
        yield element("path", d=f"M{x - 5} {middle + 7} H{x + 5} L{x} {middle}Z", fill=INK)
        yield text(x, middle + 18, "car says", text_anchor="middle", font_size=9)


def _sweep(points: list[dict[str, Any]], lanes: list[Lane], unit: str) -> str:
    pressures = _around([*(row["p_kpa"] for row in points), *_ends(lanes)], zero=True)
    top, bottom = 24.0, 150.0
    travels = Scale(0.0, max(1.0, *(row["travel_mm"] for row in points)), bottom, top)
    bands = [part for lane in lanes for part in _band(lane, pressures, top - 8, bottom)]
    curves = [_curve(points, way, pressures, travels) for way in ("rising", "falling")]
    most = figure("travel_mm", max(row["travel_mm"] for row in points), unit)
    frame = [line(LEFT, bottom, RIGHT, bottom, stroke=INK), text(LEFT, 10, f"rod travel, to {most}", font_size=9)]
    words = "The actuator's travel against its pressure"
    axis = _axis(pressures, bottom + 14, unit, "on the actuator")
    return drawing(WIDTH, bottom + 24, words, *bands, *frame, *curves, *axis)


def _ends(lanes: list[Lane]) -> list[float]:
    return [end for lane in lanes for end in (lane.low, lane.high, lane.value) if end is not None]


def _band(lane: Lane, scale: Scale, top: float, bottom: float) -> Iterable[str]:
    if lane.low is None or lane.high is None:
        return
    left, right = scale.at(lane.low), scale.at(lane.high)
    yield element("rect", x=left, y=top, width=right - left, height=bottom - top, fill=PALE)
    yield text((left + right) / 2, top + 9, "allowed", text_anchor="middle", font_size=8)


def _curve(points: list[dict[str, Any]], way: str, pressures: Scale, travels: Scale) -> str:
    rows = [row for row in points if row.get("direction", "rising") == way]
    if not rows:
        return ""
    places = [(pressures.at(row["p_kpa"]), travels.at(row["travel_mm"])) for row in rows]
    path = "M" + " L".join(f"{x:.2f} {y:.2f}" for x, y in places)
    dashes = {} if way == "rising" else {"stroke_dasharray": "5 3"}
    drawn = element("path", d=path, fill="none", stroke=INK, stroke_width=1.8, **dashes)
    return drawn + "".join(element("circle", cx=x, cy=y, r=2.6, fill=INK) for x, y in places)


def _around(values: list[float], *, zero: bool) -> Scale:
    """A scale that holds all values with a little air; from nought where that tells more."""
    low, high = min(values), max(values)
    if zero:
        low, high = min(0.0, low), max(0.0, high)
    margin = max(high - low, 10.0) * 0.14
    return Scale(low if zero and low == 0.0 else low - margin, high if zero and high == 0.0 else high + margin)


def _axis(scale: Scale, y: float, unit: str, what: str) -> Iterable[str]:
    pressure = PRESSURE_UNITS[unit]
    step = _round_step((scale.high - scale.low) * pressure.per_kpa / 4) / pressure.per_kpa
    first = int(scale.low / step) + (scale.low > 0)
    tick = first * step
    while tick <= scale.high:
        if scale.low <= tick and scale.at(tick) < RIGHT - 110:
            yield text(scale.at(tick), y + 10, amount("_kpa", tick, unit), text_anchor="middle", font_size=8.5)
            yield line(scale.at(tick), y - 4, scale.at(tick), y, stroke=INK, stroke_width=0.8)
        tick += step
    yield text(RIGHT, y + 10, f"{unit} {what}", text_anchor="end", font_size=8.5)


def _round_step(rough: float) -> float:
    """The next of 1, 2, 5 times a power of ten."""
    power = 10.0 ** floor(log10(rough))
    return next(times * power for times in (1, 2, 5, 10) if times * power >= rough)
