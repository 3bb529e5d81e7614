"""Answers to a step, lag, lines."""

import math
from itertools import pairwise
from pathlib import Path

from calc.physics import response
from calc.signals.first_order import fit_first_order
from calc.signals.lag import lag_by_differences
from calc.signals.regression import Line, line_fit, theil_sen
from tests.published.formulas.registry import formula

NORRIS = Path(__file__).resolve().parents[3] / "fixtures" / "published" / "norris.dat"


@formula
def first_order(step: float, t: float, tau: float) -> float:
    return response.first_order_step(step, t, tau)


@formula
def first_order_rise(low: float, high: float) -> float:
    return response.first_order_time_to(high, 1.0) - response.first_order_time_to(low, 1.0)


@formula
def two_point_tau(low: float, high: float) -> float:
    times = [response.first_order_time_to(share, 1.0) for share in (low, high)]
    return response.two_point_time_constant(*times)


@formula
def overshoot_pct(zeta: float) -> float:
    return 100.0 * response.overshoot(zeta)


@formula
def damping(overshoot_pct: float) -> float:
    return response.damping_from_overshoot(overshoot_pct / 100.0)


@formula
def peak_time(zeta: float) -> float:
    return response.peak_time(zeta, 1.0)


@formula
def rise_time(zeta: float) -> float:
    return response.rise_time(zeta, 1.0)


@formula
def settling_time(zeta: float, band: float) -> float:
    return response.settling_time(zeta, 1.0, band)


@formula
def pulse_lag_s(true_lag: float) -> float:
    times = [step / 10.0 for step in range(100)]
    pulses = [[math.exp(-0.5 * ((t - at) / 0.6) ** 2) for t in times] for at in (3.0, 3.0 + true_lag)]
    return lag_by_differences(*pulses, 0.1)


@formula
def first_order_fit(part: str) -> float:
    """tau or gain of the noise-free answer, tau 0.5 s, to 8 s of input at 10 Hz."""
    inputs = [1.0] * 80 + [0.0] * 40
    outputs, keep = [0.0], math.exp(-0.1 / 0.5)
    for drive, _ in pairwise(inputs):
        outputs.append(keep * outputs[-1] + (1.0 - keep) * drive)
    return fit_first_order(inputs, outputs, 0.1)[part == "gain"]


def norris_points() -> tuple[list[float], list[float]]:
    lines = NORRIS.read_text(encoding="ascii").splitlines()[60:96]
    pairs = [[float(cell) for cell in line.split()] for line in lines]
    return [x for _, x in pairs], [y for y, _ in pairs]


@formula
def norris(part: str) -> float:
    fit: Line = line_fit(*norris_points())
    return float(getattr(fit, part))


@formula
def norris_theil_sen(part: str) -> float:
    return theil_sen(*norris_points())[part == "intercept"]


WILD_X = [0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0]
WILD_Y = [0.0, 1.1, 1.9, 3.2, 4.0, 15.0, 6.1]


@formula
def wild_theil_sen(part: str) -> float:
    return theil_sen(WILD_X, WILD_Y)[part == "intercept"]


@formula
def wild_line(part: str) -> float:
    return float(getattr(line_fit(WILD_X, WILD_Y), part))
