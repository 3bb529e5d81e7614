"""How many of a hundred simulated cars lie in each range of `traces.EDGES`, fault by fault.

Made by `python3 -m tests.verdict.calibrate`, not by hand: 60 cars a fault of fixtures/simulator, kind
`vacuum_vgt`, seeds from 1000. A model of our own, no real cars.
"""

SHARES: dict[str, str] = {
    "no_fault_found": (
        "arrival_rpm 100 0 0 0, low_share 0 30 60 10 0, middle_share 0 0 0 90 10 0, bend_share 0 3 97 0 "
        "0, excess_share 78 22 0 0 0, towards_more_pct 0 0 90 10 0, throttle_pct 0 0 100, egr_pct 100 0, "
        "warmth_k 0 90 10 0 0, filling 0 2 96 2 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 0 0 25 75 0 0, control_miss 0 0 0 100 0 0 0, control_reach 0 0 8 92 0 0 0"
    ),
    "charge_air_leak": (
        "arrival_rpm 30 28 13 28, low_share 35 62 3 0 0, middle_share 12 22 38 28 0 0, bend_share 0 2 65 "
        "30 3, excess_share 100 0 0 0 0, towards_more_pct 0 0 38 53 8, throttle_pct 0 0 100, egr_pct 100 "
        "0, warmth_k 0 78 22 0 0, ask_kpa 4 14 82 0, aim_kpa 0 21 79 0 0, control_share 0 0 0 65 23 12, "
        "control_miss 0 0 0 98 0 2 0, control_reach 0 0 0 57 30 13 0, filling 0 0 0 10 33 31 25"
    ),
    "charge_air_restriction": (
        "arrival_rpm 55 35 2 8, low_share 20 75 5 0 0, middle_share 0 8 57 35 0 0, bend_share 0 25 70 5 "
        "0, excess_share 97 3 0 0 0, towards_more_pct 0 0 35 65 0, throttle_pct 0 0 100, egr_pct 100 0, "
        "warmth_k 0 8 45 42 5, filling 0 6 79 15 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 0 0 0 78 22 0, control_miss 0 0 0 100 0 0 0, control_reach 0 0 0 77 23 0 0"
    ),
    "bypass_valve_not_closing": (
        "arrival_rpm 17 70 2 12, low_share 30 67 3 0 0, middle_share 2 30 47 22 0 0, bend_share 0 0 67 33"
        " 0, excess_share 85 15 0 0 0, towards_more_pct 0 0 58 42 0, throttle_pct 0 0 100, warmth_k 0 100"
        " 0 0 0, filling 0 2 86 12 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, control_share 0 0 0 75 "
        "25 0, control_miss 0 0 0 93 7 0 0, control_reach 0 0 0 70 28 2 0, egr_pct 100 0"
    ),
    "diaphragm_leak": (
        "arrival_rpm 17 25 15 43, low_share 47 50 3 0 0, middle_share 40 40 13 7 0 0, bend_share 0 0 17 "
        "32 52, excess_share 97 2 2 0 0, towards_more_pct 0 0 22 47 32, throttle_pct 0 0 100, egr_pct 100"
        " 0, warmth_k 33 63 3 0 0, filling 0 2 80 18 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 2 7 37 55 0 0, control_miss 35 32 28 3 2 0 0, control_reach 0 12 30 58 0 0 0"
    ),
    "actuator_opens_early": (
        "arrival_rpm 100 0 0 0, low_share 28 15 15 40 2, middle_share 3 17 2 8 53 17, bend_share 0 68 0 0"
        " 32, excess_share 0 15 77 3 5, towards_more_pct 0 0 98 2 0, throttle_pct 0 0 100, egr_pct 100 0,"
        " warmth_k 17 65 18 0 0, filling 0 4 86 10 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 20 3 72 5 0 0, control_miss 0 0 3 95 2 0 0, control_reach 0 23 73 3 0 0 0"
    ),
    "actuator_opens_late": (
        "arrival_rpm 35 53 8 3, low_share 3 92 5 0 0, middle_share 0 45 47 8 0 0, bend_share 0 3 30 57 "
        "10, excess_share 93 5 2 0 0, towards_more_pct 0 0 32 68 0, throttle_pct 0 0 100, egr_pct 100 0, "
        "warmth_k 0 92 8 0 0, filling 0 2 83 15 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 0 0 0 83 17 0, control_miss 0 0 0 90 8 2 0, control_reach 0 0 0 68 32 0 0"
    ),
    "spring_weak": (
        "arrival_rpm 100 0 0 0, low_share 62 5 10 20 3, middle_share 7 35 7 18 28 5, bend_share 0 37 0 3 "
        "60, excess_share 0 0 50 37 13, towards_more_pct 0 0 87 13 0, throttle_pct 0 0 100, egr_pct 100 "
        "0, warmth_k 33 57 10 0 0, filling 0 7 83 10 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 8 5 53 33 0 0, control_miss 0 2 10 73 13 2 0, control_reach 0 15 55 30 0 0 0"
    ),
    "control_line_leak": (
        "arrival_rpm 22 28 5 45, low_share 43 55 2 0 0, middle_share 37 35 23 5 0 0, bend_share 0 0 13 52"
        " 35, excess_share 95 5 0 0 0, towards_more_pct 0 0 27 42 32, throttle_pct 0 0 100, egr_pct 100 "
        "0, warmth_k 30 68 2 0 0, filling 0 0 75 25 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 3 12 50 35 0 0, control_miss 27 4 5 62 2 0 0, control_reach 0 20 25 55 0 0 0"
    ),
    "control_line_blocked": (
        "arrival_rpm 33 13 0 53, low_share 100 0 0 0 0, middle_share 100 0 0 0 0 0, bend_share 0 0 0 10 "
        "90, excess_share 53 0 0 8 38, towards_more_pct 0 0 0 45 55, throttle_pct 0 0 100, egr_pct 100 0,"
        " warmth_k 80 20 0 0 0, filling 0 0 71 29 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 53 0 0 28 18 0, control_miss 38 5 0 5 0 5 45, control_reach 10 43 0 10 37 0 0"
    ),
    "control_hoses_swapped": (
        "arrival_rpm 47 0 0 53, low_share 57 43 0 0 0, middle_share 53 7 30 10 0 0, bend_share 0 0 0 8 "
        "92, excess_share 53 0 0 3 43, towards_more_pct 0 0 47 0 53, throttle_pct 0 0 100, egr_pct 100 0,"
        " warmth_k 70 23 7 0 0, filling 0 0 59 41 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 48 0 0 2 0 50, control_miss 35 2 2 17 0 0 44, control_reach 7 42 0 2 0 50 0"
    ),
    "vacuum_supply_low": (
        "arrival_rpm 7 18 18 57, low_share 85 15 0 0 0, middle_share 75 7 5 12 2 0, bend_share 0 0 12 13 "
        "75, excess_share 90 10 0 0 0, towards_more_pct 0 0 25 17 58, throttle_pct 0 0 100, egr_pct 100 "
        "0, warmth_k 65 32 3 0 0, filling 0 0 85 15 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 0 0 0 30 43 27, control_miss 0 0 0 100 0 0 0, control_reach 0 7 10 83 0 0 0"
    ),
    "solenoid_passes_all": (
        "arrival_rpm 100 0 0 0, low_share 7 93 0 0 0, middle_share 0 28 58 13 0 0, bend_share 0 0 0 0 "
        "100, excess_share 0 0 0 15 85, towards_more_pct 0 0 95 5 0, throttle_pct 0 0 100, egr_pct 100 0,"
        " warmth_k 42 53 5 0 0, control_share 0 0 0 0 2 98, control_reach 0 0 0 0 3 95 2, control_miss 0 "
        "0 0 0 0 0 100"
    ),
    "solenoid_vents_all": (
        "arrival_rpm 0 0 5 95, low_share 100 0 0 0 0, middle_share 100 0 0 0 0 0, bend_share 0 0 3 20 77,"
        " excess_share 100 0 0 0 0, towards_more_pct 0 0 0 0 100, throttle_pct 0 0 100, egr_pct 100 0, "
        "warmth_k 93 7 0 0 0, filling 0 0 71 29 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 97 3 0 0 0 0, control_miss 70 10 2 18 0 0 0, control_reach 8 92 0 0 0 0 0"
    ),
    "solenoid_circuit_fault": (
        "arrival_rpm 32 2 0 67, low_share 75 22 3 0 0, middle_share 65 13 13 5 3 0, bend_share 0 3 5 13 "
        "78, excess_share 70 0 5 2 23, towards_more_pct 0 0 30 7 63, throttle_pct 0 0 100, egr_pct 100 0,"
        " warmth_k 80 18 2 0 0, filling 0 0 68 32 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 40 22 8 8 0 22, control_miss 53 6 0 17 2 0 23, control_reach 3 58 7 10 0 20 2"
    ),
    "charge_pressure_reads_high": (
        "arrival_rpm 22 8 2 68, low_share 0 90 10 0 0, middle_share 3 52 43 2 0 0, bend_share 0 5 87 8 0,"
        " excess_share 100 0 0 0 0, towards_more_pct 0 0 100 0 0, throttle_pct 0 0 100, egr_pct 100 0, "
        "warmth_k 0 100 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, control_share 0 0 50 50 0 0, "
        "control_miss 0 0 0 100 0 0 0, control_reach 0 0 37 63 0 0 0, filling 0 2 81 17 0 0 0"
    ),
    "charge_pressure_reads_low": (
        "arrival_rpm 100 0 0 0, low_share 40 2 22 27 10, middle_share 25 13 2 0 17 43, bend_share 0 10 50"
        " 2 38, excess_share 40 10 48 2 0, towards_more_pct 0 0 63 37 0, throttle_pct 0 0 100, egr_pct "
        "100 0, warmth_k 22 47 32 0 0, filling 0 2 66 27 5 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 0 2 12 87 0 0, control_miss 0 5 13 82 0 0 0, control_reach 0 2 7 88 3 0 0"
    ),
    "air_mass_reads_low": (
        "arrival_rpm 100 0 0 0, low_share 0 13 67 20 0, middle_share 0 0 8 80 12 0, bend_share 0 0 65 23 "
        "12, excess_share 30 38 18 8 5, towards_more_pct 0 0 100 0 0, throttle_pct 0 0 100, egr_pct 100 "
        "0, warmth_k 2 97 2 0 0, filling 97 3 0 0 0 0 0, ask_kpa 50 50 0 0, aim_kpa 7 77 17 0 0, "
        "control_share 0 0 55 45 0 0, control_miss 0 0 0 100 0 0 0, control_reach 0 0 37 63 0 0 0"
    ),
    "air_mass_reads_high": (
        "arrival_rpm 97 3 0 0, low_share 0 17 58 25 0, middle_share 0 0 0 83 17 0, bend_share 0 12 83 5 "
        "0, excess_share 45 50 5 0 0, towards_more_pct 0 0 100 0 0, throttle_pct 0 0 100, egr_pct 100 0, "
        "warmth_k 0 97 3 0 0, filling 0 0 0 0 2 22 77, ask_kpa 10 58 33 0, aim_kpa 0 42 58 0 0, "
        "control_share 0 0 38 62 0 0, control_miss 0 0 0 100 0 0 0, control_reach 0 0 10 90 0 0 0"
    ),
    "pedal_signal_low": (
        "control_share 0 0 7 93 0 0, control_miss 0 0 0 100 0 0 0, control_reach 0 0 0 100 0 0 0"
    ),
    "temperature_or_barometric_wrong": (
        "arrival_rpm 97 3 0 0, low_share 0 10 63 20 7, middle_share 0 0 0 68 32 0, bend_share 0 8 73 10 "
        "8, excess_share 47 28 15 8 2, towards_more_pct 0 0 100 0 0, throttle_pct 0 0 100, egr_pct 100 0,"
        " warmth_k 10 75 0 0 15, filling 8 2 58 19 13 0 0, ask_kpa 25 67 8 0, aim_kpa 2 53 45 0 0, "
        "control_share 0 0 42 58 0 0, control_miss 0 0 0 100 0 0 0, control_reach 0 0 38 62 0 0 0"
    ),
    "sensor_feed_fault": (
        "arrival_rpm 26 17 7 50, low_share 0 90 10 0 0, middle_share 0 38 52 10 0 0, bend_share 0 5 90 5 "
        "0, excess_share 98 2 0 0 0, towards_more_pct 0 0 98 2 0, throttle_pct 0 0 100, egr_pct 100 0, "
        "warmth_k 0 100 0 0 0, filling 0 0 97 3 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 0 0 33 67 0 0, control_miss 0 0 0 100 0 0 0, control_reach 0 0 20 80 0 0 0"
    ),
    "limit_in_force": (
        "arrival_rpm 95 3 2 0, low_share 3 27 36 27 7, middle_share 3 0 10 71 14 2, bend_share 0 0 66 5 "
        "29, excess_share 41 24 10 12 14, towards_more_pct 3 3 92 2 0, throttle_pct 0 0 100, egr_pct 100 "
        "0, warmth_k 8 61 0 0 31, filling 0 0 94 6 0 0 0, ask_kpa 52 35 13 0, aim_kpa 38 37 25 0 0, "
        "control_share 5 0 48 47 0 0, control_miss 0 0 0 100 0 0 0, control_reach 2 3 37 58 0 0 0"
    ),
    "specified_value_wrong": (
        "arrival_rpm 97 3 0 0, low_share 12 20 52 17 0, middle_share 5 3 3 70 18 0, bend_share 0 3 68 13 "
        "15, excess_share 48 30 12 10 0, towards_more_pct 0 0 90 10 0, throttle_pct 0 0 100, egr_pct 100 "
        "0, warmth_k 8 87 5 0 0, filling 0 6 76 18 0 0 0, ask_kpa 12 22 67 0, aim_kpa 12 66 0 22 0, "
        "control_share 0 2 42 57 0 0, control_miss 0 3 2 95 0 0 0, control_reach 0 0 37 62 2 0 0"
    ),
    "turbocharger_worn": (
        "arrival_rpm 8 42 28 22, low_share 73 27 0 0 0, middle_share 27 38 32 3 0 0, bend_share 0 0 0 57 "
        "43, excess_share 98 2 0 0 0, towards_more_pct 0 0 22 60 18, throttle_pct 0 0 100, egr_pct 100 0,"
        " warmth_k 3 47 50 0 0, filling 0 6 86 8 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 0 2 2 45 35 17, control_miss 0 0 0 100 0 0 0, control_reach 0 2 0 40 40 18 0"
    ),
    "vanes_sticking": (
        "arrival_rpm 67 33 0 0, low_share 72 27 2 0 0, middle_share 33 5 2 8 50 2, bend_share 0 10 8 40 "
        "42, excess_share 0 5 58 28 8, towards_more_pct 0 0 67 33 0, throttle_pct 0 0 100, egr_pct 100 0,"
        " warmth_k 17 67 17 0 0, filling 0 8 88 4 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 0 2 70 28 0 0, control_miss 0 2 5 87 7 0 0, control_reach 0 2 72 27 0 0 0"
    ),
    "intake_restriction": (
        "arrival_rpm 38 18 5 38, low_share 0 93 7 0 0, middle_share 10 45 42 3 0 0, bend_share 38 62 0 0 "
        "0, excess_share 100 0 0 0 0, towards_more_pct 0 0 5 73 22, throttle_pct 0 0 100, egr_pct 100 0, "
        "warmth_k 0 13 57 30 0, filling 0 8 80 12 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 0 0 0 28 57 15, control_miss 0 0 0 100 0 0 0, control_reach 0 0 0 15 60 25 0"
    ),
    "throttle_not_opening": (
        "arrival_rpm 72 18 2 8, low_share 2 60 37 2 0, middle_share 0 8 32 60 0 0, bend_share 0 0 78 20 "
        "2, excess_share 98 2 0 0 0, towards_more_pct 0 0 77 23 0, throttle_pct 2 0 98, egr_pct 100 0, "
        "warmth_k 3 93 3 0 0, filling 56 44 0 0 0 0 0, ask_kpa 0 33 67 0, aim_kpa 0 13 87 0 0, "
        "control_share 0 0 0 92 8 0, control_miss 0 0 0 100 0 0 0, control_reach 0 0 0 87 13 0 0"
    ),
    "exhaust_restriction": (
        "arrival_rpm 15 18 23 43, low_share 8 88 3 0 0, middle_share 10 55 33 2 0 0, bend_share 0 2 15 67"
        " 17, excess_share 98 2 0 0 0, towards_more_pct 0 0 10 78 12, throttle_pct 0 0 100, egr_pct 100 "
        "0, warmth_k 2 98 0 0 0, filling 10 84 6 0 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 2 0 0 27 53 18, control_miss 0 2 0 93 5 0 0, control_reach 0 2 0 2 75 22 0"
    ),
    "exhaust_leak_before_turbine": (
        "arrival_rpm 18 58 15 8, low_share 85 15 0 0 0, middle_share 25 30 28 17 0 0, bend_share 0 0 10 "
        "42 48, excess_share 93 7 0 0 0, towards_more_pct 0 0 52 38 10, throttle_pct 0 0 100, egr_pct 100"
        " 0, warmth_k 8 87 5 0 0, filling 0 4 85 11 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 0 0 0 67 25 8, control_miss 0 0 0 93 7 0 0, control_reach 0 0 0 65 27 8 0"
    ),
    "egr_not_closing": (
        "arrival_rpm 8 80 3 8, low_share 100 0 0 0 0, middle_share 70 10 3 13 3 0, bend_share 0 2 15 3 "
        "80, excess_share 10 7 32 47 5, towards_more_pct 0 0 25 47 28, throttle_pct 0 0 100, egr_pct 51 "
        "49, warmth_k 0 2 27 65 7, ask_kpa 2 38 60 0, aim_kpa 0 36 64 0 0, control_share 8 0 22 48 17 5, "
        "control_miss 0 2 2 87 5 5 0, control_reach 2 8 15 53 17 5 0, filling 38 27 35 0 0 0 0"
    ),
    "engine_output_low": (
        "arrival_rpm 67 30 0 3, low_share 43 53 3 0 0, middle_share 17 17 30 37 0 0, bend_share 0 0 52 17"
        " 32, excess_share 65 20 13 2 0, towards_more_pct 0 0 28 62 10, throttle_pct 0 0 100, egr_pct 100"
        " 0, warmth_k 8 85 7 0 0, filling 0 6 79 15 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 0 0 3 65 27 5, control_miss 0 2 7 92 0 0 0, control_reach 0 0 2 45 50 3 0"
    ),
    "other_cause": (
        "arrival_rpm 44 35 6 15, low_share 65 15 10 10 0, middle_share 48 19 10 19 4 0, bend_share 0 2 35"
        " 10 52, excess_share 73 10 2 0 15, towards_more_pct 0 0 33 44 23, throttle_pct 0 0 100, egr_pct "
        "100 0, warmth_k 15 79 6 0 0, filling 0 4 77 19 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 8 4 19 42 17 10, control_miss 2 4 6 77 6 4 0, control_reach 0 12 12 44 23 8 0"
    ),
}
