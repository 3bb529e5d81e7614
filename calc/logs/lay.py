"""Channels with times of their own laid on one time base."""

from collections.abc import Sequence

from calc.signals.series import LONGEST_BRIDGE_S

Series = tuple[list[float], list[float]]  # times that rise, values


def lay(series: Series, base: Sequence[float]) -> list[float | None]:
    """Values at the base's times, by straight lines between neighbours at most 2 s apart, else None."""
    times, values = series
    if times == base:
        return list(values)
    found: list[float | None] = []
    right, count = 0, len(times)
    for when in base:
        while right < count and times[right] < when:
            right += 1
        if right < count and times[right] == when:
            found.append(values[right])
        elif 0 < right < count and times[right] - times[right - 1] <= LONGEST_BRIDGE_S:
            share = (when - times[right - 1]) / (times[right] - times[right - 1])
            found.append(values[right - 1] + (values[right] - values[right - 1]) * share)
        else:
            found.append(None)
    return found
