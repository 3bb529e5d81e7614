"""The air line of the report: the way the air goes, with each part's state as a shape.

Examined and within limits: a filled tube. Undecided: a dashed one. Not examined: an outlined one. Outside:
the line is broken there, its two ends bent apart.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any

from api.pdf.svg import BLUE, GREY, INK, PAPER, QUIET, VERMILION, drawing, element, line, text
from api.pdf.words import Words

WIDTH, HEIGHT = 690.0, 184.0
UPPER, LOWER = 26.0, 122.0
TUBE = 12.0
LIKELY = "likely"
REACH = 58.0  # half the length of a station's piece of tube


@dataclass(frozen=True)
class Station:
    """A part on the line: its name in the catalogue, its place, what speaks of it in a verdict."""

    name: str
    x: float
    y: float
    locations: tuple[str, ...]
    checks: tuple[str, ...]


INTAKE = Station("intake", 60, UPPER, ("intake",), ("intake_depression", "rest_air_mass"))
TURBO = Station(
    "turbocharger", 204, UPPER, ("turbocharger",), ("turbo_radial_play", "turbo_axial_play", "turbo_wheels")
)
CHARGE = Station(
    "charge",
    346,
    UPPER,
    ("charge_circuit",),
    ("charge_leak_hole", "cooler_drop", "bypass_hold", "smoke_leak"),
)
ENGINE = Station("engine", 488, UPPER, ("elsewhere",), ("throttle_opens", "egr_closes", "engine_health"))
EXHAUST = Station("exhaust", 630, UPPER, ("exhaust",), ("exhaust_back_pressure", "exhaust_leak"))
SOLENOID = Station(
    "solenoid",
    346,
    LOWER,
    ("control_pressure", "drive_circuit"),
    (
        "solenoid_coil",
        "solenoid_supply",
        "solenoid_ground",
        "solenoid_response",
        "control_hoses",
        "vacuum_supply",
    ),
)
ACTUATOR = Station(
    "actuator",
    488,
    LOWER,
    ("actuator",),
    (
        "actuator_start",
        "actuator_full",
        "actuator_travel",
        "actuator_rate",
        "actuator_hysteresis",
        "actuator_hold",
        "actuator_moves",
        "actuator_returns",
        "actuator_position",
    ),
)
WASTEGATE = Station("wastegate", 630, LOWER, ("wastegate_valve",), ("wastegate_seat",))
SUPPLY = replace(SOLENOID, name="supply")  # where a pump feeds the solenoid
VANES = Station("vanes", 630, LOWER, ("vanes",), ("actuator_hysteresis",))  # friction of the rod is theirs
ROD = replace(ACTUATOR, checks=tuple(check for check in ACTUATOR.checks if check not in VANES.checks))
SENSORS = Station(
    "sensors",
    204,
    LOWER,
    ("input_signal", "control_unit"),
    ("rest_charge_pressure", "rest_temperatures", "rest_pedal", "sensor_feed", "road_sensor"),
)
AIR_WAY = (INTAKE, TURBO, CHARGE, ENGINE, EXHAUST)


@dataclass(frozen=True)
class Seen:
    """A part as it is drawn: what it is called here, what is known of it, the figure beside a break."""

    station: Station
    name: str
    state: str
    figure: str


def air_line(document: dict[str, Any], verdict: dict[str, Any], words: Words, *, customer: bool) -> str:
    """The drawing for one job and its verdict."""
    findings = {finding["check"]: finding for finding in verdict["findings"]}
    conclusion = verdict.get("conclusion") or {}
    stations = stations_of(document.get("boost_control") or {})
    seen = [_seen(station, findings, conclusion, words, customer) for station in stations]
    shapes = [*_joints(stations), *(_piece(one) for one in seen)]
    labels = [_label(one, words) for one in seen]
    parts = ", ".join(f"{one.name} {_said(one, words)}" for one in seen)
    return drawing(WIDTH, HEIGHT, words.say("way_of_the_air", parts=parts), *shapes, *labels)


def stations_of(boost_control: Mapping[str, Any]) -> tuple[Station, ...]:
    """The parts that this kind of boost control has."""
    has_vanes = boost_control.get("device") == "variable_geometry"
    control: tuple[Station, ...] = (ROD, VANES) if has_vanes else (ACTUATOR, WASTEGATE)
    if boost_control.get("actuator") != "electric":
        control = (SUPPLY if boost_control.get("actuator") == "vacuum" else SOLENOID, *control)
    return (*AIR_WAY, SENSORS, *control)


def state(station: Station, findings: Mapping[str, Any], conclusion: Mapping[str, Any]) -> str:
    """What is known of a part: a finding outside or a proved fault breaks the line there.

    A cause that is likely and that no direct measurement showed breaks nothing.
    """
    outcomes = {findings[check]["outcome"] for check in station.checks if check in findings}
    place = "vanes" if conclusion.get("fault") == "vanes_sticking" else conclusion.get("location")
    is_here = place in station.locations
    if "outside" in outcomes or (is_here and conclusion.get("standing") == "proved"):
        return "outside"
    if is_here:
        return LIKELY
    return next((one for one in ("undecided", "within") if one in outcomes), "not_examined")


def _seen(
    station: Station,
    findings: Mapping[str, Any],
    conclusion: Mapping[str, Any],
    words: Words,
    customer: bool,
) -> Seen:
    name = words.stations[station.name][customer]
    return Seen(station, name, state(station, findings, conclusion), broken_figure(station, findings))


def broken_figure(station: Station, findings: Mapping[str, Any]) -> str:
    """The figure that stands beside a break: of the first check that is outside."""
    found = (findings[check] for check in station.checks if check in findings)
    return next((one.get("figure") or "" for one in found if one["outcome"] == "outside"), "")


def _piece(seen: Seen) -> str:
    station = seen.station
    left, right, y = station.x - REACH, station.x + REACH, station.y
    if seen.state == "outside":
        return _broken(station.x, left, right, y)
    if seen.state == "within":
        return line(left, y, right, y, stroke=BLUE, stroke_width=TUBE)
    is_open = seen.state in ("undecided", LIKELY)
    tube = line(left, y, right, y, stroke=INK if is_open else GREY, stroke_width=TUBE)
    tube += line(left + 1.2, y, right - 1.2, y, stroke=PAPER, stroke_width=TUBE - 2.4)
    if is_open:
        tube += line(
            left + 1.2, y, right - 1.2, y, stroke=BLUE, stroke_width=TUBE - 2.4, stroke_dasharray="9 7"
        )
    return tube


def _broken(x: float, left: float, right: float, y: float) -> str:
    """Two ends bent apart, and the part itself on the far one."""
    near = f"M{left} {y} H{x - 34} C{x - 22} {y} {x - 18} {y - 6} {x - 14} {y - 20}"
    far = f"M{right} {y} H{x + 14} C{x + 2} {y} {x - 2} {y + 6} {x - 6} {y + 20}"
    bent: dict[str, str | float] = {"fill": "none", "stroke_width": TUBE}
    return element("path", d=near, stroke=BLUE, **bent) + element("path", d=far, stroke=VERMILION, **bent)


def _joints(stations: tuple[Station, ...]) -> list[str]:
    """The thin line between the stations, and the branch of the control line."""
    thin: dict[str, str | float] = {"fill": "none", "stroke": INK, "stroke_width": 1.6}
    x_branch = (TURBO.x + CHARGE.x) / 2
    upper = [line(one.x + REACH, UPPER, two.x - REACH, UPPER, **thin) for one, two in pairwise(AIR_WAY)]
    control = [station for station in stations if station.y == LOWER and station is not SENSORS]
    lower = [line(one.x + REACH, LOWER, two.x - REACH, LOWER, **thin) for one, two in pairwise(control)]
    branches = control[0].x == SOLENOID.x
    if branches:
        lower.append(element("path", d=f"M{x_branch} {UPPER} V{LOWER} H{SOLENOID.x - REACH}", **thin))
    begin = f"M{x_branch} {UPPER + 46}" if branches else f"M{x_branch} {UPPER} V{UPPER + 46}"
    wire = f"{begin} H{SENSORS.x} V{LOWER}"
    lower.append(element("path", d=wire, **(thin | {"stroke_width": 1.0, "stroke_dasharray": "2 3"})))
    return [*upper, *lower]


def _said(seen: Seen, words: Words) -> str:
    return words.say("likely_here") if seen.state == LIKELY else words.outcomes[seen.state]


def _label(seen: Seen, words: Words) -> str:
    is_broken = seen.state == "outside"
    colour = {"outside": VERMILION, "not_examined": QUIET}.get(seen.state, INK)
    drawn: dict[str, str | float] = {"text_anchor": "middle", "fill": colour}
    below = seen.station.y + (37 if is_broken else 25)
    second = seen.figure if is_broken and seen.figure else _said(seen, words)
    is_marked = seen.state in ("outside", LIKELY)
    name = text(seen.station.x, below, seen.name, **drawn, font_weight="bold" if is_marked else "normal")
    return name + text(seen.station.x, below + 13, second, **drawn, font_size=9.5)
