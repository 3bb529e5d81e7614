"""A pull's course by IEEE 181 and part load, against the response that made the log.

Second order: overshoot 16.3034 % and rise 1.6376/ω at ζ = 0.5 (Ogata, section 5-3; reference table).
"""

from math import acos, cos, exp, pi, sin, sqrt
from typing import Any

import pytest

import calc
from calc.checks.evidence import Evidence
from calc.checks.pull_course import courses, part_loads
from tests.calc.checks.bench import job

ZETA, OMEGA = 0.5, 2.5


def response(t: float) -> float:
    """Unit step of a second-order system."""
    if t <= 0.0:
        return 0.0
    damped = OMEGA * sqrt(1.0 - ZETA**2)
    return 1.0 - exp(-ZETA * OMEGA * t) / sqrt(1.0 - ZETA**2) * sin(damped * t + acos(ZETA))


def run(
    step_s: float = 0.1, *, correction: float = 0.0, pedal: float = 100.0, high: float = 0.0
) -> dict[str, Any]:
    """Two seconds of cruising, then ten at a pedal position."""
    times = [round(step_s * row, 3) for row in range(int(12 / step_s))]
    on = [when >= 2.0 for when in times]
    return {
        "id": "r1",
        "channels": {
            "t_s": times,
            "pedal_pct": [pedal if now else 10.0 for now in on],
            "engine_rpm": [2600.0 + 150.0 * max(0.0, when - 2.0) for when in times],
            "boost_specified_kpa_abs": [200.0 if now else 102.0 for now in on],
            "boost_actual_kpa_abs": [100.0 + (100.0 + high) * response(when - 2.0) for when in times],
            "boost_correction_kpa": [correction if when >= 7.0 else 0.0 for when in times],
        },
    }


def seen(one: dict[str, Any], **more: Any) -> Evidence:
    return Evidence(job({"road": [one]}, site={"barometric_kpa_abs": 100.0}, **more))


def test_rise_and_overshoot_are_those_of_the_response() -> None:
    (course,) = courses(seen(run(0.02)))
    assert course.step is not None
    assert course.step.transition == pytest.approx(1.6376 / OMEGA, rel=0.02)
    assert course.step.overshoot_pct == pytest.approx(16.3034, abs=0.5)
    assert course.step.settling == pytest.approx(5.2890 / OMEGA, abs=0.1)


def test_the_largest_deviation_carries_the_sensor_s_doubt() -> None:
    (course,) = courses(seen(run(high=5.0)))
    assert course.mean is not None
    assert course.largest is not None
    assert course.mean[0] == pytest.approx(5.0, abs=1.0)
    assert course.largest[0] == pytest.approx(21.0, abs=4.0), "what is left of the overshoot once it counts"
    assert course.largest[1] == pytest.approx(1.5, abs=0.1)


def test_the_share_of_time_with_a_correction() -> None:
    """Of the settled part, about 3 to 12 s, the correction stands in the last five seconds."""
    (none,) = courses(seen(run()))
    (some,) = courses(seen(run(correction=6.0)))
    (all_within_its_doubt,) = courses(seen(run(correction=0.9)))
    assert (none.corrected_pct, all_within_its_doubt.corrected_pct) == (0.0, 0.0)
    assert some.corrected_pct == pytest.approx(100.0 * 5.0 / 8.5, abs=6.0)


def test_rows_too_far_apart_show_no_rise() -> None:
    (course,) = courses(seen(run(0.5)))
    assert course.step is None


@pytest.mark.parametrize(
    ("high", "base", "told"),
    [
        (0.0, None, "within"),
        (25.0, None, "outside"),
        (25.0, {"max": 120}, "cannot_act"),
        (25.0, {"max": 80}, "outside"),
        (-25.0, {"max": 120}, "outside"),
    ],
)
def test_part_load_is_judged_where_the_device_can_act(high: float, base: Any, told: str) -> None:
    """Aimed at 100 kPa gauge: below a base boost of 120 the gate cannot bring boost down, of 80 it can."""
    parts = part_loads(seen(run(pedal=55.0, high=high), spec={"base_boost_kpa": base} if base else {}))
    last = parts[-1]
    assert (last.outcome, last.pedal_pct) == (told, 55.0)
    assert last.error == pytest.approx(high, abs=1.0)


def test_full_load_and_moving_pedals_are_no_part_load() -> None:
    moving = run(pedal=55.0)
    moving["channels"]["pedal_pct"] = [30.0 + 40.0 * abs(cos(pi * row / 15)) for row in range(120)]
    assert part_loads(seen(run())) == []
    assert part_loads(seen(moving)) == []


def test_both_are_told_in_the_verdict() -> None:
    verdict = calc.judge({"format": "job/1", "id": "j", "tests": {"road": [run()]}})
    (pull,) = verdict["pulls"]
    assert (pull["run"], pull["pull"]) == ("r1", 1)
    assert "overshoot 16 %" in pull["says"]
    assert verdict["part_load"] == []
