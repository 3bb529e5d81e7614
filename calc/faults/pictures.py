"""What the road run shows: the core comparison of the trade, as pictures that faults share.

A picture names where real boost, the car's own sensor, the duty and the control pressure stand. Shares are
common practice, checked against the calibration runs of our simulator (fixtures/simulator, seeds 100 to 511).
"""

from collections.abc import Mapping

from calc.faults.model import Picture, Spread, high, low

LOW_USED_UP: Mapping[str, Spread] = {
    "road_real_boost": low(0.92),
    "road_tracking": low(0.92),
    "road_peak": low(0.35),
    "road_authority": high(0.75),
    "road_correction": high(0.75),
}
BASE_BOOST: Mapping[str, Spread] = {**LOW_USED_UP, "road_peak": low(0.92), "road_authority": high(0.85)}
HIGH_USED_UP: Mapping[str, Spread] = {
    "road_real_boost": high(0.92),
    "road_tracking": high(0.92),
    "road_peak": high(0.92),
    "road_overboost": high(0.70),
    "road_authority": low(0.60),
    "road_correction": low(0.50),
    "road_reduced_power": low(0.20),
}
HIDDEN_LOW: Mapping[str, Spread] = {"road_correction": high(0.75), "road_authority": high(0.10)}
HIDDEN_HIGH: Mapping[str, Spread] = {"road_correction": low(0.75), "road_authority": low(0.10)}
AIMS_LOW: Mapping[str, Spread] = {"road_specified": low(0.85)}
LIMITED: Mapping[str, Spread] = {"road_specified": low(0.88), "road_request": low(0.80)}
SENSOR_HIGH: Mapping[str, Spread] = {
    "road_real_boost": low(0.90),
    "road_peak": low(0.75),
    "road_sensor": high(0.93),
    "road_authority": high(0.08),
}
SENSOR_LOW: Mapping[str, Spread] = {
    "road_real_boost": high(0.90),
    "road_peak": high(0.75),
    "road_overboost": high(0.60),
    "road_sensor": low(0.93),
    "road_authority": low(0.08),
}


def air_lost(hidden: float = 0.25, used_up: float = 0.65) -> tuple[Picture, ...]:
    """Air lost or not made: boost low with nothing left to ask for, or hidden by the loop, or too small."""
    return (
        Picture(used_up, LOW_USED_UP, "the loop asks for more than the air path can give"),
        Picture(hidden, HIDDEN_LOW, "a small loss is trimmed away"),
        Picture(1.0 - used_up - hidden, {}, "too small to show in a pull"),
    )


def air_choked(hidden: float, used_up: float, limited: float) -> tuple[Picture, ...]:
    """The engine takes in less air: boost may stand, and the control unit counts the small load rightly."""
    small_load = {"road_air_mass": low(0.90), "road_request": low(0.80), "road_specified": low(0.50)}
    return (
        Picture(used_up, LOW_USED_UP, "the loop asks for more than the air path can give"),
        Picture(hidden, HIDDEN_LOW, "a small loss is trimmed away"),
        Picture(limited, small_load, "less load is seen, less boost is aimed at"),
        Picture(1.0 - used_up - hidden - limited, {}, "too small to show in a pull"),
    )


def boost_falls(hidden: float = 0.2, used_up: float = 0.7, **control: Spread) -> tuple[Picture, ...]:
    """The control side or the actuator gives away boost."""
    return _moved(LOW_USED_UP, HIDDEN_LOW, hidden, used_up, control)


def boost_rises(hidden: float = 0.2, used_up: float = 0.75, **control: Spread) -> tuple[Picture, ...]:
    """The control side or the actuator lets boost rise."""
    return _moved(HIGH_USED_UP, HIDDEN_HIGH, hidden, used_up, control)


def _moved(
    full: Mapping[str, Spread],
    trimmed: Mapping[str, Spread],
    hidden: float,
    used_up: float,
    control: Mapping[str, Spread],
) -> tuple[Picture, ...]:
    return (
        Picture(used_up, {**full, **control}, "the loop has nothing left to answer with"),
        Picture(hidden, {**trimmed, **control}, "the loop still answers, by a lasting trim"),
        Picture(1.0 - used_up - hidden, dict(control), "too small to show in a pull"),
    )


def steered(picture: Mapping[str, Spread], share: float, why: str) -> tuple[Picture, ...]:
    """One picture in so many of the cases; in the rest the road shows nothing."""
    return (Picture(share, picture, why), Picture(1.0 - share, {}, "too small to show in a pull"))
