"""First movement and full travel of an actuator, from a sweep of pressure against travel.

The model is a ramp: the rod stands, then moves in proportion to the pressure, then (where the sweep goes
on so far) stands at its stop. Travel carries the noise, equal everywhere; pressure is taken as exact here,
so that the gauge's own doubt must be added afterwards.

[HINKLEY] D. V. Hinkley, "Inference about the intersection in two-phase regression", Biometrika 56 (1969) 495,
    from memory.
[MUGGEO] V. M. R. Muggeo, "Estimating regression models with unknown break-points", Statistics in Medicine 22
    (2003) 3055; abstract seen.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.signals.ramp import Points, Ramp, best_ramp
from calc.signals.refusal import CannotFit
from calc.signals.regression import check_points

FEWEST_BEFORE, FEWEST_AFTER, FEWEST_AT_STOP = 2, 3, 2
STANDS_OUT = 4.0  # the rate must be so many of its standard errors to be called movement


@dataclass(frozen=True)
class SweepFit:
    """First movement, rate and (None where the sweep did not get there) full travel, with standard errors.

    `travel` is the way from rest to the stop, or None; `freedom` the degrees of freedom behind the errors.
    """

    first_movement: float
    full_travel: float | None
    rate: float
    travel: float | None
    se_first_movement: float
    se_full_travel: float | None
    se_rate: float
    se_travel: float | None
    residual_s: float
    baseline: float
    freedom: int


def fit_sweep(pressures: Sequence[float], travels: Sequence[float]) -> SweepFit:
    """First movement, rate and full travel from one sweep, rising or falling.

    x = a + b·(min(max(p, c1), c2) − c1), least squares; without c2 where the data do not ask for it

    Parameters
    ----------
    pressures : sequence of float
        Pressures of one direction, in any order; vacuum as depth. [any pressure unit]
    travels : sequence of float
        Travel at each pressure. [any length unit]

    Returns
    -------
    SweepFit
        c1, c2 and their standard errors [as pressures], rate [travel per pressure], travel [as travels].

    Notes
    -----
    The stop is believed where at least 2 points lie at it and the Bayesian information criterion prefers the
    model that has one. Standard errors by linearisation at the minimum. Raises CannotFit with fewer than
    2 points before the movement or 3 in it (a break at the end of the data included), and where the
    movement does not stand out of the scatter. For a falling sweep c1 is where the rod comes to rest.

    Examples
    --------
    >>> fit = fit_sweep([0, 20, 40, 60, 80, 100, 120, 140, 160], [0, 0, 0, 0, 2, 4, 6, 7, 7])
    >>> round(fit.first_movement, 6), round(fit.full_travel, 6), round(fit.rate, 6)
    (60.0, 130.0, 0.1)

    References
    ----------
    [HINKLEY]; the last step of the search is that of [MUGGEO]; G. Schwarz, Annals of Statistics 6 (1978)
    461, for the criterion, from memory.
    """
    check_points(pressures, travels, FEWEST_BEFORE + FEWEST_AFTER)
    points = Points.of(pressures, travels)
    plain = best_ramp(points, breaks=1)
    ramp = _with_stop(points, plain) or _checked(plain)
    unknowns = 3 if ramp.stop is None else 4
    s = math.sqrt(ramp.rss / (len(points.p) - unknowns))
    se_rate = s / math.sqrt(ramp.spread)
    _refuse_noise(ramp.slope, se_rate)
    stopped = ramp.stop is not None
    return SweepFit(
        first_movement=ramp.start,
        full_travel=ramp.stop,
        rate=ramp.slope,
        travel=ramp.height if stopped else None,
        se_first_movement=s * ramp.start_leverage(),
        se_full_travel=s * ramp.stop_leverage() if stopped else None,
        se_rate=se_rate,
        se_travel=s * math.sqrt(1.0 / ramp.before + 1.0 / ramp.at_stop) if stopped else None,
        residual_s=s,
        baseline=ramp.baseline,
        freedom=len(points.p) - unknowns,
    )


def _with_stop(points: Points, plain: Ramp) -> Ramp | None:
    """The ramp with a stop, where it is whole and believed rather than the plain one."""
    if len(points.p) < FEWEST_BEFORE + 2 + FEWEST_AT_STOP:
        return None
    ramp = best_ramp(points, breaks=2)
    if ramp.before < FEWEST_BEFORE or ramp.spread == 0.0 or ramp.at_stop < FEWEST_AT_STOP:
        return None
    n = len(points.p)
    believed = (
        ramp.slope > 0.0 and ramp.rss * math.exp(math.log(n) / n) < plain.rss and plain.rss > points.rounding
    )
    return ramp if believed else None


def _checked(ramp: Ramp) -> Ramp:
    if ramp.slope == 0.0:
        raise CannotFit("no movement: the travel does not rise")
    if ramp.before < FEWEST_BEFORE:
        raise CannotFit(f"{ramp.before} of at least {FEWEST_BEFORE} points before the movement")
    if ramp.moving < FEWEST_AFTER:
        raise CannotFit(f"{ramp.moving} of at least {FEWEST_AFTER} points in the movement")
    if ramp.spread == 0.0:
        raise CannotFit(f"all {ramp.moving} points in the movement lie at one pressure")
    return ramp


def _refuse_noise(slope: float, se_slope: float) -> None:
    if slope <= STANDS_OUT * se_slope:
        raise CannotFit(
            f"no movement: the rate {slope:g} is within {STANDS_OUT:g} times its error {se_slope:g}"
        )
