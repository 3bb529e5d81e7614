"""What the complaint says before anything is measured: symptoms and codes weigh a little, never decide.

A symptom makes a fault at most half as likely again, a code at most twice, all together at most three times.
Factors: common practice, no source. Codes by SAE J2012, as public
lists give them; a code names a failed monitor, not a failed part.
"""

from collections.abc import Iterable, Iterator, Mapping

from calc.checks.evidence import Evidence, Kind
from calc.faults.model import Fault, Picture

SYMPTOM, CODE, TOGETHER = 1.5, 2.0, 3.0
MOSTLY, NO_RARITY = 0.5, 0.2
# Of complaints that the technician felt too: of a car with nothing wrong, against one with something wrong.
FELT_FOR_NOTHING = 0.7

TOO_MUCH, TOO_LITTLE = ("boost too high",), ("boost too low",)  # whatever makes it so on this kind of car
CIRCUIT, FEED = ("solenoid_circuit_fault",), ("sensor_feed_fault",)
SENSOR = ("charge_pressure_reads_high", "charge_pressure_reads_low", *FEED)
AIR_MASS = ("air_mass_reads_low", "air_mass_reads_high")
CONTROL = ("solenoid_passes_all", "solenoid_vents_all", "control_line_blocked", "control_line_leak")
POSITION = ("actuator_motor_fault", "vanes_sticking")
TEMPERATURE, PEDAL = ("temperature_or_barometric_wrong",), ("pedal_signal_low", *FEED)

BY_SYMPTOM: Mapping[str, tuple[str, ...]] = {
    "boost_cut": TOO_MUCH,
    "hiss": ("charge_air_leak", "exhaust_leak_before_turbine", "bypass_valve_not_closing"),
    "whistle": ("charge_air_leak", "turbocharger_worn"),
    "whine": ("turbocharger_worn",),
    "blue_smoke": ("turbocharger_worn",),
    "black_smoke": ("charge_air_leak", "air_mass_reads_high", "egr_not_closing", "intake_restriction"),
    "slow_response": (
        "wastegate_not_closing",
        "actuator_opens_early",
        "vanes_sticking",
        "exhaust_restriction",
    ),
    "hunting": ("vanes_sticking", "control_line_blocked"),
    "high_fuel_use": ("air_mass_reads_high", "exhaust_restriction"),
    "hot_only": ("charge_air_leak", "limit_in_force"),
}
BY_CODE: Mapping[str, tuple[str, ...]] = {
    **dict.fromkeys(("P0234", "P02CA"), TOO_MUCH),
    **dict.fromkeys(("P0299", "P02CB", "P2262"), TOO_LITTLE),
    **dict.fromkeys(
        ("P0045", "P0047", "P0048", "P0243", "P0245", "P0246", "P0247", "P0249", "P0250"), CIRCUIT
    ),
    **dict.fromkeys(("P0046", "P0244", "P0248", "P2263"), CONTROL),
    **dict.fromkeys(("P0033", "P0034", "P0035", "P2261"), ("bypass_valve_not_closing",)),
    **dict.fromkeys(
        ("P0105", "P0106", "P0107", "P0108", "P0235", "P0236", "P0237", "P0238", "P0069"), SENSOR
    ),
    **dict.fromkeys(("P0100", "P0101", "P0102", "P0103", "P0104", "P0068", "P006A"), AIR_MASS),
    **dict.fromkeys(("P0110", "P0111", "P0112", "P0113", "P0114", "P0095", "P0096", "P0097"), TEMPERATURE),
    **dict.fromkeys(("P0098", "P007A", "P007B", "P007C", "P007D", "P2226", "P2227", "P2228"), TEMPERATURE),
    **dict.fromkeys(("P0116", "P0117", "P0118"), TEMPERATURE),  # engine coolant; from memory
    **dict.fromkeys(("P0641", "P0642", "P0643", "P0651"), FEED),  # sensor reference voltage; from memory
    **dict.fromkeys(("P2122", "P2123", "P2127", "P2128", "P2138"), PEDAL),  # pedal position; from memory
    **dict.fromkeys(("P0401", "P0402", "P0404", "P0406"), ("egr_not_closing",)),  # from memory
    **dict.fromkeys(("P2002", "P2452", "P2463"), ("exhaust_restriction",)),  # particulate filter; from memory
    **dict.fromkeys(("P00AF", "P2562", "P2563", "P2564", "P2565", "P2566"), POSITION),
    **dict.fromkeys(("P0638",), ("throttle_not_opening",)),
    **dict.fromkeys(("P2280",), ("intake_restriction",)),
    **dict.fromkeys(("P0087", "P0300", "P0301", "P0302", "P0303", "P0304"), ("engine_output_low",)),  # memory
}


def complaint_weight(fault: Fault, evidence: Evidence) -> float:
    """How many times likelier the complaint makes a fault. [-]"""
    names = {fault.name, *_ways(fault, evidence.kind)}
    symptoms = _named(names, BY_SYMPTOM, evidence.get("/complaint/symptoms"))
    codes = _named(names, BY_CODE, (str(code)[:5].upper() for code in evidence.get("/complaint/codes") or ()))
    return min(TOGETHER, (SYMPTOM if symptoms else 1.0) * (CODE if codes else 1.0))


def reproduced_weight(fault: Fault, evidence: Evidence) -> float:
    """How many times likelier it is that the complaint was reproduced; not reproduced says nothing. [-]"""
    return FELT_FOR_NOTHING if was_felt(evidence) and fault.name == "no_fault_found" else 1.0


def was_felt(evidence: Evidence) -> bool:
    """Whether the technician felt the complaint too."""
    return evidence.get("/complaint/reproduced") is True


def _ways(fault: Fault, kind: Kind) -> Iterator[str]:
    """Which way the fault moves boost on this kind of car, by its own pictures of the road."""
    shown = [picture.shows["road_real_boost"] for picture in _marked(fault, kind)]
    if any(spread.high > MOSTLY for spread in shown):
        yield from TOO_MUCH
    if any(spread.low > MOSTLY for spread in shown):
        yield from TOO_LITTLE


def _marked(fault: Fault, kind: Kind) -> list[Picture]:
    """The pictures that are no rarity and show real boost."""
    if fault.name == "other_cause":
        return []
    return [p for p in fault.on_road(kind) if p.share >= NO_RARITY and "road_real_boost" in p.shows]


def _named(names: set[str], table: Mapping[str, tuple[str, ...]], words: Iterable[str] | None) -> bool:
    return any(not names.isdisjoint(table.get(word, ())) for word in words or ())
