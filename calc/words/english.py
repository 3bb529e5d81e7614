"""The English catalogue: every sentence that a verdict can say.

`{figure}` is the value with its doubt and unit, `{limit}` the limit with its unit. A further language is one
more module with the same names.
"""

from calc.words.catalogue import CheckWords, FaultWords, FigureWords

FIGURES = FigureWords(
    decimal_sign=".",
    at_most="at most {high}",
    at_least="at least {low}",
    between="{low} to {high}",
    units={},
)
LOWERS_INSIDE = True  # a title or sentence loses its capital letter inside another sentence

WITHIN = "Within limits."
LIMIT = "the limit is {limit}"
TYPICAL_LIMIT = "the usual figure is {limit} (common practice, no source, not the maker's)"
UNDECIDED = "Undecided: the doubt reaches across the limit."
SETTLES_FINER = "A gauge of class {finer} would tell."
SHOWN = "{title} {figure}"
NO_LIMIT = "{reads}. Not judged: no limit typed in."
BECAUSE = {
    "no_reading": "Not examined: no reading.",
    "no_limit": "Not examined: no limit typed in.",
    "no_volume": "Not examined: the volume of the charge circuit is not known.",
    "no_fall_to_judge": "Not examined: the readings do not show how the pressure fell.",
    "no_ambient": "Not examined: the temperature of the air around the car is not known.",
    "sweep_too_short": "Not examined: the sweep did not go past the start limit.",
    "not_at_full_load": "Not examined: not read at full load, so it proves nothing.",
    "needs_a_log": "Not examined: typed values cannot show it; a log can.",
    "log_too_slow": "Not examined: the log has too few rows a second to show it.",
    "log_too_slow_or_short": "Not examined: the log is too slow, or the pull too short, to show it.",
    "run_left_out": "Not examined: the run was not made as it should be, so it is not judged.",
    "no_pull": "Not examined: the log holds no full-load pull of 2 s and more.",
    "never_settled": "Not examined: in no pull did boost settle, nor was it overdue.",
    "arrangement_unknown": "Not examined: how this car's solenoid is arranged is not known, and there is no "
    "bench sweep of it.",
}

CHECKS: dict[str, CheckWords] = {
    "smoke_leak": CheckWords(
        "Smoke",
        "Smoke in the charge circuit",
        "Smoke was seen",
        "",
        "the air pipes between turbocharger and engine, with smoke",
    ),
    "charge_leak_hole": CheckWords(
        "Pressure decay",
        "The charge circuit loses as much as a sharp-edged hole of {figure} would",
        "",
        "It leaks more than allowed.",
        "the air pipes between turbocharger and engine: how well they hold pressure",
    ),
    "actuator_start": CheckWords(
        "First movement",
        "The actuator first moves at {figure}",
        "It moves too early.",
        "It moves too late.",
        "the pressure at which the boost valve begins to open",
    ),
    "actuator_full": CheckWords(
        "Full travel",
        "The actuator reaches full travel at {figure}",
        "Full travel comes too early.",
        "Full travel comes too late.",
        "the pressure at which the boost valve is fully open",
    ),
    "actuator_travel": CheckWords(
        "Travel",
        "The rod travels {figure}",
        "It does not travel far enough.",
        "It travels too far.",
        "how far the boost valve's rod travels",
    ),
    "actuator_rate": CheckWords(
        "Rate",
        "The actuator's rate is {figure}",
        "The spring is too stiff.",
        "The spring is too soft.",
        "the spring of the boost valve",
    ),
    "actuator_hysteresis": CheckWords(
        "Friction",
        "Opening and closing pressures lie {figure} apart",
        "",
        "It sticks.",
        "whether the boost valve sticks",
    ),
    "actuator_hold": CheckWords(
        "Hold",
        "The actuator loses {figure}",
        "",
        "It does not hold its pressure.",
        "whether the boost valve's drive holds its pressure",
    ),
    "actuator_moves": CheckWords(
        "Rod moves",
        "Rod and linkage",
        "The rod does not move when driven",
        "",
        "whether the boost valve's rod moves freely",
    ),
    "actuator_returns": CheckWords(
        "Back on its stop",
        "Return of the rod",
        "The rod does not return to its stop",
        "",
        "whether the boost valve closes again",
    ),
    "actuator_position": CheckWords(
        "Position",
        "Commanded and reported positions differ by {figure}",
        "It is ahead of its command.",
        "It stays behind its command.",
        "whether the electric drive of the boost valve goes where it is told",
    ),
    "wastegate_seat": CheckWords(
        "Wastegate seat",
        "The valve in the housing",
        "The valve does not seat, or it is damaged",
        "",
        "the boost valve inside the turbocharger housing",
    ),
    "solenoid_coil": CheckWords(
        "Coil",
        "The coil measures {figure} at 20 °C",
        "Resistance too low: shorted turns.",
        "Resistance too high.",
        "the coil of the boost control valve",
    ),
    "solenoid_supply": CheckWords(
        "Supply drop",
        "The supply side drops {figure} under load",
        "",
        "Too much voltage is lost on the way.",
        "the power supply of the boost control valve",
    ),
    "solenoid_ground": CheckWords(
        "Ground drop",
        "The ground side drops {figure} under load",
        "",
        "Too much voltage is lost on the way.",
        "the ground connection of the boost control valve",
    ),
    "solenoid_response": CheckWords(
        "Response to duty",
        "The control pressure follows the duty over {figure} of its supply",
        "It does not follow the duty far enough.",
        "",
        "whether the boost control valve does what it is told",
    ),
    "control_hoses": CheckWords(
        "Control hoses",
        "Control hoses",
        "A control hose is faulty or on the wrong port",
        "",
        "the small control hoses",
    ),
    "rest_charge_pressure": CheckWords(
        "Charge pressure sensor at rest",
        "At rest the charge pressure sensor differs from the barometer by {figure}",
        "It reads too little.",
        "It reads too much.",
        "the car's own boost sensor, engine stopped",
    ),
    "rest_temperatures": CheckWords(
        "Temperatures at rest",
        "With the car cold, a temperature signal differs from the air around it by {figure}",
        "It reads too cold.",
        "It reads too warm.",
        "the car's temperature sensors",
    ),
    "rest_pedal": CheckWords(
        "Pedal at rest",
        "The pedal signal reads {figure}",
        "It never asks for full load.",
        "It does not come back when released.",
        "the accelerator pedal's signal",
    ),
    "rest_air_mass": CheckWords(
        "Air mass at rest",
        "With no air moving the air mass sensor reads {figure}",
        "",
        "It counts air that is not there.",
        "the air mass sensor, engine stopped",
    ),
    "sensor_feed": CheckWords(
        "Sensor feed",
        "The sensors' supply or ground reads {figure}",
        "The reference is too low.",
        "The reference or the ground is too high.",
        "the power supply of the sensors",
    ),
    "intake_depression": CheckWords(
        "Intake depression",
        "Before the compressor the depression is {figure} at full load",
        "",
        "The intake is restricted.",
        "the air filter and intake pipe",
    ),
    "exhaust_back_pressure": CheckWords(
        "Exhaust back pressure",
        "After the turbine the pressure is {figure} at full load",
        "",
        "The exhaust is restricted.",
        "whether the exhaust is clear",
    ),
    "cooler_drop": CheckWords(
        "Cooler drop",
        "Across the charge-air cooler {figure} is lost at full load",
        "",
        "The cooler or a hose is restricted.",
        "whether the charge-air cooler is clear",
    ),
    "vacuum_supply": CheckWords(
        "Vacuum supply",
        "The vacuum supply stands at {figure}",
        "",
        "Too little vacuum.",
        "the vacuum supply",
    ),
    "bypass_hold": CheckWords(
        "Bypass valve",
        "The bypass valve holds {figure}",
        "It lets air back.",
        "",
        "the valve that lets boost back to the intake",
    ),
    "turbo_radial_play": CheckWords(
        "Radial play",
        "Radial shaft play is {figure}",
        "",
        "The bearing is worn.",
        "the play of the turbocharger's shaft, sideways",
    ),
    "turbo_axial_play": CheckWords(
        "Axial play",
        "Axial shaft play is {figure}",
        "",
        "The bearing is worn.",
        "the play of the turbocharger's shaft, lengthways",
    ),
    "turbo_wheels": CheckWords(
        "Wheel and shaft",
        "Compressor wheel and shaft, seen from the inlet",
        "The wheel is damaged, or the shaft does not spin freely",
        "",
        "the turbocharger's wheel and shaft, seen from the inlet",
    ),
    "exhaust_leak": CheckWords(
        "Exhaust joints",
        "Exhaust joints before the turbine",
        "Soot or hiss at a joint before the turbine",
        "",
        "the exhaust joints before the turbocharger",
    ),
    "egr_closes": CheckWords(
        "Exhaust recirculation",
        "The recirculation valve",
        "The recirculation valve does not close",
        "",
        "the exhaust recirculation valve",
    ),
    "throttle_opens": CheckWords(
        "Throttle",
        "Throttle and intake flaps",
        "The throttle does not open fully",
        "",
        "the throttle",
    ),
    "engine_health": CheckWords(
        "Engine health",
        "Fuel pressure, firing and compression",
        "The engine itself has a fault",
        "",
        "fuel pressure, ignition and compression",
    ),
    "road_pedal": CheckWords(
        "Pedal on the road",
        "The highest pedal signal in a pull is {figure}",
        "Full load was never asked for.",
        "",
        "the pedal signal on the road",
    ),
    "road_request": CheckWords(
        "Aimed against asked",
        "What the car aims at differs from what the pedal asks by {figure}",
        "Something limits it.",
        "It aims above what is asked.",
        "whether the car aims at what the pedal asks",
    ),
    "road_specified": CheckWords(
        "Highest aim",
        "The highest boost aimed at is {figure} absolute",
        "It aims too low.",
        "It aims too high.",
        "the boost the car aims at",
    ),
    "road_tracking": CheckWords(
        "Car's sensor against aim",
        "By the car's own sensor, boost differs from the aim by {figure}",
        "Too little boost, by the car's own sensor.",
        "Too much boost, by the car's own sensor.",
        "boost on the road by the car's own sensor",
    ),
    "road_real_boost": CheckWords(
        "Real boost against aim",
        "By the gauge, boost differs from the aim by {figure}",
        "There really is too little boost.",
        "There really is too much boost.",
        "boost on the road by our own gauge",
    ),
    "road_peak": CheckWords(
        "Highest real boost",
        "The highest real boost is {figure} absolute",
        "It never gets there.",
        "It goes too high.",
        "the highest boost on the road",
    ),
    "road_overboost": CheckWords(
        "Lasting excess",
        "The lasting excess of boost is {figure}",
        "",
        "Too much for too long.",
        "whether boost stays too high",
    ),
    "road_sensor": CheckWords(
        "Car's sensor against gauge",
        "On the road the car's sensor differs from the gauge by {figure}",
        "The sensor reads less than there is.",
        "The sensor reads more than there is.",
        "the car's own boost sensor against our gauge",
    ),
    "road_control_pressure": CheckWords(
        "Control pressure for its duty",
        "Control pressure, as a share of its supply, is {figure} from what the duty should give",
        "Too little control pressure arrives.",
        "Too much control pressure arrives.",
        "the control pressure on the road",
    ),
    "road_authority": CheckWords(
        "Authority",
        "What the control unit has left",
        "It has nothing left towards less boost",
        "It has nothing left towards more boost",
        "how hard the car's control has to work",
    ),
    "road_correction": CheckWords(
        "Lasting correction",
        "The control unit corrects by {figure} all the time",
        "It keeps asking for less.",
        "It keeps asking for more.",
        "how much the car has to correct",
    ),
    "road_air_mass": CheckWords(
        "Air mass against swallowed air",
        "The air mass signal implies a volumetric efficiency of {figure}",
        "It counts less than the engine swallows.",
        "It counts more than the engine swallows.",
        "the air mass sensor on the road",
    ),
    "road_hunting": CheckWords(
        "Hunting", "Boost swings by {figure}", "", "Boost hunts.", "whether boost is steady"
    ),
    "road_reduced_power": CheckWords(
        "Reduced power",
        "The aim at full pedal",
        "The aim drops to a plateau at full pedal",
        "",
        "whether the car cuts its own power",
    ),
    "base_boost": CheckWords(
        "Base boost",
        "With the solenoid out of play, boost is {figure}",
        "The turbocharger and its actuator make too little.",
        "The turbocharger and its actuator make too much.",
        "the boost without its control",
    ),
}

SOURCES: dict[str, str] = {}  # of a check, where this language says it otherwise than calc/checks

FLAG_WITHIN = "{reads}: no fault seen."
FLAG_WITHIN_BY_CHECK = {
    "smoke_leak": "No smoke seen; that alone does not clear the circuit of a leak.",
    "actuator_position": "Stops learned, rod seen moving.",
    "bypass_hold": "The bypass valve seats.",
    "actuator_moves": "The rod moves freely.",
    "actuator_returns": "The rod returns to its stop.",
    "wastegate_seat": "The valve in the housing seats and is whole.",
    "road_authority": "The control unit still has room both ways.",
    "control_hoses": "The control hoses are sound and on the right ports.",
    "turbo_wheels": "Compressor wheel whole, shaft spins freely.",
    "exhaust_leak": "No soot and no hiss at the joints before the turbine.",
    "egr_closes": "The recirculation valve closes.",
    "throttle_opens": "The throttle opens fully.",
    "road_reduced_power": "No sign of reduced power: the aim holds at full pedal.",
}
FLAG_OUTSIDE = "{words}."
# where a check that has a figure was answered by a look alone
FLAG_OUTSIDE_BY_CHECK = {
    "actuator_position": "Its stops are not learned, or the rod was not seen moving.",
    "bypass_hold": "The bypass valve does not seat.",
}
AUTHORITY_UNDECIDED = "Boost is off its aim while the duty is not at its end: one value cannot tell."
SMOKE_AT = "Smoke was seen: {places}."
HOSES = {
    "leak": "A control hose leaks.",
    "blocked": "A control hose is blocked.",
    "swapped": "Control hoses are on the wrong ports.",
}
OPEN_COIL = "The coil is open circuit: no current can flow."
LOWER_BOUND = {
    "charge_leak_hole": "It emptied between two readings: the hole is at least {value}",
    "actuator_hold": "It was empty at the end: the actuator loses at least {value}",
    "actuator_travel": "The rod still moved where the sweep ends: it travels at least {value}",
}
PUMP_CANNOT_REACH = "The pump cannot bring the actuator to its start limit: it loses at least {value}"
AT_PULL = "Pull {pull}, {rpm} rev/min: {text}"
AT_RPM = "At {rpm} rev/min: {text}"

FAULTS: dict[str, FaultWords] = {
    "no_fault_found": FaultWords(
        "No fault found",
        "every test done is within limits, the road run included: this is not a boost fault, or it comes "
        "and goes",
        "Everything we tested is fine.",
        "We could not find a fault in the way your car makes its boost. If the trouble comes back, we need "
        "to catch it while it happens.",
        "Look at fuel, smoke limit and throttle; ask when it happens.",
    ),
    "charge_air_leak": FaultWords(
        "Charge air leak",
        "air escapes between compressor and engine",
        "Air escapes on its way from the turbocharger to the engine.",
        "The air is lost before it reaches the engine.",
        "Seal the joint or renew the hose, and test again.",
    ),
    "charge_air_restriction": FaultWords(
        "Charge air restriction",
        "the cooler or a hose of the charge circuit is restricted",
        "The cooler or a pipe on the way to the engine is blocked.",
        "The engine does not get the air that the turbocharger makes.",
        "Clean or renew the cooler or the hose.",
    ),
    "bypass_valve_not_closing": FaultWords(
        "Bypass valve not closing",
        "the compressor bypass valve lets charge air back to the intake",
        "A valve lets the air flow back instead of into the engine.",
        "The turbocharger works, but part of its air goes round in a circle.",
        "Renew the valve or its hose.",
    ),
    "diaphragm_leak": FaultWords(
        "Diaphragm leaks",
        "the actuator does not hold its control pressure",
        "The part that moves the boost valve leaks inside.",
        "It cannot hold the pressure that moves the valve, so the boost is not held where it should be.",
        "Renew the actuator.",
    ),
    "actuator_opens_early": FaultWords(
        "Actuator opens too early",
        "the actuator moves too early",
        "The valve that holds the boost down opens too early.",
        "Part of the exhaust goes past the turbocharger when it should drive it, so the boost is wrong.",
        "Set the rod, within what the maker allows, and measure again.",
    ),
    "actuator_opens_late": FaultWords(
        "Actuator opens too late",
        "the actuator moves too late",
        "The valve that holds the boost down opens too late.",
        "The boost rises higher than it should, so the car may cut its own power to protect the engine.",
        "Set the rod, within what the maker allows, and measure again.",
    ),
    "spring_weak": FaultWords(
        "Actuator spring",
        "the actuator's spring has the wrong rate",
        "The spring of the boost valve is worn.",
        "The valve opens too far for the pressure it gets, so the boost is wrong at the top.",
        "Renew the actuator: turns on the rod do not cure a spring.",
    ),
    "actuator_motor_fault": FaultWords(
        "Electric actuator",
        "the electric actuator does not go where it is commanded",
        "The electric drive of the boost valve does not go where it is told.",
        "The boost is not held where it should be.",
        "Relearn its end stops by the maker's procedure, or renew the actuator.",
    ),
    "wastegate_seized_closed": FaultWords(
        "Wastegate seized",
        "the wastegate linkage does not move when driven",
        "The boost valve is stuck and does not open.",
        "Nothing holds the boost down, so the car may cut its own power to protect the engine.",
        "Free or renew the linkage or the housing.",
    ),
    "wastegate_not_closing": FaultWords(
        "Wastegate not closing",
        "the wastegate valve does not close",
        "The boost valve does not close any more.",
        "Exhaust goes past the turbocharger all the time, so the boost comes late and stays low.",
        "Renew the valve or the housing.",
    ),
    "control_line_leak": FaultWords(
        "Control line leaks",
        "pressure is lost between solenoid and actuator",
        "A small control hose leaks.",
        "The boost valve does not get the pressure that should move it.",
        "Renew the hose.",
    ),
    "control_line_blocked": FaultWords(
        "Control line blocked",
        "control pressure does not arrive at the actuator",
        "A small control hose is blocked.",
        "The boost valve does not get the pressure that should move it.",
        "Clear or renew the hose.",
    ),
    "control_hoses_swapped": FaultWords(
        "Control hoses swapped",
        "control hoses are on the wrong ports",
        "Two small control hoses are swapped.",
        "The boost valve gets the wrong pressure.",
        "Put the hoses on their right ports.",
    ),
    "vacuum_supply_low": FaultWords(
        "Vacuum supply low",
        "the actuator gets too little vacuum",
        "The vacuum that moves the boost control is too weak.",
        "The turbocharger cannot be set as it should, mostly at low engine speed.",
        "Find the leak; renew pump, check valve or hose.",
    ),
    "solenoid_passes_all": FaultWords(
        "Solenoid passes all",
        "the solenoid always lets full pressure through",
        "The boost control valve is stuck open.",
        "The boost valve gets full pressure all the time, whatever the car asks for.",
        "Renew the solenoid.",
    ),
    "solenoid_vents_all": FaultWords(
        "Solenoid vents all",
        "the solenoid always vents the actuator",
        "The boost control valve is stuck shut.",
        "The boost valve never gets the pressure that should move it.",
        "Renew the solenoid.",
    ),
    "solenoid_circuit_fault": FaultWords(
        "Solenoid circuit",
        "the coil, supply or ground of the control solenoid is faulty",
        "The boost control valve has an electrical fault.",
        "The car can no longer control its boost, so it has to drive without.",
        "Mend the wiring or renew the solenoid.",
    ),
    "charge_pressure_reads_high": FaultWords(
        "Charge pressure sensor reads high",
        "the charge pressure sensor reads more than there is",
        "The car's boost sensor reads too much.",
        "The car believes it has enough boost and holds it back.",
        "Clear its port or pipe, check its feed, then renew the sensor.",
    ),
    "charge_pressure_reads_low": FaultWords(
        "Charge pressure sensor reads low",
        "the charge pressure sensor reads less than there is",
        "The car's boost sensor reads too little.",
        "The car believes it has too little boost and makes too much.",
        "Clear its port or pipe, check its feed, then renew the sensor.",
    ),
    "air_mass_reads_low": FaultWords(
        "Air mass sensor reads low",
        "the air mass sensor reads less than the engine swallows",
        "The sensor that counts the engine's air counts too little.",
        "The car believes the engine gets less air and asks for less boost.",
        "Clean or renew the sensor; look for air that it does not see.",
    ),
    "air_mass_reads_high": FaultWords(
        "Air mass sensor reads high",
        "the air mass sensor reads more than the engine can swallow",
        "The sensor that counts the engine's air counts too much.",
        "The car believes the engine gets more air than it does.",
        "Clean or renew the sensor.",
    ),
    "pedal_signal_low": FaultWords(
        "Pedal signal low",
        "the pedal never asks for full load",
        "The accelerator pedal does not pass on full throttle.",
        "The car never hears that you want full power.",
        "Mend what stops the pedal, or renew its sensor.",
    ),
    "temperature_or_barometric_wrong": FaultWords(
        "Temperature or barometric signal",
        "a wrong temperature or barometric signal holds the aim down",
        "A temperature sensor tells the car something wrong.",
        "The car guards itself against heat that is not there.",
        "Renew the sensor or mend its wiring.",
    ),
    "sensor_feed_fault": FaultWords(
        "Sensor feed",
        "the sensors' shared supply or ground is faulty",
        "The power supply of the sensors is faulty.",
        "Several sensors tell the car something wrong at once.",
        "Mend the supply or ground wiring.",
    ),
    "limit_in_force": FaultWords(
        "A limit is in force",
        "a limit rightly holds the aim down",
        "The car holds its own power down, for a reason.",
        "The boost follows what the car asks for; the reason for the limit has to be found.",
        "Read what calls for the limit, mend that, run again.",
    ),
    "specified_value_wrong": FaultWords(
        "Aim wrong",
        "the control unit aims at the wrong boost although its inputs are sound",
        "The car's control unit aims at the wrong boost.",
        "The boost follows what the car asks for, but it asks for the wrong amount.",
        "Restore the maker's software by the maker's procedure.",
    ),
    "turbocharger_worn": FaultWords(
        "Turbocharger worn",
        "wheels or bearings of the turbocharger are damaged",
        "The turbocharger itself is worn or damaged.",
        "It can no longer press the air as it should.",
        "Overhaul or renew it, and find what killed it.",
    ),
    "vanes_sticking": FaultWords(
        "Vanes stick",
        "the variable geometry does not follow its rod",
        "The moving vanes of the turbocharger stick.",
        "The turbocharger cannot be set as it should.",
        "Clean or renew the vanes and their ring.",
    ),
    "intake_restriction": FaultWords(
        "Intake restriction",
        "the intake before the compressor is restricted",
        "The air intake is blocked.",
        "The turbocharger does not get enough air.",
        "Renew the filter or the hose.",
    ),
    "throttle_not_opening": FaultWords(
        "Throttle not opening",
        "the throttle or an intake flap holds the engine back",
        "The throttle does not open all the way.",
        "The engine does not get the air that is there for it.",
        "Free or renew it.",
    ),
    "exhaust_restriction": FaultWords(
        "Exhaust restriction",
        "the exhaust after the turbine is restricted",
        "The exhaust is blocked.",
        "The turbocharger cannot turn freely.",
        "Clean or renew what is blocked, and find why.",
    ),
    "exhaust_leak_before_turbine": FaultWords(
        "Exhaust leak before the turbine",
        "exhaust escapes before the turbine",
        "Exhaust escapes before it reaches the turbocharger.",
        "Less of it is left to drive the turbocharger.",
        "Seal or renew the joint.",
    ),
    "egr_not_closing": FaultWords(
        "Exhaust recirculation open",
        "the exhaust recirculation valve does not close",
        "A valve that leads exhaust back to the engine does not close.",
        "The turbocharger gets less exhaust and the engine less fresh air.",
        "Clean or renew the valve.",
    ),
    "engine_output_low": FaultWords(
        "Engine weak",
        "the engine itself makes too little exhaust",
        "The engine itself has a fault.",
        "It makes too little exhaust to drive the turbocharger.",
        "Mend the engine first.",
    ),
    "other_cause": FaultWords(
        "Another cause",
        "the cause lies outside what is listed here",
        "Something else is the cause.",
        "What we tested does not explain it.",
        "Look beyond boost control.",
    ),
}

LOCATIONS = {
    "none": "nowhere",
    "charge_circuit": "the charge circuit",
    "actuator": "the actuator",
    "wastegate_valve": "the wastegate valve",
    "control_pressure": "the control pressure",
    "drive_circuit": "the solenoid's circuit",
    "input_signal": "an input signal",
    "control_unit": "the control unit",
    "turbocharger": "the turbocharger",
    "intake": "the intake",
    "exhaust": "the exhaust",
    "elsewhere": "elsewhere",
}

TESTS: dict[str, str] = {
    "smoke": "Smoke in the charge circuit",
    "charge_decay": "Pressure decay of the charge circuit",
    "actuator": "Actuator on the hand pump",
    "wastegate_inspection": "Wastegate valve, looked at",
    "solenoid_electrical": "Solenoid: coil, supply, ground",
    "solenoid_sweep": "Solenoid: bench sweep and hoses",
    "sensors_at_rest": "Sensors at rest",
    "road_run": "Road run",
    "road_gauges": "Road run with gauges",
    "turbo_inspection": "Wheel and shaft from the inlet side",
    "intake_depression": "Intake depression at full load",
    "exhaust_back_pressure": "Exhaust back pressure at full load",
    "cooler_drop": "Cooler drop at full load",
    "vacuum_supply": "Vacuum supply",
    "bypass_valve": "Bypass valve",
    "exhaust_leak": "Exhaust joints before the turbine",
    "egr": "Exhaust recirculation valve",
    "throttle": "Throttle",
    "engine_health": "Engine health",
    "electric_actuator": "Electric actuator",
    "base_boost_run": "Base-boost run",
}

# the same tests as the customer reads them: no abbreviation, no workshop word
CUSTOMER_TESTS: dict[str, str] = {
    "smoke": "look for leaks in the air pipes with smoke",
    "charge_decay": "measure how well the air pipes hold pressure",
    "actuator": "test the boost valve's drive on a hand pump",
    "wastegate_inspection": "look at the boost valve inside the turbocharger housing",
    "solenoid_electrical": "measure the electrics of the boost control valve",
    "solenoid_sweep": "test the boost control valve and its hoses",
    "sensors_at_rest": "compare the car's sensors with the air around it",
    "road_run": "record a test drive",
    "road_gauges": "drive with our own gauges fitted",
    "turbo_inspection": "look at the turbocharger's wheel and shaft",
    "intake_depression": "measure how freely air gets in",
    "exhaust_back_pressure": "measure how freely the exhaust gets out",
    "cooler_drop": "measure how freely air gets through its cooler",
    "vacuum_supply": "measure the vacuum supply",
    "bypass_valve": "test the valve that lets boost back to the intake",
    "exhaust_leak": "look for leaks in the exhaust before the turbocharger",
    "egr": "test the exhaust recirculation valve",
    "throttle": "test the throttle",
    "engine_health": "check fuel pressure, ignition and compression",
    "electric_actuator": "test the electric drive of the boost valve",
    "base_boost_run": "drive with the boost control switched off",
}

STANDINGS = {
    "proved": "Proved: {sentence}.",
    "likely": "Likely: {sentence}.",
    "possible": "Possible: {sentence}.",
    "ruled_out": "Ruled out: {sentence}.",
    "not_examined": "Not examined whether {sentence}.",
}
ALIKE = "On the tests done so far it looks the same as {others}."
FELT = "The complaint was felt all the same: its cause may lie outside what is listed here."
EXPLAINS = {
    "yes": "That is enough to explain {error}.",
    "partly": "That explains part of {error}.",
    "no": "That does not explain {error}.",
}
ERROR_HIGH = "the excess of {value} that the {who} showed on the road"
ERROR_LOW = "the shortfall of {value} that the {who} showed on the road"
ERROR_TRIM = "the {value} by which the control unit has to correct"
NO_ERROR = "boost that is right"
WHO = {"road_real_boost": "gauge", "road_tracking": "car's own sensor"}

CONCLUSION = "{Sentence}: {evidence}."
CONCLUSION_PLAIN = "{Sentence}."
NOT_PROVED = "No direct measurement of the part proves it yet."
MAKERS_WAY = "Only within what the maker allows; measure again afterwards."
NOT_REPRODUCED = "The complaint was not reproduced."
OPEN_NOTHING = "Nothing examined yet."
OPEN_PROVED_NOT_ENOUGH = (
    "{Sentence}, but that does not explain the complaint: something else is at fault too."
)
OPEN_GROUP = "Not yet certain. Still open, and alike on the tests done: {faults}."
OPEN_RUNNING = "Not yet certain. Most probable so far: {faults}."
OPEN_UNCLEAR = "Not yet certain: the tests done so far point nowhere yet."
PAIR = "No single fault explains all findings; {first} and {second} together do."

NOW = {"proved": "Now proved: {sentence}.", "likely": "Now likely: {sentence}."}
WAS = {"proved": "Before, proved: {fault}.", "likely": "Before, likely: {fault}."}
WAS_OPEN = "Not certain before."
NOW_EXPLAINS = {
    "yes": "Now it explains the complaint.",
    "partly": "Now it explains part of the complaint.",
    "no": "Now it does not explain the complaint.",
    "unknown": "Now it is open whether it explains the complaint.",
}
NO_LONGER = "No longer certain that {sentence}."
NOW_CLEARED = "Now ruled out: {faults}."
NOW_CLEARED_MANY = "Now ruled out: {faults} and {more} more."
MORE_PROBABLE = "More probable now: {fault}, {now} %, before {before} %."
LESS_PROBABLE = "Less probable now: {fault}, {now} %, before {before} %."

# asked; what follows from the answer that spoils it
QUESTIONS = {
    "codes_cleared": (
        "Were codes cleared, or the battery disconnected, before the codes were read?",
        "Codes were cleared: what was stored is gone, and learned values may have begun afresh. A correction "
        "says little until the car has been driven again.",
    ),
    "engine_warm": (
        "Was the engine warm in the run?",
        "The run was made with a cold engine: it is not judged. Warm it up and run again.",
    ),
    "gear_held": (
        "Was each pull made in one gear, the one planned?",
        "The gear was the wrong one, or changed in the pull: the run is not judged. Run again in one gear.",
    ),
    "in_reduced_power": (
        "Was the car in reduced-power mode in the run?",
        "In reduced-power mode the car aims low because of a stored fault: the run is not judged. Note the "
        "codes, clear them and run again.",
    ),
    "regenerating": (
        "Was the particulate filter being burnt clean in the run?",
        "A run during filter regeneration is not judged. Let it end and run again.",
    ),
}
PRIORS = "Before anything was measured, what this workshop has proved before weighed more: {faults}."
PRIOR = "{fault} {times} times"
QUESTION_OF_RUN = "Run {run}: {asks}"

NEXT = "Next: {title}, about {minutes} minutes."
NEXT_WHY = "Minute for minute it tells most about: {faults}."
NEXT_WHY_PLAIN = "Minute for minute it tells most of what is left to do."
RESULT = "{title}: {shown}. That would point to: {faults}."
RESULT_IN_ORDER = "All in order. That would speak against: {faults}."
RESULT_MORE = "{more} more"
NEXT_FINER = "A gauge of class {finer} for '{title}' would also settle what is undecided."

TURNS_LESS = (
    "Less preload: {turns} turns on the rod to the middle of the limit; {to_limit} turns reach the limit."
)
TURNS_MORE = (
    "More preload: {turns} turns on the rod to the middle of the limit; {to_limit} turns reach the limit."
)
TURNS_UNKNOWN = {
    "less": "Less preload; the number of turns needs the rod's travel and thread pitch.",
    "more": "More preload; the number of turns needs the rod's travel and thread pitch.",
}
CLEVIS = "A clevis end goes by half turns. Only within what the maker allows; measure again afterwards."

CAUTION_FIRST = "The maker's repair data, local rules and your own judgement come first."
CAUTIONS = {
    "road": "Road run: public-road law first. A second person reads, the driver only drives. Stop when real "
    "boost passes the abort figure.",
    "tightness_first": "No full-load pull before tightness and a look at wheel and shaft.",
    "wheel": "Wheel or shaft not in order: no full-load pull.",
    "oil": "Oil stands in the outlet: drain it before any pull, a diesel can run away on it.",
    "overboost": "Real boost is above its aim: it can destroy the engine. No more full-load pulls than the "
    "proof needs.",
    "modified": "Parts or software that are not the maker's: the maker's limits may not hold here.",
    "no_barometer": "No barometric pressure or height typed in: 101.3 kPa ± 4 is assumed.",
    "gauges_disagree": "Two gauges of this job contradict each other at the same pressure: neither clears "
    "anything until it is known which is wrong.",
    "reduced_power": "In reduced-power mode the car aims low because of a stored fault: note the codes, "
    "clear them and run again before blaming a part.",
    "stored_energy": "Pressure test. {stored}",
    "not_seen": "Rod and travel speak of the rod, not of the valve behind it: that is seen only through a "
    "borescope or with the exhaust off.",
    "nothing_left": "No test in the list can settle it any further.",
    "high_voltage": "High-voltage hybrid: qualified people only.",
}

PROOF_TRUE = "The repair is proved: {after}, before it was {before}."
PROOF_TRUE_ALONE = "The repair is proved: {after}."
PROOF_FALSE = "The repair is not proved: {after}."
PROOF_OPEN = "Not enough to prove the repair: repeat the same run with the same gauge."
OFF_BY = "boost is {figure} off its aim"

CUSTOMER_MEASURED = "We measured {value}; your car's maker allows {limit}."
CUSTOMER_MEASURED_BY_CHECK = {
    "charge_leak_hole": "It leaks like a hole of {value}; your car's maker allows {limit}.",
    "turbo_radial_play": "Its shaft has a play of {value}; your car's maker allows {limit}.",
    "turbo_axial_play": "Its shaft has a play of {value}; your car's maker allows {limit}.",
}
CUSTOMER_MEASURED_VACUUM = "We measured a vacuum of {value}; your car's maker asks for {limit}."
VALVE_TO_VANES = ("boost valve", "vane ring")  # what the customer reads of a car with vanes
CUSTOMER_FELT = (
    "We felt the trouble too. Its cause may lie outside the way your car makes its boost, and has to be "
    "looked for there."
)
CUSTOMER_OPEN = "We have not found the cause for certain yet."
CUSTOMER_OPEN_MEANS = "What we tested so far is listed here. The next step is to {test}."
CUSTOMER_OPEN_MEANS_PLAIN = "What we tested so far is listed here."
CUSTOMER_LIKELY = "This is very likely the cause, but it is not proved by a direct measurement yet."
AND = " and "

MEASURED = {
    "where_low_down": "Boost is off low down in the pull and comes right towards the top.",
    "where_on_top": "Boost is off towards the top of the pull and right below.",
    "where_all_along": "Boost is off all along the pull.",
    "where_come_and_go": "Boost is off now and then in the pull.",
    "shown_high": "With these instruments more than {high} would be called outside.",
    "shown_low": "With these instruments less than {low} would be called outside.",
    "shown_both": "With these instruments less than {low} or more than {high} would be called outside.",
    "found_high": "A true {high} would be found in 95 of 100 such tests.",
    "found_low": "A true {low} would be found in 95 of 100 such tests.",
    "found_both": "A true {low} or {high} would be found in 95 of 100 such tests.",
    "shown_by_eye": "Seen or not seen: no size is measured.",
    "too_coarse": "They are too coarse for this limit: no reading could be called within.",
    "leak": "At {boost} absolute and {rpm} rev/min the hole would lose {loss} g/s, {share} % of the engine's "
    "air.",
    "adiabatic": "Had the air cooled as it went, {mm} mm: a fall within seconds lies between.",
    "leak_shown": "The smallest hole that this test can show would lose {share} %.",
    "gain": "From rest to road the sensor's gain is {gain}, its offset {offset}.",
    "gain_blind": "These gauges cannot show a gain error below {least} %.",
    "cooler_effectiveness": "Effectiveness of the cooler {value} (0.6 to 0.9 is usual; common practice, no "
    "source).",
    "cooler_effectiveness_refused": "The temperatures do not fit a cooler: it cannot cool below the air "
    "outside or heat. Likely one sensor is soaked with heat, slow, or in another place.",
    "compressor_efficiency": "Efficiency of the compressor {value} (0.60 to 0.78 is usual; common practice, "
    "no source).",
    "compressor_efficiency_refused": "The temperatures do not fit a compressor: its efficiency would lie "
    "above 1. Likely the sensor sits behind the cooler, is soaked with heat, or is slow.",
    "gauge": "Doubt of a reading {doubt}.",
    "gauge_unknown": "Its class is not known: a reading is in doubt by 15 kPa and clears nothing.",
    "calibrated": "Calibrated {days} days before this job.",
    "calibrated_later": "Calibrated after this job was opened.",
    "not_calibrated": "No date of calibration.",
    "hose_nothing": "Its hose of {length} m and {bore} mm delays it by {ms} ms: nothing beside its doubt.",
    "hose_matters": "Its hose of {length} m and {bore} mm delays it by {ms} ms, up to {lag} while boost "
    "rises: read it only when it stands.",
    "pull": "Gear {gear}: {slow} to {fast} km/h, about {seconds} s and {metres} m, margin included.",
    "no_legal_gear": "In no gear does the pull stay below the speed typed in: use rollers or another road.",
    "absolute_load": "Absolute load {load} %.",
    "course_smooth": "It goes with the duty smoothly and one way.",
    "course_jump": "It does not go smoothly: {moved} % of the supply within {duty} % of duty.",
    "course_back": "It steps back on its way.",
    "vent_to_supply": "By this sweep the vent is {ratio} times as wide as the supply; the road is judged "
    "by it.",
    "spring": "Going back it comes to rest at {rests}, at {rate}: the spring holds against {preload}, "
    "friction takes {friction}.",
    "gauges_agree": "At {pressure} the gauges {first} and {second} show {apart} apart: within what both may "
    "be off, {doubt}.",
    "gauges_disagree": "At {pressure} the gauges {first} and {second} show {apart} apart, more than the "
    "{doubt} that both may be off: neither clears anything until it is known which is wrong.",
    "humid_air": "{water} % of the air's mass is water: what the engine swallows is reckoned thinner for it.",
    "by_signal": "The sensor's own signal means {pressure}.",
    "pull_number": "Pull {number}:",
    "pull_no_step": "the log does not show how boost rises.",
    "pull_step": "boost rises from 10 to 90 % in {rise} s, overshoot {overshoot} %.",
    "pull_settled": "Settled within 5 % after {seconds} s.",
    "pull_deviation": "Actual less specified: {mean} on the mean, {largest} at most.",
    "pull_corrected": "A correction stood for {share} % of that time.",
    "part_load": "Part load, pedal {pedal} %, steady for {seconds} s: actual less specified {error}.",
    "part_load_within": "Within.",
    "part_load_outside": "Outside, at a load where the device can act.",
    "part_load_undecided": "Undecided.",
    "part_load_cannot_act": "Below base boost the gate cannot bring it down: that is healthy.",
    "nearer": "Boost is nearer to its aim by {change}.",
    "same_gauge": "What the one gauge is off falls out of that.",
    "hose_rings": "It may make the needle tremble at {hz} Hz; a slower swing is the boost's own.",
    "plug": "At {pressure} a plug {bore} mm across is pushed out with {force} N, the weight of {weight} kg.",
    "stored": "{litres} l of it hold {joules} J, as {weight} kg falling {height} m: plugs and hose ends "
    "tied, nobody in front of them.",
    "watch": "Wait {seconds} s at least before the next reading: only then does a hole of {hole}, the limit, "
    "take off more than gauge and a degree of cooling leave in doubt. It leaves {left}.",
    "watched": "A hole of {hole}, the limit, would have left {left} after these {seconds} s.",
    "watched_too_short": "Too short to tell it from the gauge's doubt and a degree of cooling: watch "
    "for {seconds} s at least.",
    "coil_warm": "At {celsius} °C an intact coil reads {low} to {high}.",
    "coil_warm_low": "At {celsius} °C an intact coil reads {low} at least.",
    "coil_warm_high": "At {celsius} °C an intact coil reads {high} at most.",
    "coil_hot": "An intact coil reads so only from {celsius} °C on: make sure that it is not so hot.",
    "signal_for": "For the air outside it should stand at {volts}.",
    "hose_turbulent": "Air in so narrow a hose is turbulent: it lags by more than that.",
    "pull_legal": "It passes the speed typed in at {rpm} rev/min.",
    "one_kelvin": "Cooling by one degree alone would look like a loss of {kpa}.",
    "actuator_hole": "The actuator would lose as much through a hole of {mm} mm.",
    "vacuum_at_sea_level": "The air here stands at {outside} absolute: at sea level the same supply would "
    "show {vacuum}.",
    "vacuum_lost": "With the engine stopped it lost {loss}: check valve, reservoir, hoses, consumers.",
    "trace_never": "Boost never came within reach of its aim.",
    "trace_arrival_rpm": "Boost came within reach of its aim at {value} rev/min.",
    "trace_low_share": "Early in the pull boost stood off its aim by {value} %.",
    "trace_middle_share": "In the middle of the pull boost stood off its aim by {value} %.",
    "trace_bend_share": "From the middle of the pull to its top boost moved against its aim by {value} %.",
    "trace_excess_share": "The largest boost above its aim was {value} %.",
    "trace_over_base_share": "Of the way from base boost to the aim, {value} % was reached.",
    "trace_towards_more_pct": "Late in the pull the duty stood at {value} %, counted towards more boost.",
    "trace_throttle_pct": "By the car's own word its throttle was {value} % open.",
    "trace_egr_pct": "By the car's own word exhaust recirculation was {value} % open.",
    "trace_warmth_k": "The charge air was {value} K warmer than the air outside.",
    "trace_filling": "The air mass signal says {value} % of what the cylinders hold.",
    "trace_ask_kpa": "The aim stood off the request by {value}.",
    "trace_aim_kpa": "The highest aim stood off the middle of the maker's limit by {value}.",
    "trace_control_share": "Of the pressure that feeds the solenoid {value} % reached the actuator.",
    "trace_control_miss": "That is off what the duty should give by {value} % of the supply.",
    "trace_control_reach": "From first movement (0) to full travel (100), by the limits, control "
    "pressure stood at {value}.",
    "vin_hint": "The check digit of the vehicle identification number does not fit: look for a slip of the "
    "pen. Outside North America it need not fit.",
}
