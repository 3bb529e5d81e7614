"""Flow through holes, and leaks."""

from typing import Any

from calc.physics import air, engine_air, leak, orifice
from calc.physics.roots import crossing
from tests.published import reference
from tests.published.formulas.registry import BAR, LITRE, MM, P0, absolute, formula, hole


@formula
def critical_ratio(gamma: float) -> float:
    return orifice.critical_ratio(gamma)


@formula
def area_over_throat(mach: float) -> float:
    """A/A* of NACA 1135, by its pressure ratio at that Mach number and our flow function."""
    return orifice.flow_function(0.0) / orifice.flow_function((1.0 + 0.2 * mach**2) ** -3.5)


@formula
def pressure_at_area(area_ratio: float) -> float:
    """p/p0 of the subsonic branch at A/A*, by our flow function."""

    def miss(r: float) -> float:
        return orifice.flow_function(0.0) / orifice.flow_function(r) - area_ratio

    return crossing(miss, orifice.critical_ratio(), 0.9999)


@formula
def choking_gauge_bar(ambient_pa: float) -> float:
    return (leak.CHOKING_RISE - 1.0) * ambient_pa / BAR


@formula
def flow_function(r: float) -> float:
    return orifice.flow_function(r)


@formula
def relative_flow(r: float) -> float:
    return orifice.flow_function(r) / orifice.flow_function(0.0)


@formula
def orifice_g_per_s(cd: float, d_mm: float, bar_g: float) -> float:
    return 1000.0 * orifice.mass_flow(cd, orifice.hole_area(d_mm * MM), absolute(bar_g), P0, 293.15)


def normal_m3_per_s(kg_per_s: float) -> float:
    """Counted at 0 degC and 101 325 Pa."""
    return kg_per_s / engine_air.air_density(P0, 273.15)


@formula
def orifice_normal_l_per_min(cd: float, d_mm: float, bar_g: float) -> float:
    return 60_000.0 * normal_m3_per_s(orifice_g_per_s(cd, d_mm, bar_g) / 1000.0)


@formula
def mass_flux(p1: float, p2: float, T1: float) -> float:
    return orifice.mass_flow(1.0, 1.0, p1, p2, T1)


@formula
def iso6358_g_per_s(C: float, b: float, p1: float, p2: float, T1: float) -> float:
    return 1000.0 * reference.iso6358_choked(1.0e-8 * C, p1, T1) * orifice.iso6358_function(p2 / p1, b)


@formula
def iso6358_share(r: float, b: float) -> float:
    return orifice.iso6358_function(r, b)


@formula
def nozzle_conductance(area_mm2: float) -> float:
    """C by which an ISO 6358 part passes what our nozzle of that area passes, choked, in dm3/(s bar)."""
    ours = orifice.mass_flow(1.0, 1.0e-6 * area_mm2, BAR, 0.0, reference.ISO_TEMPERATURE)
    return ours / reference.iso6358_choked(1.0e-8, BAR, reference.ISO_TEMPERATURE)


@formula
def leak_rate(volume_l: float, fall_pa: float, t_s: float) -> float:
    """Our mass leak at one temperature, as the throughput that E 2930 counts."""
    lost = leak.mass_leak_rate(volume_l * LITRE, P0 + fall_pa, 293.15, P0, 293.15, t_s)
    return lost * air.GAS_CONSTANT * 293.15


@formula
def leak_mass_mg_per_s(volume_l: float, p1: float, T1: float, p2: float, T2: float, t_s: float) -> float:
    return 1.0e6 * leak.mass_leak_rate(volume_l * LITRE, p1, T1, p2, T2, t_s)


@formula
def leak_mol_per_s(volume_l: float, p1: float, T1: float, p2: float, T2: float, t_s: float) -> float:
    """Air that came in, as 40 CFR 1065 counts it."""
    return -leak.mass_leak_rate(volume_l * LITRE, p1, T1, p2, T2, t_s) / reference.MOLAR_MASS


@formula
def leak_cm3_per_min(volume_l: float, fall_pa: float, t_s: float, at_c: float) -> float:
    """By the mass lost at 293.15 K, as a volume at 101 325 Pa and a temperature."""
    lost = leak.mass_leak_rate(volume_l * LITRE, P0 + fall_pa, 293.15, P0, 293.15, t_s)
    return 60.0e6 * normal_m3_per_s(lost) * (at_c + 273.15) / 273.15


@formula
def rate_cm3_per_min(pa_m3_per_s: float, at_c: float) -> float:
    """A throughput at a temperature, as a volume flow at 101 325 Pa and the same temperature."""
    lost = leak.mass_leak_rate(1.0, P0 + pa_m3_per_s, at_c + 273.15, P0, at_c + 273.15, 1.0)
    return 60.0e6 * lost / engine_air.air_density(P0, at_c + 273.15)


@formula
def rate_cm3_per_min_counted(pa_m3_per_s: float, at_c: float) -> float:
    """A throughput at a temperature, counted as a volume at 0 degC and 101 325 Pa."""
    lost = leak.mass_leak_rate(1.0, P0 + pa_m3_per_s, at_c + 273.15, P0, at_c + 273.15, 1.0)
    return 60.0e6 * normal_m3_per_s(lost)


@formula
def thermal_change_pa(bar_g: float, T: float, dT: float) -> float:
    return leak.thermal_pressure_change(absolute(bar_g), T, dT)


@formula
def decay_time_s(volume_l: float, d_mm: float, from_bar: float, to_bar: float, model: Any) -> float:
    return leak.decay_time(
        volume_l * LITRE, hole(d_mm), absolute(from_bar), absolute(to_bar), P0, 293.15, model
    )


@formula
def pressure_after_bar(volume_l: float, d_mm: float, from_bar: float, t_s: float, model: Any) -> float:
    left = leak.pressure_after(volume_l * LITRE, hole(d_mm), absolute(from_bar), t_s, P0, 293.15, model)
    return (left - P0) / BAR


@formula
def hole_mm(volume_l: float, from_bar: float, to_bar: float, t_s: float, model: Any = "isothermal") -> float:
    ends = (absolute(from_bar), absolute(to_bar))
    area = leak.area_from_decay(volume_l * LITRE, 0.62, *ends, t_s, P0, 293.15, model)
    return leak.hole_diameter(area) / MM
