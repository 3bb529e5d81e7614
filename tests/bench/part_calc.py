"""The calculation: a whole job judged, and an hour's log beside the same checks written plainly."""

import json
from collections.abc import Iterator

import calc
from fixtures.simulator import simulate
from tests.bench import plain, road
from tests.bench.rows import at_most, in_turn
from tests.full.registry import Row

TIMES, FEW_TIMES = 11, 1
JUDGED_WITHIN_MS = 50


def full_job() -> bytes:
    """A simulated car with every test of its kind, its runs logged."""
    document, _ = simulate(11, fault="actuator_opens_late", depth="full", kind="pressure", gauges="fine")
    return json.dumps(document).encode()


def rows(small: bool) -> Iterator[Row]:
    """The parts' rows; small: one round, a short log."""
    times = FEW_TIMES if small else TIMES
    job = full_job()
    (full,) = in_turn(times, lambda: calc.judge_text(job))
    yield at_most("a car with every test and 2 logged runs judged", full * 1000, JUDGED_WITHIN_MS, "ms")
    data = road.log(road.FEW_ROWS if small else road.ROWS)
    document, frame = road.job(calc.read_log(data)["channels"]), plain.read(data)
    ours, plainly = in_turn(times, lambda: calc.judge(document), lambda: plain.judge(frame, document))
    yield Row(
        "all checks, faults and sentences on an hour's log, beside 8 checks in pandas, numpy, scipy",
        f"{ours / plainly:.1f} times ({ours * 1000:,.0f} ms beside {plainly * 1000:,.0f} ms)",
        "no bar: stated",
        holds=True,
    )
