"""The order in which readings are printed: as a technician takes them, not as a file happens to hold them."""

from collections.abc import Iterable

_ORDER = (
    "gauge", "kind", "span_kpa", "division_kpa", "class_pct", "read_to", "accuracy_pct_reading",
    "accuracy_counts", "resolution_kpa", "zero_kpa", "calibrated_on", "used_at_c", "hose_m",
    "hose_bore_mm", "registration", "vin", "make", "model", "year", "engine", "displacement_l",
    "cylinders", "strokes", "fuel", "odometer_km", "gear_ratios", "final_drive", "tyre", "modified",
    "text", "symptoms", "codes", "freeze_frame", "reproduced", "device", "actuator", "arrangement",
    "more_duty", "source", "intake_air_at", "actuator_start_kpa", "actuator_full_kpa",
    "actuator_travel_mm", "actuator_hysteresis_kpa", "actuator_hold_loss_kpa_per_min",
    "rod_thread_pitch_mm", "solenoid_coil_ohm_20c", "supply_drop_v", "ground_drop_v",
    "charge_leak_hole_mm", "base_boost_kpa", "boost_specified_peak_kpa_abs", "boost_tolerance_kpa",
    "abort_boost_kpa", "altitude_m", "barometric_kpa_abs", "sea_level_kpa_abs", "ambient_c",
    "speed_limit_kmh", "phase", "gear", "control", "read_by", "engine_warm", "gear_held",
    "in_reduced_power", "regenerating", "when", "state", "pull", "t_s", "engine_rpm",
    "vehicle_kmh", "load", "at", "duty_pct", "supply_kpa", "control_kpa", "p_kpa", "travel_mm",
    "direction", "before_kpa", "after_kpa", "peak", "first_movement_kpa", "full_travel_kpa", "hold",
    "p_end_kpa", "volume_ml", "linkage_free", "returns_to_stop", "leak_seen", "where", "size", "volume_l",
    "volume_u_l", "air_c", "coil_ohm", "coil_c", "supply_v", "hoses_sound", "hoses_fault", "driven_by",
    "read_at", "charge_pressure_kpa_abs", "intake_air_c", "coolant_c", "pedal_released_pct",
    "pedal_floored_pct", "air_mass_gps", "reference_v", "signal_v", "ground_offset_v", "radial_play_mm",
    "axial_play_mm", "wheel_damage", "spins_free", "oil_in_outlet", "commanded_pct", "reported_pct",
    "current_a", "end_stops_learned", "rod_seen_moving", "pedal_pct", "boost_request_kpa_abs",
    "boost_specified_kpa_abs", "boost_actual_kpa_abs", "boost_correction_kpa", "correction_pct",
    "throttle_pct", "egr_pct", "manifold_air_c", "note", "photos",
)  # fmt: skip
_PLACE = {key: place for place, key in enumerate(_ORDER)}


def in_order(keys: Iterable[str]) -> list[str]:
    """The keys as they are printed; those that are not named here follow in the order given."""
    return sorted(keys, key=lambda key: _PLACE.get(key, len(_PLACE)))
