"""The course of each logged road run, as it is drawn: pulls with few points, gauges with their doubt.

The log itself may hold a hundred thousand rows; a chart on paper shows a few hundred of them.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Mapping, Sequence
from typing import Any

import calc

DRAWN = ("boost_request_kpa_abs", "boost_specified_kpa_abs", "boost_actual_kpa_abs", "duty_pct")
BEFORE_PULL_S, AFTER_PULL_S = 1.0, 1.5
LONGEST_S = 30.0
MOST_PULLS = 6
MOST_BLOCKS = 150  # of each line; each block gives its lowest and its highest row
USUAL_PHASE = "before_repair"

Points = list[list[float]]


def courses(job: Mapping[str, Any], read_log: calc.LogReader | None) -> list[dict[str, Any]]:
    """What can be drawn of a job's road runs, in plain values that travel as JSON.

    A list of `{run, phase, air_kpa_abs, ranges, pulls}`. `ranges` holds for each channel how often it was
    read, its least and its greatest value. A pull holds its `number`, its `lines` of [second, value], from
    when to when it is the pull (`shaded`) and may be judged (`judged`), and its `gauges`; seconds count from
    its beginning.
    """
    whole = calc.with_logs(job, read_log) if read_log else dict(job)
    runs = [run for run in (whole.get("tests") or {}).get("road") or [] if run and run.get("id")]
    found = (
        (run, calc.run_shown(whole, run["id"])) for run in runs if run.get("control") in (None, "normal")
    )
    return [_course(run, shown) for run, shown in found if shown]


def _course(run: Mapping[str, Any], shown: Mapping[str, Any]) -> dict[str, Any]:
    channels = shown["channels"]
    pulls = [_pull(pull, channels, shown["gauges"]) for pull in shown["pulls"][:MOST_PULLS]]
    return {
        "run": run["id"],
        "phase": run.get("phase") or USUAL_PHASE,
        "air_kpa_abs": shown["air_kpa_abs"],
        "ranges": {name: _range(values) for name, values in channels.items()},
        "pulls": [pull for pull in pulls if pull["lines"]],
    }


def _range(values: Sequence[float | None]) -> list[float]:
    read = [value for value in values if value is not None]
    return [len(read), min(read), max(read)] if read else [0, 0.0, 0.0]


def _pull(
    pull: Mapping[str, Any], channels: Mapping[str, Any], gauges: Sequence[Mapping[str, Any]]
) -> dict[str, Any]:
    times = channels["t_s"]
    begins, ends = times[pull["start"]], times[pull["end"]]
    last = min(ends, begins + LONGEST_S)
    rows = range(bisect_left(times, begins - BEFORE_PULL_S), bisect_right(times, last + AFTER_PULL_S))
    lines = {name: thinned(times, channels[name], rows, begins) for name in DRAWN if name in channels}
    judged = pull["judged"]
    return {
        "number": pull["number"],
        "shaded": [0.0, last - begins],
        "judged": [times[row] - begins for row in judged] if judged else None,
        "lines": {name: points for name, points in lines.items() if len(points) > 1},
        "gauges": [
            {"at_s": one["t_s"] - begins, "kpa": one["kpa"], "expanded": one["expanded"]}
            for one in gauges
            if one["at"] != "control_line" and begins - BEFORE_PULL_S <= one["t_s"] <= last + AFTER_PULL_S
        ],
    }


def thinned(times: Sequence[float], values: Sequence[float | None], rows: range, begins: float) -> Points:
    """Some rows of a channel, no peak lost: of every block the lowest and the highest, in their order.

    >>> thinned([0, 1, 2], [5, None, 7], range(3), 0)
    [[0, 5], [2, 7]]
    """
    read = [(times[row], value) for row in rows if (value := values[row]) is not None]
    size = max(1, len(read) // MOST_BLOCKS)
    points: Points = []
    for first in range(0, len(read), size):
        block = read[first : first + size]
        ends = {min(block, key=lambda point: point[1]), max(block, key=lambda point: point[1])}
        points.extend([round(when - begins, 3), value] for when, value in sorted(ends))
    return points
