"""The German catalogue: every sentence that a verdict can say, with the same names as the English one.

Nouns keep their capital letter inside a sentence, and a whole sentence after a colon begins with one.
"""

from calc.words.catalogue import CheckWords, FaultWords, FigureWords

FIGURES = FigureWords(
    decimal_sign=",",
    at_most="höchstens {high}",
    at_least="mindestens {low}",
    between="{low} bis {high}",
    units={"ohm": "Ohm"},
)
LOWERS_INSIDE = False  # a title or sentence keeps its capital letter inside another sentence

WITHIN = "In Ordnung."
LIMIT = "zulässig {limit}"
TYPICAL_LIMIT = "üblich {limit} (allgemeine Praxis, ohne Quelle, keine Herstellerangabe)"
UNDECIDED = "Offen: Die Messunsicherheit reicht über den Grenzwert hinweg."
SETTLES_FINER = "Ein Manometer der Klasse {finer} würde es klären."
SHOWN = "{title} {figure}"
NO_LIMIT = "{reads}. Nicht beurteilt: kein Grenzwert eingetragen."
BECAUSE = {
    "no_reading": "Nicht geprüft: kein Messwert.",
    "no_limit": "Nicht geprüft: kein Grenzwert eingetragen.",
    "no_volume": "Nicht geprüft: Das Volumen der Ladeluftstrecke ist nicht bekannt.",
    "no_fall_to_judge": "Nicht geprüft: Aus den Messwerten geht nicht hervor, wie der Druck abfiel.",
    "no_ambient": "Nicht geprüft: Die Temperatur der Umgebungsluft ist nicht bekannt.",
    "sweep_too_short": "Nicht geprüft: Die Kennlinie reicht nicht über den Grenzwert des Öffnungsbeginns "
    "hinaus.",
    "not_at_full_load": "Nicht geprüft: nicht bei Volllast abgelesen, das beweist nichts.",
    "needs_a_log": "Nicht geprüft: Eingetippte Werte zeigen das nicht, eine Aufzeichnung schon.",
    "log_too_slow": "Nicht geprüft: Die Aufzeichnung hat dafür zu wenige Zeilen je Sekunde.",
    "log_too_slow_or_short": "Nicht geprüft: Die Aufzeichnung ist dafür zu langsam oder der Durchzug zu "
    "kurz.",
    "run_left_out": "Nicht geprüft: Die Fahrt war nicht, wie sie sein soll; sie wird nicht beurteilt.",
    "no_pull": "Nicht geprüft: Die Aufzeichnung enthält keinen Durchzug bei Volllast von 2 s und mehr.",
    "never_settled": "Nicht geprüft: In keinem Durchzug war der Ladedruck eingeschwungen oder überfällig.",
    "arrangement_unknown": "Nicht geprüft: Wie das Taktventil an diesem Fahrzeug angeschlossen ist, ist "
    "nicht "
    "bekannt, und seine Kennlinie wurde nicht aufgenommen.",
}

CHECKS: dict[str, CheckWords] = {
    "smoke_leak": CheckWords(
        "Rauchprüfung",
        "Rauch in der Ladeluftstrecke",
        "Rauch tritt aus",
        "",
        "Luftleitungen zwischen Turbolader und Motor, mit Rauch abgesucht",
    ),
    "charge_leak_hole": CheckWords(
        "Druckabfall",
        "Die Ladeluftstrecke verliert so viel wie durch ein scharfkantiges Loch von {figure}",
        "",
        "Sie ist undichter als zulässig.",
        "Luftleitungen zwischen Turbolader und Motor: wie gut sie den Druck halten",
    ),
    "actuator_start": CheckWords(
        "Öffnungsbeginn",
        "Die Stange der Druckdose bewegt sich erstmals bei {figure}",
        "Sie bewegt sich zu früh.",
        "Sie bewegt sich zu spät.",
        "Druck, bei dem das Begrenzungsventil zu öffnen beginnt",
    ),
    "actuator_full": CheckWords(
        "Voller Hub",
        "Die Druckdose erreicht den vollen Hub bei {figure}",
        "Der volle Hub wird zu früh erreicht.",
        "Der volle Hub wird zu spät erreicht.",
        "Druck, bei dem das Begrenzungsventil ganz offen ist",
    ),
    "actuator_travel": CheckWords(
        "Hub",
        "Der Hub der Stange beträgt {figure}",
        "Der Hub ist zu klein.",
        "Der Hub ist zu groß.",
        "Weg der Stange am Begrenzungsventil",
    ),
    "actuator_rate": CheckWords(
        "Federkennlinie",
        "Die Kennlinie der Druckdose beträgt {figure}",
        "Die Feder ist zu hart.",
        "Die Feder ist zu weich.",
        "Feder des Begrenzungsventils",
    ),
    "actuator_hysteresis": CheckWords(
        "Reibung",
        "Die Drücke beim Öffnen und Schließen liegen um {figure} auseinander",
        "",
        "Es hakt.",
        "ob das Begrenzungsventil klemmt",
    ),
    "actuator_hold": CheckWords(
        "Druck halten",
        "Die Druckdose verliert {figure}",
        "",
        "Sie hält den Druck nicht.",
        "ob der Antrieb des Begrenzungsventils seinen Druck hält",
    ),
    "actuator_moves": CheckWords(
        "Stange beweglich",
        "Stange und Hebel",
        "Die Stange bewegt sich beim Ansteuern nicht",
        "",
        "ob sich die Stange am Begrenzungsventil frei bewegt",
    ),
    "actuator_returns": CheckWords(
        "Zurück am Anschlag",
        "Rückweg der Stange",
        "Die Stange geht nicht an ihren Anschlag zurück",
        "",
        "ob das Begrenzungsventil wieder schließt",
    ),
    "actuator_position": CheckWords(
        "Stellung",
        "Soll- und Iststellung weichen um {figure} voneinander ab",
        "Der Steller eilt seiner Vorgabe voraus.",
        "Der Steller bleibt hinter seiner Vorgabe zurück.",
        "ob der elektrische Antrieb des Begrenzungsventils seiner Vorgabe folgt",
    ),
    "wastegate_seat": CheckWords(
        "Sitz der Bypassklappe",
        "Bypassklappe im Gehäuse",
        "Die Bypassklappe dichtet nicht oder ist beschädigt",
        "",
        "Begrenzungsventil im Gehäuse des Turboladers",
    ),
    "solenoid_coil": CheckWords(
        "Spule",
        "Die Spule hat {figure} bei 20 °C",
        "Widerstand zu klein: Windungsschluss.",
        "Widerstand zu groß.",
        "Spule des elektrischen Steuerventils",
    ),
    "solenoid_supply": CheckWords(
        "Spannungsabfall Plus",
        "Auf der Plusseite fallen unter Last {figure} ab",
        "",
        "Unterwegs geht zu viel Spannung verloren.",
        "Stromversorgung des elektrischen Steuerventils",
    ),
    "solenoid_ground": CheckWords(
        "Spannungsabfall Masse",
        "Auf der Masseseite fallen unter Last {figure} ab",
        "",
        "Unterwegs geht zu viel Spannung verloren.",
        "Masseverbindung des elektrischen Steuerventils",
    ),
    "solenoid_response": CheckWords(
        "Antwort auf das Tastverhältnis",
        "Der Steuerdruck folgt dem Tastverhältnis über {figure} seiner Versorgung",
        "Er folgt dem Tastverhältnis nicht weit genug.",
        "",
        "ob das elektrische Steuerventil tut, was es soll",
    ),
    "control_hoses": CheckWords(
        "Steuerschläuche",
        "Steuerschläuche",
        "Ein Steuerschlauch ist schadhaft oder falsch gesteckt",
        "",
        "kleine Steuerschläuche",
    ),
    "rest_charge_pressure": CheckWords(
        "Ladedrucksensor in Ruhe",
        "In Ruhe weicht der Ladedrucksensor um {figure} vom Luftdruck ab",
        "Er zeigt zu wenig.",
        "Er zeigt zu viel.",
        "Ladedrucksensor des Fahrzeugs bei stehendem Motor",
    ),
    "rest_temperatures": CheckWords(
        "Temperaturen in Ruhe",
        "Am kalten Fahrzeug weicht ein Temperatursignal um {figure} von der Umgebungsluft ab",
        "Es zeigt zu kalt.",
        "Es zeigt zu warm.",
        "Temperatursensoren des Fahrzeugs",
    ),
    "rest_pedal": CheckWords(
        "Fahrpedal in Ruhe",
        "Das Fahrpedalsignal zeigt {figure}",
        "Es fordert nie Volllast.",
        "Es geht nicht ganz zurück.",
        "Signal des Fahrpedals",
    ),
    "rest_air_mass": CheckWords(
        "Luftmasse in Ruhe",
        "Bei stehender Luft zeigt der Luftmassenmesser {figure}",
        "",
        "Er zählt Luft, die es nicht gibt.",
        "Luftmassenmesser bei stehendem Motor",
    ),
    "sensor_feed": CheckWords(
        "Sensorversorgung",
        "Versorgung oder Masse der Sensoren zeigt {figure}",
        "Die Versorgungsspannung ist zu niedrig.",
        "Versorgungsspannung oder Masseversatz ist zu hoch.",
        "Stromversorgung der Sensoren",
    ),
    "intake_depression": CheckWords(
        "Ansaugunterdruck",
        "Vor dem Verdichter beträgt der Unterdruck bei Volllast {figure}",
        "",
        "Die Ansaugung ist verengt.",
        "Luftfilter und Ansaugleitung",
    ),
    "exhaust_back_pressure": CheckWords(
        "Abgasgegendruck",
        "Nach der Turbine beträgt der Druck bei Volllast {figure}",
        "",
        "Die Abgasanlage ist verengt.",
        "ob die Abgasanlage frei ist",
    ),
    "cooler_drop": CheckWords(
        "Druckverlust Ladeluftkühler",
        "Über den Ladeluftkühler gehen bei Volllast {figure} verloren",
        "",
        "Der Kühler oder ein Schlauch ist verengt.",
        "ob der Ladeluftkühler frei ist",
    ),
    "vacuum_supply": CheckWords(
        "Unterdruckversorgung",
        "Die Unterdruckversorgung liegt bei {figure}",
        "",
        "Zu wenig Unterdruck.",
        "Unterdruckversorgung",
    ),
    "bypass_hold": CheckWords(
        "Schubumluftventil",
        "Das Schubumluftventil hält {figure}",
        "Es lässt Luft zurück.",
        "",
        "Ventil, das Ladeluft zur Ansaugung zurückführt",
    ),
    "turbo_radial_play": CheckWords(
        "Radialspiel",
        "Das Radialspiel der Welle beträgt {figure}",
        "",
        "Die Lagerung ist verschlissen.",
        "Spiel der Turboladerwelle in Querrichtung",
    ),
    "turbo_axial_play": CheckWords(
        "Axialspiel",
        "Das Axialspiel der Welle beträgt {figure}",
        "",
        "Die Lagerung ist verschlissen.",
        "Spiel der Turboladerwelle in Längsrichtung",
    ),
    "turbo_wheels": CheckWords(
        "Verdichterrad und Welle",
        "Verdichterrad und Welle, von der Ansaugseite gesehen",
        "Das Rad ist beschädigt oder die Welle dreht nicht frei",
        "",
        "Rad und Welle des Turboladers, von der Ansaugseite gesehen",
    ),
    "exhaust_leak": CheckWords(
        "Abgasverbindungen",
        "Abgasverbindungen vor der Turbine",
        "Ruß oder Zischen an einer Verbindung vor der Turbine",
        "",
        "Abgasverbindungen vor dem Turbolader",
    ),
    "egr_closes": CheckWords(
        "Abgasrückführung",
        "Abgasrückführventil",
        "Das Abgasrückführventil schließt nicht",
        "",
        "Ventil der Abgasrückführung",
    ),
    "throttle_opens": CheckWords(
        "Drosselklappe",
        "Drosselklappe und Saugrohrklappen",
        "Die Drosselklappe öffnet nicht ganz",
        "",
        "Drosselklappe",
    ),
    "engine_health": CheckWords(
        "Motorzustand",
        "Kraftstoffdruck, Verbrennung und Kompression",
        "Der Motor selbst hat einen Fehler",
        "",
        "Kraftstoffdruck, Zündung und Kompression",
    ),
    "road_pedal": CheckWords(
        "Fahrpedal auf der Fahrt",
        "Das höchste Fahrpedalsignal in einem Durchzug ist {figure}",
        "Volllast wurde nie gefordert.",
        "",
        "Signal des Fahrpedals auf der Probefahrt",
    ),
    "road_request": CheckWords(
        "Sollwert gegen Fahrerwunsch",
        "Der Sollwert weicht um {figure} vom Fahrerwunsch ab",
        "Eine Begrenzung hält ihn unten.",
        "Der Sollwert liegt über dem Fahrerwunsch.",
        "ob das Fahrzeug so viel Ladedruck anstrebt, wie das Pedal verlangt",
    ),
    "road_specified": CheckWords(
        "Höchster Sollwert",
        "Der höchste Sollwert des Ladedrucks ist {figure} absolut",
        "Der Sollwert ist zu niedrig.",
        "Der Sollwert ist zu hoch.",
        "Ladedruck, den das Fahrzeug anstrebt",
    ),
    "road_tracking": CheckWords(
        "Istwert gegen Sollwert",
        "Laut Fahrzeugsensor weicht der Ladedruck um {figure} vom Sollwert ab",
        "Zu wenig Ladedruck laut Fahrzeugsensor.",
        "Zu viel Ladedruck laut Fahrzeugsensor.",
        "Ladedruck auf der Probefahrt, vom Sensor des Fahrzeugs",
    ),
    "road_real_boost": CheckWords(
        "Tatsächlicher Ladedruck gegen Sollwert",
        "Laut Manometer weicht der Ladedruck um {figure} vom Sollwert ab",
        "Es ist tatsächlich zu wenig Ladedruck.",
        "Es ist tatsächlich zu viel Ladedruck.",
        "Ladedruck auf der Probefahrt, mit unserem eigenen Messgerät",
    ),
    "road_peak": CheckWords(
        "Höchster tatsächlicher Ladedruck",
        "Der höchste tatsächliche Ladedruck ist {figure} absolut",
        "Er wird nie erreicht.",
        "Er ist zu hoch.",
        "höchster Ladedruck auf der Probefahrt",
    ),
    "road_overboost": CheckWords(
        "Anhaltender Überschuss",
        "Der Ladedruck liegt anhaltend um {figure} zu hoch",
        "",
        "Zu viel für zu lange Zeit.",
        "ob der Ladedruck zu hoch bleibt",
    ),
    "road_sensor": CheckWords(
        "Fahrzeugsensor gegen Manometer",
        "Auf der Fahrt weicht der Fahrzeugsensor um {figure} vom Manometer ab",
        "Der Sensor zeigt weniger an, als da ist.",
        "Der Sensor zeigt mehr an, als da ist.",
        "Ladedrucksensor des Fahrzeugs, verglichen mit unserem Messgerät",
    ),
    "road_control_pressure": CheckWords(
        "Steuerdruck zum Tastverhältnis",
        "Der Steuerdruck, als Anteil seiner Versorgung, weicht um {figure} von dem ab, was das "
        "Tastverhältnis "
        "ergeben müsste",
        "Es kommt zu wenig Steuerdruck an.",
        "Es kommt zu viel Steuerdruck an.",
        "Steuerdruck auf der Probefahrt",
    ),
    "road_authority": CheckWords(
        "Regelreserve",
        "Was dem Steuergerät an Regelweg bleibt",
        "Es hat zu weniger Ladedruck hin keine Reserve mehr",
        "Es hat zu mehr Ladedruck hin keine Reserve mehr",
        "wie stark das Fahrzeug nachregeln muss",
    ),
    "road_correction": CheckWords(
        "Bleibende Korrektur",
        "Das Steuergerät korrigiert dauernd um {figure}",
        "Es fordert ständig weniger.",
        "Es fordert ständig mehr.",
        "wie viel das Fahrzeug ausgleichen muss",
    ),
    "road_air_mass": CheckWords(
        "Luftmasse gegen Schluckvermögen",
        "Das Luftmassensignal bedeutet einen Liefergrad von {figure}",
        "Es zählt weniger, als der Motor schluckt.",
        "Es zählt mehr, als der Motor schluckt.",
        "Luftmassenmesser auf der Probefahrt",
    ),
    "road_hunting": CheckWords(
        "Ladedruck pendelt",
        "Der Ladedruck schwankt um {figure}",
        "",
        "Der Ladedruck pendelt.",
        "ob der Ladedruck ruhig bleibt",
    ),
    "road_reduced_power": CheckWords(
        "Notlauf",
        "Der Sollwert bei voll getretenem Pedal",
        "Der Sollwert fällt bei voll getretenem Pedal auf ein Plateau ab",
        "",
        "ob das Fahrzeug seine Leistung selbst zurücknimmt",
    ),
    "base_boost": CheckWords(
        "Grundladedruck",
        "Ohne Wirkung des Taktventils beträgt der Ladedruck {figure}",
        "Turbolader und Druckdose allein bringen zu wenig.",
        "Turbolader und Druckdose allein bringen zu viel.",
        "Ladedruck ohne elektrische Regelung",
    ),
}

# by the source as calc/checks writes it
SOURCES: dict[str, str] = {
    "EN 837-1 class over span, JCGM 100 F.2.2.1 resolution; decision by JCGM 106 at 95 %": (
        "Klasse nach EN 837-1 vom Messbereich, Auflösung nach JCGM 100 F.2.2.1; Entscheidung nach JCGM "
        "106 bei 95 %"
    ),
    "breakpoint regression (Muggeo 2003) joined with the gauge's class; decision by JCGM 106 at 95 %": (
        "Regression mit Knickpunkt (Muggeo 2003), mit der Klasse des Manometers; Entscheidung nach "
        "JCGM 106 bei 95 %"
    ),
    "as seen by the technician": "wie vom Techniker gesehen",
    "isothermal decay through a sharp-edged hole, Heywood C.8 and C.9, Cd 0.62 ± 0.06; ASTM E2930": (
        "isothermer Druckabfall durch ein scharfkantiges Loch, Heywood C.8 und C.9, Cd 0,62 ± 0,06; "
        "ASTM E2930"
    ),
    "annealed copper, IEC 60028: 0.00393 per kelvin from 20 degC": (
        "geglühtes Kupfer, IEC 60028: 0,00393 je Kelvin ab 20 °C"
    ),
    "difference of two readings; decision by JCGM 106 at 95 %": (
        "Differenz zweier Messwerte; Entscheidung nach JCGM 106 bei 95 %"
    ),
    "common practice, no source": "allgemeine Praxis, ohne Quelle",
    "speed-density, Heywood 2.27, charge conditions": (
        "Luftmasse aus Drehzahl und Dichte, Heywood 2.27, Zustand der Ladeluft"
    ),
    "two passages in series, continuity of nozzle flow; this car's own sweep where there is one": (
        "zwei Drosselstellen in Reihe, Kontinuität der Düsenströmung; die Kennlinie dieses Fahrzeugs, "
        "wo es eine gibt"
    ),
}

FLAG_WITHIN = "{reads}: in Ordnung."
FLAG_WITHIN_BY_CHECK = {
    "smoke_leak": "Kein Rauch ausgetreten; das allein spricht die Ladeluftstrecke nicht frei.",
    "actuator_position": "Anschläge angelernt, Bewegung der Stange gesehen.",
    "bypass_hold": "Das Schubumluftventil schließt dicht.",
    "actuator_moves": "Die Stange bewegt sich frei.",
    "actuator_returns": "Die Stange geht an ihren Anschlag zurück.",
    "wastegate_seat": "Die Bypassklappe sitzt dicht und ist heil.",
    "road_authority": "Das Steuergerät hat in beide Richtungen noch Reserve.",
    "control_hoses": "Die Steuerschläuche sind heil und richtig gesteckt.",
    "turbo_wheels": "Verdichterrad heil, Welle dreht frei.",
    "exhaust_leak": "Kein Ruß und kein Zischen an den Verbindungen vor der Turbine.",
    "egr_closes": "Das Abgasrückführventil schließt.",
    "throttle_opens": "Die Drosselklappe öffnet ganz.",
    "road_reduced_power": "Kein Anzeichen für Notlauf: Der Sollwert bleibt bei voll getretenem Pedal stehen.",
}
FLAG_OUTSIDE = "{words}."
# where a check that has a figure was answered by a look alone
FLAG_OUTSIDE_BY_CHECK = {
    "actuator_position": "Die Anschläge sind nicht angelernt, oder die Stange hat sich nicht sichtbar "
    "bewegt.",
    "bypass_hold": "Das Schubumluftventil schließt nicht dicht.",
}
AUTHORITY_UNDECIDED = (
    "Der Ladedruck liegt neben dem Sollwert, das Tastverhältnis ist aber nicht am Ende: Ein einzelner Wert "
    "entscheidet das nicht."
)
SMOKE_AT = "Rauch tritt aus: {places}."
HOSES = {
    "leak": "Ein Steuerschlauch ist undicht.",
    "blocked": "Ein Steuerschlauch ist verstopft.",
    "swapped": "Steuerschläuche sind falsch gesteckt.",
}
OPEN_COIL = "Die Spule ist unterbrochen: Es kann kein Strom fließen."
LOWER_BOUND = {
    "charge_leak_hole": "Der Druck war zwischen zwei Ablesungen ganz weg: Das Loch hat mindestens {value}",
    "actuator_hold": "Der Druck war am Ende ganz weg: Die Druckdose verliert mindestens {value}",
    "actuator_travel": "Am Ende der Kennlinie bewegte sich die Stange noch: Ihr Hub ist mindestens {value}",
}
PUMP_CANNOT_REACH = (
    "Die Pumpe erreicht den Grenzwert des Öffnungsbeginns nicht: Die Druckdose verliert mindestens {value}"
)
AT_PULL = "Durchzug {pull}, {rpm} 1/min: {text}"
AT_RPM = "Bei {rpm} 1/min: {text}"

FAULTS: dict[str, FaultWords] = {
    "no_fault_found": FaultWords(
        "Kein Fehler gefunden",
        "Alle Prüfungen sind in Ordnung, auch die Probefahrt: Es ist kein Ladedruckfehler, oder er kommt "
        "und geht",
        "Alles, was wir geprüft haben, ist in Ordnung.",
        "An der Ladedruckregelung Ihres Fahrzeugs haben wir keinen Fehler gefunden. Tritt die Störung wieder "
        "auf, müssen wir messen, während sie da ist.",
        "Kraftstoff, Rauchbegrenzung und Drosselklappe ansehen; fragen, wann es auftritt.",
    ),
    "charge_air_leak": FaultWords(
        "Ladeluftstrecke undicht",
        "Zwischen Verdichter und Motor entweicht Luft",
        "Auf dem Weg vom Turbolader zum Motor entweicht Luft.",
        "Diese Luft geht verloren, bevor sie im Motor ankommt.",
        "Verbindung abdichten oder Schlauch ersetzen, dann erneut prüfen.",
    ),
    "charge_air_restriction": FaultWords(
        "Ladeluftstrecke verengt",
        "Der Ladeluftkühler oder ein Schlauch der Ladeluftstrecke ist verengt",
        "Der Kühler oder eine Leitung auf dem Weg zum Motor ist verstopft.",
        "Der Motor bekommt die Luft nicht, die der Turbolader liefert.",
        "Kühler oder Schlauch reinigen oder ersetzen.",
    ),
    "bypass_valve_not_closing": FaultWords(
        "Schubumluftventil schließt nicht",
        "Das Schubumluftventil lässt Ladeluft zur Ansaugung zurück",
        "Ein Ventil lässt die Luft zurückströmen, statt sie in den Motor zu leiten.",
        "Der Turbolader arbeitet, aber ein Teil seiner Luft läuft im Kreis.",
        "Ventil oder Schlauch ersetzen.",
    ),
    "diaphragm_leak": FaultWords(
        "Membran der Druckdose undicht",
        "Die Druckdose hält ihren Steuerdruck nicht",
        "Der Antrieb des Begrenzungsventils ist innen undicht.",
        "Er hält den Druck nicht, der das Ventil bewegt. Darum stimmt der Ladedruck nicht.",
        "Druckdose ersetzen.",
    ),
    "actuator_opens_early": FaultWords(
        "Druckdose öffnet zu früh",
        "Die Druckdose bewegt sich zu früh",
        "Das Ventil, das den Ladedruck begrenzt, öffnet zu früh.",
        "Ein Teil des Abgases strömt am Turbolader vorbei, statt ihn anzutreiben. Darum stimmt der "
        "Ladedruck nicht.",
        "Stange einstellen, soweit der Hersteller es zulässt, und erneut messen.",
    ),
    "actuator_opens_late": FaultWords(
        "Druckdose öffnet zu spät",
        "Die Druckdose bewegt sich zu spät",
        "Das Ventil, das den Ladedruck begrenzt, öffnet zu spät.",
        "Der Ladedruck steigt höher, als er soll. Das Fahrzeug nimmt dann die Leistung zurück, um den Motor "
        "zu "
        "schützen.",
        "Stange einstellen, soweit der Hersteller es zulässt, und erneut messen.",
    ),
    "spring_weak": FaultWords(
        "Feder der Druckdose",
        "Die Feder der Druckdose hat die falsche Kennlinie",
        "Die Feder des Begrenzungsventils ist ermüdet.",
        "Das Ventil öffnet für den Druck, den es bekommt, zu weit. Darum fehlt oben Ladedruck.",
        "Druckdose ersetzen: Drehen an der Stange heilt keine Feder.",
    ),
    "actuator_motor_fault": FaultWords(
        "Elektrischer Ladedrucksteller",
        "Der elektrische Ladedrucksteller fährt nicht dorthin, wohin er soll",
        "Der elektrische Antrieb des Begrenzungsventils folgt seiner Vorgabe nicht.",
        "Der Ladedruck wird nicht so gehalten, wie er soll.",
        "Anschläge nach Herstellervorgabe anlernen oder Steller ersetzen.",
    ),
    "wastegate_seized_closed": FaultWords(
        "Bypassklappe fest",
        "Das Gestänge der Bypassklappe bewegt sich beim Ansteuern nicht",
        "Das Ventil, das den Ladedruck begrenzt, klemmt und öffnet nicht.",
        "Nichts begrenzt den Ladedruck. Das Fahrzeug nimmt dann die Leistung zurück, um den Motor zu "
        "schützen.",
        "Gestänge gangbar machen oder ersetzen, sonst das Gehäuse.",
    ),
    "wastegate_not_closing": FaultWords(
        "Bypassklappe schließt nicht",
        "Die Bypassklappe schließt nicht",
        "Das Ventil, das den Ladedruck begrenzt, schließt nicht mehr.",
        "Das Abgas strömt ständig am Turbolader vorbei. Der Ladedruck kommt spät und bleibt niedrig.",
        "Klappe oder Gehäuse ersetzen.",
    ),
    "control_line_leak": FaultWords(
        "Steuerleitung undicht",
        "Zwischen Taktventil und Druckdose geht Druck verloren",
        "Ein kleiner Steuerschlauch ist undicht.",
        "Das Begrenzungsventil bekommt den Druck nicht, der es bewegen soll.",
        "Schlauch ersetzen.",
    ),
    "control_line_blocked": FaultWords(
        "Steuerleitung verstopft",
        "Der Steuerdruck kommt an der Druckdose nicht an",
        "Ein kleiner Steuerschlauch ist verstopft.",
        "Das Begrenzungsventil bekommt den Druck nicht, der es bewegen soll.",
        "Schlauch freimachen oder ersetzen.",
    ),
    "control_hoses_swapped": FaultWords(
        "Steuerschläuche vertauscht",
        "Steuerschläuche sind falsch gesteckt",
        "Zwei kleine Steuerschläuche sind vertauscht.",
        "Das Begrenzungsventil bekommt den falschen Druck.",
        "Schläuche richtig stecken.",
    ),
    "vacuum_supply_low": FaultWords(
        "Unterdruckversorgung schwach",
        "Die Unterdruckdose bekommt zu wenig Unterdruck",
        "Der Unterdruck, der die Ladedruckregelung bewegt, ist zu schwach.",
        "Der Turbolader lässt sich nicht richtig verstellen, vor allem bei niedriger Drehzahl.",
        "Undichtigkeit suchen; Pumpe, Rückschlagventil oder Schlauch ersetzen.",
    ),
    "solenoid_passes_all": FaultWords(
        "Taktventil lässt alles durch",
        "Das Taktventil gibt immer vollen Druck weiter",
        "Das elektrische Steuerventil hängt offen.",
        "Das Begrenzungsventil bekommt ständig vollen Druck, gleich was das Fahrzeug verlangt.",
        "Taktventil ersetzen.",
    ),
    "solenoid_vents_all": FaultWords(
        "Taktventil entlüftet ständig",
        "Das Taktventil entlüftet die Druckdose ständig",
        "Das elektrische Steuerventil hängt geschlossen.",
        "Das Begrenzungsventil bekommt nie den Druck, der es bewegen soll.",
        "Taktventil ersetzen.",
    ),
    "solenoid_circuit_fault": FaultWords(
        "Stromkreis des Taktventils",
        "Spule, Versorgung oder Masse des Taktventils ist fehlerhaft",
        "Das elektrische Steuerventil hat einen elektrischen Fehler.",
        "Das Fahrzeug kann den Ladedruck nicht mehr regeln und muss ohne Regelung auskommen.",
        "Verkabelung instand setzen oder Taktventil ersetzen.",
    ),
    "charge_pressure_reads_high": FaultWords(
        "Ladedrucksensor zeigt zu viel",
        "Der Ladedrucksensor zeigt mehr an, als da ist",
        "Der Ladedrucksensor des Fahrzeugs zeigt zu viel an.",
        "Das Fahrzeug glaubt, es habe genug Ladedruck, und hält ihn zurück.",
        "Bohrung oder Leitung des Sensors reinigen, Versorgung prüfen, dann Sensor ersetzen.",
    ),
    "charge_pressure_reads_low": FaultWords(
        "Ladedrucksensor zeigt zu wenig",
        "Der Ladedrucksensor zeigt weniger an, als da ist",
        "Der Ladedrucksensor des Fahrzeugs zeigt zu wenig an.",
        "Das Fahrzeug glaubt, es habe zu wenig Ladedruck, und macht zu viel.",
        "Bohrung oder Leitung des Sensors reinigen, Versorgung prüfen, dann Sensor ersetzen.",
    ),
    "air_mass_reads_low": FaultWords(
        "Luftmassenmesser zeigt zu wenig",
        "Der Luftmassenmesser zeigt weniger an, als der Motor schluckt",
        "Der Sensor, der die Luft des Motors misst, zeigt zu wenig an.",
        "Das Fahrzeug glaubt, der Motor bekomme weniger Luft, und verlangt weniger Ladedruck.",
        "Sensor reinigen oder ersetzen; nach Luft suchen, die an ihm vorbeiströmt.",
    ),
    "air_mass_reads_high": FaultWords(
        "Luftmassenmesser zeigt zu viel",
        "Der Luftmassenmesser zeigt mehr an, als der Motor schlucken kann",
        "Der Sensor, der die Luft des Motors misst, zeigt zu viel an.",
        "Das Fahrzeug glaubt, der Motor bekomme mehr Luft, als er wirklich bekommt.",
        "Sensor reinigen oder ersetzen.",
    ),
    "pedal_signal_low": FaultWords(
        "Fahrpedalsignal zu klein",
        "Das Fahrpedal fordert nie Volllast",
        "Das Fahrpedal meldet kein volles Gas.",
        "Das Fahrzeug erfährt nie, dass Sie die volle Leistung wollen.",
        "Beseitigen, was das Pedal aufhält, oder seinen Geber ersetzen.",
    ),
    "temperature_or_barometric_wrong": FaultWords(
        "Temperatur- oder Luftdrucksignal",
        "Ein falsches Temperatur- oder Luftdrucksignal hält den Sollwert unten",
        "Ein Temperatursensor meldet dem Fahrzeug etwas Falsches.",
        "Das Fahrzeug schützt sich vor einer Hitze, die es nicht gibt.",
        "Sensor ersetzen oder Verkabelung instand setzen.",
    ),
    "sensor_feed_fault": FaultWords(
        "Sensorversorgung",
        "Die gemeinsame Versorgung oder Masse der Sensoren ist fehlerhaft",
        "Die Stromversorgung der Sensoren ist fehlerhaft.",
        "Mehrere Sensoren melden dem Fahrzeug zugleich etwas Falsches.",
        "Versorgung oder Masseleitung instand setzen.",
    ),
    "limit_in_force": FaultWords(
        "Begrenzung aktiv",
        "Eine Begrenzung hält den Sollwert zu Recht unten",
        "Das Fahrzeug nimmt seine Leistung aus gutem Grund zurück.",
        "Der Ladedruck folgt dem, was das Fahrzeug verlangt; der Grund für die Begrenzung muss noch "
        "gefunden werden.",
        "Auslesen, was die Begrenzung fordert, das beheben und erneut fahren.",
    ),
    "specified_value_wrong": FaultWords(
        "Sollwert falsch",
        "Das Steuergerät bildet trotz guter Eingangssignale einen falschen Sollwert",
        "Das Steuergerät des Fahrzeugs strebt den falschen Ladedruck an.",
        "Der Ladedruck folgt dem, was das Fahrzeug verlangt, aber es verlangt den falschen Wert.",
        "Software des Herstellers nach Herstellervorgabe wieder aufspielen.",
    ),
    "turbocharger_worn": FaultWords(
        "Turbolader verschlissen",
        "Räder oder Lager des Turboladers sind beschädigt",
        "Der Turbolader selbst ist verschlissen oder beschädigt.",
        "Er kann die Luft nicht mehr so verdichten, wie er soll.",
        "Instand setzen oder ersetzen, und die Ursache des Schadens finden.",
    ),
    "vanes_sticking": FaultWords(
        "Leitschaufeln klemmen",
        "Die variable Turbinengeometrie folgt ihrer Stange nicht",
        "Die verstellbaren Schaufeln des Turboladers klemmen.",
        "Der Turbolader lässt sich nicht so verstellen, wie er soll.",
        "Leitschaufeln und Verstellring reinigen oder ersetzen.",
    ),
    "intake_restriction": FaultWords(
        "Ansaugung verengt",
        "Die Ansaugung vor dem Verdichter ist verengt",
        "Die Luftansaugung ist verstopft.",
        "Der Turbolader bekommt nicht genug Luft.",
        "Filter oder Schlauch ersetzen.",
    ),
    "throttle_not_opening": FaultWords(
        "Drosselklappe öffnet nicht",
        "Die Drosselklappe oder eine Saugrohrklappe bremst den Motor",
        "Die Drosselklappe öffnet nicht ganz.",
        "Der Motor bekommt die Luft nicht, die für ihn bereitsteht.",
        "Gangbar machen oder ersetzen.",
    ),
    "exhaust_restriction": FaultWords(
        "Abgasanlage verengt",
        "Die Abgasanlage nach der Turbine ist verengt",
        "Die Abgasanlage ist verstopft.",
        "Der Turbolader kann nicht frei drehen.",
        "Verstopftes Teil reinigen oder ersetzen, und die Ursache finden.",
    ),
    "exhaust_leak_before_turbine": FaultWords(
        "Abgas undicht vor der Turbine",
        "Vor der Turbine entweicht Abgas",
        "Abgas entweicht, bevor es den Turbolader erreicht.",
        "Für den Antrieb des Turboladers bleibt weniger übrig.",
        "Verbindung abdichten oder ersetzen.",
    ),
    "egr_not_closing": FaultWords(
        "Abgasrückführung offen",
        "Das Abgasrückführventil schließt nicht",
        "Ein Ventil, das Abgas zum Motor zurückführt, schließt nicht.",
        "Der Turbolader bekommt weniger Abgas und der Motor weniger frische Luft.",
        "Ventil reinigen oder ersetzen.",
    ),
    "engine_output_low": FaultWords(
        "Motor schwach",
        "Der Motor selbst liefert zu wenig Abgas",
        "Der Motor selbst hat einen Fehler.",
        "Er liefert zu wenig Abgas, um den Turbolader anzutreiben.",
        "Zuerst den Motor instand setzen.",
    ),
    "other_cause": FaultWords(
        "Andere Ursache",
        "Die Ursache liegt außerhalb dessen, was hier aufgeführt ist",
        "Die Ursache ist eine andere.",
        "Was wir geprüft haben, erklärt die Störung nicht.",
        "Außerhalb der Ladedruckregelung suchen.",
    ),
}

LOCATIONS = {
    "none": "nirgends",
    "charge_circuit": "Ladeluftstrecke",
    "actuator": "Druckdose oder Steller",
    "wastegate_valve": "Bypassklappe",
    "control_pressure": "Steuerdruck",
    "drive_circuit": "Stromkreis des Taktventils",
    "input_signal": "Eingangssignal",
    "control_unit": "Steuergerät",
    "turbocharger": "Turbolader",
    "intake": "Ansaugung",
    "exhaust": "Abgasanlage",
    "elsewhere": "an anderer Stelle",
}

TESTS: dict[str, str] = {
    "smoke": "Rauchprüfung der Ladeluftstrecke",
    "charge_decay": "Druckabfall der Ladeluftstrecke",
    "actuator": "Druckdose an der Handpumpe",
    "wastegate_inspection": "Sichtprüfung der Bypassklappe",
    "solenoid_electrical": "Taktventil: Spule, Versorgung, Masse",
    "solenoid_sweep": "Taktventil: Kennlinie und Schläuche",
    "sensors_at_rest": "Sensoren in Ruhe",
    "road_run": "Probefahrt",
    "road_gauges": "Probefahrt mit Manometern",
    "turbo_inspection": "Rad und Welle von der Ansaugseite",
    "intake_depression": "Ansaugunterdruck bei Volllast",
    "exhaust_back_pressure": "Abgasgegendruck bei Volllast",
    "cooler_drop": "Druckverlust des Ladeluftkühlers bei Volllast",
    "vacuum_supply": "Unterdruckversorgung",
    "bypass_valve": "Schubumluftventil",
    "exhaust_leak": "Abgasverbindungen vor der Turbine",
    "egr": "Abgasrückführventil",
    "throttle": "Drosselklappe",
    "engine_health": "Motorzustand",
    "electric_actuator": "Elektrischer Ladedrucksteller",
    "base_boost_run": "Fahrt mit Grundladedruck",
}

# the same tests as the customer reads them: no abbreviation, no workshop word
CUSTOMER_TESTS: dict[str, str] = {
    "smoke": "die Luftleitungen mit Rauch auf undichte Stellen absuchen",
    "charge_decay": "messen, wie gut die Luftleitungen den Druck halten",
    "actuator": "den Antrieb des Begrenzungsventils mit einer Handpumpe prüfen",
    "wastegate_inspection": "das Begrenzungsventil im Gehäuse des Turboladers ansehen",
    "solenoid_electrical": "die Elektrik des Steuerventils messen",
    "solenoid_sweep": "das elektrische Steuerventil und seine Schläuche prüfen",
    "sensors_at_rest": "die Sensoren des Fahrzeugs mit der Umgebungsluft vergleichen",
    "road_run": "eine Probefahrt aufzeichnen",
    "road_gauges": "eine Probefahrt mit unseren eigenen Messgeräten machen",
    "turbo_inspection": "Rad und Welle des Turboladers ansehen",
    "intake_depression": "messen, wie frei die Luft angesaugt wird",
    "exhaust_back_pressure": "messen, wie frei das Abgas abströmt",
    "cooler_drop": "messen, wie frei die Luft durch ihren Kühler strömt",
    "vacuum_supply": "die Unterdruckversorgung messen",
    "bypass_valve": "das Ventil prüfen, das Ladeluft zur Ansaugung zurückführt",
    "exhaust_leak": "die Abgasleitung vor dem Turbolader auf undichte Stellen absuchen",
    "egr": "das Ventil der Abgasrückführung prüfen",
    "throttle": "die Drosselklappe prüfen",
    "engine_health": "Kraftstoffdruck, Zündung und Kompression prüfen",
    "electric_actuator": "den elektrischen Antrieb des Begrenzungsventils prüfen",
    "base_boost_run": "eine Probefahrt ohne elektrische Regelung des Ladedrucks machen",
}

STANDINGS = {
    "proved": "Nachgewiesen: {sentence}.",
    "likely": "Wahrscheinlich: {sentence}.",
    "possible": "Möglich: {sentence}.",
    "ruled_out": "Ausgeschlossen: {sentence}.",
    "not_examined": "Nicht geprüft: {sentence}.",
}
ALIKE = "Nach den bisherigen Prüfungen nicht zu unterscheiden von: {others}."
FELT = "Die Beanstandung war dennoch zu spüren: Die Ursache kann außerhalb dieser Liste liegen."
EXPLAINS = {
    "yes": "Das genügt als Erklärung für {error}.",
    "partly": "Das erklärt zum Teil {error}.",
    "no": "Das erklärt nicht {error}.",
}
ERROR_HIGH = "die {value} zu viel, die {who} auf der Probefahrt zeigte"
ERROR_LOW = "die {value} zu wenig, die {who} auf der Probefahrt zeigte"
ERROR_TRIM = "die {value}, die das Steuergerät ausgleichen muss"
NO_ERROR = "einen Ladedruck, der stimmt"
WHO = {"road_real_boost": "das Manometer", "road_tracking": "der Fahrzeugsensor"}

CONCLUSION = "{Sentence}: {evidence}."
CONCLUSION_PLAIN = "{Sentence}."
NOT_PROVED = "Noch weist es keine direkte Messung an diesem Teil nach."
MAKERS_WAY = "Nur so weit, wie der Hersteller es zulässt; danach erneut messen."
NOT_REPRODUCED = "Die Beanstandung des Kunden ließ sich nicht nachstellen."
OPEN_NOTHING = "Noch nichts geprüft."
OPEN_PROVED_NOT_ENOUGH = (
    "{Sentence}, aber das erklärt die Beanstandung nicht: Es gibt noch einen weiteren Fehler."
)
OPEN_GROUP = (
    "Noch nicht sicher. Weiterhin möglich und nach den bisherigen Prüfungen nicht zu unterscheiden: {faults}."
)
OPEN_RUNNING = "Noch nicht sicher. Bisher am wahrscheinlichsten: {faults}."
OPEN_UNCLEAR = "Noch nicht sicher: Die bisherigen Prüfungen weisen in keine Richtung."
PAIR = "Kein einzelner Fehler erklärt alle Befunde, zwei zusammen schon. {first}. {second}."

NOW = {"proved": "Jetzt nachgewiesen: {sentence}.", "likely": "Jetzt wahrscheinlich: {sentence}."}
WAS = {"proved": "Vorher nachgewiesen: {fault}.", "likely": "Vorher wahrscheinlich: {fault}."}
WAS_OPEN = "Vorher nicht sicher."
NOW_EXPLAINS = {
    "yes": "Jetzt erklärt es die Beanstandung.",
    "partly": "Jetzt erklärt es einen Teil der Beanstandung.",
    "no": "Jetzt erklärt es die Beanstandung nicht.",
    "unknown": "Jetzt ist offen, ob es die Beanstandung erklärt.",
}
NO_LONGER = "Nicht mehr sicher: {sentence}."
NOW_CLEARED = "Jetzt ausgeschlossen: {faults}."
NOW_CLEARED_MANY = "Jetzt ausgeschlossen: {faults} und {more} weitere."
MORE_PROBABLE = "Jetzt wahrscheinlicher: {fault}, {now} %, vorher {before} %."
LESS_PROBABLE = "Jetzt weniger wahrscheinlich: {fault}, {now} %, vorher {before} %."

# asked; what follows from the answer that spoils it
QUESTIONS = {
    "codes_cleared": (
        "Wurden Codes gelöscht oder die Batterie abgeklemmt, bevor die Codes gelesen wurden?",
        "Codes wurden gelöscht: Was gespeichert war, ist weg, und Lernwerte haben vielleicht neu begonnen. "
        "Eine Korrektur sagt wenig, bis der Wagen wieder gefahren ist.",
    ),
    "engine_warm": (
        "War der Motor bei der Fahrt warm?",
        "Die Fahrt war mit kaltem Motor: Sie wird nicht beurteilt. Warm fahren und wiederholen.",
    ),
    "gear_held": (
        "War jeder Durchzug in einem Gang, dem geplanten?",
        "Der Gang war der falsche oder wurde im Durchzug gewechselt: Die Fahrt wird nicht beurteilt. In "
        "einem Gang wiederholen.",
    ),
    "in_reduced_power": (
        "War der Wagen bei der Fahrt im Notlauf?",
        "Im Notlauf ist der Sollwert wegen eines gespeicherten Fehlers niedrig: Die Fahrt wird nicht "
        "beurteilt. Codes notieren, löschen und erneut fahren.",
    ),
    "regenerating": (
        "Wurde bei der Fahrt der Partikelfilter freigebrannt?",
        "Eine Fahrt während der Regeneration wird nicht beurteilt. Zu Ende brennen lassen und wiederholen.",
    ),
}
PRIORS = "Vor jeder Messung wog mehr, was diese Werkstatt schon nachgewiesen hat: {faults}."
PRIOR = "{fault} {times}-mal"
QUESTION_OF_RUN = "Fahrt {run}: {asks}"

NEXT = "Als Nächstes: {title}, etwa {minutes} Minuten."
NEXT_WHY = "Das sagt je Minute am meisten über: {faults}."
NEXT_WHY_PLAIN = "Das sagt je Minute am meisten von dem, was noch bleibt."
RESULT = "{title}: {shown}. Das spräche für: {faults}."
RESULT_IN_ORDER = "Alles in Ordnung. Das spräche gegen: {faults}."
RESULT_MORE = "{more} weitere"
NEXT_FINER = "Ein Manometer der Klasse {finer} für „{title}“ würde auch klären, was noch offen ist."

TURNS_LESS = (
    "Weniger Vorspannung: {turns} Umdrehungen an der Stange bis zur Mitte des zulässigen Bereichs; "
    "{to_limit} Umdrehungen bis an den Grenzwert."
)
TURNS_MORE = (
    "Mehr Vorspannung: {turns} Umdrehungen an der Stange bis zur Mitte des zulässigen Bereichs; "
    "{to_limit} Umdrehungen bis an den Grenzwert."
)
TURNS_UNKNOWN = {
    "less": "Weniger Vorspannung; für die Zahl der Umdrehungen fehlen Hub und Gewindesteigung der Stange.",
    "more": "Mehr Vorspannung; für die Zahl der Umdrehungen fehlen Hub und Gewindesteigung der Stange.",
}
CLEVIS = (
    "Ein Gabelkopf geht nur in halben Umdrehungen. Nur so weit, wie der Hersteller es zulässt; danach erneut "
    "messen."
)

CAUTION_FIRST = (
    "Die Reparaturdaten des Herstellers, die örtlichen Vorschriften und Ihr eigenes Urteil gehen vor."
)
CAUTIONS = {
    "road": "Probefahrt: Das Straßenverkehrsrecht geht vor. Eine zweite Person liest ab, der Fahrer fährt "
    "nur. "
    "Abbrechen, sobald der tatsächliche Ladedruck den Abbruchwert überschreitet.",
    "tightness_first": "Kein Durchzug bei Volllast vor Dichtheitsprüfung und Blick auf Rad und Welle.",
    "wheel": "Rad oder Welle nicht in Ordnung: kein Durchzug bei Volllast.",
    "oil": "Im Auslass steht Öl: vor jedem Durchzug ablassen, ein Diesel kann damit durchgehen.",
    "overboost": "Der tatsächliche Ladedruck liegt über dem Sollwert: Das kann den Motor zerstören. Nicht "
    "mehr Durchzüge bei Volllast, als der Nachweis braucht.",
    "modified": "Teile oder Software nicht vom Hersteller: Seine Grenzwerte gelten hier vielleicht nicht.",
    "no_barometer": "Weder Luftdruck noch Höhe eingetragen: Angenommen sind 101,3 kPa ± 4.",
    "gauges_disagree": "Zwei Manometer dieses Auftrags widersprechen sich beim selben Druck: Keines "
    "entlastet etwas, bis klar ist, welches falsch anzeigt.",
    "reduced_power": "Im Notlauf ist der Sollwert wegen eines gespeicherten Fehlers niedrig: Codes notieren, "
    "löschen und erneut fahren, bevor ein Teil beschuldigt wird.",
    "stored_energy": "Druckprüfung. {stored}",
    "not_seen": "Stange und Hub sagen etwas über die Stange, nicht über die Klappe dahinter: Die sieht man "
    "nur mit dem Endoskop oder bei abgebauter Abgasanlage.",
    "nothing_left": "Keine der aufgeführten Prüfungen kann es weiter klären.",
    "high_voltage": "Hochvolt-Hybrid: nur qualifiziertes Personal.",
}

PROOF_TRUE = "Die Reparatur ist nachgewiesen: {after}, vorher waren es {before}."
PROOF_TRUE_ALONE = "Die Reparatur ist nachgewiesen: {after}."
PROOF_FALSE = "Die Reparatur ist nicht nachgewiesen: {after}."
PROOF_OPEN = (
    "Für den Nachweis der Reparatur reicht es nicht: dieselbe Fahrt mit demselben Manometer wiederholen."
)
OFF_BY = "Der Ladedruck liegt {figure} neben dem Sollwert"

CUSTOMER_MEASURED = "Wir haben {value} gemessen; der Hersteller Ihres Fahrzeugs erlaubt {limit}."
CUSTOMER_MEASURED_BY_CHECK = {
    "charge_leak_hole": "Es entweicht so viel wie durch ein Loch von {value}; der Hersteller Ihres Fahrzeugs "
    "erlaubt {limit}.",
    "turbo_radial_play": "Seine Welle hat {value} Spiel; der Hersteller Ihres Fahrzeugs erlaubt {limit}.",
    "turbo_axial_play": "Seine Welle hat {value} Spiel; der Hersteller Ihres Fahrzeugs erlaubt {limit}.",
}
CUSTOMER_MEASURED_VACUUM = (
    "Wir haben einen Unterdruck von {value} gemessen; der Hersteller Ihres Fahrzeugs verlangt {limit}."
)
VALVE_TO_VANES = ("Begrenzungsventil", "Leitgitter")
CUSTOMER_FELT = (
    "Auch wir haben die Störung gespürt. Ihre Ursache kann außerhalb der Ladedruckregelung liegen und ist "
    "dort zu suchen."
)
CUSTOMER_OPEN = "Wir haben die Ursache noch nicht sicher gefunden."
CUSTOMER_OPEN_MEANS = "Was wir bisher geprüft haben, ist hier aufgeführt. Als Nächstes wollen wir {test}."
CUSTOMER_OPEN_MEANS_PLAIN = "Was wir bisher geprüft haben, ist hier aufgeführt."
CUSTOMER_LIKELY = (
    "Das ist sehr wahrscheinlich die Ursache, aber noch nicht durch eine direkte Messung nachgewiesen."
)
AND = " und "

MEASURED = {
    "where_low_down": "Der Ladedruck weicht unten im Durchzug ab und stimmt nach oben hin.",
    "where_on_top": "Der Ladedruck weicht oben im Durchzug ab und stimmt darunter.",
    "where_all_along": "Der Ladedruck weicht im ganzen Durchzug ab.",
    "where_come_and_go": "Der Ladedruck weicht im Durchzug zeitweise ab.",
    "shown_high": "Mit diesen Messgeräten würde mehr als {high} beanstandet.",
    "shown_low": "Mit diesen Messgeräten würde weniger als {low} beanstandet.",
    "shown_both": "Mit diesen Messgeräten würde weniger als {low} oder mehr als {high} beanstandet.",
    "found_high": "Wahre {high} fänden 95 von 100 solcher Prüfungen.",
    "found_low": "Wahre {low} fänden 95 von 100 solcher Prüfungen.",
    "found_both": "Wahre {low} oder {high} fänden 95 von 100 solcher Prüfungen.",
    "shown_by_eye": "Gesehen oder nicht: Eine Größe wird nicht gemessen.",
    "too_coarse": "Für diese Vorgabe sind sie zu grob: Kein Messwert könnte in Ordnung sein.",
    "leak": "Bei {boost} absolut und {rpm} 1/min gingen durch das Loch {loss} g/s verloren, {share} % der "
    "Luft des Motors.",
    "adiabatic": "Ohne Wärmezufuhr beim Ausströmen {mm} mm: Ein Abfall in Sekunden liegt dazwischen.",
    "leak_shown": "Durch das kleinste Loch, das diese Prüfung zeigen kann, gingen {share} % verloren.",
    "gain": "Von der Ruhe zur Fahrt beträgt die Steigung des Sensors {gain}, sein Versatz {offset}.",
    "gain_blind": "Einen Steigungsfehler unter {least} % können diese Manometer nicht zeigen.",
    "cooler_effectiveness": "Wirkungsgrad des Ladeluftkühlers {value} (üblich 0,6 bis 0,9; allgemeine "
    "Praxis, ohne Quelle).",
    "cooler_effectiveness_refused": "Die Temperaturen passen nicht zu einem Kühler: Er kann weder unter die "
    "Außenluft kühlen noch heizen. Vermutlich ist ein Sensor aufgeheizt, träge oder sitzt woanders.",
    "compressor_efficiency": "Wirkungsgrad des Verdichters {value} (üblich 0,60 bis 0,78; allgemeine Praxis, "
    "ohne Quelle).",
    "compressor_efficiency_refused": "Die Temperaturen passen nicht zu einem Verdichter: Sein Wirkungsgrad "
    "läge über 1. Vermutlich sitzt der Sensor nach dem Kühler, ist aufgeheizt oder träge.",
    "gauge": "Messunsicherheit einer Ablesung {doubt}.",
    "gauge_unknown": "Klasse nicht bekannt: Eine Ablesung ist um 15 kPa unsicher und spricht nichts frei.",
    "calibrated": "Kalibriert {days} Tage vor diesem Auftrag.",
    "calibrated_later": "Kalibriert, nachdem dieser Auftrag angelegt wurde.",
    "not_calibrated": "Kein Kalibrierdatum.",
    "hose_nothing": "Sein Schlauch von {length} m und {bore} mm verzögert um {ms} ms: nichts gegen seine "
    "Messunsicherheit.",
    "hose_matters": "Sein Schlauch von {length} m und {bore} mm verzögert um {ms} ms, bis zu {lag}, während "
    "der Ladedruck steigt: erst ablesen, wenn er steht.",
    "pull": "Gang {gear}: {slow} bis {fast} km/h, etwa {seconds} s und {metres} m, mit Reserve.",
    "no_legal_gear": "In keinem Gang bleibt der Durchzug unter der eingetragenen Geschwindigkeit: "
    "Rollenprüfstand oder eine andere Strecke nehmen.",
    "absolute_load": "Absolute Last {load} %.",
    "course_smooth": "Er folgt dem Tastverhältnis stetig und in einer Richtung.",
    "course_jump": "Er folgt nicht stetig: {moved} % der Versorgung innerhalb von {duty} % Tastverhältnis.",
    "course_back": "Er läuft zwischendurch zurück.",
    "vent_to_supply": "Nach dieser Messung ist die Entlüftung {ratio} mal so weit wie die Versorgung; danach "
    "wird die Fahrt beurteilt.",
    "spring": "Auf dem Rückweg kommt sie bei {rests} zur Ruhe, mit {rate}: Die Feder hält gegen {preload}, "
    "die Reibung nimmt {friction}.",
    "gauges_agree": "Bei {pressure} zeigen die Manometer {first} und {second} um {apart} verschieden an: "
    "nicht mehr, als beide abweichen dürfen, {doubt}.",
    "gauges_disagree": "Bei {pressure} zeigen die Manometer {first} und {second} um {apart} verschieden an, "
    "mehr als die {doubt}, die beide abweichen dürfen: Keines entlastet etwas, bis klar ist, welches falsch "
    "anzeigt.",
    "humid_air": "{water} % der Luftmasse sind Wasser: Was der Motor schluckt, ist dünner gerechnet.",
    "by_signal": "Das Signal des Sensors selbst bedeutet {pressure}.",
    "pull_number": "Durchzug {number}:",
    "pull_no_step": "Die Aufzeichnung zeigt nicht, wie der Ladedruck steigt.",
    "pull_step": "Der Ladedruck steigt in {rise} s von 10 auf 90 %, Überschwingen {overshoot} %.",
    "pull_settled": "Nach {seconds} s auf 5 % eingeschwungen.",
    "pull_deviation": "Istwert minus Sollwert: im Mittel {mean}, höchstens {largest}.",
    "pull_corrected": "Während {share} % dieser Zeit stand eine Korrektur an.",
    "part_load": "Teillast, Pedal {pedal} %, {seconds} s stetig: Istwert minus Sollwert {error}.",
    "part_load_within": "In Ordnung.",
    "part_load_outside": "Beanstandet, bei einer Last, bei der die Regelung wirken kann.",
    "part_load_undecided": "Offen.",
    "part_load_cannot_act": "Unter dem Grundladedruck kann die Klappe ihn nicht senken: Das ist gesund.",
    "nearer": "Der Ladedruck liegt um {change} näher am Sollwert.",
    "same_gauge": "Die Abweichung desselben Manometers hebt sich dabei auf.",
    "hose_rings": "Er kann den Zeiger mit {hz} Hz zittern lassen; was langsamer schwingt, ist der Ladedruck.",
    "plug": "Bei {pressure} drückt es einen Stopfen von {bore} mm mit {force} N hinaus, dem Gewicht von "
    "{weight} kg.",
    "stored": "{litres} l davon speichern {joules} J, so viel wie {weight} kg, die {height} m fallen: "
    "Stopfen und Schlauchenden gesichert, niemand davor.",
    "watch": "Bis zur nächsten Ablesung mindestens {seconds} s warten: Erst dann nimmt ein Loch von {hole}, "
    "dem Grenzwert, mehr weg, als Manometer und ein Grad Abkühlung offen lassen. Es lässt {left} übrig.",
    "watched": "Ein Loch von {hole}, dem Grenzwert, hätte nach diesen {seconds} s {left} übrig gelassen.",
    "watched_too_short": "Zu kurz, um es von der Messunsicherheit und einem Grad Abkühlung zu unterscheiden: "
    "mindestens {seconds} s beobachten.",
    "coil_warm": "Bei {celsius} °C hat eine intakte Spule {low} bis {high}.",
    "coil_warm_low": "Bei {celsius} °C hat eine intakte Spule mindestens {low}.",
    "coil_warm_high": "Bei {celsius} °C hat eine intakte Spule höchstens {high}.",
    "coil_hot": "So viel hat eine intakte Spule erst ab {celsius} °C: prüfen, ob sie so heiß ist.",
    "signal_for": "Bei der Luft draußen müsste es bei {volts} stehen.",
    "hose_turbulent": "In einem so engen Schlauch strömt die Luft turbulent: Er verzögert um mehr als das.",
    "pull_legal": "Bei {rpm} 1/min überschreitet er die eingetragene Geschwindigkeit.",
    "one_kelvin": "Ein Grad Abkühlung allein sähe aus wie ein Verlust von {kpa}.",
    "actuator_hole": "So viel verlöre die Druckdose durch ein Loch von {mm} mm.",
    "vacuum_at_sea_level": "Die Luft steht hier bei {outside} absolut: Auf Meereshöhe zeigte dieselbe "
    "Versorgung {vacuum}.",
    "vacuum_lost": "Bei stehendem Motor verlor sie {loss}: Rückschlagventil, Speicher, Schläuche, "
    "Verbraucher.",
    "trace_never": "Der Ladedruck kam nie in die Nähe seines Sollwerts.",
    "trace_arrival_rpm": "Der Ladedruck kam bei {value} 1/min in die Nähe seines Sollwerts.",
    "trace_low_share": "Früh im Durchzug lag der Ladedruck um {value} % neben seinem Sollwert.",
    "trace_middle_share": "In der Mitte des Durchzugs lag der Ladedruck um {value} % neben seinem Sollwert.",
    "trace_bend_share": "Von der Mitte des Durchzugs bis oben verschob sich der Ladedruck "
    "gegen seinen Sollwert um {value} %.",
    "trace_excess_share": "Der größte Ladedruck über dem Sollwert betrug {value} %.",
    "trace_over_base_share": "Vom Weg zwischen Grundladedruck und Sollwert wurden {value} % erreicht.",
    "trace_towards_more_pct": "Spät im Durchzug stand das Tastverhältnis bei {value} %, gezählt zu "
    "mehr Ladedruck hin.",
    "trace_throttle_pct": "Nach Angabe des Fahrzeugs war die Drosselklappe {value} % offen.",
    "trace_egr_pct": "Nach Angabe des Fahrzeugs war die Abgasrückführung {value} % offen.",
    "trace_warmth_k": "Die Ladeluft war {value} K wärmer als die Außenluft.",
    "trace_filling": "Das Luftmassensignal nennt {value} % dessen, was die Zylinder fassen.",
    "trace_ask_kpa": "Der Sollwert lag um {value} neben der Anforderung.",
    "trace_aim_kpa": "Der höchste Sollwert lag um {value} neben der Mitte der Herstellergrenze.",
    "trace_control_share": "Vom Druck, der das Taktventil speist, kamen {value} % an der Druckdose an.",
    "trace_control_miss": "Das weicht von dem, was das Tastverhältnis ergeben soll, um {value} % "
    "der Versorgung ab.",
    "trace_control_reach": "Von Bewegungsbeginn (0) bis vollem Weg (100), nach den Grenzen, stand der "
    "Steuerdruck bei {value}.",
    "vin_hint": "Die Prüfziffer der Fahrzeug-Identifizierungsnummer passt nicht: auf einen Schreibfehler "
    "ansehen. Außerhalb Nordamerikas muss sie nicht passen.",
}
