"""Road checks from logs and gauges: what was put into a drive comes out, within its doubt."""

import math
from dataclasses import replace
from typing import Any

import pytest
from scipy import optimize

from calc.checks import examine
from calc.checks.evidence import Evidence
from calc.checks.finding import Finding
from tests.calc.drives import AIR_KPA, Channels, Drive, drive

DIAL = {"id": "g1", "kind": "analogue", "span_kpa": [0, 250], "class_pct": 0.6, "division_kpa": 2}
SPEC = {"boost_specified_peak_kpa_abs": {"min": 215, "max": 235}}


def road(*runs: dict[str, Any], **more: Any) -> dict[str, Finding]:
    """The findings of a job with these runs."""
    job = {
        "format": "job/1",
        "id": "x",
        "vehicle": {"displacement_l": 1.8},
        "boost_control": {"actuator": "pressure", "arrangement": "bleed", "more_duty": "raises_boost"},
        "spec": SPEC,
        "site": {"barometric_kpa_abs": AIR_KPA},
        "gauges": [DIAL],
        "tests": {"road": list(runs)},
    }
    return examine(Evidence({**job, **more}))


def run(what: Drive, **more: Any) -> dict[str, Any]:
    return {"id": "r1", "channels": drive(what), **more}


def at(channels: Channels, pull: int, rpm: float) -> int:
    """The row at which a pull passes an engine speed."""
    starts = [
        row
        for row in range(1, len(channels["t_s"]))
        if (channels["pedal_pct"][row] or 0.0) > 90.0 >= (channels["pedal_pct"][row - 1] or 0.0)
    ]
    return next(
        row
        for row in range(starts[pull - 1], len(channels["t_s"]))
        if (channels["engine_rpm"][row] or 0) >= rpm
    )


def gauge(
    channels: Channels, number: int, speed: float, *, sensor_error: float = 0.0, **more: Any
) -> dict[str, Any]:
    """A reading of the real boost there."""
    row = at(channels, number, speed)
    said = channels["boost_actual_kpa_abs"][row] or 0.0
    return {"gauge": "g1", "at": "charge_circuit", "p_kpa": round(said - sensor_error - AIR_KPA), **more}


def inside(found: Finding, truth: float) -> bool:
    return found.value is not None and abs(found.value - truth) <= (found.expanded_uncertainty or 0.0)


@pytest.mark.parametrize("seed", range(12))
def test_a_sound_car_is_outside_nowhere(seed: int) -> None:
    what = Drive(
        seed=seed,
        noise=0.3 + 0.1 * (seed % 8),
        lag=0.35 + 0.05 * (seed % 6),
        rows_a_second=(2.0, 5.0, 10.0)[seed % 3],
    )
    channels = drive(what)
    readings = [
        gauge(channels, pull, rpm, pull=pull, engine_rpm=rpm) for pull in (1, 2) for rpm in (3300.0, 4600.0)
    ]
    found = road({"id": "r1", "channels": channels, "readings": readings})
    assert [name for name, one in found.items() if one.outcome == "outside"] == []
    for name in (
        "road_tracking",
        "road_specified",
        "road_pedal",
        "road_authority",
        "road_reduced_power",
        "road_peak",
    ):
        assert found[name].outcome == "within", name


@pytest.mark.parametrize("error", [-35.0, -18.0, 18.0, 30.0])
def test_an_error_all_along_is_recovered(error: float) -> None:
    found = road(run(Drive(error=error)))
    assert found["road_tracking"].outcome == "outside"
    assert inside(found["road_tracking"], error)
    assert found["road_tracking"].facts["where"] == "all_along"
    assert found["road_authority"].value == (1.0 if error < 0.0 else -1.0)
    assert found["road_overboost"].outcome == ("outside" if error > 0.0 else "within")


def test_boost_that_falls_away_on_top_says_where() -> None:
    found = road(run(Drive(top_error=-40.0)))
    assert found["road_tracking"].outcome == "outside"
    assert found["road_tracking"].facts["where"] == "on_top"


def test_every_pull_is_judged_and_the_worst_is_told() -> None:
    good, bad = drive(Drive(pulls=2)), drive(Drive(pulls=1, error=-25.0))
    last = good["t_s"][-1] or 0.0
    both = {name: [*good[name], *bad[name]] for name in good}
    both["t_s"] = [
        *good["t_s"],
        *(None if when is None else round(when + last + 0.1, 3) for when in bad["t_s"]),
    ]
    found = road({"id": "r1", "channels": both})["road_tracking"]
    assert (found.outcome, found.facts["pull"]) == ("outside", 3)


@pytest.mark.parametrize("error", [-26.0, -12.0, 14.0, 26.0])
def test_a_sensor_that_lies_is_found_by_pull_and_engine_speed(error: float) -> None:
    what = Drive(sensor_error=error, error=-error)  # the loop is content with what the sensor says
    channels = drive(what)
    readings = [
        gauge(channels, pull, rpm, sensor_error=error, pull=pull, engine_rpm=rpm + 60.0)
        for pull in (1, 2)
        for rpm in (3400.0, 4500.0)
    ]
    found = road({"id": "r1", "channels": channels, "readings": readings})
    assert found["road_sensor"].outcome == "outside"
    assert inside(found["road_sensor"], error)
    assert inside(found["road_real_boost"], -error)
    assert found["road_tracking"].outcome == "within"
    assert (found["road_overboost"].outcome == "within") == (error > 0.0)
    assert found["road_overboost"].outcome == "outside" or error > -20.0


@pytest.mark.parametrize("late", [-2.4, 0.0, 1.3, 3.1])
@pytest.mark.parametrize("sensor_error", [0.0, -15.0])
def test_the_lag_of_readings_by_time_is_taken_out(late: float, sensor_error: float) -> None:
    """Readings in the rise tell the lag by pressure alone; a sensor's offset does not pass for one."""
    channels = drive(Drive(sensor_error=sensor_error, error=-sensor_error, lag=1.2))
    readings = []
    for pull in (1, 2):
        for rpm in (1750.0, 2000.0, 2400.0, 3300.0, 4400.0):
            when = channels["t_s"][at(channels, pull, rpm)] or 0.0
            read = gauge(channels, pull, rpm, sensor_error=sensor_error)
            readings.append({**read, "t_s": round(when + late, 1)})
    found = road({"id": "r1", "channels": channels, "readings": readings})
    assert inside(found["road_sensor"], sensor_error)
    assert found["road_sensor"].outcome == ("within" if sensor_error == 0.0 else "outside")


def test_a_reading_taken_while_boost_rises_is_not_compared() -> None:
    channels = drive(Drive(lag=1.0))
    readings = [gauge(channels, 1, 1900.0, pull=1, engine_rpm=1900.0)]
    assert (
        road({"id": "r1", "channels": channels, "readings": readings})["road_sensor"].outcome
        == "not_examined"
    )


@pytest.mark.parametrize("place", ["manifold", "compressor_outlet"])
def test_a_gauge_on_the_other_side_is_not_compared(place: str) -> None:
    channels = drive()
    readings = [gauge(channels, 1, 3500.0, pull=1, engine_rpm=3500.0) | {"at": place}]
    found = road({"id": "r1", "channels": channels, "readings": readings})
    assert found["road_sensor"].outcome == found["road_real_boost"].outcome == "not_examined"


@pytest.mark.parametrize(("size", "outcome"), [(5.0, "within"), (20.0, "outside")])
@pytest.mark.parametrize("frequency", [0.7, 1.5])
def test_hunting_by_size_and_frequency(size: float, outcome: str, frequency: float) -> None:
    found = road(run(Drive(hunting=size, hunting_hz=frequency, noise=0.3)))["road_hunting"]
    assert found.outcome == outcome
    assert found.value == pytest.approx(size, abs=3.0)
    assert found.facts["frequency_hz"] == pytest.approx(frequency, rel=0.15)


def test_reduced_power_is_seen_and_what_follows_is_not_judged() -> None:
    found = road(run(Drive(cut_at=4.0)))
    assert found["road_reduced_power"].outcome == "outside"
    assert found["road_tracking"].outcome == "within"
    assert found["road_overboost"].outcome == "within"
    assert found["road_specified"].outcome == "within"


def test_an_excess_before_the_cut_counts() -> None:
    found = road(run(Drive(cut_at=5.0, error=25.0)))
    assert found["road_overboost"].outcome == "outside"
    assert inside(found["road_overboost"], 25.0)


def test_an_excess_that_fades_is_no_overboost() -> None:
    channels = drive(Drive(pulls=1))
    start = channels["t_s"][at(channels, 1, 2600.0)] or 0.0
    channels["boost_actual_kpa_abs"] = [
        None
        if said is None or when is None
        else said + (25.0 * 2.0 ** -(when - start) if when >= start else 0.0)
        for when, said in zip(channels["t_s"], channels["boost_actual_kpa_abs"], strict=True)
    ]
    assert road({"id": "r1", "channels": channels})["road_overboost"].outcome == "within"


def test_a_request_that_is_not_granted() -> None:
    found = road(run(Drive(request_more=30.0)))["road_request"]
    assert (found.outcome, found.side) == ("outside", "low")
    assert inside(found, -30.0)


@pytest.mark.parametrize(("trim", "outcome"), [(2.0, "within"), (17.0, "outside"), (-14.0, "outside")])
def test_a_lasting_correction(trim: float, outcome: str) -> None:
    found = road(run(Drive(correction=trim)))["road_correction"]
    assert (found.outcome, found.facts["unit"]) == (outcome, "pct")
    assert inside(found, trim)


@pytest.mark.parametrize(("efficiency", "outcome"), [(0.88, "within"), (0.60, "outside"), (1.30, "outside")])
def test_air_mass_against_swallowed_air(efficiency: float, outcome: str) -> None:
    found = road(run(Drive(efficiency=efficiency)))["road_air_mass"]
    assert found.outcome == outcome
    assert inside(found, efficiency)


def test_a_pedal_that_never_asks_for_all() -> None:
    found = road(run(Drive(pedal=70.0)))
    assert (found["road_pedal"].outcome, found["road_pedal"].value) == ("outside", 70.0)
    assert found["road_tracking"].outcome == "not_examined"
    assert found["road_tracking"].facts["because"] == "no_pull"


def test_a_log_that_is_too_slow_is_said_to_be() -> None:
    found = road(run(Drive(rows_a_second=0.5)))
    for name in ("road_tracking", "road_overboost", "road_hunting"):
        assert (found[name].outcome, found[name].facts["because"]) == ("not_examined", "log_too_slow")


@pytest.mark.parametrize("more", [{"phase": "after_repair"}, {"control": "solenoid_unplugged"}])
def test_other_runs_draw_no_verdict(more: dict[str, str]) -> None:
    found = road(run(Drive(error=-40.0), **more))
    assert {one.outcome for name, one in found.items() if name.startswith("road_")} == {"not_examined"}


def test_base_boost_from_the_log_and_by_gauge() -> None:
    spec = {**SPEC, "base_boost_kpa": {"min": 60, "max": 85}}
    channels = drive(Drive(aim=221.0, error=-45.0))
    unplugged = {"id": "r1", "control": "solenoid_unplugged", "channels": channels}
    by_sensor = road(unplugged, spec=spec)["base_boost"]
    assert (by_sensor.outcome, by_sensor.value) == ("within", pytest.approx(221.0 - 45.0 - AIR_KPA, abs=1.0))
    by_gauge = road({**unplugged, "readings": [{"gauge": "g1", "p_kpa": 40, "pull": 1}]}, spec=spec)[
        "base_boost"
    ]
    assert (by_gauge.outcome, by_gauge.value) == ("outside", 40.0)


def test_a_gate_cannot_go_under_its_base_boost() -> None:
    """Below it actual above specified is healthy; above it the same excess is a fault."""
    what = Drive(aim=160.0, error=20.0)
    spec = {"base_boost_kpa": {"min": 60, "max": 85}}
    assert road(run(what), spec=spec)["road_tracking"].outcome == "not_examined"
    assert road(run(what), spec={})["road_tracking"].outcome == "outside"


def test_without_a_pedal_the_same_is_found() -> None:
    channels = drive(Drive(error=-25.0))
    del channels["pedal_pct"]
    found = road({"id": "r1", "channels": channels})["road_tracking"]
    assert found.outcome == "outside"
    assert inside(found, -25.0)


def test_channels_with_holes_are_judged_alike() -> None:
    channels = drive(Drive(error=-25.0))
    for place, name in enumerate(("boost_specified_kpa_abs", "boost_actual_kpa_abs", "engine_rpm")):
        channels[name] = [said if row % 3 == place else None for row, said in enumerate(channels[name])]
    assert inside(road({"id": "r1", "channels": channels})["road_tracking"], -25.0)


ROW = {"pedal_pct": 100.0, "boost_specified_kpa_abs": 221.0}


def test_typed_rows_show_an_excess_that_lasts_and_a_drop() -> None:
    noted = [
        {**ROW, "pull": 1, "engine_rpm": rpm, "boost_actual_kpa_abs": 247.0} for rpm in (2800, 3600, 4400)
    ]
    found = road({"id": "r1", "noted": noted})
    assert (found["road_overboost"].outcome, found["road_overboost"].value) == ("outside", 26.0)
    assert found["road_reduced_power"].outcome == "within"
    noted[1:] = [{**row, "boost_specified_kpa_abs": 150.0} for row in noted[1:]]
    assert road({"id": "r1", "noted": noted})["road_reduced_power"].outcome == "outside"


def test_one_typed_row_shows_neither() -> None:
    found = road({"id": "r1", "noted": [{**ROW, "engine_rpm": 3500, "boost_actual_kpa_abs": 247.0}]})
    assert found["road_tracking"].outcome == "outside"
    for name in ("road_overboost", "road_hunting", "road_reduced_power"):
        assert found[name].facts["because"] == "needs_a_log"


def nozzle(ratio: float) -> float:
    """Flow function of an ideal nozzle, γ = 1.4 (Heywood appendix C), choked below 0.528."""
    r = max(ratio, (2.0 / 2.4) ** 3.5)
    return math.sqrt(r ** (2.0 / 1.4) - r ** (2.4 / 1.4))


def vacuum_left(vent: float, supply: float) -> float:
    """Gauge pressure between the outside and a vacuum, the vent so many times as wide as the supply."""
    low = AIR_KPA + supply
    root = optimize.brentq(lambda p: vent * AIR_KPA * nozzle(p / AIR_KPA) - p * nozzle(low / p), low, AIR_KPA)
    return root - AIR_KPA


@pytest.mark.parametrize(
    ("duty", "off", "outcome"), [(97.0, 0.0, "within"), (72.0, 0.0, "undecided"), (72.0, 50.0, "outside")]
)
def test_control_pressure_of_a_vacuum_car(duty: float, off: float, outcome: str) -> None:
    """Changeover: supply by the duty, vent 1.4 times the rest, by scipy's root; undecided half way."""
    control = vacuum_left(1.4 * (100.0 - duty) / duty, -80.0) + off
    row = {**ROW, "pull": 1, "engine_rpm": 3500, "duty_pct": duty}
    reading = {"gauge": "g1", "at": "control_line", "p_kpa": control, "pull": 1, "engine_rpm": 3500}
    one = {"id": "r1", "noted": [row], "readings": [reading]}
    car = {
        "boost_control": {"actuator": "vacuum", "arrangement": "changeover", "more_duty": "raises_boost"},
        "gauges": [{**DIAL, "span_kpa": [-100, 0]}],
    }
    assert road(one, **car)["road_control_pressure"].outcome == "not_examined"  # its supply is not known
    tests = {"vacuum_supply": {"gauge": "g1", "p_kpa": -80}, "road": [one]}
    found = road(tests=tests, **car)["road_control_pressure"]
    assert found.outcome == outcome
    assert inside(found, off / -80.0)


def test_a_low_reading_off_the_peak_is_no_low_peak() -> None:
    channels = drive()
    readings = [gauge(channels, 1, 1900.0, pull=1, engine_rpm=1900.0)]
    assert (
        road({"id": "r1", "channels": channels, "readings": readings})["road_peak"].outcome == "not_examined"
    )
    told = [{"gauge": "g1", "p_kpa": 160, "peak": True, "pull": 1}]
    assert road({"id": "r1", "channels": channels, "readings": told})["road_peak"].outcome == "outside"


def test_defaults_are_said_to_be_typical() -> None:
    plain = road(run(Drive()))
    fixed = road(run(Drive()), spec={**SPEC, "boost_tolerance_kpa": 8})
    for name in ("road_tracking", "road_request", "road_overboost", "road_hunting"):
        assert (plain[name].typical, fixed[name].typical) == (True, False)
    assert fixed["road_tracking"].limit is not None
    assert fixed["road_tracking"].limit.high == 8.0


def test_a_wider_noise_means_a_wider_doubt() -> None:
    calm, rough = (road(run(replace(Drive(), noise=noise)))["road_tracking"] for noise in (0.2, 6.0))
    assert (rough.expanded_uncertainty or 0.0) > 1.5 * (calm.expanded_uncertainty or 0.0)


def test_a_pull_that_the_control_unit_cut_short() -> None:
    """The excess that it cut counts though it lasted under 1.5 s, and so does the drop at the pull's end."""
    channels = drive(Drive(pulls=1, cut_at=2.6, error=60.0, lag=0.8))
    end = next(row for row, when in enumerate(channels["t_s"]) if (when or 0.0) >= 3.0 + 2.6 + 0.4)
    short = {name: values[:end] for name, values in channels.items()}
    found = road({"id": "r1", "channels": short})
    assert found["road_reduced_power"].outcome == "outside"
    assert (found["road_overboost"].outcome, found["road_overboost"].side) == ("outside", "high")


def test_an_error_too_short_to_call_leaves_authority_open() -> None:
    channels = drive(Drive(pulls=1))
    end = at(channels, 1, 4700.0)
    short = {name: values[:end] for name, values in channels.items()}
    boost = short["boost_actual_kpa_abs"]
    boost[-13:] = [None if said is None else said - 20.0 for said in boost[-13:]]
    found = road({"id": "r1", "channels": short})
    assert found["road_tracking"].outcome == "outside"
    assert found["road_authority"].outcome == "undecided"
