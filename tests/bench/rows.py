"""Medians, and the row of the table that says whether one holds its bar."""

import statistics
import time
from collections.abc import Callable, Sequence

from tests.full.registry import Row

MEGA = 1_000_000


def seconds(work: Callable[[], object], clock: Callable[[], float] = time.perf_counter) -> float:
    """What one run takes."""
    began = clock()
    work()
    return clock() - began


def in_turn(times: int, *works: Callable[[], object]) -> list[float]:
    """Medians of several pieces of work, done one after the other, so that they share the machine's moods.

    In seconds of this process's own, which others on the same machine do not lengthen.
    """
    for work in works:
        work()
    rounds = [[seconds(work, time.process_time) for work in works] for _ in range(times)]
    return [statistics.median(column) for column in zip(*rounds, strict=True)]


def at_most(what: str, value: float, bar: float, unit: str, *, digits: int = 0, more: str = "") -> Row:
    """A row whose figure must not be above its bar; `more` is printed behind it."""
    measured = f"{value:,.{digits}f} {unit}{f' ({more})' if more else ''}"
    return Row(what, measured, f"at most {bar:g} {unit}", holds=value <= bar)


def ratio(what: str, ours: float, other: float, bar: float) -> Row:
    """A row for how many times longer ours takes than the other."""
    return Row(
        what,
        f"{ours / other:.2f} times ({ours * 1000:,.0f} ms beside {other * 1000:,.0f} ms)",
        f"at most {bar:g} times",
        holds=ours <= bar * other,
    )


def spread(values: Sequence[float]) -> str:
    """Lowest and highest, for a median that is printed before them."""
    return f"{min(values):,.0f} to {max(values):,.0f} in {len(values)}"
