"""The readings of a job as the checks see them: numbers with their doubt, by JSON Pointer.

Doubts of readings that carry none are expanded (k = 2) and stand in the contract, 'Doubt of readings
that carry none'; here they are halved once, in `STANDARD`.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from math import hypot
from typing import Any

from calc.checks.gauge_pairs import Pair, disputed, gauge_pairs, in_dispute
from calc.physics.atmosphere import standard_pressure, station_pressure
from calc.uncertainty.decision import Limit
from calc.uncertainty.gauge import Pressure, read

STANDARD = {
    "travel_mm": 0.1,
    "play_mm": 0.01,
    "temperature_c": 1.0,
    "temperature_difference_c": 1.0,
    "coil_temperature_c": 2.5,
    "barometric_kpa": 0.15,
    "barometric_from_weather_kpa": 0.25,  # a report of whole hPa, and 20 m of height
    "barometric_from_altitude_kpa": 1.5,
    "barometric_assumed_kpa": 2.0,
    "sensor_boost_kpa": 0.75,
    "request_kpa": 0.5,
    "correction_kpa": 0.5,
    "share_pct": 0.5,
}
RELATIVE = {"coil": 0.01, "voltage": 0.005, "air_mass": 0.015, "volume": 0.05, "speed": 0.005}
COIL_OHM, VOLT = 0.1, 0.01  # added to the share of the reading, as a meter's sheet adds its digits
SEA_LEVEL_KPA = 101.3


def voltage_doubt(volts: float) -> float:
    """Standard uncertainty of a voltage. [V]"""
    return RELATIVE["voltage"] * abs(volts) + VOLT


def coil_doubt(ohm: float) -> float:
    """Standard uncertainty of a coil's resistance. [ohm]"""
    return RELATIVE["coil"] * abs(ohm) + COIL_OHM


@dataclass(frozen=True, slots=True)
class Value:
    """A number with its standard uncertainty and the place it was read from."""

    value: float
    uncertainty: float
    pointer: str


@dataclass(frozen=True, slots=True)
class Absolute:
    """A gauge reading made absolute. It has no arithmetic with `Pressure`, so the two cannot be mixed up.

    value : absolute pressure. [kPa]
    own, shared : standard uncertainty of the one reading, and of what all readings of its gauge share. [kPa]
    outside : standard uncertainty of the air around the car. [kPa]
    known, gauge : as for the gauge reading.
    """

    value: float
    own: float
    shared: float
    outside: float
    known: bool
    gauge: str | None

    @property
    def uncertainty(self) -> float:
        """Combined standard uncertainty. [kPa]"""
        return hypot(self.own, self.shared, self.outside)

    @property
    def alone(self) -> float:
        """Standard uncertainty without what all readings of the gauge share. [kPa]"""
        return hypot(self.own, self.outside)


@dataclass(frozen=True, slots=True)
class Kind:
    """What boost control this car has, with the contract's defaults."""

    device: str
    actuator: str
    arrangement: str
    more_duty: str | None

    @property
    def vacuum(self) -> bool:
        """Whether the actuator is held by vacuum: pressures negative, deeper means more boost."""
        return self.actuator == "vacuum"

    @property
    def unplugged_raises_boost(self) -> bool | None:
        """Where boost goes when the solenoid is dead; None where the car's duty effect is unknown."""
        if self.more_duty is None:
            return None
        return self.more_duty == "lowers_boost"

    def towards_more_boost(self, duty_pct: float) -> float | None:
        """A duty counted towards more boost, 0 to 100; None where the car's duty effect is unknown. [%]"""
        if self.more_duty is None:
            return None
        return duty_pct if self.more_duty == "raises_boost" else 100.0 - duty_pct

    def vent_share(self, duty_pct: float) -> float | None:
        """Share of the period in which the actuator's line is open to the vent, 0 to 1; None: unknown."""
        lean = self.towards_more_boost(duty_pct)
        if lean is None:
            return None
        return min(1.0, max(0.0, (100.0 - lean if self.vacuum else lean) / 100.0))


class Evidence:
    """One job, read by path. Absent and null are the same: None."""

    def __init__(self, job: Mapping[str, Any]) -> None:
        self.job = job
        self.worked_out: dict[str, Any] = {}  # what several checks need, worked out once, by place

    def get(self, pointer: str) -> Any:
        """The value at a pointer such as `/tests/actuator/hold`, or None."""
        found: Any = self.job
        for key in pointer.split("/")[1:]:
            if isinstance(found, Mapping):
                found = found.get(key)
            elif isinstance(found, list) and key.isdigit() and int(key) < len(found):
                found = found[int(key)]
            else:
                return None
        return found

    def number(self, pointer: str) -> float | None:
        """The number at a pointer, or None."""
        found = self.get(pointer)
        return None if found is None else float(found)

    def items(self, pointer: str) -> Iterator[tuple[str, Mapping[str, Any]]]:
        """Each item of a list with its own pointer, empty places passed over."""
        for index, item in enumerate(self.get(pointer) or ()):
            if item is not None:
                yield f"{pointer}/{index}", item

    def limit(self, name: str) -> Limit | None:
        """A limit typed into `spec`, or None where it has no end."""
        ends = self.get(f"/spec/{name}") or {}
        low, high = ends.get("min"), ends.get("max")
        return None if low is None and high is None else Limit(low, high)

    @cached_property
    def gauges(self) -> dict[str, Mapping[str, Any]]:
        """The job's gauges by their id."""
        return {item["id"]: item for _, item in self.items("/gauges") if item.get("id") is not None}

    def pressure(self, p_kpa: float, gauge: str | None) -> Pressure:
        """A pressure with the doubt of the gauge named, more where another gauge contradicts it."""
        found = read(float(p_kpa), self.gauges.get(gauge) if gauge is not None else None)
        apart = None if gauge is None else self.disputed.get(gauge)
        return found if apart is None else in_dispute(found, apart)

    @cached_property
    def compared(self) -> list[Pair]:
        """Comparisons of two of the job's gauges at one pressure."""
        return gauge_pairs(self.job, self.gauges)

    @cached_property
    def disputed(self) -> dict[str, float]:
        """The gauges that another one contradicts, with the distance. [kPa]"""
        return disputed(self.compared)

    def absolute(self, gauge: Pressure) -> Absolute:
        """A gauge reading made absolute: here, once, and nowhere else."""
        air = self.barometric
        return Absolute(
            gauge.value + air.value, gauge.own, gauge.shared, air.uncertainty, gauge.known, gauge.gauge
        )

    def above_the_air(self, absolute_kpa: float) -> float:
        """An absolute pressure of the car's own, as a gauge would show it: the way back, once. [kPa]"""
        return absolute_kpa - self.barometric.value

    def test_pressure(self, test: str, key: str) -> Pressure | None:
        """A pressure of a test, read with that test's gauge."""
        found = self.number(f"/tests/{test}/{key}")
        return None if found is None else self.pressure(found, self.get(f"/tests/{test}/gauge"))

    @cached_property
    def barometric(self) -> Value:
        """Absolute pressure of the air around the car, never taken from the sensor under test. [kPa]"""
        typed = self.number("/site/barometric_kpa_abs")
        if typed is not None:
            return Value(typed, STANDARD["barometric_kpa"], "/site/barometric_kpa_abs")
        altitude, reported = self.number("/site/altitude_m"), self.number("/site/sea_level_kpa_abs")
        if altitude is None or not -500.0 <= altitude <= 9_000.0:
            return Value(SEA_LEVEL_KPA, STANDARD["barometric_assumed_kpa"], "")
        if reported is not None and 85.0 <= reported <= 110.0:
            pressure = station_pressure(reported * 1000.0, altitude) / 1000.0
            return Value(pressure, STANDARD["barometric_from_weather_kpa"], "/site/sea_level_kpa_abs")
        pressure = standard_pressure(altitude) / 1000.0
        return Value(pressure, STANDARD["barometric_from_altitude_kpa"], "/site/altitude_m")

    @cached_property
    def kind(self) -> Kind:
        """The boost control of this car; a pressure wastegate where nothing is said."""
        said = self.get("/boost_control") or {}
        return Kind(
            device=said.get("device") or "wastegate",
            actuator=said.get("actuator") or "pressure",
            arrangement=said.get("arrangement") or "unknown",
            more_duty=said.get("more_duty"),
        )
