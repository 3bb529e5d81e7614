"""Water vapour in the air: what the engine swallows is thinner for it, and less of it is dry air.

The share of vapour that the air outside holds stays the same through compressor and cooler, as long as no
water falls out of it there.
"""

from dataclasses import dataclass

from calc.checks.evidence import Evidence
from calc.errors import OutOfRange
from calc.physics.engine_air import air_density, humid_air_density, humidity_ratio, vapour_pressure
from calc.physics.units import kelvin

COLDEST_C, HOTTEST_C = -40.0, 60.0


@dataclass(frozen=True, slots=True)
class Humid:
    """Vapour pressure outside [Pa], kilograms of water a kilogram of dry air, and the dry share by mass."""

    vapour: float
    ratio: float

    @property
    def dry_share(self) -> float:
        """Dry air in what the air mass sensor weighs, 0 to 1."""
        return 1.0 / (1.0 + self.ratio)


def humid_air(evidence: Evidence) -> Humid | None:
    """The air outside, by its relative humidity and temperature; None where either was not given."""
    relative, celsius = evidence.number("/site/humidity_pct"), evidence.number("/site/ambient_c")
    if relative is None or celsius is None or not COLDEST_C <= celsius <= HOTTEST_C:
        return None
    try:
        vapour = vapour_pressure(relative / 100.0, kelvin(celsius))
        return Humid(vapour, humidity_ratio(evidence.barometric.value * 1e3, vapour))
    except OutOfRange:
        return None


def thinner(evidence: Evidence, p_kpa: float, T: float) -> float:
    """Density of the charge over that of dry air at this pressure [kPa] and temperature [K]; 1: not known."""
    humid = humid_air(evidence)
    if humid is None:
        return 1.0
    p = p_kpa * 1e3
    vapour = humid.vapour * p_kpa / evidence.barometric.value
    return humid_air_density(p, T, vapour) / air_density(p, T)
