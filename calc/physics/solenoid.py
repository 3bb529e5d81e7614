"""Control solenoid: its coil, its duty, and the pressure it leaves between two passages.

[IEC60028] IEC 60028, "International standard of resistance for copper", from memory.
[ISO6358] ISO 6358-1:2013, "Pneumatic fluid power ... compressible fluids", from memory.
"""

import math

from calc.physics.air import PRESSURE_RANGE
from calc.physics.bounds import TINIEST, require
from calc.physics.orifice import flow_function, iso6358_function
from calc.physics.roots import crossing

COPPER_COEFFICIENT = 0.00393  # 1/K at 20 degC, annealed copper, [IEC60028]
LARGEST_RESISTANCE = 1.0e9  # ohm
COLDEST, HOTTEST = -60.0, 300.0  # degC
LARGEST_VOLTAGE = 1_000.0  # V


def resistance_at(r20: float, temp_c: float) -> float:
    """Resistance of a copper coil at a temperature.

    R = R20 · (1 + α·(t − 20))

    Parameters
    ----------
    r20 : float
        Resistance at 20 degC, 0 to 1e9. [ohm]
    temp_c : float
        Temperature of the coil, -60 to 300. [degC]

    Returns
    -------
    float
        Resistance. [ohm]

    Examples
    --------
    >>> round(resistance_at(25.0, 80.0), 4)
    30.895

    References
    ----------
    [IEC60028], temperature coefficient at constant mass.
    """
    return require("resistance", r20, 0.0, LARGEST_RESISTANCE, "ohm") * _warming(temp_c)


def resistance_at_20c(r: float, temp_c: float) -> float:
    """Resistance that a copper coil would have at 20 degC: the inverse of `resistance_at`.

    R20 = R / (1 + α·(t − 20))

    Parameters
    ----------
    r : float
        Resistance measured, 0 to 1e9. [ohm]
    temp_c : float
        Temperature of the coil, -60 to 300. [degC]

    Returns
    -------
    float
        Resistance at 20 degC. [ohm]

    Examples
    --------
    >>> round(resistance_at_20c(31.2, 65.0), 6)
    26.51145

    References
    ----------
    [IEC60028], temperature coefficient at constant mass.
    """
    return require("resistance", r, 0.0, LARGEST_RESISTANCE, "ohm") / _warming(temp_c)


def _warming(temp_c: float) -> float:
    return 1.0 + COPPER_COEFFICIENT * (require("temperature", temp_c, COLDEST, HOTTEST, "degC") - 20.0)


def coil_temperature(r20: float, r: float) -> float:
    """Temperature of a copper coil from its resistance now and at 20 degC.

    t = 20 + (R / R20 − 1) / α

    Parameters
    ----------
    r20 : float
        Resistance at 20 degC, above 0 up to 1e9. [ohm]
    r : float
        Resistance now, 0 to 3 times r20. [ohm]

    Returns
    -------
    float
        Mean temperature of the winding. [degC]

    Examples
    --------
    >>> round(coil_temperature(26.0, 32.4), 4)
    82.6346

    References
    ----------
    [IEC60028], temperature coefficient at constant mass.
    """
    cold = require("resistance at 20 degC", r20, TINIEST, LARGEST_RESISTANCE, "ohm")
    return 20.0 + (require("resistance", r, 0.0, 3.0 * cold, "ohm") / cold - 1.0) / COPPER_COEFFICIENT


def mean_current(voltage: float, r: float, duty: float = 1.0) -> float:
    """Mean current of a coil that is switched with a duty and has a freewheel path.

    I = D · U / R

    Parameters
    ----------
    voltage : float
        Voltage across the coil while it is on, 0 to 1 000. [V]
    r : float
        Resistance, 1e-3 to 1e9. [ohm]
    duty : float, optional
        Share of each period in which the coil is on, 0 to 1. [-]

    Returns
    -------
    float
        Mean current. [A]

    Examples
    --------
    >>> round(mean_current(13.8, 25.0, 0.40), 4)
    0.2208

    References
    ----------
    Ohm's law, averaged over a period.
    """
    require("voltage", voltage, 0.0, LARGEST_VOLTAGE, "V")
    require("duty", duty, 0.0, 1.0)
    return duty * voltage / require("resistance", r, 1.0e-3, LARGEST_RESISTANCE, "ohm")


def current_ripple(
    voltage: float, r: float, inductance: float, frequency: float, duty: float
) -> tuple[float, float]:
    """Lowest and highest current of a switched coil with an ideal freewheel path.

    I_max = U/R · (1 − e^(−D·T/τ)) / (1 − e^(−T/τ)), I_min = I_max · e^(−(1−D)·T/τ), τ = L/R

    Parameters
    ----------
    voltage : float
        Voltage across the coil while it is on, 0 to 1 000. [V]
    r : float
        Resistance, 1e-3 to 1e9. [ohm]
    inductance : float
        Inductance, 1e-9 to 1 000. [H]
    frequency : float
        Switching frequency, 0.01 to 1e6. [Hz]
    duty : float
        Share of each period in which the coil is on, 0 to 1. [-]

    Returns
    -------
    tuple of float
        Lowest and highest current. [A]

    Examples
    --------
    >>> low, high = current_ripple(13.8, 25.0, 0.020, 300.0, 0.40)
    >>> round(low, 6), round(high, 6)
    (0.037332, 0.454792)

    References
    ----------
    First-order circuit, elementary.
    """
    steady = mean_current(voltage, r)
    require("duty", duty, 0.0, 1.0)
    time_constant = require("inductance", inductance, 1.0e-9, 1_000.0, "H") / r
    periods = 1.0 / (require("frequency", frequency, 0.01, 1.0e6, "Hz") * time_constant)
    high = steady * math.expm1(-duty * periods) / math.expm1(-periods)
    return high * math.exp(-(1.0 - duty) * periods), high


def duty_from_times(time_on: float, period: float) -> float:
    """Duty: the share of each period in which the coil is energised.

    D = t_on / T

    Parameters
    ----------
    time_on : float
        Time in which current is switched on, 0 to the period. [s]
    period : float
        Period, 1e-6 to 100. [s]

    Returns
    -------
    float
        Duty, 0 to 1. [-]

    Notes
    -----
    With a switched ground the coil is on while the signal wire is low: a meter that counts the high
    time shows 1 − D.

    Examples
    --------
    >>> round(duty_from_times(0.0120, 0.033333), 4)
    0.36

    References
    ----------
    Definition.
    """
    whole = require("period", period, 1.0e-6, 100.0, "s")
    return require("time on", time_on, 0.0, whole, "s") / whole


def duty_from_mean_voltage(mean_voltage: float, supply_voltage: float) -> float:
    """Duty from the mean voltage across the coil.

    D = U_mean / U_supply

    Parameters
    ----------
    mean_voltage : float
        Mean voltage across the coil, 0 to the supply voltage. [V]
    supply_voltage : float
        Supply voltage, 0.1 to 1 000. [V]

    Returns
    -------
    float
        Duty, 0 to 1. [-]

    Examples
    --------
    >>> round(duty_from_mean_voltage(5.5, 13.8), 5)
    0.39855

    References
    ----------
    Mean of a rectangular voltage.
    """
    whole = require("supply voltage", supply_voltage, 0.1, LARGEST_VOLTAGE, "V")
    return require("mean voltage", mean_voltage, 0.0, whole, "V") / whole


def two_orifice_pressure(
    ratio_c2_c1: float, p_supply: float, p_ambient: float, b: float | None = None
) -> float:
    """Pressure between a supply passage and a vent passage in series, with no flow into the actuator.

    C1 · p_supply · f(p/p_supply) = C2 · p · f(p_ambient/p)

    Parameters
    ----------
    ratio_c2_c1 : float
        Flow area of the vent over that of the supply, 0 to infinity. [-]
    p_supply : float
        Absolute pressure before the supply passage, p_ambient to 1e7. [Pa]
    p_ambient : float
        Absolute pressure behind the vent, 1 to 1e7. [Pa]
    b : float, optional
        Critical ratio of ISO 6358 passages, 0 to 0.99; left out: ideal nozzles. [-]

    Returns
    -------
    float
        Absolute pressure in between. [Pa]

    Notes
    -----
    Equal temperatures. Where vacuum is the supply, air flows the other way: hand the atmosphere in as
    p_supply, the vacuum as p_ambient and the ratio turned over.

    Examples
    --------
    Equal passages at 1 bar gauge, in bar gauge:

    >>> round((two_orifice_pressure(1.0, 201325.0, 101325.0) - 101325.0) / 1e5, 5)
    0.62399

    References
    ----------
    Continuity, with the flow functions of `calc.physics.orifice` ([ISO6358] where b is given).
    """
    require("pressure outside", p_ambient, *PRESSURE_RANGE, "Pa")
    require("supply pressure", p_supply, p_ambient, PRESSURE_RANGE[1], "Pa")
    require("ratio of the passages", ratio_c2_c1, 0.0, math.inf)
    if ratio_c2_c1 == 0.0 or p_supply == p_ambient:
        return p_supply
    if math.isinf(ratio_c2_c1):
        return p_ambient

    def shortfall(pressure: float) -> float:
        coming, going = _share(pressure / p_supply, b), _share(p_ambient / pressure, b)
        return ratio_c2_c1 * pressure * going - p_supply * coming

    return crossing(shortfall, p_ambient, p_supply)


def orifice_ratio(p_between: float, p_supply: float, p_ambient: float) -> float:
    """How many times as wide as the supply's passage the vent is, from the pressure between them.

    C2/C1 = p_supply · f(p/p_supply) / (p · f(p_ambient/p))

    Parameters
    ----------
    p_between : float
        Absolute pressure between the passages, above p_ambient and up to p_supply. [Pa]
    p_supply : float
        Absolute pressure before the supply passage, p_ambient to 1e7. [Pa]
    p_ambient : float
        Absolute pressure behind the vent, 1 to 1e7. [Pa]

    Returns
    -------
    float
        Flow area of the vent over that of the supply. [-]

    Notes
    -----
    `two_orifice_pressure` turned round, for ideal nozzles. Where vacuum is the supply, see there.

    Examples
    --------
    >>> round(orifice_ratio(101325.0 + 62399.0, 201325.0, 101325.0), 3)
    1.0

    References
    ----------
    As for `two_orifice_pressure`.
    """
    require("pressure outside", p_ambient, *PRESSURE_RANGE, "Pa")
    require("supply pressure", p_supply, p_ambient, PRESSURE_RANGE[1], "Pa")
    require("pressure between", p_between, p_ambient, p_supply, "Pa")
    going = p_between * flow_function(p_ambient / p_between)
    coming = p_supply * flow_function(p_between / p_supply)
    return math.inf if going == 0.0 else coming / going


def _share(ratio: float, b: float | None) -> float:
    return flow_function(ratio) if b is None else iso6358_function(ratio, b)


def supply_for_control_pressure(
    ratio_c2_c1: float, p_control: float, p_ambient: float, b: float | None = None
) -> float:
    """Supply pressure that brings the line between the passages to a pressure.

    two_orifice_pressure(C2/C1, p_supply, p_ambient) = p_control, solved for p_supply

    Parameters
    ----------
    ratio_c2_c1 : float
        Flow area of the vent over that of the supply, 0 to 100. [-]
    p_control : float
        Absolute pressure wanted in between, p_ambient to 1e7. [Pa]
    p_ambient : float
        Absolute pressure behind the vent, 1 to 1e7. [Pa]
    b : float, optional
        Critical ratio of ISO 6358 passages, 0 to 0.99; left out: ideal nozzles. [-]

    Returns
    -------
    float
        Absolute supply pressure, at most 1e7. [Pa]

    Examples
    --------
    >>> round((supply_for_control_pressure(1.0, 201325.0, 101325.0, 0.5283) - 101325.0) / 1e5, 5)
    1.48174

    References
    ----------
    As for `two_orifice_pressure`.
    """
    require("ratio of the passages", ratio_c2_c1, 0.0, 100.0)
    require("pressure outside", p_ambient, *PRESSURE_RANGE, "Pa")
    require("control pressure", p_control, p_ambient, PRESSURE_RANGE[1], "Pa")
    return crossing(
        lambda supply: two_orifice_pressure(ratio_c2_c1, supply, p_ambient, b) - p_control,
        p_control,
        PRESSURE_RANGE[1],
    )
