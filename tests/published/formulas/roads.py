"""Sensor, road, number of the vehicle, stored energy."""

from calc.checks.gauge_pairs import gauge_pairs
from calc.physics import road, sensor, stored_energy, vin
from calc.signals.regression import line_fit_both
from tests.published.formulas.registry import BAR, LITRE, MM, P0, absolute, formula


@formula
def sensor_kpa(signal: float, reference: float) -> float:
    return sensor.ratiometric_pressure(signal, reference, 20_000.0, 250_000.0) / 1000.0


@formula
def sensor_v(kpa: float) -> float:
    return sensor.ratiometric_signal(1000.0 * kpa, 5.0, 20_000.0, 250_000.0)


def sensor_line(g1: float, s1: float, g2: float, s2: float, u_kpa: float = 1.0) -> tuple[float, ...]:
    """Our line through two comparisons of sensor and gauge, the doubt all on the sensor's side."""
    return line_fit_both([g1, g2], [s1, s2], [1.0e-6, 1.0e-6], [u_kpa, u_kpa])


@formula
def sensor_gain(g1: float, s1: float, g2: float, s2: float) -> float:
    return sensor_line(g1, s1, g2, s2)[0]


@formula
def sensor_offset_kpa(g1: float, s1: float, g2: float, s2: float) -> float:
    return sensor_line(g1, s1, g2, s2)[1]


@formula
def gain_u(u_kpa: float, span_kpa: float) -> float:
    return sensor_line(101.0, 104.0, 101.0 + span_kpa, 104.0 + span_kpa, u_kpa)[2]


@formula
def en_number(first_kpa: float, second_kpa: float, u1: float, u2: float) -> float:
    """Distance over expanded doubt of our comparison of two gauges, each in doubt as the source says."""
    gauges = {
        name: {
            "id": name,
            "kind": "digital",
            "accuracy_pct_reading": 0.0,
            "accuracy_counts": u * 3.0**0.5 / 1.0e-6,
            "resolution_kpa": 1.0e-6,
        }
        for name, u in (("one", u1), ("other", u2))
    }
    read = {"gauge": "one", "p_kpa": second_kpa, "other_gauge": "other", "other_kpa": first_kpa}
    (pair,) = gauge_pairs({"tests": {"gauges_compared": read}}, gauges)
    return abs(pair.apart) / pair.expanded


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
def vin_sum(number: str) -> float:
    return float(vin.weighted_sum(number))


@formula
def vin_check(number: str) -> str:
    return vin.check_digit(number)


@formula
def vin_fits(number: str) -> str:
    return "yes" if vin.check_digit_fits(number) else "no"


@formula
def isentropic_j(volume_l: float, bar_g: float) -> float:
    return stored_energy.isentropic_energy(volume_l * LITRE, absolute(bar_g), P0)


@formula
def plug_force_n(d_mm: float, bar_g: float) -> float:
    return stored_energy.plug_force(d_mm * MM, bar_g * BAR)
