"""Compressor and cooler by their temperatures, where these were read at full load beside the pressures."""

from dataclasses import dataclass

from calc.checks.evidence import STANDARD, Evidence
from calc.errors import OutOfRange
from calc.physics.compressor import cooler_effectiveness, isentropic_efficiency, pressure_ratio
from calc.physics.units import kelvin
from calc.uncertainty.propagation import propagate

TEST = "/tests/cooler_drop"


@dataclass(frozen=True, slots=True)
class Share:
    """A share with its U; `value` is None where the formula refuses: above 1, or no rise at all."""

    name: str
    value: float | None
    expanded: float | None


def shares(evidence: Evidence) -> list[Share]:
    """Effectiveness of the cooler and isentropic efficiency of the compressor, as far as they were read."""
    found = (_cooler(evidence), _compressor(evidence))
    return [share for share in found if share is not None]


def _cooler(evidence: Evidence) -> Share | None:
    hot, cooled = evidence.number(f"{TEST}/before_c"), evidence.number(f"{TEST}/after_c")
    outside = evidence.number("/site/ambient_c")
    if hot is None or cooled is None or outside is None:
        return None

    def effectiveness(hot: float, cooled: float, outside: float) -> float:
        return cooler_effectiveness(kelvin(hot), kelvin(cooled), kelvin(outside))

    values = {"hot": hot, "cooled": cooled, "outside": outside}
    try:
        value = effectiveness(**values)
        return Share(
            "cooler_effectiveness",
            value,
            2.0 * propagate(effectiveness, values, dict.fromkeys(values, STANDARD["temperature_c"])),
        )
    except OutOfRange:
        return Share("cooler_effectiveness", None, None)


def _compressor(evidence: Evidence) -> Share | None:
    cold, hot = evidence.number(f"{TEST}/inlet_c"), evidence.number(f"{TEST}/before_c")
    before = evidence.test_pressure("cooler_drop", "before_kpa")
    if cold is None:
        cold = evidence.number("/site/ambient_c")
    if cold is None or hot is None or before is None:
        return None
    outside = evidence.barometric
    depression = evidence.test_pressure("intake_depression", "p_kpa")

    def efficiency(p1: float, p2: float, cold: float, hot: float) -> float:
        return isentropic_efficiency(pressure_ratio(p1 * 1e3, p2 * 1e3), kelvin(cold), kelvin(hot))

    values = {
        "p1": outside.value if depression is None else evidence.absolute(depression).value,
        "p2": evidence.absolute(before).value,
        "cold": cold,
        "hot": hot,
    }
    doubts = {
        "p1": outside.uncertainty,
        "p2": before.uncertainty,
        **dict.fromkeys(("cold", "hot"), STANDARD["temperature_c"]),
    }
    try:
        return Share(
            "compressor_efficiency", efficiency(**values), 2.0 * propagate(efficiency, values, doubts)
        )
    except OutOfRange:
        return Share("compressor_efficiency", None, None)
