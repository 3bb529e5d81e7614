"""Jobs made from a seed: every test of the contract, every kind of boost control, parts left out at random.

Figures are invented so that each outcome turns up; they stand for no car. The same seed gives the same jobs.
"""

import random
from collections.abc import Callable, Iterator
from typing import Any

from calc import PRESSURE_UNITS, vocabulary

Job = dict[str, Any]
PART_LEFT_OUT = 0.15
TEST_LEFT_OUT = 0.35
STEP_KPA = {"kPa": 1.0, "bar": 1.0, "psi": 0.689476, "mbar": 0.1, "inHg": 3.386389}


FURTHER = 1_000_000  # seeds of what was added later, so that the rest of a job stays what it was


class Workbench:
    """One car: its random numbers, the gauges at hand and the grid of the unit that readings are typed in."""

    def __init__(self, seed: int) -> None:
        self.rng = random.Random(seed)
        self.unit = self.rng.choice(PRESSURE_UNITS)
        self.wrong = self.rng.choice([0.02, 0.1, 0.3])
        self.gauges = [gauge for gauge in (analogue(self), digital(self)) if self.chance(0.6)]

    def chance(self, probability: float) -> bool:
        return self.rng.random() < probability

    def pick(self, *words: Any) -> Any:
        return self.rng.choice(words)

    def number(self, low: float, high: float, digits: int = 2) -> float:
        """A figure as typed; a whole one as an integer now and then, as a phone would send it."""
        value = round(self.rng.uniform(low, high), digits)
        return int(value) if value == int(value) and self.chance(0.5) else value

    def near(self, middle: float, spread: float, digits: int = 2) -> float:
        return self.number(middle - spread, middle + spread, digits)

    def pressure(self, low: float, high: float) -> float:
        """A pressure on the grid of the typed unit, kept to 0.01 kPa as the phone keeps it."""
        step = STEP_KPA[self.unit]
        return round(round(self.rng.uniform(low, high) / step) * step, 2)

    def flag(self, sound: bool) -> bool:
        """A yes-or-no answer, the sound one unless this car has something wrong there."""
        return sound != self.chance(self.wrong)

    def some(self, **parts: Any) -> Job:
        """These parts, some of them missing; a gauge only where there is one."""
        return {name: value for name, value in parts.items() if not self.chance(PART_LEFT_OUT)}

    def gauge(self) -> Job:
        """The gauge a test is read on, or none."""
        return {"gauge": self.pick(*self.gauges)["id"]} if self.gauges and self.chance(0.8) else {}


def analogue(bench: Workbench) -> Job:
    gauge = {
        "id": "needle",
        "kind": "analogue",
        "span_kpa": bench.pick([0, 400], [-100, 300], [0, 250]),
        "class_pct": bench.pick(0.6, 1.0, 1.6, 2.5),
        "division_kpa": bench.pick(2, 5, 10),
    }
    extra = bench.some(read_to=bench.pick(*vocabulary.READ_TO), zero_kpa=bench.number(-2, 2), hose_m=3.0)
    return gauge | extra | ({"used_at_c": bench.number(0, 45, 0)} if bench.chance(0.3) else {})


def digital(bench: Workbench) -> Job:
    return {
        "id": "digits",
        "kind": "digital",
        "span_kpa": [-100, 700],
        "accuracy_pct_reading": bench.pick(0.1, 0.25, 0.5),
        "accuracy_counts": bench.pick(0, 1, 2),
        "resolution_kpa": bench.pick(0.1, 1),
    }


def boost_control(bench: Workbench) -> Job:
    if bench.chance(0.1):
        return {}
    return bench.some(
        device=bench.pick("wastegate", "wastegate", *vocabulary.DEVICES),
        actuator=bench.pick("pressure", "pressure", *vocabulary.ACTUATORS),
        arrangement=bench.pick(*vocabulary.ARRANGEMENTS),
        more_duty=bench.pick(*vocabulary.DUTY_EFFECTS),
    )


def spec(bench: Workbench, sign: float) -> Job:
    start = bench.number(50, 70, 0)
    full = start + bench.number(60, 90, 0)
    near, far = sorted((sign * start, sign * (start + 20))), sorted((sign * full, sign * (full + 20)))
    travel = bench.number(7, 10, 0)
    limits = bench.some(
        source="generated",
        actuator_start_kpa={"min": near[0], "max": near[1]},
        actuator_full_kpa={"min": far[0], "max": far[1]},
        actuator_travel_mm={"min": travel, "max": travel + 3},
        actuator_hold_loss_kpa_per_min={"max": bench.number(2, 8, 1)},
        rod_thread_pitch_mm=bench.pick(0.8, 1, 1.25),
        solenoid_coil_ohm_20c={"min": 25, "max": 35},
        vacuum_supply_kpa={"max": -60},
        bypass_hold_kpa={"min": 120},
        boost_specified_peak_kpa_abs={"min": 205, "max": 235},
        boost_tolerance_kpa=bench.number(6, 15, 0),
        base_boost_kpa={"min": 60, "max": 85},
        charge_leak_hole_mm={"max": bench.number(0.6, 1.5, 1)},
        volumetric_efficiency={"min": 0.78, "max": 1.0},
        intake_depression_kpa={"max": 4},
        exhaust_back_pressure_kpa={"max": 20},
        cooler_drop_kpa={"max": 15},
        shaft_radial_play_mm={"max": 0.6},
        shaft_axial_play_mm={"max": 0.1},
    )
    rare = {
        "actuator_hysteresis_kpa": {"max": 12},
        "supply_drop_v": 0.4,
        "rest_pressure_tolerance_kpa": 2.5,
        "sensor_tolerance_kpa": 5,
        "control_ratio_tolerance": 0.1,
        "correction_tolerance_kpa": 8,
        "intake_air_at": "before_compressor",
    }
    return limits | {name: value for name, value in rare.items() if bench.chance(0.15)}


def smoke(bench: Workbench, _: float) -> Job:
    seen = bench.flag(False)
    places = (
        [{"where": bench.pick("cooler", "hose"), "size": bench.pick(*vocabulary.LEAK_SIZES)}] if seen else []
    )
    return {"leak_seen": seen} | ({"places": places} if places else {})


def charge_decay(bench: Workbench, _: float) -> Job:
    start, keeps = bench.pressure(40, 80), bench.rng.uniform(0.3, 1.0)
    times = range(0, bench.pick(20, 60, 120) + 1, 10)
    readings = [{"t_s": t, "p_kpa": round(start * keeps ** (t / 20), 1)} for t in times]
    setup = bench.some(volume_l=bench.number(4, 15, 1), volume_u_l=0.5, air_c=bench.number(5, 30, 0))
    return setup | bench.gauge() | {"readings": readings}


def actuator(bench: Workbench, sign: float) -> Job:
    first, full, travel = bench.number(45, 105, 0), bench.number(120, 185, 0), bench.number(6, 13, 1)
    held = sign * bench.number(100, 150, 0)
    lost = held * bench.rng.choice([0.0, 0.01, 0.03, 0.4])
    parts = bench.some(
        first_movement_kpa=sign * first,
        full_travel_kpa=sign * full,
        hold={"p_kpa": held, "t_s": bench.pick(30, 60), "p_end_kpa": round(held - lost, 2)},
        linkage_free=bench.flag(True),
        returns_to_stop=bench.flag(True),
    )
    if bench.chance(0.4):
        parts["sweep"] = actuator_sweep(bench, sign, first, full, travel)
    return parts | bench.gauge()


def actuator_sweep(bench: Workbench, sign: float, first: float, full: float, travel: float) -> list[Job]:
    """Rises in steps and falls again, with some friction; a step may lack its travel."""
    friction = bench.pick(2, 6, 20)
    steps = [(p, "rising", first) for p in range(0, int(full) + 10, 15)]
    steps += [(p, "falling", first - friction) for p in range(int(full), 0, -15)]
    rows = []
    for pressure, direction, start in steps:
        share = min(1.0, max(0.0, (pressure - start) / (full - first)))
        moved = round(share * travel + bench.rng.uniform(-0.1, 0.1) * (share > 0), 1)
        rows.append({"p_kpa": sign * pressure, "travel_mm": max(0.0, moved), "direction": direction})
    return rows


def solenoid(bench: Workbench, sign: float) -> Job:
    parts = bench.some(
        coil_ohm=bench.pick(*[bench.near(30, 8, 1)] * 5, 1e6),
        coil_c=bench.number(10, 60, 0),
        supply_v=bench.number(11, 14.5, 1),
        supply_drop_v=bench.number(0, 0.7),
        ground_drop_v=bench.number(0, 0.7),
        hoses_sound=bench.flag(True),
    )
    if parts.get("hoses_sound") is False:
        parts["hoses_fault"] = bench.pick(*vocabulary.HOSE_FAULTS)
    if bench.chance(0.4):
        supply, works, down = sign * 80, bench.flag(True), bench.chance(0.5)
        duties = range(0, 101, 20)
        share = [((100 - duty if down else duty) / 100 if works else 0.95) for duty in duties]
        parts["sweep"] = [
            {
                "duty_pct": duty,
                "supply_kpa": supply,
                "control_kpa": round(supply * part + bench.near(0, 0.5), 1),
            }
            for duty, part in zip(duties, share, strict=True)
        ]
        parts |= bench.some(driven_by=bench.pick("car", "bench"), read_at=bench.pick("actuator", "port"))
    return parts | bench.gauge()


def sensors_at_rest(bench: Workbench, _: float) -> Job:
    return bench.some(
        charge_pressure_kpa_abs=bench.near(100.2, 6, 1),
        intake_air_c=bench.near(12, 12, 0),
        coolant_c=bench.near(13, 12, 0),
        pedal_released_pct=bench.number(0, 25, 0),
        pedal_floored_pct=bench.number(85, 100, 0),
        air_mass_gps=bench.number(0, 1.5, 1),
        barometric_kpa_abs=bench.near(100.2, 1, 1),
        reference_v=bench.near(5, 0.2),
        signal_v=bench.near(1.9, 0.1),
        ground_offset_v=bench.number(0, 0.1),
    )


def turbo_inspection(bench: Workbench, _: float) -> Job:
    return bench.some(
        radial_play_mm=bench.number(0.2, 0.9),
        axial_play_mm=bench.number(0.02, 0.2),
        wheel_damage=bench.flag(False),
        spins_free=bench.flag(True),
        oil_in_outlet=bench.flag(False),
    )


def at_load(bench: Workbench, **readings: float) -> Job:
    load = {"engine_rpm": bench.number(3000, 5000, 0)} | ({"load": "none"} if bench.chance(0.15) else {})
    return load | readings | bench.gauge()


def vacuum_supply(bench: Workbench, _: float) -> Job:
    depth = bench.number(-95, -45, 0)
    held = bench.some(hold_s=60, p_end_kpa=depth + bench.number(0, 20, 0))
    return {"engine_rpm": 850, "p_kpa": depth} | held | bench.gauge()


def electric_actuator(bench: Workbench, _: float) -> Job:
    commanded = bench.number(10, 90, 0)
    return bench.some(
        commanded_pct=commanded,
        reported_pct=commanded + bench.near(0, 10, 0),
        supply_v=bench.number(11, 14, 1),
        end_stops_learned=bench.flag(True),
        rod_seen_moving=bench.flag(True),
    )


TESTS: dict[str, Callable[[Workbench, float], Job]] = {
    "smoke": smoke,
    "charge_decay": charge_decay,
    "actuator": actuator,
    "wastegate_inspection": lambda bench, _: bench.some(seats=bench.flag(True), damage=bench.flag(False)),
    "solenoid": solenoid,
    "sensors_at_rest": sensors_at_rest,
    "turbo_inspection": turbo_inspection,
    "intake_depression": lambda bench, _: at_load(bench, p_kpa=bench.number(-8, -1, 1)),
    "exhaust_back_pressure": lambda bench, _: at_load(bench, p_kpa=bench.number(5, 40, 0)),
    "cooler_drop": lambda bench, _: at_load(
        bench, before_kpa=bench.near(112, 5, 0), after_kpa=bench.near(98, 10, 0)
    ),
    "vacuum_supply": vacuum_supply,
    "bypass_valve": lambda bench, _: (
        bench.some(hold_kpa=bench.near(125, 25, 0), seats=bench.flag(True)) | bench.gauge()
    ),
    "electric_actuator": electric_actuator,
    "exhaust_leak": lambda bench, _: {"soot_or_hiss": bench.flag(False)},
    "egr": lambda bench, _: {"closes": bench.flag(True)},
    "throttle": lambda bench, _: {"opens_fully": bench.flag(True)},
    "engine_health": lambda bench, _: bench.some(
        fuel_pressure_in_order=bench.flag(True), misfire=bench.flag(False), compression_even=bench.flag(True)
    ),
}


def road(bench: Workbench, sign: float) -> list[Job]:
    runs = [road_run(bench, sign, "before_repair", "normal")]
    if bench.chance(0.3):
        runs.append(road_run(bench, sign, "after_repair", "normal"))
    if bench.chance(0.2):
        runs.append(road_run(bench, sign, "before_repair", bench.pick(*vocabulary.CONTROLS[1:])))
    return runs


def road_run(bench: Workbench, sign: float, phase: str, control: str) -> Job:
    run: Job = {"id": f"{phase}-{control}", "phase": phase, "gear": 3, "control": control}
    aimed, off, sensor = bench.near(220, 25, 0), bench.near(0, 35, 0), bench.near(0, 12, 0)
    if bench.chance(0.3):
        run["channels"] = channels(bench, aimed, off + sensor)
    boost = aimed + off - 100 if control == "normal" else bench.near(72, 20, 0)
    for pull in range(1, bench.pick(1, 2, 3) + 1):
        run.setdefault("readings", []).extend(pull_readings(bench, sign, pull, boost))
        run.setdefault("noted", []).append(pull_noted(bench, pull, aimed, aimed + off + sensor))
    return run


def pull_readings(bench: Workbench, sign: float, pull: int, boost: float) -> list[Job]:
    read = {"pull": pull, "engine_rpm": 3500} | bench.gauge()
    rows = [{"at": "charge_circuit", "p_kpa": boost + bench.near(0, 3, 0), "peak": False} | read]
    if bench.chance(0.5):
        rows.append({"at": "control_line", "p_kpa": sign * bench.number(2, 140, 0), "peak": False} | read)
    if bench.chance(0.3):
        rows.append({"at": "compressor_outlet", "p_kpa": boost + bench.number(2, 9, 0), "peak": False} | read)
    if bench.chance(0.4):
        rows.append(
            {"pull": pull, "at": "charge_circuit", "p_kpa": boost + bench.number(0, 15, 0), "peak": True}
        )
    return rows


def pull_noted(bench: Workbench, pull: int, aimed: float, says: float) -> Job:
    noted = bench.some(
        engine_rpm=3500,
        boost_specified_kpa_abs=aimed,
        boost_actual_kpa_abs=says,
        boost_request_kpa_abs=aimed + bench.pick(0, 0, 20),
        pedal_pct=bench.pick(100, 100, 88),
        duty_pct=bench.number(0, 100, 0),
        boost_correction_kpa=bench.near(0, 20, 1),
        air_mass_gps=bench.number(60, 140, 1),
        manifold_air_c=bench.number(20, 60, 0),
    )
    return {"pull": pull} | noted


def channels(bench: Workbench, aimed: float, off: float) -> Job:
    """A pull of 8 s as a log, sampled a little unevenly, with gaps."""
    count = 41
    log: Job = {name: [] for name in ("t_s", "engine_rpm", "pedal_pct", "duty_pct")}
    log |= {name: [] for name in ("boost_specified_kpa_abs", "boost_actual_kpa_abs", "air_mass_gps")}
    for at in range(count):
        spool = min(1.0, at / 12)
        row = {
            "t_s": round(at * 0.2, 2),
            "engine_rpm": 1500 + at * 70,
            "pedal_pct": 100,
            "boost_specified_kpa_abs": aimed,
            "boost_actual_kpa_abs": round(100 + spool * (aimed + off - 100) + bench.near(0, 1, 1), 1),
            "duty_pct": bench.near(40, 5, 0),
            "air_mass_gps": None if bench.chance(0.05) else round(30 + at * 2.1, 1),
        }
        for name, value in row.items():
            log[name].append(value)
    return log


def generated_job(seed: int) -> tuple[Job, str]:
    """The job of this seed and the unit of pressure its verdict is asked in."""
    bench = Workbench(seed)
    control = boost_control(bench)
    sign = -1.0 if control.get("actuator") == "vacuum" else 1.0
    tests = {name: make(bench, sign) for name, make in TESTS.items() if not bench.chance(TEST_LEFT_OUT)}
    if bench.chance(0.7):
        tests["road"] = road(bench, sign)
    job: Job = {"format": "job/1", "id": f"generated-{seed}", "gauges": bench.gauges, "tests": tests}
    parts = bench.some(
        boost_control=control,
        spec=spec(bench, sign),
        site=bench.some(altitude_m=120, barometric_kpa_abs=100.1, ambient_c=12),
        vehicle=bench.some(fuel=bench.pick("petrol", "diesel"), displacement_l=1.8, cylinders=4),
        complaint={"reproduced": bench.flag(True), "symptoms": [bench.pick(*vocabulary.SYMPTOMS)]},
    )
    if bench.chance(0.2):
        parts["workshop"] = {"minutes": {"smoke": 7}, "priors": {"charge_air_leak": 2}}
    add_ours(Workbench(seed + FURTHER), job | parts)
    return job | parts, bench.unit


def add_ours(bench: Workbench, job: Job) -> None:
    """Keys that the project has added, laid into parts that are there: read beside the contract's own."""
    job.get("site", {}).update(bench.some(humidity_pct=bench.number(10, 95, 0), speed_limit_kmh=100))
    job.get("spec", {}).update(bench.some(charge_sensor_range_kpa_abs={"min": 20, "max": 250}))
    job.get("vehicle", {}).update(
        bench.some(tyre="205/55 R16", final_drive=3.94, gear_ratios=[3.5, 2.0, 1.32, 1.0])
    )
    tests = job["tests"]
    tests.get("charge_decay", {}).update(bench.some(air_end_c=bench.number(5, 30, 0)))
    tests.get("cooler_drop", {}).update(
        bench.some(before_c=bench.near(110, 20, 0), after_c=bench.near(45, 10, 0))
    )
    names = [gauge["id"] for gauge in job["gauges"]]
    if len(names) == 2:
        pressure = bench.pressure(60, 180)
        tests["gauges_compared"] = {
            "gauge": names[0],
            "other_gauge": names[1],
            "p_kpa": pressure,
            "other_kpa": round(pressure + bench.near(0, 8, 1), 1),
        }


def generated_jobs(count: int, first: int = 0) -> Iterator[tuple[Job, str]]:
    """`count` jobs from consecutive seeds."""
    return (generated_job(seed) for seed in range(first, first + count))
