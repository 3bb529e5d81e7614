"""The words that the contract of a job document lists, each list in the contract's own order."""

DEVICES = ("wastegate", "variable_geometry")
ACTUATORS = ("pressure", "vacuum", "electric")
ARRANGEMENTS = ("bleed", "changeover", "unknown")
DUTY_EFFECTS = ("raises_boost", "lowers_boost")
STEP_STATES = ("not_done", "in_order", "not_in_order", "does_not_apply")
GAUGE_KINDS = ("analogue", "digital")
READ_TO = ("whole", "half", "fifth")
LEAK_SIZES = ("weep", "small", "large")
DIRECTIONS = ("rising", "falling")
HOSE_FAULTS = ("leak", "blocked", "swapped")
LOADS = ("full", "none")
PHASES = ("before_repair", "after_repair")
CONTROLS = ("normal", "solenoid_unplugged", "actuator_fed_direct")
GAUGE_PLACES = ("charge_circuit", "compressor_outlet", "after_cooler", "manifold", "control_line")
# The contract names one word of each of these three; the other is the default it describes, named by us.
DUTY_DRIVERS = ("car", "bench")
CONTROL_READ_AT = ("actuator", "port")
INTAKE_AIR_AT = ("after_cooler", "before_compressor")

# Ours: the words of the estimate and of what is sent to the customer.
ESTIMATE_OPTIONS = ("mend", "mend_and_renew")
ROUNDINGS = ("total", "line")
PRICE_KINDS = ("part", "labour", "other")
REPORT_FORMS = ("short", "customer", "technical")

SYMPTOMS = (
    "low_power",
    "slow_response",
    "reduced_power_mode",
    "boost_cut",
    "hunting",
    "whistle",
    "hiss",
    "hesitation",
    "whine",
    "black_smoke",
    "blue_smoke",
    "high_fuel_use",
    "intermittent",
    "hot_only",
    "other",
)

FAULTS = (
    "no_fault_found",
    "charge_air_leak",
    "charge_air_restriction",
    "bypass_valve_not_closing",
    "diaphragm_leak",
    "actuator_opens_early",
    "actuator_opens_late",
    "spring_weak",
    "actuator_motor_fault",
    "wastegate_seized_closed",
    "wastegate_not_closing",
    "control_line_leak",
    "control_line_blocked",
    "control_hoses_swapped",
    "vacuum_supply_low",
    "solenoid_passes_all",
    "solenoid_vents_all",
    "solenoid_circuit_fault",
    "charge_pressure_reads_high",
    "charge_pressure_reads_low",
    "air_mass_reads_low",
    "air_mass_reads_high",
    "pedal_signal_low",
    "temperature_or_barometric_wrong",
    "sensor_feed_fault",
    "limit_in_force",
    "specified_value_wrong",
    "turbocharger_worn",
    "vanes_sticking",
    "intake_restriction",
    "throttle_not_opening",
    "exhaust_restriction",
    "exhaust_leak_before_turbine",
    "egr_not_closing",
    "engine_output_low",
    "other_cause",
)

NEXT_TESTS = (
    "smoke",
    "charge_decay",
    "actuator",
    "wastegate_inspection",
    "solenoid_electrical",
    "solenoid_sweep",
    "sensors_at_rest",
    "road_run",
    "road_gauges",
    "turbo_inspection",
    "intake_depression",
    "exhaust_back_pressure",
    "cooler_drop",
    "vacuum_supply",
    "bypass_valve",
    "exhaust_leak",
    "egr",
    "throttle",
    "engine_health",
    "electric_actuator",
    "base_boost_run",
)

CHANNELS = (
    "t_s",
    "engine_rpm",
    "pedal_pct",
    "vehicle_kmh",
    "boost_request_kpa_abs",
    "boost_specified_kpa_abs",
    "boost_actual_kpa_abs",
    "boost_correction_kpa",
    "correction_pct",
    "duty_pct",
    "air_mass_gps",
    "intake_air_c",
    "manifold_air_c",
    "throttle_pct",
    "egr_pct",
)
