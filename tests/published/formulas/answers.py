"""Answers to a step, lag, lines."""

import math
from itertools import pairwise
from pathlib import Path

from calc.physics import response
from calc.signals.first_order import fit_first_order
from calc.signals.lag import lag_by_differences
from calc.signals.regression import Line, line_fit, line_fit_both, theil_sen
from calc.uncertainty.propagation import propagate
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


# JCGM 100:2008, table H.6: readings of a thermometer and its observed corrections, degC
THERMOMETER_T = (21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511)
THERMOMETER_B = (-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160)


def thermometer_line() -> Line:
    return line_fit([t - 20.0 for t in THERMOMETER_T], THERMOMETER_B)


@formula
def thermometer(part: str) -> float:
    return float(getattr(thermometer_line(), part))


@formula
def thermometer_at(t_c: float) -> float:
    line = thermometer_line()
    return line.intercept + line.slope * (t_c - 20.0)


@formula
def end_gauge_nm() -> float:
    """JCGM 100:2008, H.1: l = ls + d - ls (dalpha theta + alpha dtheta), in nm."""
    values = {"ls": 50.000623e6, "d": 215.0, "dalpha": 0.0, "theta": -0.1, "alpha": 11.5e-6, "dtheta": 0.0}
    doubts = {"ls": 25.0, "d": 9.7, "dalpha": 0.58e-6, "theta": 0.41, "alpha": 1.2e-6, "dtheta": 0.029}

    def length(ls: float, d: float, dalpha: float, theta: float, alpha: float, dtheta: float) -> float:
        return ls + d - ls * (dalpha * theta + alpha * dtheta)

    return propagate(length, values, doubts)


# Pearson's points (1901) with the weights that York (1966) gave them
YORK_X = (0.0, 0.9, 1.8, 2.6, 3.3, 4.4, 5.2, 6.1, 6.5, 7.4)
YORK_Y = (5.9, 5.4, 4.4, 4.6, 3.5, 3.7, 2.8, 2.8, 2.4, 1.5)
YORK_WX = (1000.0, 1000.0, 500.0, 800.0, 200.0, 80.0, 60.0, 20.0, 1.8, 1.0)
YORK_WY = (1.0, 1.8, 4.0, 8.0, 20.0, 20.0, 70.0, 70.0, 100.0, 500.0)


@formula
def york(part: str) -> float:
    doubts = ([weight**-0.5 for weight in weights] for weights in (YORK_WX, YORK_WY))
    fit = line_fit_both(YORK_X, YORK_Y, *doubts)
    return fit[("slope", "intercept", "u_slope", "u_intercept").index(part)]
