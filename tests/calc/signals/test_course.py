"""Pulls, settled stretches, steps and swings: against scipy, numpy and what can be worked out by hand."""

import math
import random

import numpy as np
import pytest
from scipy import interpolate, signal

from calc.signals.lag import lag_of_readings
from calc.signals.oscillation import oscillation, turning_points
from calc.signals.pulls import find_pulls, highest_pedal_held
from calc.signals.refusal import CannotFit
from calc.signals.series import bridged, resolution_of, slopes, swing, value_at
from calc.signals.settled import blocks, drop_to_plateau, settle, unbroken
from calc.signals.step import step_metrics
from tests.calc.drives import Drive, drive

# Second-order step answers with ωn = 1: overshoot %, rise 10 to 90 %, settling to 2 and 5 % of the step, by
# damping; reference values worked out with scipy, definitions of IEEE Std 181 and Ogata 5-3, from memory.
SECOND_ORDER = [
    (0.3, 37.2326, 1.3213, 11.2300, 10.1370),
    (0.5, 16.3034, 1.6376, 8.0763, 5.2890),
    (0.7, 4.5988, 2.1262, 5.9787, 2.8998),
    (0.8, 1.5165, 2.4675, 3.7558, 3.3853),
]


@pytest.mark.parametrize(("damping", "overshoot", "rise", "two", "five"), SECOND_ORDER)
def test_a_second_order_step(damping: float, overshoot: float, rise: float, two: float, five: float) -> None:
    times = np.linspace(0.0, 40.0, 40_001)
    _, answer = signal.step(signal.TransferFunction([1.0], [1.0, 2.0 * damping, 1.0]), T=times)
    found = step_metrics(list(times), list(answer), 0.0, 1.0, band_pct=2.0)
    assert found.overshoot_pct == pytest.approx(overshoot, abs=2e-3)
    assert found.transition == pytest.approx(rise, abs=1e-3)
    assert found.settling == pytest.approx(two, abs=1e-3)
    assert step_metrics(list(times), list(answer), 0.0, 1.0).settling == pytest.approx(five, abs=1e-3)


def test_a_falling_step_is_measured_alike() -> None:
    times = [0.1 * row for row in range(100)]
    rising = [1.0 - math.exp(-when) for when in times]
    falling = [3.0 - 2.0 * value for value in rising]
    up, down = step_metrics(times, rising, 0.0, 1.0), step_metrics(times, falling, 3.0, 1.0)
    assert up.transition == pytest.approx(down.transition)
    assert up.transition == pytest.approx(math.log(9.0), abs=2e-3)  # first order: ln 9 · τ
    assert up.settling == pytest.approx(math.log(20.0), abs=2e-3)


def test_a_step_that_never_settles() -> None:
    assert step_metrics([0.0, 1.0, 2.0], [0.0, 1.0, 5.0], 0.0, 1.0).settling is None
    with pytest.raises(CannotFit, match="no step"):
        step_metrics([0.0, 1.0, 2.0], [0.0, 1.0, 5.0], 1.0, 1.0)


@pytest.mark.parametrize("frequency", [0.5, 1.0, 2.0])
@pytest.mark.parametrize("trend", [0.0, 4.0])
def test_a_sine_by_its_spectrum(frequency: float, trend: float) -> None:
    """Size against the sine put in, frequency against the greatest line of scipy's periodogram."""
    times = np.arange(0.0, 8.0, 0.1)
    values = 210.0 + trend * times + 9.0 * np.sin(2.0 * np.pi * frequency * times + 0.3)
    found = oscillation(list(times), list(values))
    lines, power = signal.periodogram(values, fs=10.0, detrend="linear")
    assert found.frequency == pytest.approx(lines[np.argmax(power)], abs=0.13)
    assert found.size == pytest.approx(18.0, rel=0.05)


def test_turns_are_scipys_peaks() -> None:
    dice = np.random.default_rng(7)
    values = 20.0 * np.sin(np.arange(300) / 9.0) + dice.normal(0.0, 0.3, 300)
    turns = turning_points(list(values), 5.0)[1:-1]
    tops, _ = signal.find_peaks(values, prominence=5.0)
    dips, _ = signal.find_peaks(-values, prominence=5.0)
    assert turns == sorted([*tops, *dips])


def test_an_overshoot_is_no_oscillation() -> None:
    times = [0.1 * row for row in range(60)]
    once = [220.0 + 15.0 * math.exp(-when) * math.cos(1.5 * when) for when in times]
    assert oscillation(times, once).size == 0.0


@pytest.mark.parametrize(
    ("interval", "count", "because"), [(0.8, 20, "too slow"), (0.1, 12, "too short"), (0.25, 40, "too quick")]
)
def test_what_a_log_cannot_show_is_said(interval: float, count: int, because: str) -> None:
    times = [interval * row for row in range(count)]
    values = [10.0 * (row % 2) for row in range(count)]
    with pytest.raises(CannotFit, match=because):
        oscillation(times, values)


def test_bridging_is_numpys_interpolation() -> None:
    dice = random.Random(3)
    times = [0.2 * row + dice.uniform(0.0, 0.1) for row in range(200)]
    values = [None if dice.random() < 0.3 else dice.uniform(90.0, 250.0) for _ in times]
    known = [(t, v) for t, v in zip(times, values, strict=True) if v is not None]
    through = interpolate.interp1d(*zip(*known, strict=True), bounds_error=False)
    filled = bridged(times, values)
    for when, value in zip(times, filled, strict=True):
        expected = float(through(when))
        assert (value is None) == math.isnan(expected)
        assert value is None or value == pytest.approx(expected)
    asked = 0.5 * (times[20] + times[21])
    assert value_at(times, filled, asked) == pytest.approx(float(through(asked)))


def test_slopes_of_a_line_and_of_a_parabola() -> None:
    times = np.arange(0.0, 5.0, 0.1)
    assert slopes(list(times), list(7.0 * times))[10:40] == pytest.approx([7.0] * 30)
    assert slopes(list(times), list(times**2))[10:40] == pytest.approx(np.gradient(times**2, times)[10:40])


def test_a_swing_needs_both_sides() -> None:
    times = [0.1 * row for row in range(20)]
    values = [float(row % 4) for row in range(20)]
    assert swing(times, values, 1.0, 0.5) == 3.0
    assert swing(times, values, 0.1, 1.0) is None


def test_resolution_is_the_smallest_step() -> None:
    assert resolution_of([round(v / 2.5) * 2.5 for v in (101.0, 117.2, 120.1, 199.9)]) == 2.5
    assert resolution_of([5.0, 5.0]) == 0.0


def test_pulls_by_the_pedal() -> None:
    channels = drive(Drive(pulls=3))
    pulls = find_pulls(channels)
    assert [pull.number for pull in pulls] == [1, 2, 3]
    assert all(channels["pedal_pct"][row] == 100.0 for pull in pulls for row in (pull.start, pull.end - 1))
    assert all(channels["pedal_pct"][pull.end % len(channels["t_s"])] == 0.0 for pull in pulls)


def test_pulls_without_a_pedal_lie_in_those_with_one() -> None:
    channels = drive(Drive(pulls=3))
    by_pedal = find_pulls(channels)
    by_speed = find_pulls({name: values for name, values in channels.items() if name != "pedal_pct"})
    assert [pull.by for pull in by_speed] == ["speed"] * 3
    for wide, narrow in zip(by_pedal, by_speed, strict=True):
        assert wide.start <= narrow.start < narrow.end <= wide.end + 2
        assert narrow.end - narrow.start > 0.6 * (wide.end - wide.start)


@pytest.mark.parametrize("name", ["engine_rpm", "vehicle_kmh"])
def test_a_pedal_tried_at_rest_is_no_pull(name: str) -> None:
    channels = drive(Drive(pulls=1))
    channels[name] = [0.0 for _ in channels["t_s"]]
    assert find_pulls(channels) == []


def test_a_pedal_log_with_holes_is_one_pull() -> None:
    channels = drive(Drive(pulls=1))
    channels["pedal_pct"] = [said if row % 4 == 0 else None for row, said in enumerate(channels["pedal_pct"])]
    assert len(find_pulls(channels)) == 1


def test_a_gap_of_three_seconds_parts_a_pull() -> None:
    channels = drive(Drive(pulls=1))
    middle = channels["t_s"][57]
    assert middle is not None
    keep = [
        row for row, when in enumerate(channels["t_s"]) if when is not None and not 0.0 <= when - middle < 3.0
    ]
    assert len(find_pulls({name: [values[row] for row in keep] for name, values in channels.items()})) == 2


def test_a_pedal_that_never_says_full() -> None:
    channels = drive(Drive(pedal=72.0))
    assert find_pulls(channels) == []
    held = highest_pedal_held(channels)
    assert held is not None
    assert held[0] == 72.0


def test_a_steady_half_load_stretch_is_no_pull() -> None:
    times = [0.1 * row for row in range(100)]
    steady = {"t_s": times, "pedal_pct": [50.0] * 100, "engine_rpm": [2500.0] * 100}
    assert highest_pedal_held(steady) is None


def pull(
    seconds: float, boost: float, rpm: float, start: float = 100.0
) -> tuple[list[float], list[float], list[float]]:
    """Boost that rises at once by 60 kPa/s to a level, and the engine at one speed."""
    times = [0.1 * row for row in range(round(10 * seconds))]
    return times, [min(boost, start + 60.0 * when) for when in times], [rpm] * len(times)


def test_settled_begins_six_tenths_after_arrival() -> None:
    times, boost, rpm = pull(6.0, 220.0, 3000.0)
    found = settle(times, [220.0] * 60, boost, rpm)
    arrival = next(when for when, said in zip(times, boost, strict=True) if said >= 211.0)
    assert times[found.settled[0]] >= arrival + 0.6 - 1e-9
    assert found.overdue == [row for row, when in enumerate(times) if when >= 2.0] if arrival > 9.0 else True
    assert found.settled[-1] == 59


@pytest.mark.parametrize(("rpm", "overdue"), [(3000.0, True), (2200.0, False)])
def test_what_never_comes_is_overdue_above_2300(rpm: float, overdue: bool) -> None:
    times, boost, speed = pull(6.0, 180.0, rpm)
    found = settle(times, [220.0] * 60, boost, speed)
    assert found.settled == []
    assert bool(found.overdue) == overdue
    if overdue:
        assert times[found.overdue[0]] == pytest.approx(2.0)


def test_a_steep_stretch_is_not_settled() -> None:
    times = [0.1 * row for row in range(60)]
    boost = [220.0 - max(0.0, when - 3.0) * 40.0 for when in times]
    found = settle(times, [220.0] * 60, boost, [3000.0] * 60)
    assert all(times[row] < 3.3 for row in found.settled)
    assert len(found.arrived) > len(found.settled)


def test_a_low_aim_is_left_out() -> None:
    times = [0.1 * row for row in range(60)]
    aim = [200.0 if when < 3.0 else 220.0 for when in times]
    assert min(settle(times, aim, aim, [3000.0] * 60).settled) >= 30


@pytest.mark.parametrize(
    ("name", "aim", "cut"),
    [
        ("a cut", [220.0] * 30 + [140.0] * 20, 29),
        ("a slow taper", [220.0 - 1.5 * row for row in range(50)], None),
        ("a dip for a gear change", [220.0] * 20 + [130.0] * 5 + [220.0] * 25, None),
        ("a cut in the last tenth of a second", [220.0] * 49 + [140.0], None),
        ("no change", [220.0] * 50, None),
    ],
)
def test_the_aim_that_drops(name: str, aim: list[float], cut: int | None) -> None:
    assert drop_to_plateau([0.1 * row for row in range(50)], aim) == cut, name


def test_blocks_hold_every_row_once() -> None:
    dice = random.Random(5)
    times = [0.1 * row for row in range(400)]
    rows = sorted(dice.sample(range(400), 250))
    parts = blocks(times, rows)
    assert [row for part in parts for row in part] == rows
    assert [row for part in unbroken(times, rows) for row in part] == rows
    assert max(times[part[-1]] - times[part[0]] for part in parts) <= 2.3


def test_a_lag_is_found_and_its_absence_too() -> None:
    assert lag_of_readings(lambda lag: 40.0 * (lag + 1.27) ** 2) == pytest.approx(-1.27, abs=1e-6)
    with pytest.raises(CannotFit, match="do not tell"):
        lag_of_readings(lambda lag: 0.1 * (lag - 1.0) ** 2)
    with pytest.raises(CannotFit, match="more than"):
        lag_of_readings(lambda lag: 10.0 * (lag - 50.0) ** 2)
