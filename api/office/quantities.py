"""The limits that the library holds: the contract's keys of `spec`, in the words of the trade."""

from dataclasses import dataclass
from decimal import Decimal, InvalidOperation

import calc

# A car's limits have a few digits; more is a slip of the keyboard.
LONGEST_NUMBER = 12


@dataclass(frozen=True)
class Quantity:
    """One key of `spec`: its name, its unit, and whether it is one number in place of a limit."""

    key: str
    title: str
    unit: str
    single: bool = False


QUANTITIES = (
    Quantity("actuator_start_kpa", "Actuator: first movement", "kPa"),
    Quantity("actuator_full_kpa", "Actuator: full travel", "kPa"),
    Quantity("actuator_travel_mm", "Actuator: travel of the rod", "mm"),
    Quantity("actuator_hold_loss_kpa_per_min", "Actuator: loss while held", "kPa/min"),
    Quantity("rod_thread_pitch_mm", "Actuator: pitch of the rod's thread", "mm", single=True),
    Quantity("solenoid_coil_ohm_20c", "Solenoid: coil at 20 °C", "Ω"),
    Quantity("vacuum_supply_kpa", "Vacuum supply", "kPa"),
    Quantity("bypass_hold_kpa", "Bypass valve: holds up to", "kPa"),
    Quantity("base_boost_kpa", "Base boost", "kPa"),
    Quantity("boost_specified_peak_kpa_abs", "Highest boost aimed at, absolute", "kPa"),
    Quantity("boost_tolerance_kpa", "Boost: tolerance", "kPa", single=True),
    Quantity("charge_leak_hole_mm", "Charge circuit: hole of the same loss", "mm"),
    Quantity("volumetric_efficiency", "Volumetric efficiency", "1"),
    Quantity("intake_depression_kpa", "Intake depression", "kPa"),
    Quantity("exhaust_back_pressure_kpa", "Exhaust back pressure", "kPa"),
    Quantity("cooler_drop_kpa", "Pressure lost in the cooler", "kPa"),
    Quantity("shaft_radial_play_mm", "Shaft: radial play", "mm"),
    Quantity("shaft_axial_play_mm", "Shaft: axial play", "mm"),
)
BY_KEY = {quantity.key: quantity for quantity in QUANTITIES}


def number(text: str) -> Decimal | None:
    """The number typed, exact; None where nothing was. A decimal comma is read as a point.

    Raises
    ------
    ValueError
        what was typed is no number, or none of this length
    """
    plain = text.strip().replace(",", ".")
    if not plain:
        return None
    try:
        value = Decimal(plain)
    except InvalidOperation:
        raise ValueError(f"{text!r} is not a number") from None
    if not value.is_finite() or len(plain) > LONGEST_NUMBER or "e" in plain.lower():
        raise ValueError(f"{text!r} is not a number of at most {LONGEST_NUMBER} digits")
    return value


def check(key: str, least: str, most: str) -> tuple[str | None, str | None]:
    """The two ends as they are kept, once the contract takes them as this quantity's limit.

    Raises
    ------
    ValueError
        an unknown quantity, no number, no end at all, or ends the wrong way round
    """
    if key not in BY_KEY:
        raise ValueError(f"{key!r} is no quantity that the library holds")
    ends = {"min": number(least), "max": number(most)}
    typed = {end: value for end, value in ends.items() if value is not None}
    if not typed:
        raise ValueError("a limit has at least one end")
    try:
        calc.check_place(f"/spec/{key}", value_of(BY_KEY[key], *ends.values()))
    except calc.BrokenPlace as broken:
        raise ValueError(str(broken)) from None
    return _text(ends["min"]), _text(ends["max"])


def value_of(quantity: Quantity, least: Decimal | None, most: Decimal | None) -> object:
    """The limit as a job's `spec` holds it."""
    if quantity.single:
        only = least if least is not None else most
        return None if only is None else float(only)
    return {end: float(value) for end, value in (("min", least), ("max", most)) if value is not None}


def _text(value: Decimal | None) -> str | None:
    return None if value is None else f"{value:f}"
