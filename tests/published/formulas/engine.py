"""Engine, compressor, cooler."""

from calc.physics import compressor, engine_air, units
from tests.published.formulas.registry import LITRE, formula


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
def outlet_t2(pr: float, T1: float, eta: float) -> float:
    return compressor.outlet_temperature(pr, T1, eta)


@formula
def compressor_kw(m: float, pr: float, T1: float, eta: float) -> float:
    return compressor.compressor_power(m, T1, compressor.outlet_temperature(pr, T1, eta)) / 1000.0


@formula
def power_kw(m: float, T1: float, T2: float) -> float:
    return compressor.compressor_power(m, T1, T2) / 1000.0


@formula
def efficiency(pr: float, t1_c: float, t2_c: float) -> float:
    return compressor.isentropic_efficiency(pr, units.kelvin(t1_c), units.kelvin(t2_c))


@formula
def corrected_flow(m: float, T1: float, p1_kpa: float, Tref: float, pref_kpa: float) -> float:
    return compressor.corrected_mass_flow(m, T1, 1000.0 * p1_kpa, Tref, 1000.0 * pref_kpa)


@formula
def corrected_speed(n: float, T1: float, Tref: float) -> float:
    return compressor.corrected_speed(n, T1, Tref)


@formula
def cooler_effectiveness(hot_c: float, cooled_c: float, coolant_c: float) -> float:
    return compressor.cooler_effectiveness(*(units.kelvin(t) for t in (hot_c, cooled_c, coolant_c)))


@formula
def expansion_ratio(watt: float, m: float, T3: float, eta_t: float, eta_m: float) -> float:
    return compressor.turbine_expansion_ratio(watt, m, T3, eta_t, eta_m)
