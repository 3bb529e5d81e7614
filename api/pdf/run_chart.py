"""One pull of a logged road run over time: boost above, the solenoid's duty below."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from api.pdf.charts import Scale, marked_axis, round_step
from api.pdf.figures import Printer
from api.pdf.svg import BLUE, GREY, INK, PALE, PAPER, RULE, drawing, element, line, text

LEFT, RIGHT_GAP = 34.0, 6.0
TOP, BOOST_HEIGHT, GAP, DUTY_HEIGHT = 8.0, 104.0, 10.0, 26.0
BOOST_BOTTOM = TOP + BOOST_HEIGHT
DUTY_TOP = BOOST_BOTTOM + GAP
BOTTOM = DUTY_TOP + DUTY_HEIGHT
AIR = 0.06  # of the range, above and below
SHORTEST_S = 1.0
DUTY = "duty_pct"

# Told apart by dash and width first, then by colour.
STROKES: Mapping[str, dict[str, str | float]] = {
    "boost_request_kpa_abs": {"stroke": INK, "stroke_width": 1.4, "stroke_dasharray": "1 3"},
    "boost_specified_kpa_abs": {"stroke": BLUE, "stroke_width": 2.0, "stroke_dasharray": "6 3"},
    "boost_actual_kpa_abs": {"stroke": INK, "stroke_width": 1.3},
    DUTY: {"stroke": GREY, "stroke_width": 1.3, "stroke_dasharray": "8 2"},
}
NAMES = {
    "boost_request_kpa_abs": "asked",
    "boost_specified_kpa_abs": "aimed",
    "boost_actual_kpa_abs": "car_says",
    DUTY: "duty_line",
}


@dataclass(frozen=True)
class Panel:
    """One pull with the words above it."""

    title: str
    pull: Mapping[str, Any]
    air_kpa_abs: float

    @property
    def pressures(self) -> list[float]:
        """Every pressure that is drawn, above the air pressure. [kPa]"""
        lines = (points for name, points in self.pull["lines"].items() if name != DUTY)
        drawn = [value - self.air_kpa_abs for points in lines for _, value in points]
        ends = (one["kpa"] + side * one["expanded"] for one in self.pull["gauges"] for side in (-1, 1))
        return [*drawn, *(end - self.air_kpa_abs for end in ends)]

    @property
    def seconds(self) -> list[float]:
        """The times of every point. [s]"""
        return [when for points in self.pull["lines"].values() for when, _ in points]


def panels(courses: Sequence[Mapping[str, Any]], printer: Printer, *, every: bool) -> list[Panel]:
    """The pulls to draw: every one, or of each phase the one that tells most."""
    found = [
        Panel(_title(course, pull, printer), pull, course["air_kpa_abs"])
        for course in courses
        for pull in course["pulls"]
    ]
    if every:
        return found
    phases = dict.fromkeys(course["phase"] for course in courses)
    return [best for phase in phases if (best := _clearest(courses, phase, printer))]


def _clearest(courses: Sequence[Mapping[str, Any]], phase: str, printer: Printer) -> Panel | None:
    """The pull with most gauge readings of those that may be judged, the first of equals."""
    of_phase = [(course, pull) for course in courses if course["phase"] == phase for pull in course["pulls"]]
    if not of_phase:
        return None
    course, pull = max(of_phase, key=lambda one: (one[1]["judged"] is not None, len(one[1]["gauges"])))
    return Panel(_title(course, pull, printer), pull, course["air_kpa_abs"])


def _title(course: Mapping[str, Any], pull: Mapping[str, Any], printer: Printer) -> str:
    number = printer.words.say("pull", number=str(pull["number"]))
    title = f"{printer.word(course['phase'])}, {number}"
    return title[0].upper() + title[1:]


def drawn(shown: Sequence[Panel], width: float, printer: Printer) -> list[tuple[str, str]]:
    """Title and drawing of each panel, all on the same scales, so that before and after can be compared."""
    pressures = [value for panel in shown for value in panel.pressures]
    seconds = [when for panel in shown for when in panel.seconds]
    if not pressures or not seconds:
        return []
    margin = max(10.0, max(pressures) - min(pressures)) * AIR
    boost = Scale(min(pressures) - margin, max(pressures) + margin, BOOST_BOTTOM, TOP)
    first = min(seconds)
    time = Scale(first, max(first + SHORTEST_S, *seconds), LEFT, width - RIGHT_GAP)
    return [(panel.title, _panel(panel, time, boost, width, printer)) for panel in shown]


def legend(shown: Sequence[Panel], width: float, printer: Printer) -> str:
    """What each line stands for: samples and names in one row."""
    say = printer.words.say
    there = [name for name in STROKES if any(name in panel.pull["lines"] for panel in shown)]
    samples = [(line(0, 7, 30, 7, **STROKES[name]), say(NAMES[name])) for name in there]
    if any(panel.pull["gauges"] for panel in shown):
        samples.append(("".join(_gauge(15, 1, 13, 7)), say("gauge_says")))
    step = width / max(len(samples), 5)
    parts = [
        element("g", sample, text(36, 10.5, name, font_size=9.5), transform=f"translate({at * step:.1f} 0)")
        for at, (sample, name) in enumerate(samples)
    ]
    return drawing(width, 15, say("legend_alt", names=", ".join(name for _, name in samples)), *parts)


def _panel(panel: Panel, time: Scale, boost: Scale, width: float, printer: Printer) -> str:
    say, right = printer.words.say, width - RIGHT_GAP
    duty = Scale(0.0, 100.0, BOTTOM, DUTY_TOP)
    has_duty = DUTY in panel.pull["lines"]
    foot = BOTTOM if has_duty else BOOST_BOTTOM
    parts = [
        *_shade(panel.pull, time),
        *_levels(boost, right, printer),
        *_lines(panel, time, boost, duty),
        *_gauges(panel, time, boost),
        *(_duty_frame(right, printer) if has_duty else ()),
        *marked_axis(time, foot, printer, say("seconds"), "_s"),
        text(LEFT, foot + 25, _scale_words(has_duty, printer), font_size=9),
    ]
    height = foot + 28
    alt = say("charts_alt_run", run=panel.title, figures=_in_words(panel, printer))
    return drawing(width, height, alt, *parts)


def _scale_words(has_duty: bool, printer: Printer) -> str:
    boost = printer.words.say("above_air", unit=printer.unit)
    return f"{boost} · {printer.words.say('duty_line')}" if has_duty else boost


def _shade(pull: Mapping[str, Any], time: Scale) -> Iterable[str]:
    left, right = (time.at(end) for end in pull["shaded"])
    yield element("rect", x=left, y=TOP, width=right - left, height=BOOST_HEIGHT, fill=PALE)
    if pull["judged"]:
        left, right = (time.at(end) for end in pull["judged"])
        yield element("rect", x=left, y=TOP - 4, width=max(right - left, 1.0), height=3, fill=BLUE)


def _levels(boost: Scale, right: float, printer: Printer) -> Iterable[str]:
    """Level lines with the pressure they stand for."""
    per_kpa = printer.pressure.per_kpa
    step = round_step((boost.high - boost.low) * per_kpa / 4) / per_kpa
    first = int(boost.low // step) + 1
    for level in (number * step for number in range(first, first + 9)):
        if level < boost.high:
            y = boost.at(level)
            yield line(LEFT, y, right, y, stroke=RULE, stroke_width=0.6)
            shown = printer.amount("_kpa", round(level, 6))
            yield text(LEFT - 4, y + 3, shown, text_anchor="end", font_size=9)
    yield line(LEFT, TOP, LEFT, BOOST_BOTTOM, stroke=INK, stroke_width=0.8)
    yield line(LEFT, BOOST_BOTTOM, right, BOOST_BOTTOM, stroke=INK, stroke_width=0.8)


def _lines(panel: Panel, time: Scale, boost: Scale, duty: Scale) -> Iterable[str]:
    for name, stroke in STROKES.items():
        points = panel.pull["lines"].get(name)
        if points and name == DUTY:
            yield _path([(time.at(when), duty.at(value)) for when, value in points], stroke)
        elif points:
            places = [(time.at(when), boost.at(value - panel.air_kpa_abs)) for when, value in points]
            yield _path(places, stroke)


def _path(places: Sequence[tuple[float, float]], stroke: Mapping[str, str | float]) -> str:
    return element("path", d="M" + " L".join(f"{x:.1f} {y:.1f}" for x, y in places), fill="none", **stroke)


def _gauges(panel: Panel, time: Scale, boost: Scale) -> Iterable[str]:
    for one in panel.pull["gauges"]:
        above = one["kpa"] - panel.air_kpa_abs
        ends = (boost.at(above + one["expanded"]), boost.at(above - one["expanded"]))
        yield from _gauge(time.at(one["at_s"]), *ends, boost.at(above))


def _gauge(x: float, top: float, bottom: float, middle: float) -> Iterable[str]:
    """A ring, with a bar for its doubt."""
    bar: dict[str, str | float] = {"stroke": INK, "stroke_width": 1.4}
    yield line(x, top, x, bottom, **bar)
    for end in (top, bottom):
        yield line(x - 3.5, end, x + 3.5, end, **bar)
    yield element("circle", cx=x, cy=middle, r=3.4, fill=PAPER, stroke=INK, stroke_width=2.2)


def _duty_frame(right: float, printer: Printer) -> Iterable[str]:
    yield line(LEFT, DUTY_TOP, LEFT, BOTTOM, stroke=INK, stroke_width=0.8)
    for share in (0.0, 100.0):
        y = BOTTOM - share / 100 * DUTY_HEIGHT
        yield line(LEFT, y, right, y, stroke=RULE, stroke_width=0.6)
        yield text(LEFT - 4, y + 3, printer.amount(DUTY, share), text_anchor="end", font_size=9)


def _in_words(panel: Panel, printer: Printer) -> str:
    """The highest of each line, and what the gauges said."""
    tops = {
        NAMES[name]: max(value for _, value in points)
        for name, points in panel.pull["lines"].items()
        if name != DUTY
    }
    told = [*tops.items(), *(("gauge_says", one["kpa"]) for one in panel.pull["gauges"])]
    return ", ".join(
        f"{printer.words.say(name)} {printer.figure('_kpa', round(kpa - panel.air_kpa_abs, 1))}"
        for name, kpa in told
    )
