"""How many of a hundred simulated cars lie in each range of `traces.EDGES`, fault by fault.

Made by `python3 -m tests.verdict.calibrate`, not by hand: 240 cars a fault of fixtures/simulator, kind
`pressure`, seeds from 1000. A model of our own, no real cars.
"""

SHARES: dict[str, str] = {
    "no_fault_found": (
        "arrival_rpm 77 23 0 0, low_share 0 8 60 30 3, middle_share 0 0 4 91 5 0, bend_share 0 1 99 0 0, "
        "excess_share 88 11 1 0 0, over_base_share 0 0 0 0 99 0, towards_more_pct 0 0 80 18 2, "
        "throttle_pct 0 0 100, warmth_k 0 98 2 0 0, filling 0 6 86 8 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 "
        "0 100 0 0, control_share 0 0 18 82 0 0, control_miss 0 0 4 95 1 0 0, control_reach 0 14 86 0 0 0"
        " 0, egr_pct 100 0"
    ),
    "charge_air_leak": (
        "arrival_rpm 32 32 17 19, low_share 11 56 31 2 0, middle_share 2 8 52 36 1 0, bend_share 3 17 75 "
        "5 0, excess_share 93 6 1 0 0, over_base_share 0 1 1 29 69 0, towards_more_pct 0 0 56 29 15, "
        "throttle_pct 0 0 100, egr_pct 100 0, warmth_k 1 94 5 0 0, filling 0 0 0 16 40 34 10, ask_kpa 1 4"
        " 95 0, aim_kpa 0 8 92 0 0, control_share 1 4 65 30 0 0, control_miss 0 1 4 95 0 0 0, "
        "control_reach 2 64 33 0 0 0 0"
    ),
    "charge_air_restriction": (
        "arrival_rpm 32 30 8 30, low_share 1 72 26 1 0, middle_share 11 35 49 5 0 0, bend_share 30 28 40 "
        "2 0, excess_share 97 3 0 0 0, over_base_share 1 2 12 59 26 0, towards_more_pct 0 0 37 23 40, "
        "throttle_pct 0 0 100, warmth_k 0 10 58 30 2, filling 0 6 84 10 0 0 0, ask_kpa 0 0 100 0, aim_kpa"
        " 0 0 100 0 0, control_share 1 15 78 6 0 0, control_miss 0 1 5 94 0 0 0, control_reach 1 49 50 0 "
        "0 0 0, egr_pct 100 0"
    ),
    "bypass_valve_not_closing": (
        "arrival_rpm 24 45 16 15, low_share 15 56 28 1 0, middle_share 2 16 45 36 0 0, bend_share 0 8 84 "
        "7 1, excess_share 96 3 1 0 0, over_base_share 0 0 0 30 69 0, towards_more_pct 0 0 52 24 24, "
        "throttle_pct 0 0 100, egr_pct 100 0, warmth_k 1 96 2 0 0, filling 0 5 84 11 0 0 0, ask_kpa 0 0 "
        "100 0, aim_kpa 0 0 100 0 0, control_share 1 5 69 24 1 0, control_miss 0 0 4 93 2 0 0, "
        "control_reach 0 66 34 0 0 0 0"
    ),
    "diaphragm_leak": (
        "arrival_rpm 100 0 0 0, low_share 15 65 1 5 14, middle_share 6 36 20 14 17 7, bend_share 0 16 1 1"
        " 81, excess_share 0 4 21 16 59, over_base_share 0 0 0 2 48 50, towards_more_pct 0 34 66 0 0, "
        "throttle_pct 0 0 100, egr_pct 100 0, warmth_k 35 60 5 0 0, filling 1 6 80 13 0 0 0, ask_kpa 1 0 "
        "99 0, aim_kpa 1 0 99 0 0, control_share 0 20 52 20 7 2, control_miss 65 25 8 2 0 0 0, "
        "control_reach 1 48 50 2 0 0 0"
    ),
    "actuator_opens_early": (
        "arrival_rpm 17 20 39 24, low_share 9 89 2 0 0, middle_share 10 37 46 7 0 0, bend_share 0 0 11 70"
        " 18, excess_share 98 2 0 0 0, over_base_share 0 1 2 36 61 0, towards_more_pct 0 0 45 17 38, "
        "throttle_pct 0 0 100, egr_pct 100 0, warmth_k 6 93 1 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 "
        "0, control_share 3 8 78 8 2 0, control_miss 0 0 5 94 1 0 0, control_reach 5 85 10 0 0 0 0, "
        "filling 0 2 88 10 0 0 0"
    ),
    "actuator_opens_late": (
        "arrival_rpm 100 0 0 0, low_share 7 37 5 8 42, middle_share 0 15 11 19 42 13, bend_share 1 50 2 4"
        " 43, excess_share 0 7 45 29 19, over_base_share 0 0 0 0 57 43, towards_more_pct 0 29 71 0 0, "
        "throttle_pct 0 0 100, egr_pct 100 0, warmth_k 19 75 6 0 0, filling 0 11 80 8 0 0 0, ask_kpa 0 0 "
        "100 0, aim_kpa 0 0 100 0 0, control_share 0 0 0 40 50 9, control_miss 0 2 7 82 8 0 0, "
        "control_reach 0 0 18 78 4 0 0"
    ),
    "spring_weak": (
        "arrival_rpm 29 36 19 16, low_share 0 73 27 0 0, middle_share 1 21 55 22 0 0, bend_share 0 3 62 "
        "34 1, excess_share 98 2 0 0 0, over_base_share 0 0 0 26 74 0, towards_more_pct 0 0 51 22 27, "
        "throttle_pct 0 0 100, warmth_k 1 98 1 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, control_share"
        " 0 2 85 12 0 0, control_miss 0 0 2 97 1 0 0, control_reach 2 78 21 0 0 0 0, egr_pct 100 0, "
        "filling 0 2 88 10 0 0 0"
    ),
    "wastegate_seized_closed": (
        "arrival_rpm 75 25 0 0, low_share 60 38 0 0 1, middle_share 62 32 3 0 1 1, bend_share 0 0 0 0 "
        "100, excess_share 0 0 1 10 89, over_base_share 0 0 0 38 50 12, towards_more_pct 0 20 75 5 0, "
        "throttle_pct 0 1 99, warmth_k 43 56 1 0 0, control_share 0 0 2 13 29 56, control_miss 1 14 39 42"
        " 2 1 0, control_reach 0 0 10 12 18 59 0, egr_pct 100 0, filling 0 7 77 16 0 0 0, ask_kpa 7 0 93 "
        "0, aim_kpa 6 0 94 0 0"
    ),
    "wastegate_not_closing": (
        "arrival_rpm 1 34 46 19, low_share 99 1 0 0 0, middle_share 58 6 13 21 1 0, bend_share 0 1 23 12 "
        "64, excess_share 31 19 45 4 0, over_base_share 11 3 11 19 56 0, towards_more_pct 0 0 40 32 28, "
        "throttle_pct 0 0 100, warmth_k 40 58 2 0 0, filling 0 8 82 10 0 0 0, ask_kpa 0 0 100 0, aim_kpa "
        "0 0 100 0 0, control_share 11 9 51 24 3 2, control_miss 0 1 10 85 4 0 0, control_reach 8 66 25 1"
        " 0 0 0, egr_pct 100 0"
    ),
    "control_line_leak": (
        "arrival_rpm 100 0 0 0, low_share 16 60 1 6 17, middle_share 6 36 12 18 20 8, bend_share 3 18 1 1"
        " 76, excess_share 0 5 19 18 58, over_base_share 0 0 0 3 51 46, towards_more_pct 1 35 62 1 0, "
        "throttle_pct 0 0 100, warmth_k 35 62 3 0 0, filling 0 13 70 16 1 0 0, ask_kpa 0 0 100 0, aim_kpa"
        " 0 0 100 0 0, control_share 0 20 50 23 7 0, control_miss 50 6 4 38 2 0 0, control_reach 2 48 48 "
        "1 0 0 0, egr_pct 100 0"
    ),
    "control_line_blocked": (
        "arrival_rpm 94 6 0 0, low_share 21 63 5 2 9, middle_share 7 51 25 10 1 6, bend_share 0 3 5 1 91,"
        " excess_share 3 4 11 19 63, over_base_share 0 0 0 4 73 23, towards_more_pct 1 30 65 4 0, "
        "throttle_pct 1 5 94, egr_pct 100 0, warmth_k 36 62 3 0 0, filling 0 4 86 11 0 0 0, ask_kpa 15 0 "
        "85 0, aim_kpa 14 0 86 0 0, control_share 65 0 20 15 0 0, control_miss 63 18 10 9 0 0 0, "
        "control_reach 33 42 25 0 0 0 0"
    ),
    "control_hoses_swapped": (
        "control_share 50 1 2 1 1 45, control_miss 44 1 3 10 0 6 37, control_reach 25 28 20 27 0 0 0, "
        "arrival_rpm 53 0 0 46, low_share 53 41 1 1 4, middle_share 56 34 6 0 0 4, bend_share 0 0 4 47 "
        "49, excess_share 47 2 1 5 45, over_base_share 0 1 47 6 33 13, towards_more_pct 1 24 24 1 50, "
        "throttle_pct 1 3 96, egr_pct 100 0, warmth_k 38 62 0 0 0, ask_kpa 7 0 93 0, aim_kpa 7 0 93 0 0, "
        "filling 0 2 78 20 0 0 0"
    ),
    "solenoid_passes_all": (
        "arrival_rpm 0 0 0 100, low_share 78 22 0 0 0, middle_share 100 0 0 0 0 0, bend_share 0 0 5 95 0,"
        " excess_share 100 0 0 0 0, over_base_share 0 5 89 5 0 0, towards_more_pct 0 0 0 0 100, "
        "throttle_pct 0 0 100, warmth_k 34 66 0 0 0, filling 0 1 77 22 0 0 0, ask_kpa 0 0 100 0, aim_kpa "
        "0 0 100 0 0, control_share 0 0 0 0 3 97, control_miss 0 0 0 0 0 12 88, control_reach 0 0 47 53 0"
        " 0 0, egr_pct 100 0"
    ),
    "solenoid_vents_all": (
        "arrival_rpm 100 0 0 0, low_share 33 59 0 0 7, middle_share 18 64 10 1 0 7, bend_share 0 0 0 0 "
        "100, excess_share 0 0 0 7 93, over_base_share 0 0 0 6 66 29, towards_more_pct 3 47 50 0 0, "
        "throttle_pct 3 4 93, egr_pct 100 0, warmth_k 39 59 2 0 0, control_share 68 21 10 1 0 0, "
        "control_reach 33 64 2 0 0 0 0, control_miss 97 2 1 0 0 0 0, ask_kpa 65 0 35 0, aim_kpa 70 0 30 0"
        " 0, filling 0 0 93 7 0 0 0"
    ),
    "solenoid_circuit_fault": (
        "arrival_rpm 23 3 4 70, low_share 49 41 3 2 6, middle_share 58 22 6 7 3 3, bend_share 0 4 13 66 "
        "16, excess_share 79 1 4 4 12, over_base_share 0 3 48 21 16 10, towards_more_pct 0 9 19 7 65, "
        "throttle_pct 0 0 99, egr_pct 100 0, warmth_k 29 70 0 0 0, filling 0 4 82 15 0 0 0, ask_kpa 1 0 "
        "99 0, aim_kpa 1 0 99 0 0, control_share 8 0 12 16 12 52, control_miss 16 6 1 11 1 10 55, "
        "control_reach 6 11 48 35 0 0 0"
    ),
    "charge_pressure_reads_high": (
        "arrival_rpm 38 38 6 19, low_share 0 48 51 2 0, middle_share 1 58 40 1 0 0, bend_share 0 32 59 8 "
        "1, excess_share 99 1 0 0 0, over_base_share 0 0 2 90 8 0, towards_more_pct 0 22 76 1 0, "
        "throttle_pct 0 0 100, egr_pct 100 0, warmth_k 6 93 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 "
        "0, control_share 0 0 0 65 29 6, control_miss 0 0 3 95 1 0 0, control_reach 0 3 92 5 0 0 0, "
        "filling 0 3 87 9 0 0 0"
    ),
    "charge_pressure_reads_low": (
        "arrival_rpm 94 5 0 2, low_share 11 1 12 44 32, middle_share 6 5 0 3 44 42, bend_share 0 1 68 22 "
        "9, excess_share 11 27 56 6 0, over_base_share 0 0 0 11 12 77, towards_more_pct 0 0 50 24 26, "
        "throttle_pct 0 0 100, warmth_k 4 76 20 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 0 0 67 32 0 0, control_miss 0 0 1 95 1 2 0, control_reach 0 41 58 0 0 0 0, egr_pct"
        " 100 0, filling 0 6 90 4 1 0 0"
    ),
    "air_mass_reads_low": (
        "arrival_rpm 98 2 0 0, low_share 0 3 12 44 41, middle_share 0 0 4 52 36 8, bend_share 0 0 76 18 "
        "6, excess_share 15 50 23 10 2, over_base_share 0 0 0 21 75 3, towards_more_pct 12 50 37 1 0, "
        "throttle_pct 0 0 100, egr_pct 100 0, warmth_k 9 91 0 0 0, filling 100 0 0 0 0 0 0, ask_kpa 60 40"
        " 0 0, aim_kpa 7 82 11 0 0, control_share 0 0 0 28 57 15, control_miss 0 0 4 94 2 0 0, "
        "control_reach 0 2 76 22 0 0 0"
    ),
    "air_mass_reads_high": (
        "arrival_rpm 92 8 0 0, low_share 0 1 30 62 8, middle_share 0 0 4 79 16 0, bend_share 0 6 94 0 0, "
        "excess_share 60 37 3 0 0, over_base_share 0 0 0 5 93 2, towards_more_pct 0 18 76 6 0, "
        "throttle_pct 0 0 100, warmth_k 0 98 2 0 0, filling 0 0 0 0 0 24 75, ask_kpa 8 46 45 0, aim_kpa 0"
        " 37 63 0 0, control_share 0 0 5 71 24 0, control_miss 0 0 5 92 4 0 0, control_reach 0 6 91 2 0 0"
        " 0, egr_pct 100 0"
    ),
    "pedal_signal_low": (
        "control_share 0 0 1 38 52 9, control_miss 0 0 6 92 2 0 0, control_reach 0 5 95 1 0 0 0"
    ),
    "temperature_or_barometric_wrong": (
        "arrival_rpm 95 5 0 0, low_share 0 3 20 56 21, middle_share 0 0 4 59 30 8, bend_share 0 8 80 5 7,"
        " excess_share 33 45 15 5 3, over_base_share 0 0 0 13 81 5, towards_more_pct 2 30 65 2 0, "
        "throttle_pct 0 0 100, warmth_k 16 74 1 0 8, filling 13 1 66 12 6 2 0, ask_kpa 24 65 11 0, "
        "aim_kpa 6 52 42 0 0, control_share 0 0 0 59 33 8, control_miss 0 0 4 94 2 0 0, control_reach 0 5"
        " 89 6 0 0 0, egr_pct 100 0"
    ),
    "sensor_feed_fault": (
        "arrival_rpm 46 40 5 9, low_share 0 29 70 1 0, middle_share 0 37 57 6 0 0, bend_share 0 26 74 0 "
        "0, excess_share 100 0 0 0 0, over_base_share 0 0 0 79 21 0, towards_more_pct 0 24 76 1 0, "
        "throttle_pct 0 0 100, warmth_k 0 99 1 0 0, filling 0 2 87 11 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0"
        " 0 100 0 0, control_share 0 0 23 59 18 0, control_miss 0 0 4 95 1 0 0, control_reach 0 15 82 3 0"
        " 0 0, egr_pct 100 0"
    ),
    "limit_in_force": (
        "arrival_rpm 98 2 0 0, low_share 0 6 19 28 48, middle_share 0 0 3 44 23 30, bend_share 0 5 70 20 "
        "6, excess_share 28 26 16 8 22, over_base_share 0 3 20 24 52 1, towards_more_pct 30 32 37 1 0, "
        "throttle_pct 1 1 98, egr_pct 100 0, warmth_k 11 62 0 1 26, filling 0 2 89 9 0 0 0, ask_kpa 58 30"
        " 13 0, aim_kpa 42 33 25 0 0, control_share 0 0 0 30 32 38, control_miss 0 0 4 93 3 0 0, "
        "control_reach 0 2 73 25 0 0 0"
    ),
    "specified_value_wrong": (
        "arrival_rpm 90 8 0 3, low_share 6 10 21 40 23, middle_share 3 2 10 52 27 5, bend_share 0 4 84 6 "
        "5, excess_share 44 38 13 4 0, over_base_share 0 0 3 25 70 1, towards_more_pct 5 36 43 6 10, "
        "throttle_pct 0 0 100, warmth_k 8 84 8 0 0, filling 0 3 85 12 0 0 0, ask_kpa 15 19 66 0, aim_kpa "
        "14 53 0 29 3, control_share 0 0 24 28 40 7, control_miss 0 0 5 92 3 0 0, control_reach 0 18 75 8"
        " 0 0 0, egr_pct 100 0"
    ),
    "turbocharger_worn": (
        "arrival_rpm 10 29 17 44, low_share 54 42 3 0 0, middle_share 12 40 43 4 0 0, bend_share 0 20 37 "
        "37 6, excess_share 97 2 0 0 0, over_base_share 0 1 6 57 36 0, towards_more_pct 0 0 42 21 37, "
        "throttle_pct 0 0 100, warmth_k 0 53 46 1 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 8 12 72 7 1 0, control_miss 0 0 6 93 0 0 0, control_reach 9 82 10 0 0 0 0, filling"
        " 0 4 88 8 0 0 0, egr_pct 100 0"
    ),
    "intake_restriction": (
        "arrival_rpm 68 28 1 2, low_share 0 14 63 23 0, middle_share 1 30 46 22 0 0, bend_share 28 66 6 0"
        " 0, excess_share 93 6 1 0 0, over_base_share 0 1 2 77 21 0, towards_more_pct 0 0 43 30 27, "
        "throttle_pct 0 0 100, egr_pct 100 0, warmth_k 0 14 57 24 5, filling 0 14 76 11 0 0 0, ask_kpa 0 "
        "0 100 0, aim_kpa 0 0 100 0 0, control_share 4 25 64 7 0 0, control_miss 0 0 12 75 7 5 0, "
        "control_reach 9 83 8 0 0 0 0"
    ),
    "throttle_not_opening": (
        "arrival_rpm 85 15 0 0, low_share 1 8 26 64 2, middle_share 0 2 4 85 9 0, bend_share 0 1 85 12 3,"
        " excess_share 45 40 15 0 1, over_base_share 0 0 0 0 95 5, towards_more_pct 2 34 60 5 0, "
        "throttle_pct 54 0 46, egr_pct 100 0, warmth_k 3 96 1 0 0, filling 47 53 0 0 0 0 0, ask_kpa 0 11 "
        "89 0, aim_kpa 0 3 97 0 0, control_share 0 0 4 72 24 0, control_miss 0 0 2 94 4 0 0, "
        "control_reach 0 6 94 0 0 0 0"
    ),
    "exhaust_restriction": (
        "arrival_rpm 38 48 6 8, low_share 4 34 55 7 0, middle_share 3 5 33 59 0 0, bend_share 0 0 66 27 "
        "6, excess_share 92 7 1 0 0, over_base_share 0 0 1 8 91 0, towards_more_pct 0 0 58 30 12, "
        "throttle_pct 0 0 100, egr_pct 100 0, warmth_k 1 98 1 0 0, filling 10 83 7 0 0 0 0, ask_kpa 0 0 "
        "100 0, aim_kpa 0 0 100 0 0, control_share 2 1 50 45 1 0, control_miss 0 0 2 97 1 0 0, "
        "control_reach 3 60 37 0 0 0 0"
    ),
    "exhaust_leak_before_turbine": (
        "arrival_rpm 8 58 29 6, low_share 79 20 1 0 0, middle_share 15 15 35 35 0 0, bend_share 0 0 50 25"
        " 24, excess_share 69 23 8 0 0, over_base_share 1 1 0 12 85 0, towards_more_pct 0 0 53 29 18, "
        "throttle_pct 0 0 100, egr_pct 100 0, warmth_k 10 89 1 0 0, filling 0 4 86 10 0 0 0, ask_kpa 0 0 "
        "100 0, aim_kpa 0 0 100 0 0, control_share 1 8 62 28 1 0, control_miss 0 0 11 87 2 0 0, "
        "control_reach 3 62 35 0 0 0 0"
    ),
    "egr_not_closing": (
        "arrival_rpm 70 30 0 0, low_share 10 64 25 2 0, middle_share 1 3 4 82 10 0, bend_share 0 2 92 1 "
        "4, excess_share 53 32 13 1 0, over_base_share 0 0 0 3 97 0, towards_more_pct 0 8 88 4 0, "
        "throttle_pct 0 0 100, egr_pct 48 52, warmth_k 0 0 32 66 1, filling 17 79 4 0 0 0 0, ask_kpa 0 6 "
        "94 0, aim_kpa 0 1 99 0 0, control_share 0 0 3 91 6 0, control_miss 0 0 3 94 3 0 0, control_reach"
        " 0 7 93 0 0 0 0"
    ),
    "engine_output_low": (
        "arrival_rpm 67 32 1 0, low_share 31 38 28 4 0, middle_share 14 2 14 64 5 0, bend_share 0 13 68 4"
        " 16, excess_share 70 11 10 2 6, over_base_share 0 0 1 14 85 0, towards_more_pct 0 0 42 40 18, "
        "throttle_pct 0 0 100, egr_pct 100 0, warmth_k 6 93 1 0 0, filling 0 13 81 6 0 0 0, ask_kpa 0 0 "
        "100 0, aim_kpa 0 0 100 0 0, control_share 0 2 62 34 1 0, control_miss 1 2 2 92 2 0 0, "
        "control_reach 1 48 51 1 0 0 0"
    ),
    "other_cause": (
        "arrival_rpm 52 23 19 5, low_share 32 41 11 14 2, middle_share 19 11 16 40 14 1, bend_share 0 5 "
        "41 11 43, excess_share 45 17 14 3 20, over_base_share 0 3 5 17 49 25, towards_more_pct 0 8 62 25"
        " 4, throttle_pct 0 0 100, egr_pct 100 0, warmth_k 14 78 8 0 0, filling 0 2 88 10 0 0 0, ask_kpa "
        "0 0 100 0, aim_kpa 0 0 100 0 0, control_share 1 4 23 52 18 2, control_miss 1 8 22 67 2 0 0, "
        "control_reach 1 21 55 15 7 1 0"
    ),
}
