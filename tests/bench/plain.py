"""The same work written plainly with pandas, numpy and scipy, as somebody would who has them at hand.

Reads the hour's log, finds the pulls, and decides the checks below by JCGM 106 at 95 %, with the doubts of
the contract. Nothing here is used by the program; a test holds its figures beside those of `calc`.
"""

import io
import json
from dataclasses import dataclass
from typing import Any

import numpy as np
import pandas as pd
from scipy import stats

from tests.bench.road import HEADERS, LITRES

COPPER = 0.00393
AIR_R = 0.287_05
COLUMNS = {header: name for name, header in HEADERS.items()}
Limit = dict[str, float]


@dataclass(frozen=True)
class Decided:
    """One check: value, standard uncertainty, outcome."""

    value: float
    u: float
    outcome: str


def read(data: bytes) -> pd.DataFrame:
    """The log's known channels, pressures in kPa."""
    frame = pd.read_csv(io.BytesIO(data)).rename(columns=COLUMNS)
    pressures = [name for name in frame.columns if name.endswith("_kpa_abs")]
    frame[pressures] /= 10.0
    return frame[list(HEADERS)]


def decide(value: float, u: float, limit: Limit) -> Decided:
    """JCGM 106: within and outside from 95 % on."""
    low, high = limit.get("min", -np.inf), limit.get("max", np.inf)
    chance = float(stats.norm.cdf(high, value, u) - stats.norm.cdf(low, value, u))
    inside = low <= value <= high
    outcome = (
        "within" if inside and chance >= 0.95 else "outside" if not inside and chance <= 0.05 else "undecided"
    )
    return Decided(value, u, outcome)


def pulls(frame: pd.DataFrame) -> list[pd.DataFrame]:
    """Stretches of full pedal of 2 s and more, the engine turning."""
    full = frame.pedal_pct >= 95.0
    groups = frame[full].groupby((full != full.shift()).cumsum()[full])
    found = [group for _, group in groups]
    return [pull for pull in found if np.ptp(pull.t_s) >= 2.0 and pull.engine_rpm.median() >= 1000.0]


def settled(pull: pd.DataFrame) -> pd.DataFrame:
    """Aim within 3 % of its peak, boost once within 9 kPa of it and 0.6 s on, slope at most 25 kPa/s."""
    near = pull[pull.boost_specified_kpa_abs >= 0.97 * pull.boost_specified_kpa_abs.max()]
    there = near.t_s[near.boost_actual_kpa_abs >= near.boost_specified_kpa_abs - 9.0]
    if there.empty:
        return near.iloc[:0]
    smooth = pull.boost_actual_kpa_abs.rolling(11, center=True, min_periods=3).mean()
    steep = pd.Series(np.gradient(smooth, pull.t_s), index=pull.index).abs()
    return near[(near.t_s >= there.iloc[0] + 0.6) & (steep.loc[near.index] <= 25.0)]


def worst(decided: list[Decided]) -> Decided:
    return max(decided, key=lambda one: abs(one.value))


def compared(parts: list[pd.DataFrame], of: str, to: str, u: float, tolerance: float) -> Decided:
    """A channel against another, a pull's mean each, the worst of them."""
    limit = {"min": -tolerance, "max": tolerance}
    return worst([decide(float((part[of] - part[to]).mean()), u, limit) for part in parts])


def road_checks(frame: pd.DataFrame, job: dict[str, Any]) -> dict[str, Decided]:
    """What the pulls say."""
    spec = job["spec"]
    found = pulls(frame)
    parts = [part for pull in found if len(part := settled(pull))]
    peak = max(float(pull.boost_specified_kpa_abs.max()) for pull in found)
    pedal = max(float(pull.pedal_pct.max()) for pull in found)
    aim, said = "boost_specified_kpa_abs", "boost_actual_kpa_abs"
    return {
        "road_pedal": decide(pedal, 0.5, {"min": 95.0}),
        "road_request": compared(parts, aim, "boost_request_kpa_abs", 0.5, spec["boost_tolerance_kpa"]),
        "road_specified": decide(peak, 1e-9, spec["boost_specified_peak_kpa_abs"]),
        "road_tracking": compared(parts, said, aim, 0.75, spec["boost_tolerance_kpa"]),
        "road_air_mass": air_mass(parts),
    }


def air_mass(parts: list[pd.DataFrame]) -> Decided:
    """Volumetric efficiency that the air mass implies; default limits of the contract."""
    shares = []
    for part in parts:
        density = part.boost_actual_kpa_abs / (AIR_R * (part.intake_air_c + 273.15))
        swallowed = density * LITRES * part.engine_rpm / 120.0
        shares.append(float((part.air_mass_gps / swallowed).mean()))
    share = max(shares, key=lambda one: abs(one - 0.9))
    return decide(share, 0.02 * share, {"min": 0.75, "max": 1.10})


def bench_checks(job: dict[str, Any]) -> dict[str, Decided]:
    """The actuator's two pressures and the coil."""
    spec, tests, gauge = job["spec"], job["tests"], job["gauges"][0]
    low, high = gauge["span_kpa"]
    class_u = gauge["class_pct"] / 100.0 * (high - low) / np.sqrt(3.0)
    u = float(np.hypot(class_u, gauge["division_kpa"] / 4.0 / np.sqrt(3.0)))
    coil = tests["solenoid"]
    at_20 = coil["coil_ohm"] / (1.0 + COPPER * (coil["coil_c"] - 20.0))
    coil_u = float(np.hypot((0.02 * coil["coil_ohm"] + 0.2) / 2.0, at_20 * COPPER * 2.5))
    return {
        "actuator_start": decide(tests["actuator"]["first_movement_kpa"], u, spec["actuator_start_kpa"]),
        "actuator_full": decide(tests["actuator"]["full_travel_kpa"], u, spec["actuator_full_kpa"]),
        "solenoid_coil": decide(at_20, coil_u, spec["solenoid_coil_ohm_20c"]),
    }


def judge(frame: pd.DataFrame, job: dict[str, Any]) -> str:
    """All of it, as text."""
    decided = {**bench_checks(job), **road_checks(frame, job)}
    return json.dumps({name: [one.value, one.u, one.outcome] for name, one in decided.items()})
