"""The decay test told ahead: what its air can do to somebody, and how long it has to be watched."""

from dataclasses import dataclass
from math import ceil, hypot

from calc.checks.evidence import STANDARD, Evidence
from calc.checks.instruments import ONE_SIDED
from calc.checks.tightness import DISCHARGE_COEFFICIENT, air_temperature, circuit_volume, decay_readings
from calc.errors import OutOfRange
from calc.physics.air import STANDARD_GRAVITY
from calc.physics.leak import decay_time, pressure_after, thermal_pressure_change
from calc.physics.orifice import hole_area
from calc.physics.stored_energy import isentropic_energy, plug_force
from calc.physics.units import kelvin
from calc.uncertainty.gauge import Pressure

USUAL_TEST_KPA, PLUG_MM = 50.0, 60.0  # where nothing was read; common practice, no source
FALLING_KG = 10.0  # the weight that makes an energy plain


@dataclass(frozen=True, slots=True)
class Stored:
    """What the air of the test pushes and holds; energy and height None where no volume is known.

    kpa : the highest pressure read, else the usual one. [kPa gauge]
    force : on a plug of `PLUG_MM`. [N]
    weight : what weighs as much. [kg]
    litres, joules : volume, and the work of its sudden expansion. [l, J]
    height : from which `FALLING_KG` would have to fall for as much. [m]
    """

    kpa: float
    force: float
    weight: float
    litres: float | None = None
    joules: float | None = None
    height: float | None = None


def stored(evidence: Evidence) -> Stored:
    """Force on a plug and energy of the circuit at the pressure of the test."""
    kpa = max((read.value for _, _, read in decay_readings(evidence)), default=USUAL_TEST_KPA)
    kpa = min(max(kpa, 0.0), 1.0e3)
    force = plug_force(PLUG_MM / 1e3, kpa * 1e3)
    weight, volume, outside = force / STANDARD_GRAVITY, circuit_volume(evidence), evidence.barometric.value
    if volume is None:
        return Stored(kpa, force, weight)
    try:
        joules = isentropic_energy(volume.value / 1e3, (kpa + outside) * 1e3, outside * 1e3)
    except OutOfRange:
        return Stored(kpa, force, weight)
    return Stored(kpa, force, weight, volume.value, joules, joules / (FALLING_KG * STANDARD_GRAVITY))


@dataclass(frozen=True, slots=True)
class Watch:
    """How a hole as large as the limit would show.

    limit_mm : that hole. [mm]
    needed : how long to watch at least, until that hole stands out of gauge and temperature. [whole s]
    seconds : between the first reading and the last, or None while there is one only. [s]
    left_kpa : what a hole at the limit leaves after `seconds`, else after `needed`. [kPa gauge]
    """

    limit_mm: float
    needed: int
    seconds: float | None
    left_kpa: float

    @property
    def too_short(self) -> bool:
        """Whether the test ended before a hole at the limit could stand out."""
        return self.seconds is not None and self.seconds < self.needed


def watch(evidence: Evidence) -> Watch | None:
    """From the first reading on, how long to wait; None without a limit, a volume or a gauge that is known.

    A hole at the limit stands out once it takes more off than two readings and a degree of warming or
    cooling between them leave in doubt, one-sided at 95 % (JCGM 106); one gauge's class cancels in it.
    """
    read, volume = decay_readings(evidence), circuit_volume(evidence)
    limit = evidence.limit("charge_leak_hole_mm")
    if not read or volume is None or limit is None or not limit.high or not read[0][2].known:
        return None
    first, seconds = read[0][2], read[-1][0] - read[0][0] if len(read) > 1 else None
    ambient, temperature = evidence.barometric.value * 1e3, kelvin(air_temperature(evidence))
    start, outside = first.value * 1e3 + ambient, (ambient, temperature)
    try:
        vessel = (volume.value / 1e3, DISCHARGE_COEFFICIENT * hole_area(limit.high / 1e3))
        needed = ceil(decay_time(*vessel, start, start - _seen(first, start, temperature), *outside))
        left = pressure_after(*vessel, start, needed if seconds is None else seconds, *outside)
    except OutOfRange:
        return None
    return Watch(limit.high, needed, seconds, (left - ambient) / 1e3)


def _seen(first: Pressure, start: float, temperature: float) -> float:
    """The fall that stands out of the doubt of two readings and of the temperature between them. [Pa]"""
    warming = thermal_pressure_change(start, temperature, STANDARD["temperature_difference_c"])
    return ONE_SIDED * hypot(first.own * 1e3, first.own * 1e3, warming)
