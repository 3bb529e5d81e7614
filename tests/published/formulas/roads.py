"""Sensor, road, number of the vehicle, stored energy."""

from calc.physics import road, sensor, stored_energy, vin
from tests.published.formulas.registry import BAR, LITRE, MM, P0, absolute, formula


@formula
def sensor_kpa(signal: float, reference: float) -> float:
    return sensor.ratiometric_pressure(signal, reference, 20_000.0, 250_000.0) / 1000.0


@formula
def sensor_v(kpa: float) -> float:
    return sensor.ratiometric_signal(1000.0 * kpa, 5.0, 20_000.0, 250_000.0)


@formula
def sensor_gain(g1: float, s1: float, g2: float, s2: float) -> float:
    return sensor.two_point_gain_offset(*(1000.0 * p for p in (g1, s1, g2, s2)))[0]


@formula
def sensor_offset_kpa(g1: float, s1: float, g2: float, s2: float) -> float:
    return sensor.two_point_gain_offset(*(1000.0 * p for p in (g1, s1, g2, s2)))[1] / 1000.0


@formula
def gain_u(u_kpa: float, span_kpa: float) -> float:
    return sensor.gain_uncertainty(1000.0 * u_kpa, 1000.0 * span_kpa)


@formula
def en_number(first_kpa: float, second_kpa: float, u1: float, u2: float) -> float:
    return sensor.en_number(1000.0 * (first_kpa - second_kpa), 1000.0 * u1, 1000.0 * u2)


@formula
def tyre_mm(marking: str) -> float:
    return road.tyre_diameter(marking.replace("_", " ")) / MM


@formula
def rolling_mm(marking: str) -> float:
    return road.rolling_circumference(road.tyre_diameter(marking.replace("_", " "))) / MM


@formula
def speed_kmh(rpm: float, gear: float, final: float) -> float:
    return 3.6 * road.road_speed(rpm, 1.927295, gear, final)


@formula
def speed_rpm(kmh: float, gear: float, final: float) -> float:
    return road.engine_speed(kmh / 3.6, 1.927295, gear, final)


def pull(rpm1: float, rpm2: float, a: float) -> tuple[float, float]:
    speeds = [road.road_speed(rpm, 1.927295, 1.32, 3.94) for rpm in (rpm1, rpm2)]
    return road.pull_time_and_distance(*speeds, a)


@formula
def pull_time(rpm1: float, rpm2: float, a: float) -> float:
    return pull(rpm1, rpm2, a)[0]


@formula
def pull_way(rpm1: float, rpm2: float, a: float) -> float:
    return pull(rpm1, rpm2, a)[1]


@formula
def road_force(a: float, grade: float) -> float:
    return road.road_load(1500.0, 100.0 / 3.6, a, 0.012, 0.65, 1.2, 1.05, grade)


@formula
def road_power_kw(a: float, grade: float) -> float:
    return road_force(a, grade) * 100.0 / 3.6 / 1000.0


@formula
def vin_sum(number: str) -> float:
    return float(vin.weighted_sum(number))


@formula
def vin_check(number: str) -> str:
    return vin.check_digit(number)


@formula
def vin_fits(number: str) -> str:
    return "yes" if vin.check_digit_fits(number) else "no"


@formula
def brode_j(volume_l: float, bar_g: float) -> float:
    return stored_energy.constant_volume_energy(volume_l * LITRE, absolute(bar_g), P0)


@formula
def isentropic_j(volume_l: float, bar_g: float) -> float:
    return stored_energy.isentropic_energy(volume_l * LITRE, absolute(bar_g), P0)


@formula
def isothermal_j(volume_l: float, bar_g: float) -> float:
    return stored_energy.isothermal_energy(volume_l * LITRE, absolute(bar_g), P0)


@formula
def plug_force_n(d_mm: float, bar_g: float) -> float:
    return stored_energy.plug_force(d_mm * MM, bar_g * BAR)
