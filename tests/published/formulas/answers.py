"""Answers to a step, lag, lines."""

import math
from functools import cache, partial
from math import inf
from pathlib import Path

from calc.signals.lag import lag_of_readings
from calc.signals.regression import Line, line_fit, line_fit_both
from calc.signals.step import Step, step_metrics
from calc.uncertainty.propagation import propagate
from tests.published import reference
from tests.published.formulas.registry import formula

NORRIS = Path(__file__).resolve().parents[3] / "fixtures" / "published" / "norris.dat"


STEP_S, ROWS = 0.001, 40_001  # a log so fine that straight lines between its rows add nothing


@cache
def answered(zeta: float, band: float) -> Step:
    """What our step reads out of the answer of a second-order system, ωn = 1; ζ infinite: of first order."""
    times = [STEP_S * row for row in range(ROWS)]
    answer = reference.first_order if zeta > 1.0 else partial(reference.second_order, zeta)
    return step_metrics(times, [answer(t) for t in times], 0.0, 1.0, 100.0 * band)


@formula
def overshoot_pct(zeta: float) -> float:
    return answered(zeta, 0.05).overshoot_pct


@formula
def rise_time(zeta: float) -> float:
    found = answered(zeta, 0.05).transition
    assert found is not None
    return found


@formula
def settling_time(zeta: float, band: float) -> float:
    found = answered(zeta, band).settling
    assert found is not None
    return found


@formula
def first_order_rise() -> float:
    return rise_time(inf)


@formula
def first_order_settling(band: float) -> float:
    return settling_time(inf, band)


@formula
def pulse_lag_s(true_lag: float) -> float:
    """Readings of a pulse against a log in which the same pulse stands later, at 10 Hz."""
    times = [step / 10.0 for step in range(100)]

    def misfit(lag: float) -> float:
        return math.fsum(
            ((reference.pulse(t, 3.0) - reference.pulse(t + lag, 3.0 + true_lag)) / 0.01) ** 2 for t in times
        )

    return lag_of_readings(misfit)


def norris_points() -> tuple[list[float], list[float]]:
    lines = NORRIS.read_text(encoding="ascii").splitlines()[60:96]
    pairs = [[float(cell) for cell in line.split()] for line in lines]
    return [x for _, x in pairs], [y for y, _ in pairs]


@formula
def norris(part: str) -> float:
    fit: Line = line_fit(*norris_points())
    return float(getattr(fit, part))


WILD_X = [0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0]
WILD_Y = [0.0, 1.1, 1.9, 3.2, 4.0, 15.0, 6.1]


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
