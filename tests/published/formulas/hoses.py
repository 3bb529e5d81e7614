"""Speed of sound, viscosity, hose."""

from calc.physics import air_properties, hose, units
from tests.published.formulas.registry import BAR, MM, formula


@formula
def sound_m_per_s(t_c: float) -> float:
    return air_properties.speed_of_sound(units.kelvin(t_c))


@formula
def viscosity_1e5(t_c: float) -> float:
    return 1.0e5 * air_properties.viscosity(units.kelvin(t_c))


@formula
def delay_ms(m: float) -> float:
    return 1000.0 * hose.acoustic_delay(m, 293.15)


@formula
def quarter_wave_hz(m: float) -> float:
    """The resonance of a hose that ends in next to nothing."""
    return hose.resonance_frequency(m, 4.0 * MM, 1.0e-12, 293.15)


@formula
def resonance_hz(m: float, d_mm: float, ml: float) -> float:
    return hose.resonance_frequency(m, d_mm * MM, 1.0e-6 * ml, 293.15)


@formula
def flow_resistance(m: float, d_mm: float) -> float:
    return hose.flow_resistance(m, d_mm * MM, 293.15)


@formula
def hose_ml(m: float, d_mm: float) -> float:
    return 1.0e6 * hose.hose_volume(m, d_mm * MM)


@formula
def tau_ms(m: float, d_mm: float, ml: float, share: float) -> float:
    return 1000.0 * hose.filling_time_constant(m, d_mm * MM, 1.0e-6 * ml, 200_000.0, 293.15, share)


@formula
def reynolds(m: float, d_mm: float, ml: float, bar_per_s: float) -> float:
    volume = 1.0e-6 * ml + hose.hose_volume(m, d_mm * MM)  # all that passes the mouth of the hose
    return hose.filling_reynolds(d_mm * MM, volume, bar_per_s * BAR, 293.15)
