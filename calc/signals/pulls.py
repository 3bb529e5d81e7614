"""Full-load pulls in a log: by the pedal, else by rising speed with the aim near its peak."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from statistics import median

from calc.signals.series import LONGEST_BRIDGE_S, Values, bridged, slopes

FULL_PEDAL_PCT = 95.0
DIP_S = 0.5  # a shorter dip of the pedal signal does not end a pull; common practice, no source
SHORTEST_PULL_S = 2.0
TURNING_RPM, ROLLING_KMH = 1000.0, 5.0  # below: the pedal tried at rest; common practice, no source
NEAR_RUN_PEAK = 0.95
RISING_RPM_S = 40.0
HELD_PCT = 1.0  # a pedal held on its stop moves less than this
SWEPT_RPM = 800.0  # a pull sweeps more speed than this; common practice, no source
LEAST_PEDAL_PCT = 30.0


@dataclass(frozen=True, slots=True)
class Pull:
    """One pull: its number as a technician counts, its first row, the row past its last, how it was found."""

    number: int
    start: int
    end: int
    by: str

    @property
    def rows(self) -> slice:
        """The pull's rows of any channel."""
        return slice(self.start, self.end)


def find_pulls(channels: Mapping[str, Values]) -> list[Pull]:
    """The full-load pulls of a log, in order.

    pedal ≥ 95 %; without a pedal: speed rises while specified is near the run's peak

    Parameters
    ----------
    channels : mapping of str to sequence
        Channels by their name in a job document, of equal length; `t_s` without gaps. [contract's units]

    Returns
    -------
    list of Pull
        Stretches of 2 s and more with the engine turning and, where speed is logged, the car rolling.

    Examples
    --------
    >>> t = [0.5 * row for row in range(12)]
    >>> pedal = [20.0, 20.0, *[100.0] * 8, 0.0, 0.0]
    >>> find_pulls({"t_s": t, "pedal_pct": pedal})
    [Pull(number=1, start=2, end=10, by='pedal')]

    References
    ----------
    The contract's words of the road checks.
    """
    times = _times(channels)
    pedal = channels.get("pedal_pct")
    if pedal is not None and any(value is not None for value in pedal):
        rows = [row for row, value in enumerate(pedal) if value is not None and value >= FULL_PEDAL_PCT]
        return _numbered(_stretches(rows, times, _passes_gap(times, pedal)), channels, "pedal")
    return _numbered(_stretches(_rows_rising(channels, times), times), channels, "speed")


def highest_pedal_held(channels: Mapping[str, Values]) -> tuple[float, Pull] | None:
    """The pedal's highest value where a driver held it through a pull, for a pedal that never says 95.

    pedal within 1 % of its highest for 2 s and more while engine speed rises by 800 rev/min

    Parameters
    ----------
    channels : mapping of str to sequence
        Channels by their name in a job document. [contract's units]

    Returns
    -------
    tuple of float and Pull, or None
        The value held [%] and where; None where nothing looks like a pull.

    Examples
    --------
    >>> t = [0.5 * row for row in range(12)]
    >>> rpm = [1500.0 + 250.0 * row for row in range(12)]
    >>> held = highest_pedal_held({"t_s": t, "pedal_pct": [70.0] * 12, "engine_rpm": rpm})
    >>> held[0]
    70.0

    References
    ----------
    A rule of this house: a foot on the stop holds still, a foot in traffic does not.
    """
    times, pedal, rpm = _times(channels), channels.get("pedal_pct"), channels.get("engine_rpm")
    known = [value for value in pedal or () if value is not None]
    if pedal is None or rpm is None or not known or max(known) < LEAST_PEDAL_PCT:
        return None
    rows = [row for row, value in enumerate(pedal) if value is not None and value >= max(known) - HELD_PCT]
    pulls = _numbered(_stretches(rows, times, _passes_gap(times, pedal)), channels, "pedal")
    swept = next((pull for pull in pulls if _swept(rpm[pull.rows]) >= SWEPT_RPM), None)
    return None if swept is None else (max(known), swept)


def _times(channels: Mapping[str, Values]) -> list[float]:
    return [when for when in channels.get("t_s") or () if when is not None]


def _stretches(
    rows: Sequence[int], times: Sequence[float], passes: Callable[[int, int], bool] | None = None
) -> list[tuple[int, int]]:
    """Rows joined to stretches: neighbours at most 2 s apart, other gaps where `passes` allows."""
    found: list[tuple[int, int]] = []
    for row in rows:
        last = found[-1][1] - 1 if found else None
        joins = last is not None and times[row] - times[last] <= LONGEST_BRIDGE_S
        if joins and last is not None and row > last + 1:
            joins = times[row] - times[last] <= DIP_S or (passes is not None and passes(last, row))
        if joins:
            found[-1] = (found[-1][0], row + 1)
        else:
            found.append((row, row + 1))
    return found


def _passes_gap(times: Sequence[float], values: Values) -> Callable[[int, int], bool]:
    """Whether nothing at all was read between two rows."""
    return lambda left, right: all(value is None for value in values[left + 1 : right])


def _numbered(stretches: list[tuple[int, int]], channels: Mapping[str, Values], by: str) -> list[Pull]:
    times = _times(channels)
    kept = [
        (start, end)
        for start, end in stretches
        if times[end - 1] - times[start] >= SHORTEST_PULL_S and _under_way(channels, start, end)
    ]
    return [Pull(number, start, end, by) for number, (start, end) in enumerate(kept, start=1)]


def _under_way(channels: Mapping[str, Values], start: int, end: int) -> bool:
    for name, least in (("engine_rpm", TURNING_RPM), ("vehicle_kmh", ROLLING_KMH)):
        known = [value for value in (channels.get(name) or ())[start:end] if value is not None]
        if known and median(known) < least:
            return False
    return True


def _rows_rising(channels: Mapping[str, Values], times: Sequence[float]) -> list[int]:
    specified, speed = channels.get("boost_specified_kpa_abs"), channels.get("engine_rpm")
    least = RISING_RPM_S
    if speed is None:
        speed, least = channels.get("vehicle_kmh"), 1.0
    known = [value for value in specified or () if value is not None]
    if specified is None or speed is None or not known:
        return []
    near = NEAR_RUN_PEAK * max(known)
    rising = slopes(times, bridged(times, speed))
    aimed = bridged(times, specified)
    return [
        row
        for row, (aim, rise) in enumerate(zip(aimed, rising, strict=True))
        if aim is not None and rise is not None and aim >= near and rise >= least
    ]


def _swept(speeds: Values) -> float:
    known = [speed for speed in speeds if speed is not None]
    return max(known) - min(known) if known else 0.0
