"""The charge pressure sensor reads more, or less, than a real gauge beside it.

What it does    The control unit believes its sensor and holds real boost wrong by as much, content all the
                while.
Speaks for      sensor and gauge apart on the road, or sensor and barometer apart at rest.
Against         sensor and gauge together on the same side of cooler and throttle.
Can mislead     a gauge before the cooler differs by the cooler's drop; a class 1.6 dial over 4 bar cannot
                show a small gain error; the log's samples lag: compare where boost stands
                still; a reference supply or ground that is off makes the same, and is looked at first.
Proof           road difference or rest difference outside its tolerance, on that side, with reference
                supply and ground both measured and not outside.
Cure            clear its pipe or port, check its feed, then renew the sensor.
Next test       sensors at rest, then gauges on the road.
"""

from math import hypot

from calc.checks.evidence import Kind
from calc.faults import effects
from calc.faults.model import Fault, Findings, high, low, outside, within
from calc.faults.pictures import SENSOR_HIGH, SENSOR_LOW, steered

DIRECT = ("rest_charge_pressure", "road_sensor")
FEED_ENDS = 2  # reference supply and ground
LASTS = 0.5  # of the greatest difference: so much a sensor that is wrong shows at every comparison


def proof(side: str, findings: Findings, kind: Kind) -> tuple[str, ...]:
    """The sensor against barometer or gauge, outside on this side alone, and its feed sound."""
    feed = findings["sensor_feed"]
    if outside(findings, "sensor_feed") or feed.facts.get("ends") != FEED_ENDS:
        return ()
    other = "low" if side == "high" else "high"
    if any(outside(findings, check, other) for check in DIRECT):
        return ()
    if outside(findings, "rest_charge_pressure", side):
        return tuple(check for check in DIRECT if outside(findings, check, side))
    if within(findings, "rest_charge_pressure") and not _grows_with_pressure(findings):
        return ()
    if not outside(findings, "road_sensor", side) or not _lasts(findings):
        return ()
    if not _car_is_content(findings, side):
        return ()
    return ("road_sensor",)


def _car_is_content(findings: Findings, side: str) -> bool:
    """Whether boost stood where its own sensor had it: nothing cut, nothing run away, nothing still coming.

    A gauge and a sensor read a moment apart differ by as much as boost moved between; a control unit that
    believes its sensor holds it at its aim.
    """
    swings = ("road_hunting", "road_reduced_power", "charge_leak_hole")
    if any(outside(findings, check) for check in swings):
        return False
    tracking = findings["road_tracking"]
    if tracking.outcome == "outside":
        return False
    if not tracking.examined:
        return not outside(findings, "road_peak", "high") and not outside(findings, "road_request")
    return not outside(findings, "road_request", "low") or not outside(findings, "road_peak", "high")


def _lasts(findings: Findings) -> bool:
    """Whether every comparison shows it: boost that still moves is apart from its gauge at some alone."""
    road = findings["road_sensor"]
    return bool(abs(road.facts.get("least", 0.0)) >= LASTS * abs(road.value or 0.0))


def _grows_with_pressure(findings: Findings) -> bool:
    """Whether the difference on the road is greater than at rest by more than the doubt of both."""
    rest, road = (findings[check] for check in DIRECT)
    if rest.value is None or road.value is None:
        return False
    doubt = hypot(rest.expanded_uncertainty or 0.0, road.expanded_uncertainty or 0.0)
    return abs(road.value) - abs(rest.value) > doubt


def cleared(side: str, findings: Findings, kind: Kind) -> tuple[str, ...]:
    """Together with the gauge under boost, or wrong to the other side."""
    if within(findings, "road_sensor") and not outside(findings, "rest_charge_pressure", side):
        return ("road_sensor",)
    other = "low" if side == "high" else "high"
    return ("road_sensor",) if outside(findings, "road_sensor", other) else ()


READS_HIGH = Fault(
    name="charge_pressure_reads_high",
    location="input_signal",
    shows={
        "rest_charge_pressure": high(0.55),
        "road_air_mass": low(0.30),
    },  # a gain error does not show at rest
    on_road=lambda kind: steered(SENSOR_HIGH, 0.9, "the loop follows the sensor"),
    proof=lambda findings, kind: proof("high", findings, kind),
    cleared_where=lambda findings, kind: cleared("high", findings, kind),
    effect=effects.sensor,
)

READS_LOW = Fault(
    name="charge_pressure_reads_low",
    location="input_signal",
    shows={"rest_charge_pressure": low(0.55), "road_air_mass": high(0.25)},
    on_road=lambda kind: steered(SENSOR_LOW, 0.9, "the loop follows the sensor"),
    proof=lambda findings, kind: proof("low", findings, kind),
    cleared_where=lambda findings, kind: cleared("low", findings, kind),
    effect=effects.sensor,
)
