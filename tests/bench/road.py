"""An hour on the road, logged 20 times a second in 16 columns, and a job that holds it. All invented."""

import json
import random
from functools import cache
from typing import Any

from tests.calc.drives import Drive, drive

ROWS, FEW_ROWS = 72_000, 2_000
A_SECOND = 20.0
PULLS_EVERY_ROWS = 12_000
AIR_KPA, LITRES, CYLINDERS = 101.3, 1.8, 4
ERROR_KPA = 26.0
HEADERS = {
    "t_s": "Time [s]",
    "engine_rpm": "Engine speed [rpm]",
    "pedal_pct": "Accelerator pedal position [%]",
    "vehicle_kmh": "Vehicle speed [km/h]",
    "boost_request_kpa_abs": "Boost pressure requested [mbar]",
    "boost_specified_kpa_abs": "Boost pressure specified [mbar]",
    "boost_actual_kpa_abs": "Boost pressure actual [mbar]",
    "correction_pct": "Boost control correction [%]",
    "duty_pct": "Boost control solenoid duty cycle [%]",
    "air_mass_gps": "Mass air flow [g/s]",
    "intake_air_c": "Intake air temperature [degC]",
    "throttle_pct": "Throttle valve angle [%]",
    "boost_correction_kpa": "Boost pressure correction [mbar]",
    "manifold_air_c": "Intake manifold air temperature [degC]",
    "egr_pct": "EGR valve position [%]",
}
MADE = 12  # of them come from the drive; the last ones are flat
OTHERS = ("Coolant temperature [degC]",)
SPEC = {
    "source": "invented",
    "actuator_start_kpa": {"min": 60, "max": 80},
    "actuator_full_kpa": {"min": 140, "max": 160},
    "solenoid_coil_ohm_20c": {"min": 25, "max": 35},
    "boost_specified_peak_kpa_abs": {"min": 215, "max": 235},
    "boost_tolerance_kpa": 10,
}
GAUGE = {"id": "g1", "kind": "analogue", "span_kpa": [0, 400], "class_pct": 1.6, "division_kpa": 10}
TESTS: dict[str, Any] = {
    "actuator": {"gauge": "g1", "first_movement_kpa": 96, "full_travel_kpa": 171},
    "solenoid": {"coil_ohm": 29.4, "coil_c": 24},
}


def table(rows: int) -> list[list[str]]:
    """Header and cells: cruising, and a pull every ten minutes; each number as an instrument prints it."""
    one = drive(Drive(rows_a_second=A_SECOND, pulls=1, error=ERROR_KPA, duty=4.0))
    names = list(HEADERS)[1:MADE]
    pull = list(zip(*(one[name] for name in names), strict=True))
    every = min(PULLS_EVERY_ROWS, rows // 2)
    dice = random.Random(7)
    lines = [[*HEADERS.values(), *OTHERS]]
    for row in range(rows):
        into = row % every
        values = pull[into] if into < len(pull) else cruising(dice)
        cells = [
            f"{row / A_SECOND:.2f}",
            *(printed(name, value) for name, value in zip(names, values, strict=True)),
        ]
        lines.append([*cells, "10", f"{47 + dice.random():.1f}", "2.0", f"{88 + dice.random():.1f}"])
    return lines


def cruising(dice: random.Random) -> tuple[float, ...]:
    """One row of an easy drive, in the order of `HEADERS` without the time."""
    turns, boost = 1900 + 40 * dice.random(), AIR_KPA + 8 + dice.random()
    return (turns, 22.0, turns * 0.024, boost, boost, boost, 1.0, 30.0, 24.0, 45.0, 20.0)


def printed(name: str, value: float | None) -> str:
    assert value is not None
    return f"{value * 10:.0f}" if name.endswith("_kpa_abs") else f"{value:.2f}"


@cache
def log(rows: int) -> bytes:
    """The log as a file."""
    return "".join(",".join(cells) + "\n" for cells in table(rows)).encode()


def job(channels: dict[str, Any] | None = None) -> dict[str, Any]:
    """A job with a bench test and, where they are given, the channels of a run."""
    road = (
        [{"id": "r1", "phase": "before_repair", "control": "normal", "channels": channels}]
        if channels
        else []
    )
    return {
        "format": "job/1",
        "id": "019ac0de-0000-7000-8000-000000000b01",
        "vehicle": {"displacement_l": LITRES, "cylinders": CYLINDERS, "strokes": 4},
        "boost_control": {
            "device": "wastegate",
            "actuator": "pressure",
            "arrangement": "bleed",
            "more_duty": "raises_boost",
        },
        "spec": SPEC,
        "site": {"barometric_kpa_abs": AIR_KPA},
        "gauges": [GAUGE],
        "tests": {**TESTS, "road": road},
    }


def text_of(document: dict[str, Any]) -> bytes:
    """A document as it travels."""
    return json.dumps(document).encode()
