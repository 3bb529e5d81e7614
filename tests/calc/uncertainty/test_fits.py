"""Fits of the sweep: what they refuse, and that they find what made the data."""

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.signals.breakpoint import fit_sweep
from calc.signals.hysteresis import gaps
from calc.signals.refusal import CannotFit

SEEDED = settings(max_examples=60, deadline=None, derandomize=True)
MARKS = [10.0 * step for step in range(20)]


def ramp(p: float, start: float, rate: float, stop: float) -> float:
    return min(stop, max(0.0, rate * (p - start)))


@SEEDED
@given(st.floats(22.0, 95.0), st.floats(0.1, 0.25), st.floats(5.0, 8.0))
def test_without_noise_the_ramp_itself_is_found(start: float, rate: float, stop: float) -> None:
    travels = [ramp(p, start, rate, stop) for p in MARKS]
    fit = fit_sweep(MARKS, travels)
    assert fit.first_movement == pytest.approx(start, abs=1e-3)
    assert fit.rate == pytest.approx(rate, rel=1e-4)
    assert fit.full_travel == pytest.approx(start + stop / rate, abs=1e-3)


def test_the_standard_error_is_that_of_repeats() -> None:
    """500 sweeps with 0.1 mm of noise: the spread of the break beside the mean of its standard errors."""
    rng, breaks, errors = random.Random(7), [], []
    for _ in range(300):
        fit = fit_sweep(MARKS, [ramp(p, 74.0, 0.13, 1e9) + rng.gauss(0.0, 0.1) for p in MARKS])
        breaks.append(fit.first_movement)
        errors.append(fit.se_first_movement)
    mean = sum(breaks) / len(breaks)
    spread = (sum((each - mean) ** 2 for each in breaks) / (len(breaks) - 1)) ** 0.5
    assert sum(errors) / len(errors) == pytest.approx(spread, rel=0.12)
    assert mean == pytest.approx(74.0, abs=3 * spread / 300**0.5)


@pytest.mark.parametrize(("p", "x", "why"), [
    ([0, 1], [0, 0], "fewer"),
    ([0, 1, 2, 3, 4, 5], [0, 0, 0, 0, 0, 0], "no movement"),
    ([0, 1, 2, 3, 4, 5], [0, 1, 2, 3, 4, 5], "before the movement"),
    ([0, 1, 2, 3, 4, 5], [0, 0, 0, 0, 1, 2], "in the movement"),
    ([0, 1, 2], [0, 0, 0, 0], "abscissae"),
    ([0, 1, 2, 3, float("nan")], [0, 0, 1, 2, 3], "finite"),
])  # fmt: skip
def test_what_cannot_be_fitted_says_why(p: list[float], x: list[float], why: str) -> None:
    with pytest.raises(CannotFit, match=why):
        fit_sweep(p, x)


def test_friction_is_half_of_the_gaps() -> None:
    rising, falling = [ramp(p, 70.0, 0.1, 8.0) for p in MARKS], [ramp(p, 60.0, 0.1, 8.0) for p in MARKS]
    apart = gaps(MARKS, rising, MARKS, falling)
    assert apart == pytest.approx([10.0] * 7)
