"""Actuator and its sweep, solenoid."""

import math

from calc.physics import actuator, orifice, solenoid
from calc.signals.breakpoint import fit_breakpoint
from tests.published.formulas.registry import BAR, MM, P0, absolute, formula

SWEEP_P = [round(0.2 + 0.1 * step, 1) for step in range(19)]
SWEEP_X = [0.00, 0.03, -0.02, 0.01, -0.03, 0.02, 0.00, -0.01, 0.53, 1.48,
           2.54, 3.47, 4.52, 5.46, 6.53, 7.51, 8.48, 9.52, 10.49]  # fmt: skip


@formula
def opening_bar(f0_n: float, k_n_per_mm: float, x_mm: float, dia_mm: float) -> float:
    area = orifice.hole_area(dia_mm * MM)
    return actuator.opening_pressure(f0_n, 1000.0 * k_n_per_mm, x_mm * MM, area) / BAR


@formula
def rate_bar_per_mm(k_n_per_mm: float, dia_mm: float) -> float:
    """Further pressure for a further millimetre."""
    return opening_bar(0.0, k_n_per_mm, 1.0, dia_mm)


@formula
def turns(error_bar: float, mm_per_bar: float, pitch_mm: float) -> float:
    return actuator.rod_turns(error_bar * BAR, mm_per_bar * MM / BAR, pitch_mm * MM)


@formula
def effective_area_m2(piston_mm: float, housing_mm: float) -> float:
    return actuator.effective_area(piston_mm * MM, housing_mm * MM)


@formula
def crank_arc_mm(r_mm: float, deg: float) -> float:
    return actuator.crank_arc(r_mm * MM, math.radians(deg)) / MM


@formula
def crank_chord_mm(r_mm: float, deg: float) -> float:
    return actuator.crank_chord(r_mm * MM, math.radians(deg)) / MM


@formula
def sweep_fit(part: str) -> float:
    return float(getattr(fit_breakpoint(SWEEP_P, SWEEP_X), part))


@formula
def coil_at(r20: float, t_c: float) -> float:
    return solenoid.resistance_at(r20, t_c)


@formula
def coil_at_20c(r: float, t_c: float) -> float:
    return solenoid.resistance_at_20c(r, t_c)


@formula
def coil_temperature(r20: float, r: float) -> float:
    return solenoid.coil_temperature(r20, r)


@formula
def coil_current(volt: float, r: float, duty: float) -> float:
    return solenoid.mean_current(volt, r, duty)


@formula
def ripple_low(volt: float, r: float, mh: float, hz: float, duty: float) -> float:
    return solenoid.current_ripple(volt, r, mh / 1000.0, hz, duty)[0]


@formula
def ripple_high(volt: float, r: float, mh: float, hz: float, duty: float) -> float:
    return solenoid.current_ripple(volt, r, mh / 1000.0, hz, duty)[1]


@formula
def duty_pct(on_ms: float, period_ms: float) -> float:
    return 100.0 * solenoid.duty_from_times(on_ms / 1000.0, period_ms / 1000.0)


@formula
def duty_by_voltage_pct(mean_v: float, supply_v: float) -> float:
    return 100.0 * solenoid.duty_from_mean_voltage(mean_v, supply_v)


@formula
def control_bar(ratio: float, supply_bar: float, b: float | str) -> float:
    kind = None if isinstance(b, str) else b
    return (solenoid.two_orifice_pressure(ratio, absolute(supply_bar), P0, kind) - P0) / BAR


@formula
def supply_bar(ratio: float, control_bar: float, b: float) -> float:
    return (solenoid.supply_for_control_pressure(ratio, absolute(control_bar), P0, b) - P0) / BAR


@formula
def passages(control_bar: float, supply_bar: float) -> float:
    return solenoid.orifice_ratio(absolute(control_bar), absolute(supply_bar), P0)
