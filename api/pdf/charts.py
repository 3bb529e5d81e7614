"""Drawings from the readings: the actuator or other evidence against limits, the pulls of the road run."""

from collections.abc import Iterable
from dataclasses import dataclass
from math import ceil, floor, log10
from typing import Any

from api.pdf.figures import Printer
from api.pdf.findings import limit_of
from api.pdf.pulls import Pull
from api.pdf.svg import BLUE, GREY, INK, PALE, PAPER, VERMILION, drawing, element, line, text

WIDTH = 330.0
LEFT, RIGHT = 8.0, 322.0
LANE = 52.0
ROW = 34.0
MOST_EVIDENCE = 3
LIMIT_ROW = 12.0  # below a lane whose limit is written out
SWEEP_TOP, SWEEP_BOTTOM = 38.0, 154.0


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
    figure: str
    value: float
    doubt: float
    low: float | None
    high: float | None
    is_outside: bool


def actuator(document: dict[str, Any], verdict: dict[str, Any], printer: Printer) -> str | None:
    """The pressures at which the rod moves and ends, or the whole sweep where it was taken."""
    lanes = _lanes(verdict, printer)
    sweep = ((document.get("tests") or {}).get("actuator") or {}).get("sweep") or []
    points = [row for row in sweep if row.get("p_kpa") is not None and row.get("travel_mm") is not None]
    if len(points) > 2:
        return _sweep(points, lanes, printer)
    return _lanes_drawn(lanes, printer) if lanes else None


def evidence(verdict: dict[str, Any], printer: Printer) -> str | None:
    """What speaks for the conclusion, each reading against its own limit; None where no figure does."""
    concluded = (verdict.get("conclusion") or {}).get("fault")
    speaks: list[str] = next((one["for"] for one in verdict["faults"] if one["fault"] == concluded), [])
    findings = {finding["check"]: finding for finding in verdict["findings"]}
    found = [findings[check] for check in speaks if _has_figure(findings[check])][:MOST_EVIDENCE]
    if not found:
        return None
    drawn = [(_lane(one["title"], one), limit_of(one, printer)) for one in found]
    body = [
        part
        for row, (lane, limit) in enumerate(drawn)
        for part in _lane_drawn(lane, _of_lane(lane), row * (LANE + LIMIT_ROW), limit)
    ]
    alt = printer.words.say("charts_alt_evidence", lanes=_in_words([lane for lane, _ in drawn]))
    return drawing(WIDTH, len(drawn) * (LANE + LIMIT_ROW) + 4, alt, *body)


def _has_figure(finding: dict[str, Any]) -> bool:
    return bool(finding.get("figure") and finding.get("limit") and finding.get("unit") != "flag")


def _of_lane(lane: Lane) -> Scale:
    ends = [end for end in (lane.low, lane.high) if end is not None]
    return _around([*ends, lane.value - lane.doubt, lane.value + lane.doubt, 0.0], zero=True, least=0.0)


def road(pulls: list[Pull], tolerance: float, printer: Printer) -> str | None:
    """For each pull what was aimed at, what the car says and what the gauge says, above the air pressure.

    `tolerance` is how far boost may be off its aim. [kPa]
    """
    drawn = [pull for pull in pulls if pull.has_pair]
    if not drawn:
        return None
    aims = [pull.aimed + side for pull in drawn if pull.aimed is not None for side in (-tolerance, tolerance)]
    scale = _around([*aims, *(value for pull in drawn for value in pull.values)], zero=False)
    rows = [part for row, pull in enumerate(drawn) for part in _pull(pull, tolerance, scale, 30 + row * ROW)]
    axis_y = 30 + len(drawn) * ROW + 8
    axis = _axis(scale, axis_y, printer, printer.words.say("above_air", unit=printer.unit))
    words = "; ".join(pull.in_words(printer) for pull in drawn)
    alt = printer.words.say("charts_alt_road", pulls=words)
    return drawing(WIDTH, axis_y + 26, alt, *_legend(printer), *rows, *axis)


def _lanes(verdict: dict[str, Any], printer: Printer) -> list[Lane]:
    names = {"actuator_start": "rod_moves", "actuator_full": "end_of_travel"}
    findings = {finding["check"]: finding for finding in verdict["findings"]}
    found = [(printer.words.say(name), findings[check]) for check, name in names.items() if check in findings]
    return [_lane(name, finding) for name, finding in found if finding.get("value") is not None]


def _lane(name: str, finding: dict[str, Any]) -> Lane:
    ends = finding.get("limit") or {}
    doubt = finding.get("expanded_uncertainty") or 0.0
    outside = finding["outcome"] == "outside"
    figure = finding.get("figure") or ""
    return Lane(name, figure, finding["value"], doubt, ends.get("min"), ends.get("max"), outside)


def _lanes_drawn(lanes: list[Lane], printer: Printer) -> str:
    ends = [end for lane in lanes for end in (lane.low, lane.high) if end is not None]
    marks = [side for lane in lanes for side in (lane.value - lane.doubt, lane.value + lane.doubt)]
    scale = _around([*ends, *marks], zero=True)
    allowed = printer.words.say("allowed")
    body = [part for row, lane in enumerate(lanes) for part in _lane_drawn(lane, scale, row * LANE, allowed)]
    alt = printer.words.say("charts_alt_actuator", lanes=_in_words(lanes))
    axis_y = len(lanes) * LANE + 14
    axis = _axis(scale, axis_y, printer, printer.words.say("on_the_actuator", unit=printer.unit))
    return drawing(WIDTH, axis_y + 26, alt, *body, *axis)


def _in_words(lanes: list[Lane]) -> str:
    return "; ".join(f"{lane.name} {lane.figure}" for lane in lanes)


def _lane_drawn(lane: Lane, scale: Scale, top: float, allowed: str) -> Iterable[str]:
    colour = VERMILION if lane.is_outside else BLUE
    middle = top + 34
    yield text(LEFT, top + 12, lane.name, font_weight="bold")
    yield from _allowed(lane, scale, middle, allowed)
    yield line(LEFT, middle, RIGHT, middle, stroke=INK, stroke_width=0.6)
    yield from _whisker(scale.at(lane.value - lane.doubt), scale.at(lane.value + lane.doubt), middle, colour)
    yield element("circle", cx=scale.at(lane.value), cy=middle, r=4.4, fill=colour)
    yield text(RIGHT, top + 12, lane.figure, text_anchor="end", fill=colour, font_weight="bold")


def _allowed(lane: Lane, scale: Scale, middle: float, words: str) -> Iterable[str]:
    if lane.low is None and lane.high is None:
        return
    left = scale.at(lane.low) if lane.low is not None else scale.left
    right = scale.at(lane.high) if lane.high is not None else scale.right
    yield element("rect", x=left, y=middle - 10, width=right - left, height=20, fill=PALE)
    place, anchor = _inside((left + right) / 2, len(words) * 2.4)
    yield text(place, middle + 20, words, text_anchor=anchor, font_size=9)


def _inside(middle: float, half: float) -> tuple[float, str]:
    """Where words stand that are about so wide: on their middle, or at the edge of the drawing."""
    if middle - half < LEFT:
        return LEFT, "start"
    return (RIGHT, "end") if middle + half > RIGHT else (middle, "middle")


def _whisker(left: float, right: float, y: float, colour: str) -> Iterable[str]:
    drawn: dict[str, str | float] = {"stroke": colour, "stroke_width": 1.6}
    yield line(left, y, right, y, **drawn)
    yield line(left, y - 4, left, y + 4, **drawn)
    yield line(right, y - 4, right, y + 4, **drawn)


def _legend(printer: Printer) -> Iterable[str]:
    say = printer.words.say
    yield from _mark("aimed", LEFT + 4, 10)
    yield text(LEFT + 14, 14, say("aimed"), font_size=9.5)
    yield from _mark("car", LEFT + 104, 10)
    yield text(LEFT + 114, 14, say("car_says"), font_size=9.5)
    yield from _mark("gauge", LEFT + 214, 10)
    yield text(LEFT + 224, 14, say("gauge_says"), font_size=9.5)


def _mark(kind: str, x: float, y: float, colour: str = INK) -> Iterable[str]:
    """Shapes first: a bar, a triangle below the line, a ring on it."""
    if kind == "aimed":
        yield line(x, y - 9, x, y + 9, stroke=BLUE, stroke_width=4)
    elif kind == "car":
        yield element("path", d=f"M{x - 5:.2f} {y + 9:.2f} h10 L{x:.2f} {y + 1:.2f}Z", fill=INK)
    else:
        yield element("circle", cx=x, cy=y, r=4.6, fill=PAPER, stroke=colour, stroke_width=3)


def _pull(pull: Pull, tolerance: float, scale: Scale, top: float) -> Iterable[str]:
    middle = top + 24
    yield text(LEFT, top + 10, pull.title, font_size=10)
    colour = INK
    if pull.aimed is not None:
        left, right = scale.at(pull.aimed - tolerance), scale.at(pull.aimed + tolerance)
        yield element("rect", x=left, y=middle - 7, width=right - left, height=14, fill=PALE)
    yield line(LEFT, middle, RIGHT, middle, stroke=INK, stroke_width=0.6)
    if pull.aimed is not None and pull.gauge is not None:
        colour = VERMILION if abs(pull.gauge - pull.aimed) > tolerance else INK
        drawn: dict[str, str | float] = {"stroke": colour, "stroke_width": 2.4}
        yield line(scale.at(pull.aimed), middle, scale.at(pull.gauge), middle, **drawn)
    for kind, value in (("aimed", pull.aimed), ("car", pull.car), ("gauge", pull.gauge)):
        if value is not None:
            yield from _mark(kind, scale.at(value), middle, colour)


def _sweep(points: list[dict[str, Any]], lanes: list[Lane], printer: Printer) -> str:
    say = printer.words.say
    pressures = _around([*(row["p_kpa"] for row in points), *_ends(lanes)], zero=True)
    most = max(row["travel_mm"] for row in points)
    travels = Scale(0.0, max(1.0, most), SWEEP_BOTTOM, SWEEP_TOP)
    bands = [part for lane in lanes for part in _band(lane, pressures, printer)]
    rising = _curve(points, "rising", pressures, travels)
    curves = [*_curve(points, "falling", pressures, travels), *rising]
    flags = [part for lane in lanes for part in _flag(lane, pressures)]
    frame = [
        line(LEFT, SWEEP_BOTTOM, RIGHT, SWEEP_BOTTOM, stroke=INK),
        text(LEFT, 10, say("rod_travel", travel=printer.figure("travel_mm", most)), font_size=9.5),
    ]
    alt = say("charts_alt_sweep", points=str(len(points)), lanes=_in_words(lanes))
    axis = _axis(pressures, SWEEP_BOTTOM, printer, say("on_the_actuator", unit=printer.unit))
    return drawing(WIDTH, SWEEP_BOTTOM + 26, alt, *bands, *frame, *curves, *flags, *axis)


def _ends(lanes: list[Lane]) -> list[float]:
    return [end for lane in lanes for end in (lane.low, lane.high, lane.value) if end is not None]


def _band(lane: Lane, scale: Scale, printer: Printer) -> Iterable[str]:
    if lane.low is None or lane.high is None:
        return
    left, right = scale.at(lane.low), scale.at(lane.high)
    yield element(
        "rect", x=left, y=SWEEP_TOP - 6, width=right - left, height=SWEEP_BOTTOM - SWEEP_TOP + 6, fill=PALE
    )
    middle = (left + right) / 2
    yield text(middle, SWEEP_BOTTOM - 6, printer.words.say("allowed"), text_anchor="middle", font_size=8.5)


def _flag(lane: Lane, scale: Scale) -> Iterable[str]:
    """Where this rod really starts and ends, with the figure beside it."""
    x, colour = scale.at(lane.value), VERMILION if lane.is_outside else BLUE
    yield line(x, SWEEP_TOP - 16, x, SWEEP_BOTTOM, stroke=colour, stroke_width=1, stroke_dasharray="2 2")
    yield text(
        x - 3, SWEEP_TOP - 8, lane.figure, text_anchor="end", fill=colour, font_weight="bold", font_size=9.5
    )


def _curve(points: list[dict[str, Any]], way: str, pressures: Scale, travels: Scale) -> Iterable[str]:
    rows = [row for row in points if row.get("direction", "rising") == way]
    if not rows:
        return
    places = [(pressures.at(row["p_kpa"]), travels.at(row["travel_mm"])) for row in rows]
    path = "M" + " L".join(f"{x:.2f} {y:.2f}" for x, y in places)
    colour = INK if way == "rising" else GREY
    yield element("path", d=path, fill="none", stroke=colour, stroke_width=2 if way == "rising" else 1.2)
    for x, y in places:
        yield element("circle", cx=x, cy=y, r=2.6 if way == "rising" else 1.8, fill=PAPER, stroke=colour)


def _around(values: list[float], *, zero: bool, least: float = 10.0) -> Scale:
    """A scale of at least that span that holds all values with a little air; from nought where told."""
    low, high = min(values), max(values)
    if zero:
        low, high = min(0.0, low), max(0.0, high)
    margin = (max(high - low, least) or 1.0) * 0.1
    return Scale(
        low if zero and low == 0.0 else low - margin, high if zero and high == 0.0 else high + margin
    )


def _axis(scale: Scale, y: float, printer: Printer, what: str) -> Iterable[str]:
    return marked_axis(scale, y, printer, what, "_kpa", printer.pressure.per_kpa)


def marked_axis(
    scale: Scale, y: float, printer: Printer, what: str, key: str, per: float = 1.0
) -> Iterable[str]:
    """A level axis with about five round marks; `per` is how many of the printed unit one of `key` is."""
    step = round_step((scale.high - scale.low) * per / 5) / per
    first = ceil(scale.low / step - 1e-9)
    ticks = [(first + n) * step for n in range(12) if (first + n) * step <= scale.high]
    for tick in ticks:
        x = scale.at(tick)
        anchor = "start" if x < scale.left + 8 else "end" if x > scale.right - 8 else "middle"
        yield line(x, y, x, y + 4, stroke=INK, stroke_width=0.8)
        yield text(x, y + 13, printer.amount(key, round(tick, 6)), text_anchor=anchor, font_size=9)
    yield line(scale.left, y, scale.right, y, stroke=INK, stroke_width=0.8)
    yield text(scale.right, y + 25, what, text_anchor="end", font_size=9)


def round_step(rough: float) -> float:
    """The next of 1, 2, 5 times a power of ten."""
    power = 10.0 ** floor(log10(rough))
    return next(times * power for times in (1, 2, 5, 10) if times * power >= rough)
