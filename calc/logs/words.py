"""The trade's words for the channels, in English, German, French and Spanish, and how well a header fits one.

Common practice, no source. Words are compared in lower case without accents, by `calc.logs.units.plain`.
"""

import re
from dataclasses import dataclass

from calc.logs.units import Unit, plain

_CAMEL = re.compile(r"(?<=[a-z0-9])(?=[A-Z])")


def _any(words: str) -> re.Pattern[str]:
    """Any of the words or groups of words parted by ` | `, whole."""
    choices = "|".join(" ".join(word.split()) for word in re.split(r"\s\|\s", words))
    return re.compile(rf"(?:^|\s)(?:{choices})(?=\s|$)")


BOOST = _any(
    r"""
    boost\w* | charge (?:air )?press\w* | charging press\w* | turbo\w* (?:charge )?press\w* | (?:intake
    )?manifold (?:abs\w* )?(?:air )?press\w* | map | \w*ladedruck\w* | ladeluftdruck\w* |
    saugrohr(?:absolut)?druck\w* | aufladedruck\w* | \w*suraliment\w* | pression (?:de |du )?turbo\w* |
    press\w* (?:de |d )?(?:admission|collecteur)\w* | pression (?:dans |absolue |du |de |la |le
    )*(?:collecteur|tubulure)\w* | \w*sobrealiment\w* | presion (?:de |del )?turbo\w* | presion (?:de
    |del |en |absoluta |el )*(?:colector|admision|carga|soplado)\w* | soplado
    """
)
SPECIFIED = _any(
    r"""
    spec\w* | set ?point\w* | set | target\w* | desired | nominal\w* | command\w* | \w*soll\w* |
    vorgabe\w* | consigne\w* | consigna\w* | objetivo | objectif | cible | desead[oa]\w* | teoric[oa]\w*
    | theorique | voulue? | souhaitee? | especificad[oa] | nenn\w* | vise[er]?
    """
)
REQUEST = _any(
    r"""
    request\w* | demand\w* | \w*anforder\w* | angefordert\w* | \w*wunsch\w* | gefordert\w* | requis\w* |
    solicitad[oa] | solicitud | pedid[oa] | peticion | requerid[oa] | asked | driver
    """
)
ACTUAL = _any(
    r"""
    actual | act | meas\w* | istwert | \w*druckist\w* | ist | gemessen\w* | real | reel(?:le)? |
    mesuree? | medid[oa] | effecti\w* | efectiv[oa] | sensor\w* | capteur | actuel(?:le)? | current
    """
)
CORRECTION = _any(
    r"""
    correct\w* | corr | trim\w* | \w*adapt\w* | \w*korrektur\w* | correcc\w* | ajuste\w* | correctif
    """
)
DEVIATION = _any(
    r"""
    deviation | error | \w*abweichung | ecart | desviacion | differen\w* | limit\w* | max\w* |
    begrenz\w* | min | avg | average
    """
)
DUTY = _any(
    r"""
    duty\w* | \w*tastverh\w* | \w*tastgrad\w* | tv | \w*ansteuer\w* | einschalt\w* | rapport cyclique |
    rco | ciclo (?:de )?trabajo | relacion ciclica | \w*pwm\w* | taux d ouverture | ciclo util
    """
)
VALVE = _any(
    r"""
    solenoid\w* | \w*magnetventil\w* | electrovanne\w* | electrovalvula\w* | wastegate\w* |
    \w*taktventil\w* | \w*druckwandler\w* | boost control | \w*ladedruckregel\w* |
    \w*begrenzungsventil\w* | ladedrucksteller\w*
    """
)
AIR_MASS = _any(
    r"""
    mass air ?flow\w* | air ?mass\w* | maf | air ?flow\w* | intake air (?:mass|flow)\w* | \w*luftmass\w*
    | \w*luftmenge\w* | debit (?:massique )?(?:d )?air | masse (?:d )?air\w* | caudal (?:masico )?(?:de
    )?aire | masa (?:de )?aire | flujo (?:masico |de masa )?(?:de )?aire | debitmetre\w*
    """
)
TURNS = _any(
    r"""
    engine speed | engine rpm | rpm | eng(?:ine)? revs? | revs | \w*motordrehzahl\w* | \w*drehzahl\w* |
    regime(?: (?:du )?moteur)? | vitesse (?:de rotation )?(?:du )?moteur | revoluciones(?: del? motor)?
    | regimen(?: del? motor)? | velocidad (?:de giro )?(?:del? )?motor | n mot\w* | nmot\w* | rotation
    """
)
OTHER_SHAFT = _any(
    r"""
    turbo\w* | turbin\w* | \w*lader\w* | \w*rad | wheel\w* | gear\w* | getriebe\w* | fan | roue\w* |
    rueda\w* | ventil\w* | idle | leerlauf\w* | ralenti | output | input | boite
    """
)
PEDAL = _any(
    r"""
    \w*pedal\w* | accelerat\w* | acelerador\w* | app | pps\w* | fahrerwunsch\w* | accelerateur
    """
)
OTHER_PEDAL = _any(
    r"""
    brake\w* | clutch\w* | \w*brems\w* | \w*kupplung\w* | frein\w* | freno\w* | embra\w* | voltage |
    spannung
    """
)
ROAD_SPEED = _any(
    r"""
    vehicle speed | road speed | car speed | vss | speed | velocity | \w*geschwindigkeit\w* | vitesse(?: (?:du
    )?vehicule)? | velocidad(?: del? (?:vehiculo|coche))? | gps speed | v fzg | tempo
    """
)
TEMPERATURE = _any(
    r"""
    temp\w* | \w*temperatur\w* | \w*temp | iat ?2? | cact | tia | act
    """
)
INTAKE = _any(
    r"""
    intake | inlet | \w*ansaug\w* | admission | admision | iat | induction | zuluft\w* | tia |
    aspirad[oa]
    """
)
CHARGE = _any(
    r"""
    charge\w* | manifold | \w*ladeluft\w* | saugrohr\w* | collecteur | colector | \w*suraliment\w* |
    \w*sobrealiment\w* | (?:after|post|behind) ?\w*cooler | nach \w*kuhler | apres \w* | cact? | iat ?2
    | intake air temperature 2 | boost\w* | tras \w* | carga | sensor 2 | after cooler
    """
)
OTHER_PLACE = _any(
    r"""
    coolant\w* | \w*oil | ambient\w* | outside | exhaust\w* | fuel\w* | gear\w* | \w*kuhlmittel\w* |
    \w*kuhlwasser\w* | ol\w* | umgebung\w* | aussen\w* | abgas\w* | kraftstoff\w* | refrigerante |
    liquide | huile | aceite | ambiant\w* | ambiente | ext\w* | echappement | escape | agua | eau |
    wasser\w* | getriebe\w* | egt\w* | egr | agr | barometr\w* | atmos\w* | differential | rail | lambda
    | before compressor
    """
)
THROTTLE = _any(
    r"""
    throttle\w* | \w*drosselklapp\w* | papillon\w* | mariposa\w* | tps | tac
    """
)
RECIRCULATION = _any(
    r"""
    egr\w* | agr\w* | abgasruckfuhr\w* | \w*recircul\w* | rge
    """
)
FUEL = _any(
    r"""
    fuel\w* | rail\w* | lambda\w* | \w*kraftstoff\w* | carburant\w* | combustible\w* | stft\w* | ltft\w*
    | injec\w* | inyec\w* | \w*einspritz\w* | mixture | gemisch\w* | idle | ignition | zund\w* |
    knock\w* | camshaft | nockenwelle\w* | fan | lufter\w* | alternator | generator\w* | glow | purge |
    canister
    """
)
BAROMETER = _any(
    r"""
    baro\w* | atmos\w*(?: press\w*)? | ambient (?:air )?press\w* | luftdruck | umgebungs\w*druck |
    aussenluftdruck | pression (?:atmo|baro|ambian)\w* | presion (?:atmo|baro|ambien)\w*
    """
)
TIME = _any(
    r"""
    times? | zeit | temps | tiempo | t | time ?stamps? | timestamp\w* | zeitstempel\w* | uhrzeit |
    elapsed\w* | heures? | horas? | horodatage | marca de tiempo | laufzeit\w* | zeitpunkt | clock |
    seconds? | sekunden? | secondes? | segundos? | messzeit\w* | datum uhrzeit | date ?time | fecha hora
    | date heure | ms | millis\w* | t ?s | zeit\w*
    """
)
NOT_TIME = _any(
    r"""
    inject\w* | \w*einspritz\w* | inyeccion | injection | ignition | zund\w* | dwell | boost\w* |
    glow\w* | opening | since | offset
    """
)


@dataclass(frozen=True, slots=True)
class Header:
    """One column's heading.

    name : as the file writes it, its unit taken out where it was recognised. [-]
    words : the same, plain, single-spaced. [-]
    """

    name: str
    words: str
    unit: Unit | None

    @classmethod
    def of(cls, name: str, unit: Unit | None) -> "Header":
        """Words of a name: camel case and every sign that is no letter or figure part them."""
        spaced = plain(_CAMEL.sub(" ", name))
        return cls(name, " ".join(re.sub(r"[^a-z0-9]+", " ", spaced).split()), unit)

    def has(self, *patterns: re.Pattern[str]) -> bool:
        """Whether all the patterns are found."""
        return all(pattern.search(self.words) for pattern in patterns)

    def lacks(self, *patterns: re.Pattern[str]) -> bool:
        """Whether none of the patterns is found."""
        return not any(pattern.search(self.words) for pattern in patterns)


FAMILIES: dict[str, tuple[str, ...]] = {
    "engine_rpm": ("turns",),
    "pedal_pct": ("share", "fraction"),
    "vehicle_kmh": ("speed",),
    "boost_request_kpa_abs": ("pressure",),
    "boost_specified_kpa_abs": ("pressure",),
    "boost_actual_kpa_abs": ("pressure",),
    "boost_correction_kpa": ("pressure",),
    "correction_pct": ("share", "fraction"),
    "duty_pct": ("share", "fraction"),
    "air_mass_gps": ("flow", "stroke"),
    "intake_air_c": ("temperature",),
    "manifold_air_c": ("temperature",),
    "throttle_pct": ("share", "fraction"),
    "egr_pct": ("share", "fraction"),
}
NO_UNIT = 0.85  # certainty left where a unit has to be guessed by the values too


def fit(channel: str, header: Header) -> float:
    """How well a header fits a channel: 0 not at all, 1 without a doubt."""
    said = _SAID[channel](header)
    if said <= 0.0 or (header.unit is not None and header.unit.family not in FAMILIES[channel]):
        return 0.0
    return said if header.unit is not None else said * NO_UNIT


def _boost(header: Header) -> bool:
    return header.has(BOOST) and header.lacks(DUTY, OTHER_PLACE, TEMPERATURE, AIR_MASS)


def _actual(header: Header) -> float:
    if not _boost(header) or not header.lacks(SPECIFIED, REQUEST, CORRECTION, DEVIATION, VALVE):
        return 0.0
    return 0.97 if header.has(ACTUAL) else 0.85


def _specified(header: Header) -> float:
    named = _boost(header) and header.has(SPECIFIED) and header.lacks(CORRECTION, DEVIATION)
    return 0.0 if not named else 0.6 if header.has(REQUEST) else 0.97


def _request(header: Header) -> float:
    named = _boost(header) and header.has(REQUEST) and header.lacks(CORRECTION, DEVIATION)
    return 0.0 if not named else 0.6 if header.has(SPECIFIED) else 0.95


def _correction(header: Header) -> float:
    if not header.has(CORRECTION) or not header.lacks(FUEL, RECIRCULATION, OTHER_PLACE, TEMPERATURE, PEDAL):
        return 0.0
    return (
        0.95 if header.has(BOOST) or header.has(VALVE) else 0.5 if header.lacks(AIR_MASS, THROTTLE) else 0.0
    )


def _correction_share(header: Header) -> float:
    return _correction(header) if header.unit is not None else 0.0


def _duty(header: Header) -> float:
    if not header.lacks(RECIRCULATION, FUEL, PEDAL, CORRECTION, OTHER_PLACE):
        return 0.0
    if header.has(DUTY):
        return 0.97 if header.has(BOOST) or header.has(VALVE) else 0.7 if header.lacks(THROTTLE) else 0.0
    return 0.6 if header.has(VALVE) and header.lacks(_POSITION) else 0.0


_POSITION = _any(
    r"""
    position\w* | \w*stellung\w* | posicion\w* | \w*lage | posit | lift
    """
)


def _air_mass(header: Header) -> float:
    named = header.has(AIR_MASS) and header.lacks(SPECIFIED, REQUEST, CORRECTION, DEVIATION, TEMPERATURE)
    return 0.95 if named and header.lacks(RECIRCULATION, FUEL) else 0.0


def _turns(header: Header) -> float:
    if header.has(TURNS) and header.lacks(OTHER_SHAFT, SPECIFIED, DEVIATION):
        return 0.97
    alone = header.unit is not None and header.unit.family == "turns"
    return 0.6 if alone and header.lacks(OTHER_SHAFT, SPECIFIED, DEVIATION) else 0.0


def _road_speed(header: Header) -> float:
    if not header.has(ROAD_SPEED) or not header.lacks(TURNS, OTHER_SHAFT, AIR_MASS, _WIND):
        return 0.0
    return 0.95 if header.unit is not None or header.words != "speed" else 0.6


_WIND = _any(
    r"""
    wind\w* | cruise\w* | \w*moteur | engine
    """
)


def _intake(header: Header) -> float:
    named = header.has(TEMPERATURE, INTAKE) and header.lacks(OTHER_PLACE)
    return 0.0 if not named else 0.3 if header.has(CHARGE) else 0.95


def _charge(header: Header) -> float:
    named = header.has(TEMPERATURE, CHARGE) and header.lacks(OTHER_PLACE)
    return 0.0 if not named else 0.95 if header.lacks(INTAKE) else 0.75


def _throttle(header: Header) -> float:
    named = header.has(THROTTLE) and header.lacks(PEDAL, SPECIFIED, REQUEST, DUTY, CORRECTION)
    return 0.95 if named else 0.0


def _pedal(header: Header) -> float:
    return 0.95 if header.has(PEDAL) and header.lacks(OTHER_PEDAL, BOOST) else 0.0


def _recirculation(header: Header) -> float:
    if not header.has(RECIRCULATION) or not header.lacks(
        SPECIFIED, REQUEST, TEMPERATURE, AIR_MASS, DEVIATION
    ):
        return 0.0
    return 0.92


_SAID = {
    "engine_rpm": _turns,
    "pedal_pct": _pedal,
    "vehicle_kmh": _road_speed,
    "boost_request_kpa_abs": _request,
    "boost_specified_kpa_abs": _specified,
    "boost_actual_kpa_abs": _actual,
    "boost_correction_kpa": _correction,
    "correction_pct": _correction_share,
    "duty_pct": _duty,
    "air_mass_gps": _air_mass,
    "intake_air_c": _intake,
    "manifold_air_c": _charge,
    "throttle_pct": _throttle,
    "egr_pct": _recirculation,
}


def time_fit(header: Header) -> float:
    """How well a header fits a column of times."""
    if header.unit is not None:
        if header.unit.family != "time":
            return 0.0
        return 0.97 if header.has(TIME) else 0.5 if header.lacks(NOT_TIME) else 0.0
    return 0.9 if header.has(TIME) and header.lacks(NOT_TIME) and len(header.words.split()) <= 3 else 0.0
