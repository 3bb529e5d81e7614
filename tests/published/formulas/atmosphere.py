"""Atmosphere and units."""

from calc.checks.evidence import Evidence
from calc.physics import atmosphere, compressor, engine_air, units
from tests.published import reference
from tests.published.formulas.registry import BAR, formula


@formula
def standard_pressure(h_m: float) -> float:
    return atmosphere.standard_pressure(h_m)


@formula
def standard_pressure_geometric(h_m: float) -> float:
    return atmosphere.standard_pressure(reference.geopotential_height(h_m))


@formula
def standard_temperature_geometric(h_m: float) -> float:
    return atmosphere.standard_temperature(reference.geopotential_height(h_m))


@formula
def standard_density_geometric(h_m: float) -> float:
    return engine_air.air_density(standard_pressure_geometric(h_m), standard_temperature_geometric(h_m))


@formula
def station_pressure_hpa(qnh_hpa: float, h_m: float) -> float:
    return atmosphere.station_pressure(100.0 * qnh_hpa, h_m) / 100.0


def at(baro_kpa: float) -> Evidence:
    """A job where the barometer stands so: the one place at which a pressure is made absolute."""
    return Evidence({"site": {"barometric_kpa_abs": baro_kpa}})


@formula
def absolute_kpa(gauge_bar: float, baro_kpa: float) -> float:
    site = at(baro_kpa)
    return site.absolute(site.pressure(gauge_bar * BAR / 1000.0, None)).value


@formula
def gauge_bar(absolute_kpa: float, baro_kpa: float) -> float:
    return at(baro_kpa).above_the_air(absolute_kpa) * 1000.0 / BAR


@formula
def pressure_ratio(before_kpa: float, after_kpa: float) -> float:
    return compressor.pressure_ratio(1000.0 * before_kpa, 1000.0 * after_kpa)


@formula
def convert(value: float, unit: str, to: str) -> float:
    return units.convert(value, unit.replace("_", " "), to.replace("_", " "))
