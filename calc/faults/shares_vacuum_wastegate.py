"""How many of a hundred simulated cars lie in each range of `traces.EDGES`, fault by fault.

Made by `python3 -m tests.verdict.calibrate`, not by hand: 60 cars a fault of fixtures/simulator, kind
`vacuum_wastegate`, seeds from 1000. A model of our own, no real cars.
"""

SHARES: dict[str, str] = {
    "no_fault_found": (
        "arrival_rpm 90 10 0 0, low_share 0 57 40 3 0, middle_share 0 0 3 88 8 0, bend_share 0 17 83 0 0,"
        " excess_share 82 18 0 0 0, towards_more_pct 0 0 0 100 0, throttle_pct 0 0 100, egr_pct 100 0, "
        "warmth_k 0 85 15 0 0, filling 0 4 91 6 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 0 0 0 0 92 8, control_miss 0 0 0 100 0 0 0, control_reach 0 0 0 0 80 20 0"
    ),
    "charge_air_leak": (
        "arrival_rpm 20 32 22 27, low_share 27 73 0 0 0, middle_share 3 28 35 32 2 0, bend_share 0 17 65 "
        "18 0, excess_share 97 3 0 0 0, towards_more_pct 0 0 0 65 35, throttle_pct 0 0 100, egr_pct 100 "
        "0, warmth_k 0 88 12 0 0, filling 0 0 0 10 40 21 29, ask_kpa 2 24 75 0, aim_kpa 0 24 76 0 0, "
        "control_share 0 0 0 0 40 60, control_miss 0 0 0 98 2 0 0, control_reach 0 0 0 0 22 78 0"
    ),
    "charge_air_restriction": (
        "arrival_rpm 50 37 2 12, low_share 18 77 5 0 0, middle_share 2 13 43 42 0 0, bend_share 5 37 53 5"
        " 0, excess_share 100 0 0 0 0, towards_more_pct 0 0 0 73 27, throttle_pct 0 0 100, egr_pct 100 0,"
        " warmth_k 0 8 47 42 3, filling 0 4 87 9 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 0 0 0 0 38 62, control_miss 0 0 0 100 0 0 0, control_reach 0 0 0 0 17 83 0"
    ),
    "bypass_valve_not_closing": (
        "arrival_rpm 22 47 17 15, low_share 23 72 5 0 0, middle_share 2 27 33 38 0 0, bend_share 0 3 65 "
        "28 3, excess_share 97 2 2 0 0, towards_more_pct 0 0 0 92 8, throttle_pct 0 0 100, warmth_k 0 97 "
        "3 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, control_share 0 0 0 0 62 38, control_miss 0 0 0 "
        "98 2 0 0, control_reach 0 0 0 0 47 53 0, egr_pct 100 0, filling 0 4 83 10 2 0 0"
    ),
    "diaphragm_leak": (
        "arrival_rpm 3 8 17 72, low_share 68 32 0 0 0, middle_share 62 35 3 0 0 0, bend_share 0 0 12 27 "
        "62, excess_share 100 0 0 0 0, towards_more_pct 0 0 0 23 77, throttle_pct 0 0 100, egr_pct 100 0,"
        " warmth_k 50 50 0 0 0, filling 0 0 80 20 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 7 7 23 13 50 0, control_miss 22 35 37 7 0 0 0, control_reach 0 13 27 8 50 2 0"
    ),
    "actuator_opens_early": (
        "arrival_rpm 100 0 0 0, low_share 82 2 5 8 3, middle_share 15 42 13 13 17 0, bend_share 2 15 0 0 "
        "83, excess_share 0 0 33 32 35, towards_more_pct 0 0 2 98 0, throttle_pct 0 0 100, egr_pct 100 0,"
        " warmth_k 38 62 0 0 0, control_share 25 12 17 23 23 0, control_miss 2 8 5 65 3 15 2, "
        "control_reach 7 30 20 12 32 0 0, filling 0 3 82 15 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0"
    ),
    "actuator_opens_late": (
        "arrival_rpm 3 35 40 22, low_share 22 78 0 0 0, middle_share 15 62 23 0 0 0, bend_share 0 0 2 45 "
        "53, excess_share 98 2 0 0 0, towards_more_pct 0 0 0 55 45, throttle_pct 0 0 100, egr_pct 100 0, "
        "warmth_k 7 92 2 0 0, filling 0 2 89 9 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 0 0 0 0 18 82, control_miss 0 0 0 98 2 0 0, control_reach 0 0 0 0 3 97 0"
    ),
    "spring_weak": (
        "arrival_rpm 100 0 0 0, low_share 98 2 0 0 0, middle_share 58 37 0 5 0 0, bend_share 0 2 0 0 98, "
        "excess_share 0 0 3 34 63, towards_more_pct 0 0 2 98 0, throttle_pct 0 0 100, egr_pct 100 0, "
        "warmth_k 56 44 0 0 0, control_share 60 7 12 10 12 0, control_miss 2 10 2 75 3 8 0, control_reach"
        " 8 62 5 12 13 0 0, filling 0 7 64 29 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0"
    ),
    "wastegate_seized_closed": (
        "arrival_rpm 98 2 0 0, low_share 42 58 0 0 0, middle_share 24 66 10 0 0 0, bend_share 0 0 0 0 "
        "100, excess_share 0 0 0 19 81, towards_more_pct 0 0 3 97 0, throttle_pct 0 0 100, egr_pct 100 0,"
        " warmth_k 46 54 0 0 0, control_share 65 23 7 0 5 0, control_miss 0 0 0 85 10 3 2, control_reach "
        "10 78 5 2 5 0 0, filling 0 0 100 0 0 0 0, aim_kpa 0 0 100 0 0"
    ),
    "wastegate_not_closing": (
        "arrival_rpm 3 43 23 30, low_share 100 0 0 0 0, middle_share 68 7 15 10 0 0, bend_share 0 0 13 17"
        " 70, excess_share 57 12 27 2 3, towards_more_pct 0 0 0 38 62, throttle_pct 0 0 100, egr_pct 100 "
        "0, warmth_k 38 58 3 0 0, filling 0 6 76 18 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 2 2 3 12 32 50, control_miss 0 0 0 97 2 2 0, control_reach 0 3 3 12 22 60 0"
    ),
    "control_line_leak": (
        "arrival_rpm 3 17 13 67, low_share 65 35 0 0 0, middle_share 60 32 8 0 0 0, bend_share 0 0 8 25 "
        "67, excess_share 100 0 0 0 0, towards_more_pct 0 0 0 23 77, throttle_pct 0 0 100, egr_pct 100 0,"
        " warmth_k 55 42 3 0 0, filling 0 0 75 25 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 8 3 22 17 50 0, control_miss 27 12 5 54 2 0 0, control_reach 2 13 15 17 48 5 0"
    ),
    "control_line_blocked": (
        "arrival_rpm 7 12 15 67, low_share 100 0 0 0 0, middle_share 85 5 2 3 5 0, bend_share 2 3 8 27 "
        "60, excess_share 73 20 3 2 2, towards_more_pct 0 0 0 27 73, throttle_pct 0 0 100, egr_pct 100 0,"
        " warmth_k 72 25 3 0 0, filling 0 0 79 21 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 67 0 0 2 27 5, control_miss 55 0 0 27 16 2 0, control_reach 5 62 0 2 22 10 0"
    ),
    "control_hoses_swapped": (
        "arrival_rpm 20 0 0 80, low_share 82 18 0 0 0, middle_share 80 12 8 0 0 0, bend_share 0 2 8 23 "
        "67, excess_share 80 0 0 2 18, towards_more_pct 0 0 0 20 80, throttle_pct 0 0 100, egr_pct 100 0,"
        " warmth_k 88 12 0 0 0, filling 0 0 71 29 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 68 0 3 0 7 22, control_miss 41 7 4 26 0 2 20, control_reach 8 60 3 0 5 22 2"
    ),
    "vacuum_supply_low": (
        "arrival_rpm 0 0 0 100, low_share 100 0 0 0 0, middle_share 100 0 0 0 0 0, bend_share 0 0 5 28 "
        "67, excess_share 100 0 0 0 0, towards_more_pct 0 0 0 0 100, throttle_pct 0 0 100, egr_pct 100 0,"
        " warmth_k 95 5 0 0 0, filling 0 0 67 33 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 4 0 15 19 4 59, control_miss 0 0 0 96 0 4 0, control_reach 0 19 22 44 15 0 0"
    ),
    "solenoid_passes_all": (
        "arrival_rpm 100 0 0 0, low_share 23 75 0 2 0, middle_share 2 68 27 2 0 2, bend_share 0 2 0 0 98,"
        " excess_share 0 0 3 15 82, towards_more_pct 0 0 3 97 0, throttle_pct 0 0 100, egr_pct 100 0, "
        "warmth_k 45 55 0 0 0, control_share 0 0 0 0 3 97, control_reach 0 0 0 0 0 100 0, control_miss 0 "
        "0 0 0 2 2 96, filling 0 0 100 0 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0"
    ),
    "solenoid_vents_all": (
        "arrival_rpm 0 0 0 100, low_share 100 0 0 0 0, middle_share 100 0 0 0 0 0, bend_share 0 0 8 25 "
        "67, excess_share 100 0 0 0 0, towards_more_pct 0 0 0 0 100, throttle_pct 0 0 100, egr_pct 100 0,"
        " warmth_k 100 0 0 0 0, filling 0 0 55 45 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 93 2 3 2 0 0, control_miss 76 11 0 13 0 0 0, control_reach 8 87 3 2 0 0 0"
    ),
    "solenoid_circuit_fault": (
        "arrival_rpm 30 0 0 70, low_share 87 13 0 0 0, middle_share 72 20 8 0 0 0, bend_share 0 0 7 15 "
        "78, excess_share 70 0 3 7 20, towards_more_pct 0 0 0 30 70, throttle_pct 0 0 100, egr_pct 100 0,"
        " warmth_k 82 17 2 0 0, filling 0 3 69 28 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 57 7 7 3 5 22, control_miss 63 0 0 8 0 6 22, control_reach 3 62 3 5 7 20 0"
    ),
    "charge_pressure_reads_high": (
        "arrival_rpm 20 37 0 43, low_share 0 93 7 0 0, middle_share 10 38 50 2 0 0, bend_share 0 42 58 0 "
        "0, excess_share 100 0 0 0 0, towards_more_pct 0 0 3 97 0, throttle_pct 0 0 100, egr_pct 100 0, "
        "warmth_k 0 98 2 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, control_share 0 0 0 3 95 2, "
        "control_miss 0 0 0 100 0 0 0, control_reach 0 0 0 0 97 3 0, filling 0 2 85 13 0 0 0"
    ),
    "charge_pressure_reads_low": (
        "arrival_rpm 87 8 2 3, low_share 20 22 38 17 3, middle_share 8 12 0 3 43 33, bend_share 0 0 73 10"
        " 17, excess_share 20 28 50 2 0, towards_more_pct 0 0 0 92 8, throttle_pct 0 0 100, egr_pct 100 "
        "0, warmth_k 8 63 28 0 0, filling 0 2 81 17 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 0 0 0 7 58 35, control_miss 0 8 3 88 0 0 0, control_reach 0 0 0 5 42 53 0"
    ),
    "air_mass_reads_low": (
        "arrival_rpm 100 0 0 0, low_share 5 37 45 13 0, middle_share 0 5 2 53 40 0, bend_share 0 8 87 0 "
        "5, excess_share 13 82 5 0 0, towards_more_pct 0 0 3 97 0, throttle_pct 0 0 100, egr_pct 100 0, "
        "warmth_k 7 93 0 0 0, filling 100 0 0 0 0 0 0, ask_kpa 60 40 0 0, aim_kpa 12 87 2 0 0, "
        "control_share 0 0 0 8 92 0, control_miss 0 0 0 100 0 0 0, control_reach 0 0 0 0 100 0 0"
    ),
    "air_mass_reads_high": (
        "arrival_rpm 88 12 0 0, low_share 0 38 52 10 0, middle_share 0 0 3 77 20 0, bend_share 0 58 42 0 "
        "0, excess_share 58 40 2 0 0, towards_more_pct 0 0 2 98 0, throttle_pct 0 0 100, egr_pct 100 0, "
        "warmth_k 0 97 3 0 0, filling 0 0 0 0 0 25 75, ask_kpa 12 50 38 0, aim_kpa 0 55 45 0 0, "
        "control_share 0 0 0 3 93 3, control_miss 0 0 0 100 0 0 0, control_reach 0 0 0 0 92 8 0"
    ),
    "pedal_signal_low": (
        "control_share 0 0 0 0 98 2, control_miss 0 0 2 98 0 0 0, control_reach 0 0 0 0 100 0 0"
    ),
    "temperature_or_barometric_wrong": (
        "arrival_rpm 98 2 0 0, low_share 15 37 42 7 0, middle_share 0 8 7 53 32 0, bend_share 0 33 50 0 "
        "17, excess_share 25 53 7 2 13, towards_more_pct 0 0 2 95 3, throttle_pct 0 0 100, egr_pct 100 0,"
        " warmth_k 27 57 3 0 13, filling 12 0 52 23 8 4 0, ask_kpa 13 80 7 0, aim_kpa 0 52 48 0 0, "
        "control_share 17 0 0 0 80 3, control_miss 0 0 0 100 0 0 0, control_reach 2 15 0 0 82 2 0"
    ),
    "sensor_feed_fault": (
        "arrival_rpm 32 25 0 42, low_share 0 95 5 0 0, middle_share 2 30 45 20 2 0, bend_share 0 48 52 0 "
        "0, excess_share 98 2 0 0 0, towards_more_pct 0 0 0 98 2, throttle_pct 0 0 100, egr_pct 100 0, "
        "warmth_k 2 90 8 0 0, filling 0 0 88 12 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 0 0 0 2 80 18, control_miss 0 0 0 100 0 0 0, control_reach 0 0 0 0 72 28 0"
    ),
    "limit_in_force": (
        "arrival_rpm 84 11 2 4, low_share 9 32 33 19 7, middle_share 9 0 0 54 32 5, bend_share 0 12 75 4 "
        "9, excess_share 40 40 16 4 0, towards_more_pct 9 0 5 86 0, throttle_pct 0 0 100, egr_pct 100 0, "
        "warmth_k 18 56 2 0 25, filling 0 4 77 19 0 0 0, ask_kpa 48 44 8 0, aim_kpa 33 45 22 0 0, "
        "control_share 13 0 0 7 77 3, control_miss 0 0 0 100 0 0 0, control_reach 0 13 0 3 80 3 0"
    ),
    "specified_value_wrong": (
        "arrival_rpm 95 5 0 0, low_share 3 57 35 5 0, middle_share 0 3 0 60 37 0, bend_share 0 45 52 0 3,"
        " excess_share 43 53 3 0 0, towards_more_pct 0 0 0 98 2, throttle_pct 0 0 100, egr_pct 100 0, "
        "warmth_k 5 82 13 0 0, filling 0 0 83 17 0 0 0, ask_kpa 15 12 73 0, aim_kpa 15 48 0 33 3, "
        "control_share 0 0 0 2 82 17, control_miss 0 3 0 97 0 0 0, control_reach 0 0 0 2 80 18 0"
    ),
    "turbocharger_worn": (
        "arrival_rpm 3 37 20 40, low_share 87 13 0 0 0, middle_share 22 53 22 3 0 0, bend_share 0 3 15 57"
        " 25, excess_share 98 2 0 0 0, towards_more_pct 0 0 0 50 50, throttle_pct 0 0 100, egr_pct 100 0,"
        " warmth_k 0 55 45 0 0, filling 0 8 83 10 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 0 0 0 5 23 72, control_miss 0 0 2 98 0 0 0, control_reach 0 0 0 3 3 93 0"
    ),
    "intake_restriction": (
        "arrival_rpm 33 30 3 33, low_share 0 98 2 0 0, middle_share 10 37 38 15 0 0, bend_share 40 60 0 0"
        " 0, excess_share 100 0 0 0 0, towards_more_pct 0 0 0 37 63, throttle_pct 0 0 100, egr_pct 100 0,"
        " warmth_k 0 27 48 25 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, control_share 0 0 0 0 15 85, "
        "control_miss 0 0 0 100 0 0 0, control_reach 0 0 0 0 3 97 0, filling 0 6 86 8 0 0 0"
    ),
    "throttle_not_opening": (
        "arrival_rpm 78 22 0 0, low_share 7 58 33 2 0, middle_share 5 0 10 78 7 0, bend_share 0 2 92 2 5,"
        " excess_share 63 28 5 2 2, towards_more_pct 0 0 0 98 2, throttle_pct 8 0 92, egr_pct 100 0, "
        "warmth_k 7 87 7 0 0, ask_kpa 0 31 69 0, aim_kpa 0 17 83 0 0, control_share 0 2 0 0 88 10, "
        "control_miss 0 0 2 98 0 0 0, control_reach 0 2 0 0 93 5 0, filling 52 48 0 0 0 0 0"
    ),
    "exhaust_restriction": (
        "arrival_rpm 23 57 7 13, low_share 7 90 3 0 0, middle_share 3 13 30 53 0 0, bend_share 0 0 65 15 "
        "20, excess_share 78 17 5 0 0, towards_more_pct 0 0 0 75 25, throttle_pct 0 0 100, egr_pct 100 0,"
        " warmth_k 2 93 5 0 0, filling 12 82 6 0 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 0 0 0 0 42 58, control_miss 0 0 0 100 0 0 0, control_reach 0 0 0 0 20 80 0"
    ),
    "exhaust_leak_before_turbine": (
        "arrival_rpm 8 63 17 12, low_share 93 7 0 0 0, middle_share 43 18 25 13 0 0, bend_share 0 0 10 38"
        " 52, excess_share 87 10 3 0 0, towards_more_pct 0 0 0 58 42, throttle_pct 0 0 100, egr_pct 100 "
        "0, warmth_k 15 77 8 0 0, filling 0 13 71 16 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 0 0 0 5 30 65, control_miss 0 0 0 97 2 2 0, control_reach 0 0 0 5 15 80 0"
    ),
    "egr_not_closing": (
        "arrival_rpm 77 22 2 0, low_share 77 23 0 0 0, middle_share 30 3 2 48 17 0, bend_share 0 20 45 2 "
        "33, excess_share 20 38 22 13 7, towards_more_pct 0 0 0 78 22, throttle_pct 0 0 100, egr_pct 51 "
        "49, warmth_k 0 2 28 68 2, control_share 10 7 5 10 57 12, control_miss 0 2 0 97 2 0 0, "
        "control_reach 2 15 5 8 67 3 0, ask_kpa 0 14 86 0, aim_kpa 0 7 93 0 0, filling 59 41 0 0 0 0 0"
    ),
    "engine_output_low": (
        "arrival_rpm 72 20 2 7, low_share 45 48 7 0 0, middle_share 37 3 7 47 7 0, bend_share 0 8 50 3 "
        "38, excess_share 57 15 8 13 7, towards_more_pct 0 0 0 60 40, throttle_pct 0 0 100, egr_pct 100 "
        "0, warmth_k 13 77 10 0 0, filling 0 2 93 5 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 3 2 2 8 50 35, control_miss 3 5 7 78 3 0 3, control_reach 0 7 0 7 33 53 0"
    ),
    "other_cause": (
        "arrival_rpm 53 17 5 25, low_share 70 13 12 5 0, middle_share 48 5 17 30 0 0, bend_share 0 0 25 "
        "13 62, excess_share 47 12 7 8 27, towards_more_pct 0 0 3 62 35, throttle_pct 0 0 100, egr_pct "
        "100 0, warmth_k 30 62 8 0 0, filling 0 10 77 13 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 13 2 7 15 50 13, control_miss 0 7 7 72 3 8 3, control_reach 0 17 7 10 50 17 0"
    ),
}
