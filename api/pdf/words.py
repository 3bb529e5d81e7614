"""What the report says in its own words, English: names of readings, of choices, of tests."""

from api.pdf.figures import suffix_of

OUTCOMES = {
    "within": "within limits",
    "outside": "outside limits",
    "undecided": "undecided",
    "not_examined": "not examined",
}
STANDINGS = {
    "proved": "proved",
    "likely": "likely",
    "possible": "possible",
    "ruled_out": "ruled out",
    "not_examined": "not examined",
}
EXPLAINS = {
    "yes": "explains the complaint",
    "partly": "explains part of the complaint",
    "no": "does not explain the complaint",
    "unknown": "whether it explains the complaint is not known",
}

SECTIONS = {
    "vehicle": "Car",
    "complaint": "Complaint",
    "boost_control": "Boost control",
    "spec": "Limits",
    "site": "Place and weather",
    "gauges": "Gauges",
    "smoke": "Smoke test",
    "charge_decay": "Pressure decay of the charge circuit",
    "actuator": "Actuator on the hand pump",
    "wastegate_inspection": "Wastegate, looked at",
    "solenoid": "Control solenoid",
    "sensors_at_rest": "Sensors at rest",
    "turbo_inspection": "Turbocharger, looked at",
    "intake_depression": "Intake depression",
    "exhaust_back_pressure": "Exhaust back pressure",
    "cooler_drop": "Drop over the charge-air cooler",
    "vacuum_supply": "Vacuum supply",
    "bypass_valve": "Compressor bypass valve",
    "electric_actuator": "Electric actuator",
    "exhaust_leak": "Exhaust before the turbine",
    "egr": "Exhaust recirculation",
    "throttle": "Throttle",
    "engine_health": "Engine health",
    "road": "Road run",
    "steps": "Steps",
}

# Keys whose plain reading (underscores to spaces, unit dropped) would not be good English.
LABELS = {
    "accuracy_counts": "Accuracy, counts",
    "accuracy_pct_reading": "Accuracy, of the reading",
    "actuator_full_kpa": "Actuator, end of travel",
    "actuator_hold_loss_kpa_per_min": "Actuator, loss while holding",
    "actuator_hysteresis_kpa": "Actuator, rising against falling",
    "actuator_start_kpa": "Actuator, first movement",
    "actuator_travel_mm": "Actuator, travel of the rod",
    "air_c": "Air temperature",
    "air_mass_gps": "Air mass",
    "ambient_c": "Outside temperature",
    "at": "Read at",
    "barometric_kpa_abs": "Air pressure",
    "base_boost_kpa": "Boost without control",
    "boost_actual_kpa_abs": "Car says",
    "boost_correction_kpa": "Correction of boost",
    "boost_request_kpa_abs": "Asked for",
    "boost_specified_kpa_abs": "Aimed",
    "boost_specified_peak_kpa_abs": "Highest boost aimed at",
    "boost_tolerance_kpa": "Boost, allowed difference",
    "bypass_hold_kpa": "Bypass valve holds",
    "charge_leak_hole_mm": "Hole in the charge circuit",
    "class_pct": "Class",
    "coil_c": "Coil, its temperature",
    "coil_ohm": "Coil resistance",
    "control_kpa": "Control pressure",
    "cooler_drop_kpa": "Drop over the cooler",
    "correction_pct": "Correction",
    "displacement_l": "Displacement",
    "division_kpa": "Division of the scale",
    "duty_pct": "Duty",
    "egr_pct": "Exhaust recirculation",
    "engine_rpm": "Engine speed",
    "exhaust_back_pressure_kpa": "Exhaust back pressure",
    "first_movement_kpa": "Rod just moves at",
    "full_travel_kpa": "End of travel at",
    "hold_s": "Held for",
    "hose_bore_mm": "Hose bore",
    "hose_m": "Hose length",
    "intake_depression_kpa": "Intake depression",
    "leak_seen": "Leak seen",
    "more_duty": "More duty",
    "oil_in_outlet": "Oil in the outlet",
    "p_end_kpa": "Pressure at the end",
    "p_kpa": "Pressure",
    "pedal_floored_pct": "Pedal to the floor",
    "pedal_pct": "Pedal",
    "pedal_released_pct": "Pedal released",
    "read_to": "Read to a part of a division",
    "rod_thread_pitch_mm": "Thread pitch of the rod",
    "shaft_axial_play_mm": "Shaft play, axial",
    "shaft_radial_play_mm": "Shaft play, radial",
    "solenoid_coil_ohm_20c": "Solenoid coil",
    "source": "Where the limits come from",
    "span_kpa": "Span",
    "t_s": "Time",
    "text": "In the customer's words",
    "travel_mm": "Rod travel",
    "vacuum_supply_kpa": "Vacuum supply",
    "vin": "Vehicle identification number",
    "volume_u_l": "Volume, its doubt",
    "zero_kpa": "Shows at nought",
    "id": "Name",
}

VALUES = {
    "after_repair": "after the repair",
    "actuator_fed_direct": "actuator fed directly",
    "after_cooler": "after the cooler",
    "analogue": "dial",
    "before_compressor": "before the compressor",
    "before_repair": "before the repair",
    "boost_cut": "boost cut",
    "charge_circuit": "charge circuit",
    "compressor_outlet": "compressor outlet",
    "control_line": "control line",
    "does_not_apply": "does not apply",
    "high_fuel_use": "high fuel use",
    "hot_only": "only when hot",
    "in_order": "in order",
    "low_power": "low power",
    "lowers_boost": "lowers boost",
    "not_done": "not done",
    "not_in_order": "not in order",
    "raises_boost": "raises boost",
    "reduced_power_mode": "reduced-power mode",
    "slow_response": "slow response",
    "solenoid_unplugged": "solenoid unplugged",
    "variable_geometry": "variable geometry",
}

ANSWERS = {True: "yes", False: "no"}


def label(key: str) -> str:
    """The name of a reading by its key."""
    if key in LABELS:
        return LABELS[key]
    stem = key.removesuffix(suffix_of(key) or "")
    return stem.replace("_", " ").strip().capitalize() or key
