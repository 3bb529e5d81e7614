"""How many of a hundred simulated cars lie in each range of `traces.EDGES`, fault by fault.

Made by `python3 -m tests.verdict.calibrate`, not by hand: 80 cars a fault of fixtures/simulator, kind
`pressure`, seeds from 1000. A model of our own, no real cars.
"""

SHARES: dict[str, str] = {
    "no_fault_found": (
        "arrival_rpm 69 31 0 0, low_share 0 14 59 28 0, middle_share 0 0 6 91 2 0, bend_share 0 1 99 0 0,"
        " excess_share 90 10 0 0 0, over_base_share 0 0 0 0 100 0, towards_more_pct 0 0 84 16 0, "
        "throttle_pct 0 0 100, warmth_k 0 98 2 0 0, filling 0 3 91 6 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 "
        "0 100 0 0, control_share 0 0 15 85 0 0, control_miss 0 0 1 98 1 0 0, control_reach 0 12 88 0 0 0"
        " 0, egr_pct 100 0"
    ),
    "charge_air_leak": (
        "arrival_rpm 29 30 21 20, low_share 10 61 28 1 0, middle_share 5 5 55 34 1 0, bend_share 5 16 74 "
        "5 0, excess_share 86 12 1 0 0, over_base_share 0 1 2 30 66 0, towards_more_pct 0 0 60 26 14, "
        "throttle_pct 0 0 100, egr_pct 100 0, warmth_k 1 92 6 0 0, filling 0 0 0 14 34 37 15, ask_kpa 1 4"
        " 94 0, aim_kpa 0 11 89 0 0, control_share 1 4 64 31 0 0, control_miss 0 0 5 94 1 0 0, "
        "control_reach 4 66 30 0 0 0 0"
    ),
    "charge_air_restriction": (
        "arrival_rpm 35 36 4 25, low_share 1 66 31 1 0, middle_share 10 34 51 5 0 0, bend_share 29 31 38 "
        "2 0, excess_share 96 4 0 0 0, over_base_share 2 1 10 55 31 0, towards_more_pct 0 0 38 20 42, "
        "throttle_pct 0 0 100, warmth_k 0 9 54 36 1, filling 0 7 78 15 0 0 0, ask_kpa 0 0 100 0, aim_kpa "
        "0 0 100 0 0, control_share 0 16 79 5 0 0, control_miss 0 1 2 96 0 0 0, control_reach 2 54 44 0 0"
        " 0 0, egr_pct 100 0"
    ),
    "bypass_valve_not_closing": (
        "arrival_rpm 26 48 14 12, low_share 11 56 30 2 0, middle_share 2 11 54 31 1 0, bend_share 0 5 90 "
        "4 1, excess_share 94 5 1 0 0, over_base_share 0 0 0 24 76 0, towards_more_pct 0 0 60 19 21, "
        "throttle_pct 0 0 100, egr_pct 100 0, warmth_k 1 98 1 0 0, filling 0 6 88 6 0 0 0, ask_kpa 0 0 "
        "100 0, aim_kpa 0 0 100 0 0, control_share 0 6 66 26 1 0, control_miss 0 0 5 95 0 0 0, "
        "control_reach 0 64 36 0 0 0 0"
    ),
    "diaphragm_leak": (
        "arrival_rpm 100 0 0 0, low_share 17 68 1 1 13, middle_share 7 41 20 13 13 7, bend_share 1 11 0 3"
        " 85, excess_share 0 3 18 13 66, over_base_share 0 0 0 1 45 54, towards_more_pct 0 31 69 0 0, "
        "throttle_pct 0 0 100, egr_pct 100 0, warmth_k 37 59 4 0 0, filling 3 3 81 12 0 0 0, ask_kpa 0 0 "
        "100 0, aim_kpa 0 0 100 0 0, control_share 0 25 52 15 5 2, control_miss 71 20 6 2 0 0 0, "
        "control_reach 0 54 45 1 0 0 0"
    ),
    "actuator_opens_early": (
        "arrival_rpm 16 21 42 20, low_share 10 86 4 0 0, middle_share 10 38 40 12 0 0, bend_share 0 0 14 "
        "61 25, excess_share 96 4 0 0 0, over_base_share 0 0 4 35 61 0, towards_more_pct 0 0 46 21 32, "
        "throttle_pct 0 0 100, egr_pct 100 0, warmth_k 8 92 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 "
        "0, control_share 4 5 81 10 0 0, control_miss 0 0 5 92 2 0 0, control_reach 2 86 11 0 0 0 0, "
        "filling 0 3 90 7 0 0 0"
    ),
    "actuator_opens_late": (
        "arrival_rpm 100 0 0 0, low_share 13 33 5 5 43, middle_share 1 14 8 18 43 14, bend_share 0 53 3 3"
        " 42, excess_share 0 8 46 28 18, over_base_share 0 0 0 0 58 42, towards_more_pct 0 29 71 0 0, "
        "throttle_pct 0 0 100, egr_pct 100 0, warmth_k 18 75 7 0 0, filling 0 8 84 8 0 0 0, ask_kpa 0 0 "
        "100 0, aim_kpa 0 0 100 0 0, control_share 0 0 0 44 50 6, control_miss 0 2 9 80 9 0 0, "
        "control_reach 0 0 16 82 1 0 0"
    ),
    "spring_weak": (
        "arrival_rpm 25 40 20 15, low_share 0 72 28 0 0, middle_share 0 20 60 20 0 0, bend_share 0 2 65 "
        "31 1, excess_share 99 1 0 0 0, over_base_share 0 0 0 28 72 0, towards_more_pct 0 0 50 25 25, "
        "throttle_pct 0 0 100, warmth_k 1 98 1 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, control_share"
        " 0 4 84 12 0 0, control_miss 0 0 2 98 0 0 0, control_reach 2 76 21 0 0 0 0, egr_pct 100 0, "
        "filling 0 4 88 7 0 0 0"
    ),
    "wastegate_seized_closed": (
        "arrival_rpm 77 23 0 0, low_share 64 35 0 1 0, middle_share 62 35 3 0 1 0, bend_share 0 1 0 0 99,"
        " excess_share 0 0 3 6 91, over_base_share 0 0 0 31 56 13, towards_more_pct 0 17 77 6 0, "
        "throttle_pct 0 0 100, warmth_k 46 53 1 0 0, control_share 0 0 2 10 32 55, control_miss 0 12 26 "
        "56 4 1 0, control_reach 0 1 9 15 16 59 0, egr_pct 100 0, filling 0 12 65 24 0 0 0, ask_kpa 0 0 "
        "100 0, aim_kpa 0 0 100 0 0"
    ),
    "wastegate_not_closing": (
        "arrival_rpm 2 32 48 18, low_share 99 1 0 0 0, middle_share 59 5 15 21 0 0, bend_share 0 0 25 11 "
        "64, excess_share 35 18 42 5 0, over_base_share 8 2 15 19 56 0, towards_more_pct 0 0 38 36 26, "
        "throttle_pct 0 0 100, warmth_k 41 58 1 0 0, filling 0 11 80 9 0 0 0, ask_kpa 0 0 100 0, aim_kpa "
        "0 0 100 0 0, control_share 20 5 44 28 2 1, control_miss 0 0 5 90 5 0 0, control_reach 10 69 20 1"
        " 0 0 0, egr_pct 100 0"
    ),
    "control_line_leak": (
        "arrival_rpm 100 0 0 0, low_share 13 61 1 8 17, middle_share 5 34 13 22 13 12, bend_share 3 20 3 "
        "0 75, excess_share 0 9 14 20 57, over_base_share 0 0 0 3 50 47, towards_more_pct 3 38 57 3 0, "
        "throttle_pct 0 0 100, warmth_k 33 66 1 0 0, filling 0 9 69 22 0 0 0, ask_kpa 0 0 100 0, aim_kpa "
        "0 0 100 0 0, control_share 0 12 54 28 6 0, control_miss 47 4 7 38 4 0 0, control_reach 1 44 54 1"
        " 0 0 0, egr_pct 100 0"
    ),
    "control_line_blocked": (
        "arrival_rpm 91 9 0 0, low_share 24 59 7 1 9, middle_share 7 54 26 6 1 6, bend_share 0 6 4 0 90, "
        "excess_share 4 4 9 23 60, over_base_share 0 0 0 3 81 16, towards_more_pct 1 29 67 3 0, "
        "throttle_pct 1 4 94, egr_pct 100 0, warmth_k 37 61 1 0 0, filling 0 4 85 12 0 0 0, ask_kpa 14 0 "
        "86 0, aim_kpa 13 0 87 0 0, control_share 68 0 19 14 0 0, control_miss 66 18 10 6 0 0 0, "
        "control_reach 28 49 24 0 0 0 0"
    ),
    "control_hoses_swapped": (
        "control_share 54 0 2 1 1 41, control_miss 44 1 4 10 1 4 36, control_reach 25 32 20 22 0 0 0, "
        "arrival_rpm 56 0 1 42, low_share 58 35 0 1 6, middle_share 56 37 3 0 0 4, bend_share 0 0 6 42 "
        "52, excess_share 44 3 1 4 48, over_base_share 0 0 46 8 35 10, towards_more_pct 0 25 27 0 48, "
        "throttle_pct 0 4 96, egr_pct 100 0, warmth_k 37 63 0 0 0, ask_kpa 9 0 91 0, aim_kpa 8 0 92 0 0, "
        "filling 0 3 74 23 0 0 0"
    ),
    "solenoid_passes_all": (
        "arrival_rpm 0 0 0 100, low_share 79 21 0 0 0, middle_share 100 0 0 0 0 0, bend_share 0 0 6 94 0,"
        " excess_share 100 0 0 0 0, over_base_share 0 11 85 4 0 0, towards_more_pct 0 0 0 0 100, "
        "throttle_pct 0 0 100, warmth_k 45 55 0 0 0, filling 0 0 78 22 0 0 0, ask_kpa 0 0 100 0, aim_kpa "
        "0 0 100 0 0, control_share 0 0 0 0 1 99, control_miss 0 0 0 0 0 9 91, control_reach 0 0 42 58 0 "
        "0 0, egr_pct 100 0"
    ),
    "solenoid_vents_all": (
        "arrival_rpm 100 0 0 0, low_share 21 70 0 0 9, middle_share 14 65 9 3 0 9, bend_share 0 0 0 0 "
        "100, excess_share 0 0 0 5 95, over_base_share 0 0 0 3 68 29, towards_more_pct 3 52 45 0 0, "
        "throttle_pct 3 6 91, egr_pct 100 0, warmth_k 42 55 3 0 0, control_share 65 28 6 1 0 0, "
        "control_reach 35 62 2 0 0 0 0, control_miss 97 1 1 0 0 0 0, ask_kpa 67 0 33 0, aim_kpa 75 0 25 0"
        " 0, filling 0 0 80 20 0 0 0"
    ),
    "solenoid_circuit_fault": (
        "arrival_rpm 22 4 1 73, low_share 51 36 3 1 9, middle_share 62 21 3 8 4 4, bend_share 0 5 14 68 "
        "13, excess_share 78 3 5 3 12, over_base_share 0 5 53 19 13 10, towards_more_pct 0 10 15 6 68, "
        "throttle_pct 0 1 99, egr_pct 100 0, warmth_k 28 72 0 0 0, filling 0 4 82 14 0 0 0, ask_kpa 2 0 "
        "98 0, aim_kpa 1 0 99 0 0, control_share 6 0 14 14 9 58, control_miss 15 6 0 9 0 15 55, "
        "control_reach 4 8 54 35 0 0 0"
    ),
    "charge_pressure_reads_high": (
        "arrival_rpm 38 41 4 18, low_share 0 40 59 1 0, middle_share 1 50 49 0 0 0, bend_share 0 34 58 8 "
        "1, excess_share 99 1 0 0 0, over_base_share 0 0 2 89 9 0, towards_more_pct 1 15 84 0 0, "
        "throttle_pct 0 0 100, egr_pct 100 0, warmth_k 4 95 1 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 "
        "0, control_share 0 0 0 71 24 5, control_miss 0 0 1 99 0 0 0, control_reach 0 4 90 6 0 0 0, "
        "filling 0 3 82 15 0 0 0"
    ),
    "charge_pressure_reads_low": (
        "arrival_rpm 90 5 0 5, low_share 15 1 8 48 29, middle_share 10 5 0 5 42 38, bend_share 0 1 68 19 "
        "12, excess_share 15 28 51 6 0, over_base_share 0 0 0 15 11 74, towards_more_pct 0 0 44 29 28, "
        "throttle_pct 0 0 100, warmth_k 6 71 22 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 0 0 71 29 0 0, control_miss 0 0 0 95 4 1 0, control_reach 0 41 59 0 0 0 0, egr_pct"
        " 100 0, filling 0 3 92 3 2 0 0"
    ),
    "air_mass_reads_low": (
        "arrival_rpm 100 0 0 0, low_share 0 5 15 44 36, middle_share 0 1 6 48 44 1, bend_share 0 0 79 16 "
        "5, excess_share 12 54 26 8 0, over_base_share 0 0 0 22 72 5, towards_more_pct 10 54 36 0 0, "
        "throttle_pct 0 0 100, egr_pct 100 0, warmth_k 11 89 0 0 0, filling 100 0 0 0 0 0 0, ask_kpa 61 "
        "39 0 0, aim_kpa 10 81 9 0 0, control_share 0 0 0 24 59 18, control_miss 0 0 2 96 1 0 0, "
        "control_reach 0 2 71 26 0 0 0"
    ),
    "air_mass_reads_high": (
        "arrival_rpm 91 9 0 0, low_share 0 0 25 70 5, middle_share 0 0 1 81 18 0, bend_share 0 4 96 0 0, "
        "excess_share 52 46 1 0 0, over_base_share 0 0 0 5 91 4, towards_more_pct 0 20 76 4 0, "
        "throttle_pct 0 0 100, warmth_k 0 100 0 0 0, filling 0 0 0 0 0 28 72, ask_kpa 4 51 45 0, aim_kpa "
        "0 39 61 0 0, control_share 0 0 2 70 28 0, control_miss 0 0 5 92 2 0 0, control_reach 0 4 92 4 0 "
        "0 0, egr_pct 100 0"
    ),
    "pedal_signal_low": (
        "control_share 0 0 0 44 44 12, control_miss 0 0 5 91 4 0 0, control_reach 0 5 94 1 0 0 0"
    ),
    "temperature_or_barometric_wrong": (
        "arrival_rpm 98 2 0 0, low_share 0 6 16 59 19, middle_share 0 1 2 60 30 6, bend_share 0 8 82 4 6,"
        " excess_share 35 46 12 4 2, over_base_share 0 0 1 15 81 2, towards_more_pct 1 34 64 1 0, "
        "throttle_pct 0 0 100, warmth_k 15 79 0 0 6, filling 11 0 67 17 6 0 0, ask_kpa 24 61 14 0, "
        "aim_kpa 4 61 35 0 0, control_share 0 0 0 55 39 6, control_miss 0 0 2 95 2 0 0, control_reach 0 5"
        " 90 5 0 0 0, egr_pct 100 0"
    ),
    "sensor_feed_fault": (
        "arrival_rpm 39 50 6 6, low_share 0 24 74 2 0, middle_share 0 35 59 6 0 0, bend_share 0 35 65 0 "
        "0, excess_share 100 0 0 0 0, over_base_share 0 0 0 76 24 0, towards_more_pct 0 19 81 0 0, "
        "throttle_pct 0 0 100, warmth_k 0 100 0 0 0, filling 0 2 93 5 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0"
        " 0 100 0 0, control_share 0 0 22 61 16 0, control_miss 0 0 1 98 1 0 0, control_reach 0 14 84 2 0"
        " 0 0, egr_pct 100 0"
    ),
    "limit_in_force": (
        "arrival_rpm 99 1 0 0, low_share 0 1 23 26 49, middle_share 0 0 0 44 19 36, bend_share 0 8 68 19 "
        "5, excess_share 31 25 10 5 29, over_base_share 0 4 21 19 53 3, towards_more_pct 32 22 45 0 0, "
        "throttle_pct 3 3 95, egr_pct 100 0, warmth_k 14 61 0 1 23, filling 0 1 91 7 0 0 0, ask_kpa 56 31"
        " 13 0, aim_kpa 39 38 24 0 0, control_share 0 0 0 39 25 36, control_miss 0 0 6 92 1 0 0, "
        "control_reach 0 5 69 26 0 0 0"
    ),
    "specified_value_wrong": (
        "arrival_rpm 94 5 0 1, low_share 5 9 25 41 20, middle_share 1 0 12 62 18 6, bend_share 0 6 82 9 "
        "2, excess_share 50 34 11 5 0, over_base_share 0 0 4 15 81 0, towards_more_pct 8 35 40 8 10, "
        "throttle_pct 0 0 100, warmth_k 4 91 5 0 0, filling 0 2 85 14 0 0 0, ask_kpa 13 13 75 0, aim_kpa "
        "15 48 0 36 1, control_share 0 1 22 31 36 9, control_miss 0 0 4 90 6 0 0, control_reach 0 10 82 8"
        " 0 0 0, egr_pct 100 0"
    ),
    "turbocharger_worn": (
        "arrival_rpm 5 24 21 50, low_share 61 38 1 0 0, middle_share 14 46 39 1 0 0, bend_share 0 24 32 "
        "36 8, excess_share 100 0 0 0 0, over_base_share 0 0 6 68 26 0, towards_more_pct 0 0 36 22 41, "
        "throttle_pct 0 0 100, warmth_k 0 48 52 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, "
        "control_share 9 16 70 4 1 0, control_miss 0 0 6 94 0 0 0, control_reach 10 82 8 0 0 0 0, filling"
        " 0 3 85 11 0 0 0, egr_pct 100 0"
    ),
    "intake_restriction": (
        "arrival_rpm 66 31 0 2, low_share 0 15 68 18 0, middle_share 1 32 46 20 0 0, bend_share 29 66 5 0"
        " 0, excess_share 94 6 0 0 0, over_base_share 0 1 1 78 20 0, towards_more_pct 0 0 42 30 28, "
        "throttle_pct 0 0 100, egr_pct 100 0, warmth_k 0 14 58 25 4, filling 0 15 72 13 0 0 0, ask_kpa 0 "
        "0 100 0, aim_kpa 0 0 100 0 0, control_share 2 24 66 8 0 0, control_miss 0 1 12 72 9 5 0, "
        "control_reach 6 88 6 0 0 0 0"
    ),
    "throttle_not_opening": (
        "arrival_rpm 82 18 0 0, low_share 0 9 32 56 2, middle_share 0 2 8 81 9 0, bend_share 0 2 82 12 2,"
        " excess_share 49 34 18 0 0, over_base_share 0 0 0 0 94 6, towards_more_pct 2 32 62 2 0, "
        "throttle_pct 58 0 42, egr_pct 100 0, warmth_k 4 94 2 0 0, filling 46 54 0 0 0 0 0, ask_kpa 0 10 "
        "90 0, aim_kpa 0 2 98 0 0, control_share 0 0 5 72 22 0, control_miss 0 0 4 92 4 0 0, "
        "control_reach 0 8 92 0 0 0 0"
    ),
    "exhaust_restriction": (
        "arrival_rpm 38 52 6 4, low_share 1 38 54 8 0, middle_share 1 2 38 59 0 0, bend_share 0 0 76 20 "
        "4, excess_share 95 4 1 0 0, over_base_share 0 0 0 5 95 0, towards_more_pct 0 0 66 22 11, "
        "throttle_pct 0 0 100, egr_pct 100 0, warmth_k 0 99 1 0 0, filling 7 86 7 0 0 0 0, ask_kpa 0 0 "
        "100 0, aim_kpa 0 0 100 0 0, control_share 0 0 61 39 0 0, control_miss 0 0 1 96 2 0 0, "
        "control_reach 1 60 39 0 0 0 0"
    ),
    "exhaust_leak_before_turbine": (
        "arrival_rpm 5 64 21 10, low_share 80 19 1 0 0, middle_share 16 12 38 34 0 0, bend_share 0 0 54 "
        "22 24, excess_share 72 18 10 0 0, over_base_share 4 2 0 11 82 0, towards_more_pct 0 0 56 24 20, "
        "throttle_pct 0 0 100, egr_pct 100 0, warmth_k 12 88 0 0 0, filling 0 4 81 14 0 0 0, ask_kpa 0 0 "
        "100 0, aim_kpa 0 0 100 0 0, control_share 2 5 66 25 1 0, control_miss 0 0 9 90 1 0 0, "
        "control_reach 6 58 36 0 0 0 0"
    ),
    "egr_not_closing": (
        "arrival_rpm 69 31 0 0, low_share 9 72 18 1 0, middle_share 0 2 2 86 9 0, bend_share 0 2 95 0 2, "
        "excess_share 59 25 15 1 0, over_base_share 0 0 0 1 99 0, towards_more_pct 0 5 92 2 0, "
        "throttle_pct 0 0 100, egr_pct 58 42, warmth_k 0 0 30 70 0, filling 23 73 5 0 0 0 0, ask_kpa 0 6 "
        "94 0, aim_kpa 0 1 99 0 0, control_share 0 0 2 91 6 0, control_miss 0 0 1 94 5 0 0, control_reach"
        " 0 8 92 0 0 0 0"
    ),
    "engine_output_low": (
        "arrival_rpm 66 34 0 0, low_share 29 36 32 2 0, middle_share 14 1 11 69 5 0, bend_share 0 11 71 4"
        " 14, excess_share 72 11 10 1 5, over_base_share 0 0 2 14 84 0, towards_more_pct 0 0 44 39 18, "
        "throttle_pct 0 0 100, egr_pct 100 0, warmth_k 6 94 0 0 0, filling 0 10 85 4 0 0 0, ask_kpa 0 0 "
        "100 0, aim_kpa 0 0 100 0 0, control_share 0 0 64 36 0 0, control_miss 0 2 1 92 2 1 0, "
        "control_reach 0 50 50 0 0 0 0"
    ),
    "other_cause": (
        "arrival_rpm 54 18 21 8, low_share 34 39 11 14 2, middle_share 20 12 15 38 14 1, bend_share 0 5 "
        "45 9 41, excess_share 50 9 18 1 22, over_base_share 0 4 5 18 51 22, towards_more_pct 0 10 61 22 "
        "6, throttle_pct 0 0 100, egr_pct 100 0, warmth_k 21 74 5 0 0, filling 0 2 90 8 0 0 0, ask_kpa 0 "
        "0 100 0, aim_kpa 0 0 100 0 0, control_share 1 2 26 49 19 2, control_miss 2 9 21 64 4 0 0, "
        "control_reach 2 20 54 12 10 1 0"
    ),
}
