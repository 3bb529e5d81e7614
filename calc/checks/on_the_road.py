"""What the bench means on the road: the hole under boost, the sensor's line, and the pull planned ahead."""

from collections.abc import Callable
from dataclasses import dataclass
from math import hypot, sqrt

from calc.checks.evidence import STANDARD, Evidence
from calc.checks.finding import Finding
from calc.checks.moments import Moment, settled
from calc.checks.run_log import ACTUAL, CHARGE_SIDE
from calc.checks.tightness import DISCHARGE_COEFFICIENT, DISCHARGE_UNCERTAINTY
from calc.errors import OutOfRange
from calc.physics.engine_air import speed_density_mass_flow
from calc.physics.orifice import hole_area, mass_flow
from calc.physics.road import (
    engine_speed,
    pull_time_and_distance,
    road_speed,
    rolling_circumference,
    tyre_diameter,
)
from calc.physics.units import kelvin
from calc.signals.refusal import CannotFit
from calc.signals.regression import line_fit_both
from calc.uncertainty.propagation import propagate

CHARGE_AIR_C, CHARGE_AIR_STANDARD_C = 45.0, 10.0  # behind a cooler where nothing was read; common practice
FILLING, FILLING_RELATIVE = 0.9, 0.06  # volumetric efficiency where air mass was not read; common practice
CD_RELATIVE = DISCHARGE_UNCERTAINTY / DISCHARGE_COEFFICIENT
PULL_RPM = (1_500.0, 4_500.0)  # from the pull's usual start to where it is told enough; common practice
PULL_M_PER_S2, PULL_OVERALL = 1.2, 5.2  # mean of a full-load pull at that overall ratio; common practice
MARGIN = 1.5  # on time and way, since nobody knows the car's pull beforehand; common practice, no source


@dataclass(frozen=True, slots=True)
class RoadLoss:
    """What a hole loses at the highest boost of the pulls.

    loss, expanded : air lost and its U. [g/s]
    share, share_expanded : of the engine's air. [-]
    shown_share : what the smallest hole that the decay test can show would lose. [-]
    """

    boost_kpa_abs: float
    engine_rpm: float
    loss: float
    expanded: float
    share: float
    share_expanded: float
    shown_share: float | None


def road_loss(evidence: Evidence, hole: Finding, shown_mm: float | None) -> RoadLoss | None:
    """Grams a second and share of the engine's air that the hole costs at the boost and speed of the pull.

    The decay finds Cd·A as a whole, so the doubt of Cd falls out of the loss.
    """
    fullest = _fullest(evidence)
    if fullest is None or "area_m2" not in hole.facts:
        return None
    moment, boost, doubt_kpa = fullest
    rpm = moment.number("engine_rpm")
    breathes = _engine_air(evidence, moment)
    if not rpm or breathes is None:
        return None
    area, outside = hole.facts["area_m2"], evidence.barometric.value * 1e3
    cd_free = sqrt(max(0.0, hole.facts["area_u_m2"] ** 2 - (CD_RELATIVE * area) ** 2))
    celsius, doubt_c = _charge_air(moment)

    def lost(area: float, boost: float, celsius: float) -> float:
        above = max(boost * 1e3, outside)
        return 1e3 * mass_flow(DISCHARGE_COEFFICIENT, max(area, 0.0), above, outside, kelvin(celsius))

    def share(area: float, boost: float, celsius: float, filling: float) -> float:
        return lost(area, boost, celsius) / breathes(boost, celsius, filling)

    values = {"area": area, "boost": boost, "celsius": celsius}
    doubts = {"area": cd_free, "boost": doubt_kpa, "celsius": doubt_c}
    filled, all_doubts = {**values, "filling": 1.0}, {**doubts, "filling": FILLING_RELATIVE}
    shown = None if shown_mm is None else {**filled, "area": hole_area(shown_mm / 1e3)}
    try:
        return RoadLoss(
            boost_kpa_abs=boost,
            engine_rpm=rpm,
            loss=lost(**values),
            expanded=2.0 * propagate(lost, values, doubts),
            share=share(**filled),
            share_expanded=2.0 * propagate(share, filled, all_doubts),
            shown_share=None if shown is None else share(**shown),
        )
    except OutOfRange:
        return None


def _engine_air(evidence: Evidence, moment: Moment) -> Callable[[float, float, float], float] | None:
    """The engine's air from boost, temperature and a factor about 1: measured, else speed-density. [g/s]"""
    measured, rpm = moment.number("air_mass_gps"), moment.number("engine_rpm")
    litres = evidence.number("/vehicle/displacement_l")
    if measured:
        return lambda boost, celsius, filling: measured * filling
    if not litres or not rpm:
        return None

    def swallowed(boost: float, celsius: float, filling: float) -> float:
        T = kelvin(celsius)
        return 1e3 * filling * speed_density_mass_flow(FILLING, litres / 1e3, rpm, boost * 1e3, T)

    return swallowed


def _fullest(evidence: Evidence) -> tuple[Moment, float, float] | None:
    """The moment of highest boost, with that boost made absolute and its doubt. [kPa]"""
    found = []
    for moment in settled(evidence):
        gauge, said = moment.gauge_at(*CHARGE_SIDE), moment.number(ACTUAL)
        if gauge is not None:
            real = evidence.absolute(gauge[0])
            found.append((moment, real.value, real.uncertainty))
        elif said is not None:
            found.append((moment, said, STANDARD["sensor_boost_kpa"]))
    return max(found, key=lambda item: item[1], default=None)


def _charge_air(moment: Moment) -> tuple[float, float]:
    for channel in ("manifold_air_c", "intake_air_c"):
        celsius = moment.number(channel)
        if celsius is not None:
            return celsius, STANDARD["temperature_c"]
    return CHARGE_AIR_C, CHARGE_AIR_STANDARD_C


@dataclass(frozen=True, slots=True)
class SensorLine:
    """Gain and offset of the charge pressure sensor from rest and road, with U each. [-, kPa]"""

    gain: float
    gain_expanded: float
    offset_kpa: float
    offset_expanded: float


def sensor_line(evidence: Evidence) -> SensorLine | None:
    """The sensor's line against barometer and gauge, in doubt both ways; None without rest or road.

    One gauge's class error moves all its road readings alike, so it is added to what the fit says.
    """
    at_rest = evidence.number("/tests/sensors_at_rest/charge_pressure_kpa_abs")
    outside = evidence.barometric
    road = [
        (evidence.absolute(gauge[0]), said)
        for moment in settled(evidence)
        if (gauge := moment.gauge_at(*CHARGE_SIDE)) is not None
        and (said := moment.number(ACTUAL)) is not None
    ]
    if at_rest is None or not road or not outside.pointer:
        return None
    true = [outside.value, *(real.value for real, _ in road)]
    shown = [at_rest, *(value for _, value in road)]
    own = [outside.uncertainty, *(real.own or real.shared for real, _ in road)]
    try:
        gain, offset, u_gain, u_offset = line_fit_both(
            true, shown, own, [STANDARD["sensor_boost_kpa"]] * len(true)
        )
    except CannotFit:
        return None
    reach = evidence.above_the_air(max(true))
    if reach <= 0.0:
        return None
    tilt = gain * max(real.shared for real, _ in road) / reach
    return SensorLine(gain, 2.0 * hypot(u_gain, tilt), offset, 2.0 * hypot(u_offset, tilt * outside.value))


@dataclass(frozen=True, slots=True)
class PlannedPull:
    """A pull in one gear, with its margin: speeds at both ends, time and way. [km/h, s, m]

    legal_rpm : engine speed at which it passes the speed typed in; None where it stays below. [rev/min]
    """

    gear: int
    from_kmh: float
    to_kmh: float
    seconds: float
    metres: float
    legal_rpm: float | None = None


def road_plan(evidence: Evidence) -> list[PlannedPull]:
    """The pull from 1 500 to 4 500 rev/min in each gear, from tyre and ratios; empty where one is missing."""
    tyre, final = evidence.get("/vehicle/tyre"), evidence.number("/vehicle/final_drive")
    if not tyre or not final:
        return []
    try:
        way = rolling_circumference(tyre_diameter(str(tyre)))
        return [
            _pull(number, float(ratio), float(final), way, evidence.number("/site/speed_limit_kmh"))
            for number, ratio in enumerate(evidence.get("/vehicle/gear_ratios") or (), start=1)
            if ratio is not None
        ]
    except OutOfRange:
        return []


def _pull(number: int, ratio: float, final: float, way: float, legal_kmh: float | None) -> PlannedPull:
    slow, fast = (road_speed(rpm, way, ratio, final) for rpm in PULL_RPM)
    seconds, metres = pull_time_and_distance(slow, fast, PULL_M_PER_S2 * ratio * final / PULL_OVERALL)
    passes = legal_kmh is not None and 0.0 <= legal_kmh < 3.6 * fast
    legal_rpm = engine_speed(legal_kmh / 3.6, way, ratio, final) if passes and legal_kmh else None
    return PlannedPull(number, 3.6 * slow, 3.6 * fast, seconds * MARGIN, metres * MARGIN, legal_rpm)


def best_gear(plan: list[PlannedPull], legal_kmh: float | None) -> PlannedPull | None:
    """The highest gear whose pull stays legal: the longest and hardest pull that the road allows."""
    if legal_kmh is None:
        return None
    return max((pull for pull in plan if pull.to_kmh <= legal_kmh), key=lambda pull: pull.gear, default=None)
