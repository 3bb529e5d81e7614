"""Pressure decay: how fast air is lost from a vessel, and the hole that would lose it so.

[ASTM2930] ASTM E2930-13(2021), "Leaks Using Pressure Decay Leak Test Method"; abstract seen.
[HEYWOOD] J. B. Heywood, "Internal Combustion Engine Fundamentals", 1988, Appendix C, from memory.

Blow-down through a hole is solved here without numerical integration. With air (γ = 1.4) and
τ = sqrt((p/p_ambient)^(2/7) − 1) the nozzle equation of [HEYWOOD] becomes p·ψ = √7·τ·(1+τ²)^(1/2)·p_ambient,
so that the integrals of dt = −V·dp / (Cd·A·sqrt(R·T)·p·ψ) are polynomials or nearly so. The derivation
is ours; the tests compare it with a numerical integration of the plain equation.
"""

import math
from collections.abc import Callable
from typing import Literal

from calc.errors import OutOfRange
from calc.physics.air import GAS_CONSTANT, HEAT_RATIO, PRESSURE_RANGE, TEMPERATURE_RANGE
from calc.physics.bounds import TINIEST, require
from calc.physics.orifice import LARGEST_AREA, critical_ratio, flow_function
from calc.physics.orifice import hole_diameter as hole_diameter
from calc.physics.roots import crossing

Model = Literal["isothermal", "adiabatic"]

SMALLEST_VOLUME, LARGEST_VOLUME = 1.0e-9, 1_000.0  # m3
SHORTEST, LONGEST = 1.0e-9, 1.0e9  # s
CHOKED_FLOW = flow_function(0.0)  # ψ*, 0.684731
CHOKING_RISE = 1.0 / critical_ratio()  # p / p_ambient from which the hole is choked, 1.892929


def mass_leak_rate(
    volume: float, p_start: float, T_start: float, p_end: float, T_end: float, time: float
) -> float:
    """Mass of air lost in a time, with the temperature before and after taken into account.

    m = V / (R·t) · (p_start/T_start − p_end/T_end)

    Parameters
    ----------
    volume : float
        Volume of the vessel, 1e-9 to 1 000. [m3]
    p_start, p_end : float
        Absolute pressure at the start and at the end, 1 to 1e7. [Pa]
    T_start, T_end : float
        Temperature of the air at the start and at the end, 150 to 2 000. [K]
    time : float
        Time between the two, 1e-9 to 1e9. [s]

    Returns
    -------
    float
        Mass leak; negative where air came in. [kg/s]

    Notes
    -----
    Ideal gas in a vessel that keeps its volume; rubber hoses creep, so wait and repeat.

    Examples
    --------
    Half a bar over a 10 litre charge circuit that cools by 1.5 K in five minutes, in mg/s:

    >>> round(1e6 * mass_leak_rate(0.010, 151325.0, 298.15, 149325.0, 296.65, 300.0), 4)
    0.4849

    References
    ----------
    [ASTM2930], mass change by the ideal gas law.
    """
    _require_vessel(volume, time)
    for pressure, temperature in ((p_start, T_start), (p_end, T_end)):
        require("pressure", pressure, *PRESSURE_RANGE, "Pa")
        require("temperature", temperature, *TEMPERATURE_RANGE, "K")
    return volume / (GAS_CONSTANT * time) * (p_start / T_start - p_end / T_end)


def volume_from_strokes(
    strokes: float, stroke_volume: float, p_start: float, p_end: float, p_ambient: float
) -> float:
    """Volume of a circuit from counted strokes of a hand pump.

    V = n · Vs · p_ambient / (p_end − p_start)

    Parameters
    ----------
    strokes : float
        Strokes counted, 1 to 1e5. [-]
    stroke_volume : float
        Volume that the pump draws in a stroke, 1e-9 to 1. [m3]
    p_start : float
        Absolute pressure before the first stroke, 1 to 1e7. [Pa]
    p_end : float
        Absolute pressure after the last, once it has settled, p_start to 1e7. [Pa]
    p_ambient : float
        Absolute pressure of the air that is drawn in, 1 to 1e7. [Pa]

    Returns
    -------
    float
        Volume. [m3]

    Notes
    -----
    A tight circuit at one temperature; what leaks meanwhile makes the volume look greater.

    Examples
    --------
    75 strokes of 80 ml bring the circuit to 60 kPa gauge; in litres:

    >>> round(1000 * volume_from_strokes(75, 80e-6, 101325.0, 161325.0, 101325.0), 2)
    10.13

    References
    ----------
    Ideal gas law at one temperature (Boyle).
    """
    require("strokes", strokes, 1.0, 1.0e5)
    require("volume of a stroke", stroke_volume, SMALLEST_VOLUME, 1.0, "m3")
    require("pressure outside", p_ambient, *PRESSURE_RANGE, "Pa")
    rise = _rise(p_start, p_end)
    return strokes * stroke_volume * p_ambient / rise


def volume_from_tank(
    tank_volume: float, tank_start: float, tank_end: float, p_start: float, p_end: float
) -> float:
    """Volume of a circuit from what a tank of known volume gave it.

    V = Vt · (tank_start − tank_end) / (p_end − p_start)

    Parameters
    ----------
    tank_volume : float
        Volume of the tank, 1e-9 to 1 000. [m3]
    tank_start : float
        Absolute pressure in the tank before, tank_end to 1e7. [Pa]
    tank_end : float
        Absolute pressure in the tank after, once it has settled, 1 to 1e7. [Pa]
    p_start : float
        Absolute pressure in the circuit before, 1 to 1e7. [Pa]
    p_end : float
        Absolute pressure in the circuit after, p_start to 1e7. [Pa]

    Returns
    -------
    float
        Volume. [m3]

    Notes
    -----
    Both at one temperature before and after: wait until the gauges stand still.

    Examples
    --------
    A 5 litre tank falls from 200 to 80 kPa gauge while the circuit rises from 0 to 60; in litres:

    >>> round(1000 * volume_from_tank(0.005, 301325.0, 181325.0, 101325.0, 161325.0), 9)
    10.0

    References
    ----------
    Ideal gas law at one temperature (Boyle).
    """
    require("volume of the tank", tank_volume, SMALLEST_VOLUME, LARGEST_VOLUME, "m3")
    require("pressure of the tank after", tank_end, *PRESSURE_RANGE, "Pa")
    require("pressure of the tank before", tank_start, tank_end, PRESSURE_RANGE[1], "Pa")
    return tank_volume * (tank_start - tank_end) / _rise(p_start, p_end)


def _rise(p_start: float, p_end: float) -> float:
    require("pressure before", p_start, *PRESSURE_RANGE, "Pa")
    rise = require("pressure after", p_end, p_start, PRESSURE_RANGE[1], "Pa") - p_start
    return require("rise of pressure", rise, 1.0, PRESSURE_RANGE[1], "Pa")


def thermal_pressure_change(pressure: float, T: float, temperature_change: float) -> float:
    """Change of pressure that a change of temperature alone makes in a tight vessel.

    Δp = p · ΔT / T

    Parameters
    ----------
    pressure : float
        Absolute pressure, 1 to 1e7. [Pa]
    T : float
        Temperature, 150 to 2 000. [K]
    temperature_change : float
        Change of temperature, -100 to 100. [K]

    Returns
    -------
    float
        Change of pressure, of the same sign. [Pa]

    Examples
    --------
    >>> round(thermal_pressure_change(151325.0, 293.15, 1.0), 1)
    516.2

    References
    ----------
    Ideal gas law at constant volume.
    """
    require("pressure", pressure, *PRESSURE_RANGE, "Pa")
    require("temperature", T, *TEMPERATURE_RANGE, "K")
    return pressure * require("change of temperature", temperature_change, -100.0, 100.0, "K") / T


def decay_time(
    volume: float,
    cd_area: float,
    p_start: float,
    p_end: float,
    p_ambient: float,
    T: float,
    model: Model = "isothermal",
) -> float:
    """Time in which the pressure in a vessel falls through a hole to the outside.

    t = ∫ V·dp / (Cd·A·sqrt(R·T)·p·ψ(p_ambient/p)), from p_end to p_start (isothermal)

    Parameters
    ----------
    volume : float
        Volume of the vessel, 1e-9 to 1 000. [m3]
    cd_area : float
        Discharge coefficient times area of the hole, above 0 up to 1. [m2]
    p_start : float
        Absolute pressure at the start, p_end to 1e7. [Pa]
    p_end : float
        Absolute pressure at the end, p_ambient to p_start. [Pa]
    p_ambient : float
        Absolute pressure outside, 1 to 1e7. [Pa]
    T : float
        Temperature of the air at the start, 150 to 2 000. [K]
    model : str, optional
        `isothermal`: the walls keep the air warm (slow leaks); `adiabatic`: no heat comes in (blow-down
        in a few seconds). [-]

    Returns
    -------
    float
        Time. [s]

    Notes
    -----
    Real air lies between the models; the adiabatic time is a quarter shorter. The vessel is empty
    (at p_ambient) after a finite time.

    Examples
    --------
    10 litres with a 1 mm sharp-edged hole, 1.5 down to 0.5 bar gauge:

    >>> area = 0.62 * math.pi / 4 * 0.001**2
    >>> round(decay_time(0.010, area, 251325.0, 151325.0, 101325.0, 293.15), 2)
    52.8

    References
    ----------
    [HEYWOOD], equations C.8 and C.9; integrals as the head of this file says.
    """
    _require_decay(volume, p_start, p_end, p_ambient, T)
    require("flow area", cd_area, TINIEST, LARGEST_AREA, "m2")
    unit = _unit_time(model)
    return _time_constant(volume, cd_area, T) * unit(p_start / p_ambient, p_end / p_ambient)


def area_from_decay(
    volume: float,
    cd: float,
    p_start: float,
    p_end: float,
    time: float,
    p_ambient: float,
    T: float,
    model: Model = "isothermal",
) -> float:
    """Area of the hole that would let the pressure fall so far in a time.

    A = V / (Cd·t·sqrt(R·T)) · ∫ dp / (p·ψ(p_ambient/p)): the inverse of `decay_time`

    Parameters
    ----------
    volume : float
        Volume of the vessel, 1e-9 to 1 000. [m3]
    cd : float
        Discharge coefficient, above 0 up to 1.1; a sharp-edged hole about 0.62. [-]
    p_start : float
        Absolute pressure at the start, p_end to 1e7. [Pa]
    p_end : float
        Absolute pressure at the end, p_ambient to p_start. [Pa]
    time : float
        Time between the two, 1e-9 to 1e9. [s]
    p_ambient : float
        Absolute pressure outside, 1 to 1e7. [Pa]
    T : float
        Temperature of the air at the start, 150 to 2 000. [K]
    model : str, optional
        `isothermal` or `adiabatic`, as for `decay_time`. [-]

    Returns
    -------
    float
        Area; 0 where the pressure did not fall. [m2]

    Notes
    -----
    Where p_end equals p_ambient the vessel may have been empty sooner: the area is then a lower bound.

    Examples
    --------
    >>> area = area_from_decay(0.010, 0.62, 251325.0, 201325.0, 60.0, 101325.0, 293.15)
    >>> round(1000 * hole_diameter(area), 4)
    0.6183

    References
    ----------
    [HEYWOOD], equations C.8 and C.9; integrals as the head of this file says.
    """
    _require_decay(volume, p_start, p_end, p_ambient, T)
    _require_vessel(volume, time)
    require("discharge coefficient", cd, TINIEST, 1.1)
    unit = _unit_time(model)
    return _time_constant(volume, cd, T) * unit(p_start / p_ambient, p_end / p_ambient) / time


def pressure_after(
    volume: float,
    cd_area: float,
    p_start: float,
    time: float,
    p_ambient: float,
    T: float,
    model: Model = "isothermal",
) -> float:
    """Pressure left in a leaking vessel after a time.

    decay_time(…, p_start, p, …) = time, solved for p

    Parameters
    ----------
    volume : float
        Volume of the vessel, 1e-9 to 1 000. [m3]
    cd_area : float
        Discharge coefficient times area of the hole, 0 to 1. [m2]
    p_start : float
        Absolute pressure at the start, p_ambient to 1e7. [Pa]
    time : float
        Time since the start, 0 to 1e9. [s]
    p_ambient : float
        Absolute pressure outside, 1 to 1e7. [Pa]
    T : float
        Temperature of the air at the start, 150 to 2 000. [K]
    model : str, optional
        `isothermal` or `adiabatic`, as for `decay_time`. [-]

    Returns
    -------
    float
        Absolute pressure; p_ambient once the vessel is empty. [Pa]

    Examples
    --------
    10 litres, 1 mm, half a bar: what is left after 30 s, in bar gauge:

    >>> area = 0.62 * math.pi / 4 * 0.001**2
    >>> round((pressure_after(0.010, area, 151325.0, 30.0, 101325.0, 293.15) - 101325.0) / 1e5, 4)
    0.1671

    References
    ----------
    [HEYWOOD], equations C.8 and C.9; integrals as the head of this file says.
    """
    _require_decay(volume, p_start, p_ambient, p_ambient, T)
    require("flow area", cd_area, 0.0, LARGEST_AREA, "m2")
    require("time", time, 0.0, LONGEST, "s")
    if cd_area == 0.0 or time == 0.0 or p_start == p_ambient:
        return p_start
    unit, rise = _unit_time(model), p_start / p_ambient
    wanted = time / _time_constant(volume, cd_area, T)
    if wanted >= unit(rise, 1.0):
        return p_ambient
    return p_ambient * crossing(lambda left: unit(rise, left) - wanted, 1.0, rise)


def _time_constant(volume: float, cd_area: float, T: float) -> float:
    """V / (Cd·A·sqrt(R·T)) [s]."""
    return volume / (cd_area * math.sqrt(GAS_CONSTANT * T))


def _unit_time(model: Model) -> Callable[[float, float], float]:
    if model == "isothermal":
        return _isothermal
    if model == "adiabatic":
        return _adiabatic
    raise OutOfRange(f"model {model!r} is not one of isothermal, adiabatic")


def _isothermal(start: float, end: float) -> float:
    """Time in units of `_time_constant` from p/p_ambient = start to end."""
    choked_end = max(end, CHOKING_RISE)
    choked = math.log(start / choked_end) / CHOKED_FLOW if start > choked_end else 0.0
    top, bottom = _tau(min(start, CHOKING_RISE)), _tau(min(end, CHOKING_RISE))
    return choked + math.sqrt(7.0) * (_sixth_secant(top) - _sixth_secant(bottom))


def _adiabatic(start: float, end: float) -> float:
    """Time in units of `_time_constant` at the starting temperature, from p/p_ambient = start to end."""
    choked_end = max(end, CHOKING_RISE)
    share = (HEAT_RATIO - 1.0) / (2.0 * HEAT_RATIO)  # 1/7
    choked = 0.0
    if start > choked_end:
        choked = 2.0 / (HEAT_RATIO - 1.0) * math.expm1(share * math.log(start / choked_end)) / CHOKED_FLOW
    top, bottom = _tau(min(start, CHOKING_RISE)), _tau(min(end, CHOKING_RISE))
    slowing = math.sqrt(7.0) / HEAT_RATIO * math.exp(share * math.log(start))
    return choked + slowing * (_cubed_root(top) - _cubed_root(bottom))


def _tau(rise: float) -> float:
    return math.sqrt(math.expm1(2.0 / 7.0 * math.log(rise)))


def _sixth_secant(tau: float) -> float:
    """∫ (1+τ²)² dτ, the isothermal integrand."""
    return tau * (1.0 + tau * tau * (2.0 / 3.0 + tau * tau / 5.0))


def _cubed_root(tau: float) -> float:
    """∫ (1+τ²)^(3/2) dτ, the adiabatic integrand."""
    return (tau * (2.0 * tau * tau + 5.0) * math.sqrt(1.0 + tau * tau) + 3.0 * math.asinh(tau)) / 8.0


def _require_vessel(volume: float, time: float) -> None:
    require("volume", volume, SMALLEST_VOLUME, LARGEST_VOLUME, "m3")
    require("time", time, SHORTEST, LONGEST, "s")


def _require_decay(volume: float, p_start: float, p_end: float, p_ambient: float, T: float) -> None:
    require("volume", volume, SMALLEST_VOLUME, LARGEST_VOLUME, "m3")
    require("pressure outside", p_ambient, *PRESSURE_RANGE, "Pa")
    require("pressure at the start", p_start, p_ambient, PRESSURE_RANGE[1], "Pa")
    require("pressure at the end", p_end, p_ambient, p_start, "Pa")
    require("temperature", T, *TEMPERATURE_RANGE, "K")
