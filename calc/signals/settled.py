"""Where boost in a pull may be judged: settled, or overdue; and the drop of the aim that ends judging."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from calc.signals.series import Values, slopes

NEAR_PEAK_SHARE = 0.03  # these five stand in the contract's words of the road checks
ARRIVED_KPA = 9.0
AFTER_ARRIVAL_S = 0.6
STEEPEST_KPA_S = 25.0
OVERDUE_RPM, OVERDUE_S = 2300.0, 2.0
DROP_SHARE, DROP_WITHIN_S, PLATEAU_S, PLATEAU_SHARE = 0.10, 1.5, 1.0, 0.04  # common practice, no source
LEFT_S = 0.25  # a plateau that the pull's end cuts off shows at least for so long
BLOCK_S, APART_S = 1.5, 0.6


@dataclass(frozen=True, slots=True)
class Settling:
    """Rows of one pull, counted from its first.

    settled : may be judged. arrived : boost came once within reach and 0.6 s have passed, any slope.
    overdue : above 2 300 rev/min for 2 s and still not there. cut : where the aim dropped, or None.
    """

    settled: list[int]
    arrived: list[int]
    overdue: list[int]
    cut: int | None

    @property
    def judged(self) -> list[int]:
        """Settled and overdue rows in order."""
        return sorted({*self.settled, *self.overdue})


def settle(times: Sequence[float], specified: Values, boost: Values, rpm: Values) -> Settling:
    """What of one full-load pull may be judged.

    specified ≥ 97 % of its peak; boost ≥ specified − 9 kPa once, 0.6 s on, |slope| ≤ 25 kPa/s

    Parameters
    ----------
    times : sequence of float
        Times of the pull's rows. [s]
    specified, boost : sequence of float or None
        What is aimed at and what the sensor says, absolute, gaps bridged; all None where not logged. [kPa]
    rpm : sequence of float or None
        Engine speed. [rev/min]

    Returns
    -------
    Settling
        Row numbers from the pull's first row.

    Notes
    -----
    A boost that jumps across the band between two rows has been within it. Without a boost channel 2 s of
    full load near the peak stand for arrival; without specified, the pull's first 2 s.

    Examples
    --------
    >>> t = [0.5 * row for row in range(9)]
    >>> boost = [120.0, 160.0, 195.0, 199.0, 200.0, 200.0, 200.0, 200.0, 200.0]
    >>> settle(t, [200.0] * 9, boost, [3000.0] * 9).settled
    [4, 5, 6, 7, 8]

    References
    ----------
    The contract's words of the road checks.
    """
    cut = drop_to_plateau(times, specified)
    near = _near_peak(specified, cut)
    steep = slopes(times, boost)
    arrival, above = math.inf, math.inf
    settled: list[int] = []
    arrived: list[int] = []
    overdue: list[int] = []
    for row in near:
        when = times[row]
        above = min(above, when) if _spooled(rpm[row]) else math.inf
        if arrival == math.inf and _is_there(boost[row], specified[row], when - times[near[0]]):
            arrival = when
        if when - arrival >= AFTER_ARRIVAL_S - 1e-9:
            arrived.append(row)
            if (slope := steep[row]) is None or abs(slope) <= STEEPEST_KPA_S:
                settled.append(row)
        elif arrival == math.inf and when - above >= OVERDUE_S - 1e-9:
            overdue.append(row)
    return Settling(settled, arrived, overdue, cut)


def drop_to_plateau(times: Sequence[float], specified: Values) -> int | None:
    """The row at which the aim falls at full pedal and stays down: reduced power, or a cut.

    falls by more than 10 % of its peak within 1.5 s, then stays level within 4 % for 1 s or to the end

    Parameters
    ----------
    times : sequence of float
        Times of the pull's rows. [s]
    specified : sequence of float or None
        What is aimed at, absolute. [kPa]

    Returns
    -------
    int or None
        Last row before the fall, None where there is none. A short dip for a gear change is none, nor is
        an aim that falls slowly towards the top.

    Examples
    --------
    >>> t = [0.5 * row for row in range(10)]
    >>> drop_to_plateau(t, [220.0] * 4 + [150.0] * 6)
    3

    References
    ----------
    A rule of this house; common practice, no source.
    """
    rows = [row for row, aim in enumerate(specified) if aim is not None]
    aims = [aim for aim in specified if aim is not None]
    when = [times[row] for row in rows]
    highest, top = -math.inf, 0
    for place, aim in enumerate(aims):
        highest = max(highest, aim)
        if aim >= (1.0 - NEAR_PEAK_SHARE) * highest:
            top = place
        elif (
            aim < (1.0 - DROP_SHARE) * highest
            and when[place] - when[top] <= DROP_WITHIN_S
            and _stays_down(when, aims, place, highest)
        ):
            return rows[top]
    return None


def blocks(times: Sequence[float], rows: Sequence[int]) -> list[list[int]]:
    """Rows in blocks of about 1.5 s, cut where they do not hang together.

    n = max(1, round(duration / 1.5 s)) equal parts of each unbroken stretch

    Parameters
    ----------
    times : sequence of float
        Times of the pull's rows. [s]
    rows : sequence of int
        Rows in order. [-]

    Returns
    -------
    list of list of int
        The rows of each block.

    Examples
    --------
    >>> blocks([0.5 * row for row in range(8)], [0, 1, 2, 3, 4, 5, 6, 7])
    [[0, 1, 2, 3], [4, 5, 6, 7]]

    References
    ----------
    A rule of this house.
    """
    return [part for stretch in unbroken(times, rows) for part in _parts(times, stretch)]


def unbroken(times: Sequence[float], rows: Sequence[int]) -> list[list[int]]:
    """Rows in stretches without a hole: neighbouring rows, or at most 0.6 s apart.

    t_(i+1) − t_i ≤ 0.6 s or the next row

    Parameters
    ----------
    times : sequence of float
        Times of the pull's rows. [s]
    rows : sequence of int
        Rows in order. [-]

    Returns
    -------
    list of list of int
        The rows of each stretch.

    Examples
    --------
    >>> unbroken([0.0, 0.1, 0.2, 5.0, 5.1, 9.0, 9.1], [0, 1, 5, 6])
    [[0, 1], [5, 6]]

    References
    ----------
    A rule of this house.
    """
    found: list[list[int]] = [[rows[0]]] if rows else []
    for left, right in pairwise(rows):
        if right == left + 1 or times[right] - times[left] <= APART_S:
            found[-1].append(right)
        else:
            found.append([right])
    return found


def _parts(times: Sequence[float], stretch: list[int]) -> list[list[int]]:
    count = max(1, min(len(stretch), round((times[stretch[-1]] - times[stretch[0]]) / BLOCK_S)))
    ends = [round(len(stretch) * part / count) for part in range(count + 1)]
    return [stretch[a:b] for a, b in pairwise(ends)]


def _near_peak(specified: Values, cut: int | None) -> list[int]:
    rows = range(len(specified) if cut is None else cut + 1)
    known = [aim for row in rows if (aim := specified[row]) is not None]
    if not known:
        return list(range(len(specified)))
    least = (1.0 - NEAR_PEAK_SHARE) * max(known)
    return [row for row in rows if (aim := specified[row]) is not None and aim >= least]


def _spooled(rpm: float | None) -> bool:
    return rpm is None or rpm > OVERDUE_RPM


def _is_there(boost: float | None, aim: float | None, waited: float) -> bool:
    if boost is None or aim is None:
        return waited >= OVERDUE_S
    return boost >= aim - ARRIVED_KPA


def _stays_down(when: Sequence[float], aims: Sequence[float], first: int, highest: float) -> bool:
    """Level for 1 s from a row on, or for what is left of the pull."""
    for place in range(first, len(aims)):
        aim = aims[place]
        if abs(aim - aims[first]) > PLATEAU_SHARE * highest or aim > (1.0 - DROP_SHARE) * highest:
            return False
        if when[place] - when[first] >= PLATEAU_S - 1e-9:
            return True
    return when[-1] - when[first] >= LEFT_S
