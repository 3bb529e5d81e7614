"""Actuator and its sweep, solenoid."""

from calc.physics import actuator, solenoid
from calc.signals.breakpoint import SweepFit, fit_sweep
from tests.published import reference
from tests.published.formulas.registry import BAR, MM, P0, absolute, formula

SWEEP_P = [round(0.2 + 0.1 * step, 1) for step in range(19)]
SWEEP_X = [0.00, 0.03, -0.02, 0.01, -0.03, 0.02, 0.00, -0.01, 0.53, 1.48,
           2.54, 3.47, 4.52, 5.46, 6.53, 7.51, 8.48, 9.52, 10.49]  # fmt: skip


def swept(f0_n: float, k_n_per_mm: float, x_mm: float, dia_mm: float) -> SweepFit:
    """Our fit to a sweep in steps of 0.05 bar of an actuator of which only its statics are known."""
    steps = [0.05 * step for step in range(50)]
    spring = (f0_n, 1000.0 * k_n_per_mm, dia_mm * MM)
    travels = [min(x_mm, reference.actuator_travel(at * BAR, *spring) / MM) for at in steps]
    return fit_sweep(steps, travels)


@formula
def start_bar(f0_n: float, k_n_per_mm: float, x_mm: float, dia_mm: float) -> float:
    return swept(f0_n, k_n_per_mm, x_mm, dia_mm).first_movement


@formula
def full_bar(f0_n: float, k_n_per_mm: float, x_mm: float, dia_mm: float) -> float:
    full = swept(f0_n, k_n_per_mm, x_mm, dia_mm).full_travel
    assert full is not None
    return full


@formula
def rate_bar_per_mm(f0_n: float, k_n_per_mm: float, x_mm: float, dia_mm: float) -> float:
    """Further pressure for a further millimetre."""
    return 1.0 / swept(f0_n, k_n_per_mm, x_mm, dia_mm).rate


@formula
def friction_bar(f0_n: float, k_n_per_mm: float, x_mm: float, dia_mm: float, friction_n: float) -> float:
    """Of a sweep up, where friction adds to the spring, and one down, where it takes away."""
    up, down = (swept(f0_n + way * friction_n, k_n_per_mm, x_mm, dia_mm).first_movement for way in (1, -1))
    return actuator.friction_pressure(up * BAR, down * BAR) / BAR


@formula
def turns(error_bar: float, mm_per_bar: float, pitch_mm: float) -> float:
    return actuator.rod_turns(error_bar * BAR, mm_per_bar * MM / BAR, pitch_mm * MM)


@formula
def sweep_fit(part: str) -> float:
    return float(getattr(fit_sweep(SWEEP_P, SWEEP_X), part))


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
def control_bar(ratio: float, supply_bar: float, b: float | str) -> float:
    kind = None if isinstance(b, str) else b
    return (solenoid.two_orifice_pressure(ratio, absolute(supply_bar), P0, kind) - P0) / BAR


@formula
def passages(control_bar: float, supply_bar: float) -> float:
    return solenoid.orifice_ratio(absolute(control_bar), absolute(supply_bar), P0)
