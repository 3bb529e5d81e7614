"""Engine, compressor, cooler."""

from calc.errors import OutOfRange
from calc.physics import compressor, engine_air, units
from calc.uncertainty.propagation import propagate
from tests.published.formulas.registry import LITRE, P0, formula


@formula
def density(p_kpa: float, t_c: float) -> float:
    return engine_air.air_density(1000.0 * p_kpa, units.kelvin(t_c))


@formula
def engine_g_per_s(ve: float, vd_l: float, rpm: float, p_kpa: float, t_c: float) -> float:
    T = units.kelvin(t_c)
    return 1000.0 * engine_air.speed_density_mass_flow(ve, vd_l * LITRE, rpm, 1000.0 * p_kpa, T)


@formula
def volumetric_efficiency(g_per_s: float, vd_l: float, rpm: float, p_kpa: float, t_c: float) -> float:
    T = units.kelvin(t_c)
    return engine_air.volumetric_efficiency(g_per_s / 1000.0, vd_l * LITRE, rpm, 1000.0 * p_kpa, T)


@formula
def isentropic_t2(pr: float, T1: float) -> float:
    return compressor.isentropic_outlet_temperature(pr, T1)


@formula
def efficiency_k(pr: float, T1: float, T2: float) -> float:
    return compressor.isentropic_efficiency(pr, T1, T2)


@formula
def efficiency(pr: float, t1_c: float, t2_c: float) -> float:
    return compressor.isentropic_efficiency(pr, units.kelvin(t1_c), units.kelvin(t2_c))


@formula
def cooler_effectiveness(hot_c: float, cooled_c: float, coolant_c: float) -> float:
    return compressor.cooler_effectiveness(*(units.kelvin(t) for t in (hot_c, cooled_c, coolant_c)))


@formula
def efficiency_or_refusal(pr: float, t1_c: float, t2_c: float) -> str:
    try:
        return f"{efficiency(pr, t1_c, t2_c):.6f}"
    except OutOfRange:
        return "refused"


@formula
def efficiency_doubt() -> float:
    """u of a volumetric efficiency: 95(1.9) g/s, 1.998 L, 3000 rev/min, 200(2) kPa, 313.15(3) K."""
    values = {"mass_flow": 0.095, "p": 200_000.0, "T": 313.15}
    doubts = {"mass_flow": 0.0019, "p": 2_000.0, "T": 3.0}

    def share(mass_flow: float, p: float, T: float) -> float:
        return engine_air.volumetric_efficiency(mass_flow, 0.001998, 3000.0, p, T)

    return propagate(share, values, doubts)


@formula
def compressor_doubt() -> float:
    """u of a compressor's efficiency: 99.0(5) to 201.3(20) kPa, 298.15(200) to 385.15(200) K."""
    values = {"p1": 99.0, "p2": 201.3, "T1": 298.15, "T2": 385.15}
    doubts = {"p1": 0.5, "p2": 2.0, "T1": 2.0, "T2": 2.0}

    def share(p1: float, p2: float, T1: float, T2: float) -> float:
        return compressor.isentropic_efficiency(compressor.pressure_ratio(1e3 * p1, 1e3 * p2), T1, T2)

    return propagate(share, values, doubts)


def _vapour(t_c: float, rh: float) -> float:
    return engine_air.vapour_pressure(rh, units.kelvin(t_c))


@formula
def humid_density(t_c: float, rh: float) -> float:
    return engine_air.humid_air_density(P0, units.kelvin(t_c), _vapour(t_c, rh))


@formula
def dry_part(t_c: float, rh: float) -> float:
    return engine_air.air_density(P0 - _vapour(t_c, rh), units.kelvin(t_c))


@formula
def humidity(t_c: float, rh: float) -> float:
    return engine_air.humidity_ratio(P0, _vapour(t_c, rh))


@formula
def load_pct(g_per_s: float, rpm: float, vd_l: float) -> float:
    return 100.0 * engine_air.absolute_load(g_per_s / 1000.0, vd_l * LITRE, rpm)
