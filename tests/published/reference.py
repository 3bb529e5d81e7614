"""Formulas of the sources themselves: twins, written down anew, through which a row reaches one of ours.

A source prints, say, the pressure at which an actuator of a known spring begins to move. Ours finds that
pressure in a sweep; the formula here makes the sweep. Nothing of the product is used in this file.
"""

import math

EARTH_RADIUS = 6_356_766.0  # m, nominal, ISO 2533, from memory
MOLAR_MASS = 0.0289644  # kg/mol, dry air, ISO 2533, from memory
ISO_DENSITY, ISO_TEMPERATURE = 1.185, 293.15  # kg/m3, K: reference atmosphere of ISO 8778, from memory


def actuator_travel(p_gauge: float, preload: float, spring_rate: float, diameter: float) -> float:
    """x = max(0, (p·Ae − F0) / k), elementary statics. [Pa, N, N/m, m] → [m]"""
    return max(0.0, (p_gauge * math.pi / 4.0 * diameter**2 - preload) / spring_rate)


def geopotential_height(height: float) -> float:
    """H = r·h / (r + h), ISO 2533, from memory. [m]"""
    return EARTH_RADIUS * height / (EARTH_RADIUS + height)


def first_order(t: float) -> float:
    """y = 1 − e^(−t), t in time constants; Ogata, section 5-2, from memory."""
    return -math.expm1(-t)


def second_order(zeta: float, t: float) -> float:
    """Step answer of a second-order system with ωn = 1; Ogata, section 5-3, from memory."""
    root = math.sqrt(1.0 - zeta**2)
    return 1.0 - math.exp(-zeta * t) * (math.cos(root * t) + zeta / root * math.sin(root * t))


def pulse(t: float, at: float) -> float:
    """e^(−((t − t0) / 0.6 s)² / 2), the pulse by whose true lag the reference was worked out."""
    return math.exp(-0.5 * ((t - at) / 0.6) ** 2)


def iso6358_choked(conductance: float, p1: float, T1: float) -> float:
    """m = C·ρ0·p1·sqrt(T0/T1), ISO 6358. [m3/(s Pa), Pa, K] → [kg/s]"""
    return conductance * ISO_DENSITY * p1 * math.sqrt(ISO_TEMPERATURE / T1)
