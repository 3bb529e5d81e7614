"""Simulated jobs: the reader takes them, a seed repeats them, faults show as the trade says."""

import json
from statistics import median

import pytest

import calc
from calc.vocabulary import FAULTS, NEXT_TESTS
from fixtures.simulator import KINDS, answer_test, make, possible, simulate
from fixtures.simulator.__main__ import main
from fixtures.simulator.kinds import LOCATIONS


def read(job: dict) -> dict:
    return calc.read_job(json.dumps(job).encode())


def effects(fault: str | None, count: int = 5, **options: object) -> list[dict]:
    return [simulate(f"effect {seed}", fault, **options)[1]["effect"] for seed in range(count)]


def middle(fault: str, key: str, **options: object) -> float:
    return median(effect[key] for effect in effects(fault, **options))


def test_the_list_of_faults_is_the_contract_s() -> None:
    assert set(LOCATIONS) == set(FAULTS)


@pytest.mark.parametrize("kind", KINDS)
def test_every_fault_makes_jobs_that_the_reader_takes(kind: str) -> None:
    for number, fault in enumerate([None, *possible(kind)]):
        depth = ("full", "road", "typed")[number % 3]
        gauges = ("coarse", "medium", "fine", "digital")[number % 4]
        job, truth = simulate(
            number, fault, depth=depth, kind=kind, gauges=gauges, after_repair=number % 5 == 0
        )
        assert read(job)["id"] == job["id"]
        assert truth["fault"] in FAULTS
        assert truth["changed"] or fault is None


def test_a_kind_refuses_what_it_cannot_have() -> None:
    for kind, fault in (("pressure", "vanes_sticking"), ("electric", "diaphragm_leak"), ("vacuum_vgt", "no")):
        with pytest.raises(ValueError, match=fault):
            simulate(1, fault, kind=kind)


def test_same_seed_same_bytes() -> None:
    first, second = (json.dumps(simulate(4, "diaphragm_leak", aged=True)) for _ in range(2))
    assert first == second
    assert first != json.dumps(simulate(5, "diaphragm_leak", aged=True))


def test_answers_do_not_depend_on_the_order_of_tests() -> None:
    car = make(9, "charge_air_leak")
    decay = answer_test(car, "charge_decay")
    again = make(9, "charge_air_leak")
    for test in again.tests:
        again.perform(test)
    assert answer_test(again, "charge_decay") == decay
    assert set(car.tests) <= set(NEXT_TESTS)


def test_one_gauge_has_one_error() -> None:
    """Bench and road readings of the same gauge are off by the same amount, up to the rounding."""
    car = make(3, None, gauges="coarse")
    gauge = car.gauges.charge
    shown = [gauge.shown(true) - true for true in (30.0, 90.0, 150.0)]
    assert max(shown) - min(shown) < 1e-9
    assert abs(shown[0]) <= 0.016 * 400.0


def test_the_command_prints_a_job(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--seed", "2", "--fault", "spring_weak"]) == 0
    assert calc.read_job(capsys.readouterr().out.encode())["format"] == "job/1"


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("aged", [False, True])
def test_sound_cars_are_inside_their_limits_by_true_value(aged: bool, kind: str) -> None:
    for seed in range(4):
        car = make(f"sound {seed}", None, aged=aged, kind=kind)
        truth, spec = car.truth(), car.car.spec
        for key in {"actuator_start_kpa", "actuator_full_kpa", "actuator_travel_mm"} & set(spec):
            assert spec[key]["min"] <= truth["true"][key] <= spec[key]["max"], key
        assert truth["true"]["hole_mm"] < 1.0
        assert truth["true"]["radial_play_mm"] < 0.6
        assert truth["true"]["axial_play_mm"] < 0.1
        assert not truth["effect"]["cut"]
        assert abs(truth["effect"]["tracking_kpa"]) < 7.0
        assert abs(truth["effect"]["sensor_error_kpa"]) < 5.0


LOW = (
    "charge_air_leak",
    "charge_air_restriction",
    "actuator_opens_early",
    "spring_weak",
    "wastegate_not_closing",
    "exhaust_leak_before_turbine",
    "turbocharger_worn",
    "intake_restriction",
)


@pytest.mark.parametrize("fault", LOW)
def test_lost_boost_or_a_loop_that_hides_it(fault: str) -> None:
    assert middle(fault, "boost_error_kpa") - middle(fault, "trim_kpa") < -8.0


MIRRORED = ("actuator_opens_late", "solenoid_vents_all", "control_line_leak", "vacuum_supply_low")


@pytest.mark.parametrize("fault", MIRRORED)
def test_on_a_vacuum_car_lost_control_loses_boost(fault: str) -> None:
    lost = middle(fault, "boost_error_kpa", kind="vacuum_vgt") - middle(fault, "trim_kpa", kind="vacuum_vgt")
    assert lost < -8.0


@pytest.mark.parametrize("fault", ["actuator_opens_early", "solenoid_passes_all"])
def test_on_a_vacuum_car_more_depth_makes_more_boost(fault: str) -> None:
    assert middle(fault, "boost_error_kpa", kind="vacuum_wastegate") > 3.0


HIGH = (
    "actuator_opens_late",
    "wastegate_seized_closed",
    "solenoid_vents_all",
    "control_line_blocked",
    "control_line_leak",
    "diaphragm_leak",
    "charge_pressure_reads_low",
)


@pytest.mark.parametrize("fault", HIGH)
def test_too_much_boost(fault: str) -> None:
    assert middle(fault, "boost_error_kpa", severity=0.8) > 0.0
    assert middle(fault, "overboost_kpa", severity=0.8) > 8.0


@pytest.mark.parametrize(
    "fault", ["pedal_signal_low", "temperature_or_barometric_wrong", "air_mass_reads_low"]
)
def test_inputs_lower_what_is_aimed_at_and_boost_follows(fault: str) -> None:
    assert middle(fault, "specified_shift_kpa") < -8.0
    assert abs(middle(fault, "tracking_kpa")) < 6.0


def test_a_lying_sensor_moves_boost_the_other_way() -> None:
    assert middle("charge_pressure_reads_high", "boost_error_kpa") < -5.0
    assert middle("charge_pressure_reads_high", "sensor_error_kpa") > 5.0
    assert middle("charge_pressure_reads_low", "sensor_error_kpa") < -5.0


def test_solenoid_that_passes_all_leaves_base_boost() -> None:
    for seed in range(5):
        car = make(f"passes {seed}", "solenoid_passes_all", severity=1.0)
        limit = car.car.spec["base_boost_kpa"]
        at = [
            s.p2 - car.site.barometric for s in car.run.pull(1) if 0.55 < s.rpm / car.car.parts.rpm_end < 0.65
        ]
        assert limit["min"] - 12.0 < sum(at) / len(at) < limit["max"] + 12.0


def test_worse_is_worse() -> None:
    """The same car with a larger hole makes less boost or needs more trim."""
    lost = []
    for severity in (0.0, 0.5, 1.0):
        effect = simulate("hole", "charge_air_leak", severity=severity)[1]["effect"]
        lost.append(effect["trim_kpa"] - effect["boost_error_kpa"])
    assert lost == sorted(lost)


def test_the_mended_car_is_healthy() -> None:
    job, _ = simulate("mended", "actuator_opens_early", severity=0.9, after_repair=True)
    before, after = (run for run in job["tests"]["road"] if run["id"] in ("r1", "r2"))
    assert (before["phase"], after["phase"]) == ("before_repair", "after_repair")
    channels = after["channels"]
    errors = [
        abs(actual - aimed)
        for pedal, rpm, actual, aimed in zip(
            channels["pedal_pct"],
            channels["engine_rpm"],
            channels["boost_actual_kpa_abs"],
            channels["boost_specified_kpa_abs"],
            strict=True,
        )
        if pedal > 95.0 and rpm > 2800.0
    ]
    assert errors
    assert max(errors) < 10.0
