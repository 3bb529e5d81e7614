"""Faults: what speaks for and against each, and how the evidence is weighed.

A new fault is one file with a `Fault` and one line here, in the order of the contract's table of locations;
its words stand in `calc.words`, its cases in fixtures.
"""

from calc.checks.evidence import Kind
from calc.faults import (
    actuator_motor_fault,
    actuator_preload,
    air_mass_sensor,
    bypass_valve_not_closing,
    charge_air_leak,
    charge_air_restriction,
    charge_pressure_sensor,
    control_hoses_swapped,
    control_line_blocked,
    control_line_leak,
    diaphragm_leak,
    egr_not_closing,
    engine_output_low,
    exhaust_leak_before_turbine,
    exhaust_restriction,
    intake_restriction,
    limit_in_force,
    no_fault_found,
    other_cause,
    pedal_signal_low,
    sensor_feed_fault,
    solenoid_circuit_fault,
    solenoid_stuck,
    specified_value_wrong,
    spring_weak,
    temperature_or_barometric_wrong,
    throttle_not_opening,
    turbocharger_worn,
    vacuum_supply_low,
    vanes_sticking,
    wastegate_not_closing,
    wastegate_seized_closed,
)
from calc.faults.model import Fault

FAULTS: tuple[Fault, ...] = (
    no_fault_found.FAULT,
    charge_air_leak.FAULT,
    charge_air_restriction.FAULT,
    bypass_valve_not_closing.FAULT,
    diaphragm_leak.FAULT,
    actuator_preload.EARLY,
    actuator_preload.LATE,
    spring_weak.FAULT,
    actuator_motor_fault.FAULT,
    wastegate_seized_closed.FAULT,
    wastegate_not_closing.FAULT,
    control_line_leak.FAULT,
    control_line_blocked.FAULT,
    control_hoses_swapped.FAULT,
    vacuum_supply_low.FAULT,
    solenoid_stuck.PASSES_ALL,
    solenoid_stuck.VENTS_ALL,
    solenoid_circuit_fault.FAULT,
    charge_pressure_sensor.READS_HIGH,
    charge_pressure_sensor.READS_LOW,
    air_mass_sensor.READS_LOW,
    air_mass_sensor.READS_HIGH,
    pedal_signal_low.FAULT,
    temperature_or_barometric_wrong.FAULT,
    sensor_feed_fault.FAULT,
    limit_in_force.FAULT,
    specified_value_wrong.FAULT,
    turbocharger_worn.FAULT,
    vanes_sticking.FAULT,
    intake_restriction.FAULT,
    throttle_not_opening.FAULT,
    exhaust_restriction.FAULT,
    exhaust_leak_before_turbine.FAULT,
    egr_not_closing.FAULT,
    engine_output_low.FAULT,
    other_cause.FAULT,
)


def faults_of(kind: Kind) -> tuple[Fault, ...]:
    """The faults that this kind of boost control can have, in the table's order."""
    return tuple(fault for fault in FAULTS if fault.fits(kind))
