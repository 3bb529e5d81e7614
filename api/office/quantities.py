"""The limits that the library holds: the contract's keys of `spec`, by their names in the catalogue."""

from dataclasses import dataclass
from decimal import Decimal, InvalidOperation

import calc
from api.people.language import language, tell

# A car's limits have a few digits; more is a slip of the keyboard.
LONGEST_NUMBER = 12


@dataclass(frozen=True)
class Quantity:
    """One key of `spec`: its name, its unit, and whether it is one number in place of a limit."""

    key: str
    unit: str
    single: bool = False

    @property
    def title(self) -> str:
        """The name of its title in the catalogue."""
        return f"spec.{self.key}"


QUANTITIES = (
    Quantity("actuator_start_kpa", "kPa"),
    Quantity("actuator_full_kpa", "kPa"),
    Quantity("actuator_travel_mm", "mm"),
    Quantity("actuator_hold_loss_kpa_per_min", "kPa/min"),
    Quantity("rod_thread_pitch_mm", "mm", single=True),
    Quantity("solenoid_coil_ohm_20c", "Ω"),
    Quantity("vacuum_supply_kpa", "kPa"),
    Quantity("bypass_hold_kpa", "kPa"),
    Quantity("base_boost_kpa", "kPa"),
    Quantity("boost_specified_peak_kpa_abs", "kPa"),
    Quantity("boost_tolerance_kpa", "kPa", single=True),
    Quantity("charge_leak_hole_mm", "mm"),
    Quantity("volumetric_efficiency", "1"),
    Quantity("intake_depression_kpa", "kPa"),
    Quantity("exhaust_back_pressure_kpa", "kPa"),
    Quantity("cooler_drop_kpa", "kPa"),
    Quantity("shaft_radial_play_mm", "mm"),
    Quantity("shaft_axial_play_mm", "mm"),
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
        raise ValueError(tell("limits.not_a_number", text=repr(text))) from None
    if not value.is_finite() or len(plain) > LONGEST_NUMBER or "e" in plain.lower():
        raise ValueError(tell("limits.long_number", text=repr(text), digits=LONGEST_NUMBER))
    return value


def check(key: str, least: str, most: str) -> tuple[str | None, str | None]:
    """The two ends as they are kept, once the contract takes them as this quantity's limit.

    Raises
    ------
    ValueError
        an unknown quantity, no number, no end at all, or ends the wrong way round
    """
    if key not in BY_KEY:
        raise ValueError(tell("limits.unknown", key=repr(key)))
    ends = {"min": number(least), "max": number(most)}
    typed = {end: value for end, value in ends.items() if value is not None}
    if not typed:
        raise ValueError(tell("limits.no_end"))
    try:
        calc.check_place(f"/spec/{key}", value_of(BY_KEY[key], *ends.values()))
    except calc.BrokenPlace as broken:
        raise ValueError(tell("limits.broken", reason=calc.told_broken(str(broken), language()))) from None
    return _text(ends["min"]), _text(ends["max"])


def value_of(quantity: Quantity, least: Decimal | None, most: Decimal | None) -> object:
    """The limit as a job's `spec` holds it."""
    if quantity.single:
        only = least if least is not None else most
        return None if only is None else float(only)
    return {end: float(value) for end, value in (("min", least), ("max", most)) if value is not None}


def _text(value: Decimal | None) -> str | None:
    return None if value is None else f"{value:f}"
