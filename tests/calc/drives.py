"""Seeded drives with pulls, of our own: a boost that lags its aim, a sensor, noise. Channels by name.

Simple on purpose: what a check must find is known beforehand. The cars of `fixtures` come from a model.
"""

import math
import random
from dataclasses import dataclass

AIR_KPA = 101.3
NAMES = (
    "t_s",
    "engine_rpm",
    "pedal_pct",
    "vehicle_kmh",
    "boost_request_kpa_abs",
    "boost_specified_kpa_abs",
    "boost_actual_kpa_abs",
    "correction_pct",
    "duty_pct",
    "air_mass_gps",
    "intake_air_c",
    "throttle_pct",
)
Channels = dict[str, list[float | None]]


@dataclass(frozen=True)
class Drive:
    """What happens on a drive. Pressures in kPa, times in s."""

    seed: int = 1
    rows_a_second: float = 10.0
    pulls: int = 2
    aim: float = 221.0
    lag: float = 0.5
    noise: float = 0.5
    error: float = 0.0  # real boost less its aim, all along
    top_error: float = 0.0  # added on the last 1 000 rev/min
    sensor_error: float = 0.0
    hunting: float = 0.0  # peak to peak
    hunting_hz: float = 1.0
    cut_at: float | None = None  # seconds into a pull at which the aim drops
    duty: float = 60.0
    correction: float = 1.0
    air_kpa: float = AIR_KPA
    efficiency: float = 0.88
    litres: float = 1.8
    request_more: float = 0.0
    rest_s: float = 3.0
    pedal: float = 100.0


def drive(what: Drive = Drive()) -> Channels:
    """Idle, then pulls with a pause between them."""
    dice = random.Random(what.seed)
    rows: list[tuple[float, ...]] = []
    clock = 0.0

    def row(rpm: float, pedal: float, aim: float, real: float, duty: float) -> None:
        said = real + what.sensor_error + dice.gauss(0.0, what.noise)
        turns = max(0.0, rpm + dice.gauss(0.0, 4.0))
        air = what.efficiency * what.litres * turns / 120.0 * real / (0.28705 * 318.15)
        asked = aim + (what.request_more if pedal >= 95.0 else 0.0)
        values = (
            clock, turns, pedal, turns * 0.024, asked, aim, said, what.correction, duty, air, 45.0,
            90.0 if pedal > 50.0 else 12.0,
        )  # fmt: skip
        rows.append(tuple(round(value, 3) for value in values))

    step = 1.0 / what.rows_a_second
    for _ in range(what.pulls):
        for _ in range(max(1, round(what.rest_s / step))):
            row(850.0, 0.0, what.air_kpa, what.air_kpa, 0.0)
            clock += step
        rpm, real, into = 1500.0, what.air_kpa + 20.0, 0.0
        while rpm < 5200.0:
            aim = min(what.aim, what.air_kpa + 25.0 + 95.0 * max(0.0, rpm - 1400.0) / 700.0)
            if what.cut_at is not None and into >= what.cut_at:
                aim = what.air_kpa + 35.0
            goal = aim + what.error + what.top_error * min(1.0, max(0.0, (rpm - 4200.0) / 1000.0))
            real += (goal - real) * step / what.lag
            swing = what.hunting / 2.0 * math.sin(2.0 * math.pi * what.hunting_hz * into)
            row(rpm, what.pedal, aim, real + swing, what.duty)
            rpm += 450.0 * step
            into += step
            clock += step
    return {name: [values[place] for values in rows] for place, name in enumerate(NAMES)}
