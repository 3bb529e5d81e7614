"""The hose between the car and the gauge: how late and how ringing a gauge shows a pressure.

[WHITE] F. M. White, "Fluid Mechanics", laminar pipe flow (Hagen and Poiseuille), from memory.
[KINSLER] L. E. Kinsler et al., "Fundamentals of Acoustics", pipes, from memory.
"""

import math

from calc.physics.air import GAS_CONSTANT, PRESSURE_RANGE
from calc.physics.air_properties import speed_of_sound, viscosity
from calc.physics.bounds import require
from calc.physics.orifice import hole_area
from calc.physics.roots import crossing

LONGEST_HOSE, WIDEST_BORE, LARGEST_VOLUME = 100.0, 0.1, 1.0  # m, m, m3


def acoustic_delay(length: float, T: float) -> float:
    """Time in which a change of pressure travels through a hose.

    t = L / a

    Parameters
    ----------
    length : float
        Length, 0 to 100. [m]
    T : float
        Temperature of the air in it, 150 to 2 000. [K]

    Returns
    -------
    float
        Delay. [s]

    Examples
    --------
    >>> round(1000 * acoustic_delay(3.0, 293.15), 2)
    8.74

    References
    ----------
    [KINSLER], speed of a plane wave.
    """
    return require("length", length, 0.0, LONGEST_HOSE, "m") / speed_of_sound(T)


def resonance_frequency(length: float, bore: float, end_volume: float, T: float) -> float:
    """Lowest frequency at which a hose with a gauge's volume at its end rings.

    k·V·tan(k·L) = A, f = a·k / (2π)

    Parameters
    ----------
    length : float
        Length, 1e-3 to 100. [m]
    bore : float
        Inner diameter, 1e-5 to 0.1. [m]
    end_volume : float
        Volume of the gauge, 1e-12 to 1. [m3]
    T : float
        Temperature of the air in it, 150 to 2 000. [K]

    Returns
    -------
    float
        Frequency, without losses. [Hz]

    Examples
    --------
    >>> round(resonance_frequency(3.0, 0.004, 20e-6, 293.15), 2)
    19.28

    References
    ----------
    [KINSLER], pipe with a compliance at its end.
    """
    require("length", length, 1.0e-3, LONGEST_HOSE, "m")
    require("end volume", end_volume, 1.0e-12, LARGEST_VOLUME, "m3")
    area = hole_area(require("bore", bore, 1.0e-5, WIDEST_BORE, "m"))
    # multiplied by cos(kL), so that the function has no pole up to the quarter wave
    phase = crossing(
        lambda kl: kl / length * end_volume * math.sin(kl) - area * math.cos(kl), 0.0, 0.5 * math.pi
    )
    return speed_of_sound(T) * phase / (2.0 * math.pi * length)


def flow_resistance(length: float, bore: float, T: float) -> float:
    """Pressure drop per volume flow of slow flow through a hose.

    R = 128·μ·L / (π·d⁴)

    Parameters
    ----------
    length : float
        Length, 0 to 100. [m]
    bore : float
        Inner diameter, 1e-5 to 0.1. [m]
    T : float
        Temperature of the air in it, 150 to 2 000. [K]

    Returns
    -------
    float
        Flow resistance. [Pa s/m3]

    Notes
    -----
    Laminar: Reynolds number below about 2 000.

    Examples
    --------
    >>> round(flow_resistance(3.0, 0.004, 293.15) / 1e6, 4)
    8.6584

    References
    ----------
    [WHITE], Hagen and Poiseuille.
    """
    require("length", length, 0.0, LONGEST_HOSE, "m")
    return 128.0 * viscosity(T) * length / (math.pi * require("bore", bore, 1.0e-5, WIDEST_BORE, "m") ** 4)


def hose_volume(length: float, bore: float) -> float:
    """Volume of a hose.

    V = π/4 · d² · L

    Parameters
    ----------
    length : float
        Length, 0 to 100. [m]
    bore : float
        Inner diameter, 0 to 0.1. [m]

    Returns
    -------
    float
        Volume. [m3]

    Examples
    --------
    >>> round(1e6 * hose_volume(3.0, 0.004), 3)
    37.699

    References
    ----------
    Elementary geometry.
    """
    require("bore", bore, 0.0, WIDEST_BORE, "m")
    return hole_area(bore) * require("length", length, 0.0, LONGEST_HOSE, "m")


def filling_time_constant(
    length: float, bore: float, gauge_volume: float, p: float, T: float, hose_share: float = 0.5
) -> float:
    """Time constant with which a gauge follows through a hose.

    τ = R · (V_gauge + share·V_hose) / p

    Parameters
    ----------
    length : float
        Length, 0 to 100. [m]
    bore : float
        Inner diameter, 1e-5 to 0.1. [m]
    gauge_volume : float
        Volume of the gauge, 0 to 1. [m3]
    p : float
        Absolute pressure, 1 to 1e7. [Pa]
    T : float
        Temperature of the air, 150 to 2 000. [K]
    hose_share : float, optional
        Share of the hose's own volume that counts, 0 to 1; a uniform line about one half. [-]

    Returns
    -------
    float
        Time constant. [s]

    Notes
    -----
    Isothermal and laminar, for small steps of pressure.

    Examples
    --------
    >>> round(1000 * filling_time_constant(3.0, 0.004, 20e-6, 200_000.0, 293.15), 3)
    1.682

    References
    ----------
    [WHITE], Hagen and Poiseuille, with the compliance V/p of an isothermal volume.
    """
    require("gauge volume", gauge_volume, 0.0, LARGEST_VOLUME, "m3")
    require("pressure", p, *PRESSURE_RANGE, "Pa")
    require("share of the hose", hose_share, 0.0, 1.0)
    volume = gauge_volume + hose_share * hose_volume(length, bore)
    return flow_resistance(length, bore, T) * volume / p


def filling_reynolds(bore: float, volume: float, pressure_rate: float, T: float) -> float:
    """Reynolds number in a hose that fills a volume at a rate of pressure.

    Re = 4·m / (π·d·μ), m = V·(dp/dt) / (R·T)

    Parameters
    ----------
    bore : float
        Inner diameter, 1e-5 to 0.1. [m]
    volume : float
        Volume that is filled, 0 to 1. [m3]
    pressure_rate : float
        Rate of pressure, 0 to 1e8. [Pa/s]
    T : float
        Temperature of the air, 150 to 2 000. [K]

    Returns
    -------
    float
        Reynolds number. [-]

    Notes
    -----
    Below about 2 000 the flow is laminar and `flow_resistance` holds.

    Examples
    --------
    >>> round(filling_reynolds(0.004, 20e-6 + hose_volume(3.0, 0.004) / 2, 1e5, 293.15))
    810

    References
    ----------
    [WHITE], definition of the Reynolds number.
    """
    require("bore", bore, 1.0e-5, WIDEST_BORE, "m")
    require("volume", volume, 0.0, LARGEST_VOLUME, "m3")
    require("rate of pressure", pressure_rate, 0.0, 1.0e8, "Pa/s")
    flow = volume * pressure_rate / (GAS_CONSTANT * T)
    return 4.0 * flow / (math.pi * bore * viscosity(T))
