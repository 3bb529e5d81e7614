"""The air line of the report: the way the air goes, with each part's state as a shape.

Examined and within limits: a filled tube. Undecided: a dashed one. Not examined: an outlined one. Outside:
the line is broken there, its two ends bent apart.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from api.pdf.svg import BLUE, GREY, INK, PAPER, VERMILION, drawing, element, line, text
from api.pdf.words import OUTCOMES

WIDTH, HEIGHT = 690.0, 176.0
UPPER, LOWER = 40.0, 122.0
TUBE = 11.0
REACH = 58.0  # half the length of a station's piece of tube


@dataclass(frozen=True)
class Station:
    """A part on the line: its names, where it stands, the checks that speak of it, its fault's location."""

    name: str
    customer: str
    x: float
    y: float
    locations: tuple[str, ...]
    checks: tuple[str, ...]


INTAKE = Station("intake", "air filter", 58, UPPER, ("intake",), ("intake_depression", "rest_air_mass"))
TURBO = Station(
    "turbocharger",
    "turbocharger",
    202,
    UPPER,
    ("turbocharger",),
    ("turbo_radial_play", "turbo_axial_play", "turbo_wheels"),
)
CHARGE = Station(
    "charge circuit",
    "pipes and cooler",
    346,
    UPPER,
    ("charge_circuit",),
    ("charge_leak_hole", "cooler_drop", "bypass_hold"),
)
ENGINE = Station(
    "engine", "engine", 490, UPPER, ("elsewhere",), ("throttle_opens", "egr_closes", "engine_health")
)
EXHAUST = Station("exhaust", "exhaust", 632, UPPER, ("exhaust",), ("exhaust_back_pressure", "exhaust_leak"))
SOLENOID = Station(
    "solenoid and lines",
    "control valve",
    346,
    LOWER,
    ("control_pressure", "drive_circuit"),
    ("solenoid_coil", "solenoid_supply", "solenoid_ground", "solenoid_response", "control_hoses", "vacuum_supply"),
)
ACTUATOR = Station(
    "actuator",
    "actuator",
    490,
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
WASTEGATE = Station("wastegate", "valve in the housing", 632, LOWER, ("wastegate_valve",), ("wastegate_seat",))
VANES = Station("vanes", "vanes of the turbocharger", 632, LOWER, (), ())
SENSORS = Station(
    "sensors and control unit",
    "sensors",
    202,
    LOWER,
    ("input_signal", "control_unit"),
    ("rest_charge_pressure", "rest_temperatures", "rest_pedal", "sensor_feed", "road_sensor"),
)
AIR_WAY = (INTAKE, TURBO, CHARGE, ENGINE, EXHAUST)


def air_line(document: dict[str, Any], verdict: dict[str, Any], *, customer: bool) -> str:
    """The drawing for one job and its verdict."""
    findings = {finding["check"]: finding for finding in verdict.get("findings", [])}
    conclusion = verdict.get("conclusion") or {}
    stations = stations_of(document.get("boost_control") or {})
    states = [(station, state(station, findings, conclusion)) for station in stations]
    shapes = [*_joints(stations), *(_piece(station, its_state) for station, its_state in states)]
    names = {station: station.customer if customer else station.name for station in stations}
    labels = [_label(station, names[station], its_state) for station, its_state in states]
    words = ", ".join(f"{names[station]} {OUTCOMES[its_state]}" for station, its_state in states)
    return drawing(WIDTH, HEIGHT, f"The way of the air: {words}", *shapes, *labels)


def stations_of(boost_control: Mapping[str, Any]) -> tuple[Station, ...]:
    """The parts that this kind of boost control has."""
    valve = VANES if boost_control.get("device") == "variable_geometry" else WASTEGATE
    control = (ACTUATOR, valve)
    if boost_control.get("actuator") != "electric":
        control = (SOLENOID, *control)
    return (*AIR_WAY, SENSORS, *control)


def state(station: Station, findings: Mapping[str, Any], conclusion: Mapping[str, Any]) -> str:
    """What is known of a part: a finding outside or the conclusion breaks the line there."""
    if conclusion.get("location") in station.locations:
        return "outside"
    outcomes = {findings[check]["outcome"] for check in station.checks if check in findings}
    return next((one for one in ("outside", "undecided", "within") if one in outcomes), "not_examined")


def _piece(station: Station, its_state: str) -> str:
    left, right, y = station.x - REACH, station.x + REACH, station.y
    if its_state == "outside":
        return _broken(station.x, left, right, y)
    tube = line(left, y, right, y, stroke=BLUE if its_state == "within" else INK, stroke_width=TUBE)
    if its_state == "within":
        return tube
    tube += line(left, y, right, y, stroke=PAPER, stroke_width=TUBE - 2.4)
    if its_state == "undecided":
        tube += line(left, y, right, y, stroke=BLUE, stroke_width=TUBE - 2.4, stroke_dasharray="9 7")
    return tube


def _broken(x: float, left: float, right: float, y: float) -> str:
    """Two ends bent apart, and the part itself on the far one."""
    near = f"M{left} {y} H{x - 34} C{x - 22} {y} {x - 18} {y - 6} {x - 14} {y - 18}"
    far = f"M{right} {y} H{x + 14} C{x + 2} {y} {x - 2} {y + 6} {x - 6} {y + 18}"
    bent = {"fill": "none", "stroke_width": TUBE}
    return element("path", d=near, stroke=BLUE, **bent) + element("path", d=far, stroke=VERMILION, **bent)


def _joints(stations: tuple[Station, ...]) -> list[str]:
    """The thin line between the stations, and the branch of the control line."""
    thin = {"fill": "none", "stroke": INK, "stroke_width": 1.6}
    x_branch = (TURBO.x + CHARGE.x) / 2
    upper = [line(one.x + REACH, UPPER, two.x - REACH, UPPER, **thin) for one, two in pairwise(AIR_WAY)]
    control = [station for station in stations if station.y == LOWER and station is not SENSORS]
    lower = [line(one.x + REACH, LOWER, two.x - REACH, LOWER, **thin) for one, two in pairwise(control)]
    if SOLENOID in control:
        lower.append(element("path", d=f"M{x_branch} {UPPER} V{LOWER} H{SOLENOID.x - REACH}", **thin))
    return [*upper, *lower]


def _label(station: Station, name: str, its_state: str) -> str:
    colour = {"outside": VERMILION, "not_examined": GREY}.get(its_state, INK)
    weight = "bold" if its_state == "outside" else "normal"
    middle = {"text_anchor": "middle", "fill": colour, "font_weight": weight}
    below = station.y + (34 if its_state == "outside" else 24)
    word = OUTCOMES[its_state]
    return text(station.x, below, name, **middle) + text(station.x, below + 13, word, **middle, font_size=9.5)
