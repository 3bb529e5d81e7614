"""Constants of air and of the standard day, each in one place.

[ISO2533] ISO 2533:1975, "Standard Atmosphere", clause 2 (constants), from memory.
"""

GAS_CONSTANT = 287.05287  # J/(kg K), specific gas constant of dry air, [ISO2533]
HEAT_RATIO = 1.4  # cp/cv of air near room temperature, [ISO2533]
STANDARD_GRAVITY = 9.80665  # m/s2, [ISO2533]
STANDARD_PRESSURE = 101_325.0  # Pa, [ISO2533]
STANDARD_TEMPERATURE = 288.15  # K, [ISO2533]
ICE_POINT = 273.15  # K, 0 degC

# What the formulas accept: wide enough for any car, narrow enough to catch a unit mixed up.
PRESSURE_RANGE = (1.0, 1.0e7)  # Pa absolute
TEMPERATURE_RANGE = (150.0, 2_000.0)  # K
