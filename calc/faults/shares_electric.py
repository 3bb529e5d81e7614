"""How many of a hundred simulated cars lie in each range of `traces.EDGES`, fault by fault.

Made by `python3 -m tests.verdict.calibrate`, not by hand: 60 cars a fault of fixtures/simulator, kind
`electric`, seeds from 1000. A model of our own, no real cars.
"""

SHARES: dict[str, str] = {
    "no_fault_found": (
        "arrival_rpm 80 20 0 0, low_share 0 42 53 5 0, middle_share 0 0 7 93 0 0, bend_share 0 13 87 0 0,"
        " excess_share 90 10 0 0 0, towards_more_pct 15 37 38 10 0, throttle_pct 0 0 100, egr_pct 100 0, "
        "warmth_k 0 90 10 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, filling 0 2 91 8 0 0 0"
    ),
    "charge_air_leak": (
        "arrival_rpm 13 50 13 23, low_share 12 87 2 0 0, middle_share 22 68 8 2 0 0, bend_share 0 12 35 "
        "50 3, excess_share 95 5 0 0 0, towards_more_pct 0 37 17 42 5, throttle_pct 0 0 100, egr_pct 100 "
        "0, warmth_k 10 87 3 0 0, filling 0 0 0 11 43 35 11, ask_kpa 2 6 92 0, aim_kpa 0 7 93 0 0"
    ),
    "charge_air_restriction": (
        "arrival_rpm 42 57 2 0, low_share 7 82 12 0 0, middle_share 23 75 2 0 0 0, bend_share 0 38 55 7 "
        "0, excess_share 100 0 0 0 0, towards_more_pct 0 17 23 58 2, throttle_pct 0 0 100, egr_pct 100 0,"
        " warmth_k 0 23 62 15 0, filling 0 6 88 6 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0"
    ),
    "bypass_valve_not_closing": (
        "arrival_rpm 17 67 15 2, low_share 22 75 3 0 0, middle_share 17 67 17 0 0 0, bend_share 0 7 38 43"
        " 12, excess_share 98 2 0 0 0, towards_more_pct 0 37 17 43 3, throttle_pct 0 0 100, egr_pct 100 "
        "0, warmth_k 5 92 3 0 0, filling 0 4 84 12 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0"
    ),
    "actuator_motor_fault": (
        "arrival_rpm 23 23 15 38, low_share 92 8 0 0 0, middle_share 63 27 3 7 0 0, bend_share 0 2 15 23 "
        "60, excess_share 63 2 2 3 30, towards_more_pct 2 13 12 27 47, throttle_pct 0 0 100, egr_pct 100 "
        "0, warmth_k 57 43 0 0 0, filling 0 3 78 19 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0"
    ),
    "wastegate_seized_closed": (
        "arrival_rpm 95 5 0 0, low_share 43 55 0 0 2, middle_share 35 52 10 2 0 2, bend_share 0 0 0 0 "
        "100, excess_share 0 0 0 5 95, towards_more_pct 0 0 2 45 53, throttle_pct 0 2 98, warmth_k 48 50 "
        "2 0 0, egr_pct 100 0, filling 0 0 100 0 0 0 0, ask_kpa 100 0 0 0, aim_kpa 100 0 0 0 0"
    ),
    "wastegate_not_closing": (
        "arrival_rpm 2 43 42 13, low_share 98 2 0 0 0, middle_share 53 12 15 20 0 0, bend_share 0 0 23 12"
        " 65, excess_share 65 27 8 0 0, towards_more_pct 0 0 42 32 27, throttle_pct 0 0 100, warmth_k 33 "
        "63 3 0 0, filling 0 4 84 12 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, egr_pct 100 0"
    ),
    "charge_pressure_reads_high": (
        "arrival_rpm 5 42 2 52, low_share 3 95 2 0 0, middle_share 7 40 52 2 0 0, bend_share 0 32 68 0 0,"
        " excess_share 100 0 0 0 0, towards_more_pct 27 25 48 0 0, throttle_pct 0 0 100, warmth_k 0 100 0"
        " 0 0, filling 0 0 80 20 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, egr_pct 100 0"
    ),
    "charge_pressure_reads_low": (
        "arrival_rpm 85 15 0 0, low_share 27 12 15 32 15, middle_share 20 5 2 5 47 22, bend_share 0 7 53 "
        "5 35, excess_share 20 20 53 7 0, towards_more_pct 2 25 33 28 12, throttle_pct 0 0 100, egr_pct "
        "100 0, warmth_k 18 65 17 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, filling 0 4 74 20 2 0 0"
    ),
    "air_mass_reads_low": (
        "arrival_rpm 98 2 0 0, low_share 10 33 50 5 2, middle_share 0 7 5 43 42 3, bend_share 0 0 37 52 "
        "12, excess_share 20 38 32 10 0, towards_more_pct 30 13 53 3 0, throttle_pct 0 0 100, egr_pct 100"
        " 0, warmth_k 12 87 2 0 0, filling 100 0 0 0 0 0 0, ask_kpa 58 40 2 0, aim_kpa 18 67 15 0 0"
    ),
    "air_mass_reads_high": (
        "arrival_rpm 87 13 0 0, low_share 0 27 62 12 0, middle_share 0 0 3 68 28 0, bend_share 0 10 82 8 "
        "0, excess_share 62 30 8 0 0, towards_more_pct 30 22 43 5 0, throttle_pct 0 0 100, egr_pct 100 0,"
        " warmth_k 5 93 2 0 0, filling 0 0 0 0 0 28 72, ask_kpa 17 44 38 0, aim_kpa 0 52 48 0 0"
    ),
    "temperature_or_barometric_wrong": (
        "arrival_rpm 82 18 0 0, low_share 10 32 37 12 10, middle_share 0 5 10 33 40 12, bend_share 0 12 "
        "65 12 12, excess_share 23 42 28 5 2, towards_more_pct 32 15 48 5 0, throttle_pct 0 0 100, "
        "warmth_k 13 70 0 0 17, filling 8 0 58 23 8 4 0, ask_kpa 40 50 10 0, aim_kpa 18 48 33 0 0, "
        "egr_pct 100 0"
    ),
    "sensor_feed_fault": (
        "arrival_rpm 7 53 2 38, low_share 0 98 2 0 0, middle_share 0 29 53 18 0 0, bend_share 0 24 76 0 "
        "0, excess_share 100 0 0 0 0, towards_more_pct 40 20 40 0 0, throttle_pct 0 0 100, warmth_k 0 98 "
        "2 0 0, filling 0 8 80 12 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, egr_pct 100 0"
    ),
    "limit_in_force": (
        "arrival_rpm 73 15 12 0, low_share 20 31 34 10 5, middle_share 14 10 12 29 24 12, bend_share 0 3 "
        "31 29 37, excess_share 32 29 15 12 12, towards_more_pct 37 17 42 3 0, throttle_pct 0 0 100, "
        "warmth_k 25 51 0 0 24, filling 0 5 82 13 0 0 0, ask_kpa 56 31 13 0, aim_kpa 42 38 20 0 0, "
        "egr_pct 100 0"
    ),
    "specified_value_wrong": (
        "arrival_rpm 87 13 0 0, low_share 2 48 48 2 0, middle_share 0 0 3 43 47 7, bend_share 0 15 57 25 "
        "3, excess_share 38 35 22 5 0, towards_more_pct 27 23 47 3 0, throttle_pct 0 0 100, egr_pct 100 "
        "0, warmth_k 5 88 7 0 0, ask_kpa 10 21 69 0, aim_kpa 20 57 0 22 2, filling 0 2 90 8 0 0 0"
    ),
    "turbocharger_worn": (
        "arrival_rpm 2 45 48 5, low_share 72 28 0 0 0, middle_share 30 68 2 0 0 0, bend_share 7 35 37 7 "
        "15, excess_share 100 0 0 0 0, towards_more_pct 0 7 22 55 17, throttle_pct 0 0 100, egr_pct 100 "
        "0, warmth_k 0 58 42 0 0, filling 0 4 82 14 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0"
    ),
    "intake_restriction": (
        "arrival_rpm 58 38 2 2, low_share 0 85 15 0 0, middle_share 27 70 3 0 0 0, bend_share 12 77 12 0 "
        "0, excess_share 97 2 2 0 0, towards_more_pct 0 13 22 45 20, throttle_pct 0 0 100, warmth_k 0 58 "
        "35 7 0, filling 0 4 88 8 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, egr_pct 100 0"
    ),
    "throttle_not_opening": (
        "arrival_rpm 38 42 17 3, low_share 0 65 35 0 0, middle_share 17 45 35 3 0 0, bend_share 0 5 25 62"
        " 8, excess_share 90 10 0 0 0, towards_more_pct 2 33 32 33 0, throttle_pct 40 0 60, egr_pct 100 "
        "0, warmth_k 15 83 2 0 0, ask_kpa 0 24 76 0, aim_kpa 0 10 90 0 0, filling 43 57 0 0 0 0 0"
    ),
    "exhaust_restriction": (
        "arrival_rpm 32 52 7 10, low_share 5 95 0 0 0, middle_share 47 47 7 0 0 0, bend_share 3 27 65 5 "
        "0, excess_share 100 0 0 0 0, towards_more_pct 0 2 33 47 18, throttle_pct 0 0 100, egr_pct 100 0,"
        " warmth_k 8 92 0 0 0, filling 8 73 19 0 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0"
    ),
    "exhaust_leak_before_turbine": (
        "arrival_rpm 5 70 22 3, low_share 72 28 0 0 0, middle_share 22 77 2 0 0 0, bend_share 0 18 23 42 "
        "17, excess_share 100 0 0 0 0, towards_more_pct 0 45 8 38 8, throttle_pct 0 0 100, warmth_k 18 82"
        " 0 0 0, filling 0 0 79 21 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0, egr_pct 100 0"
    ),
    "egr_not_closing": (
        "arrival_rpm 23 68 5 3, low_share 78 22 0 0 0, middle_share 10 42 25 22 2 0, bend_share 0 7 30 37"
        " 27, excess_share 63 20 15 2 0, towards_more_pct 0 42 13 42 3, throttle_pct 0 0 100, egr_pct 51 "
        "49, warmth_k 0 23 53 23 0, filling 10 41 49 0 0 0 0, ask_kpa 0 4 96 0, aim_kpa 0 0 100 0 0"
    ),
    "engine_output_low": (
        "arrival_rpm 37 58 5 0, low_share 50 48 2 0 0, middle_share 30 67 3 0 0 0, bend_share 2 13 20 38 "
        "27, excess_share 100 0 0 0 0, towards_more_pct 0 7 25 40 28, throttle_pct 0 0 100, egr_pct 100 "
        "0, warmth_k 15 85 0 0 0, filling 0 20 76 4 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0"
    ),
    "other_cause": (
        "arrival_rpm 55 15 22 8, low_share 67 13 18 2 0, middle_share 33 27 20 17 3 0, bend_share 0 17 18"
        " 10 55, excess_share 57 12 0 3 28, towards_more_pct 8 7 28 32 25, throttle_pct 0 0 100, egr_pct "
        "100 0, warmth_k 28 70 2 0 0, filling 0 3 79 17 0 0 0, ask_kpa 0 0 100 0, aim_kpa 0 0 100 0 0"
    ),
}
