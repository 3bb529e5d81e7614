"""Atmosphere and units."""

from calc.physics import atmosphere, compressor, engine_air, units
from tests.published.formulas.registry import BAR, formula


@formula
def standard_pressure(h_m: float) -> float:
    return atmosphere.standard_pressure(h_m)


@formula
def standard_pressure_geometric(h_m: float) -> float:
    return atmosphere.standard_pressure(atmosphere.geopotential_height(h_m))


@formula
def standard_temperature_geometric(h_m: float) -> float:
    return atmosphere.standard_temperature(atmosphere.geopotential_height(h_m))


@formula
def standard_density_geometric(h_m: float) -> float:
    return engine_air.air_density(standard_pressure_geometric(h_m), standard_temperature_geometric(h_m))


@formula
def station_pressure_hpa(qnh_hpa: float, h_m: float) -> float:
    return atmosphere.station_pressure(100.0 * qnh_hpa, h_m) / 100.0


@formula
def absolute_kpa(gauge_bar: float, baro_kpa: float) -> float:
    return units.to_absolute(gauge_bar * BAR, 1000.0 * baro_kpa) / 1000.0


@formula
def gauge_bar(absolute_kpa: float, baro_kpa: float) -> float:
    return units.to_gauge(1000.0 * absolute_kpa, 1000.0 * baro_kpa) / BAR


@formula
def pressure_ratio(before_kpa: float, after_kpa: float) -> float:
    return compressor.pressure_ratio(1000.0 * before_kpa, 1000.0 * after_kpa)


@formula
def convert(value: float, unit: str, to: str) -> float:
    return units.convert(value, unit.replace("_", " "), to.replace("_", " "))
