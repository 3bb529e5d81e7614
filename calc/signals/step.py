"""How a channel goes from one level to another: rise, overshoot, settling.

[IEEE181] IEEE Std 181-2011, Transitions, Pulses and Related Waveforms: transition duration between 10 and
90 % reference levels, overshoot as a share of the waveform amplitude, settling; from memory.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from calc.signals.refusal import CannotFit
from calc.signals.regression import check_points


@dataclass(frozen=True, slots=True)
class Step:
    """Transition duration [s], overshoot [% of the amplitude], time until settled [s]; None: not seen."""

    transition: float | None
    overshoot_pct: float
    settling: float | None


def step_metrics(
    times: Sequence[float], values: Sequence[float], low: float, high: float, band_pct: float = 5.0
) -> Step:
    """Transition duration, overshoot and settling of a step from one level to another.

    t(90 %) − t(10 %);  100·(max − high)/(high − low);  last time outside high ± band·(high − low)

    Parameters
    ----------
    times : sequence of float
        Times that rise, from the moment at which the step is asked for. [s]
    values : sequence of float
        The channel. [any]
    low, high : float
        The level it leaves and the level it settles at; it may fall. [as values]
    band_pct : float
        Half the width of the band in which it counts as settled, above 0. [% of the amplitude]

    Returns
    -------
    Step
        Settling is counted from the first of `times`.

    Notes
    -----
    Crossings lie on straight lines between rows. Raises CannotFit for equal levels or fewer than 3 rows.

    Examples
    --------
    >>> found = step_metrics([0.0, 1.0, 2.0, 3.0], [0.0, 11.0, 10.0, 10.0], 0.0, 10.0)
    >>> round(found.transition, 3), round(found.overshoot_pct, 3), round(found.settling, 3)
    (0.727, 10.0, 1.5)

    References
    ----------
    [IEEE181].
    """
    check_points(times, values, 3)
    amplitude = high - low
    if amplitude == 0.0 or not 0.0 < band_pct < 100.0:
        raise CannotFit(f"no step from {low:g} to {high:g} with a band of {band_pct:g} %")
    share = [(value - low) / amplitude for value in values]
    start, end = _crossing(times, share, 0.1), _crossing(times, share, 0.9)
    return Step(
        transition=None if start is None or end is None else end - start,
        overshoot_pct=max(0.0, 100.0 * (max(share) - 1.0)),
        settling=_settling(times, share, band_pct / 100.0),
    )


def _crossing(times: Sequence[float], share: Sequence[float], level: float) -> float | None:
    for row in range(1, len(share)):
        if share[row - 1] < level <= share[row]:
            return _between(times, share, row, level)
    return None


def _settling(times: Sequence[float], share: Sequence[float], band: float) -> float | None:
    outside = [row for row, value in enumerate(share) if abs(value - 1.0) > band]
    if not outside:
        return 0.0
    last = outside[-1]
    if last + 1 == len(share):
        return None
    edge = 1.0 + band if share[last] > 1.0 else 1.0 - band
    return _between(times, share, last + 1, edge) - times[0]


def _between(times: Sequence[float], share: Sequence[float], row: int, level: float) -> float:
    part = (level - share[row - 1]) / (share[row] - share[row - 1])
    return times[row - 1] + part * (times[row] - times[row - 1])
