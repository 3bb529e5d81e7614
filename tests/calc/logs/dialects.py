"""Renders a road run as some instrument might write it: language, signs, units, times, dirt.

Every name is the trade's own; no instrument maker's format is imitated.
"""

import random
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta

from tests.calc.drives import Channels

KPA_IN = {"kPa": 1.0, "hPa": 0.1, "mbar": 0.1, "bar": 100.0, "psi": 6.894757293168361, "inHg": 3.386388640341}
BOOSTS = ("boost_request_kpa_abs", "boost_specified_kpa_abs", "boost_actual_kpa_abs")
WORDS: dict[str, list[dict[str, str]]] = {
    "en": [
        {
            "t_s": "Time",
            "engine_rpm": "Engine speed",
            "pedal_pct": "Accelerator pedal position",
            "vehicle_kmh": "Vehicle speed",
            "boost_request_kpa_abs": "Boost pressure requested",
            "boost_specified_kpa_abs": "Boost pressure specified",
            "boost_actual_kpa_abs": "Boost pressure actual",
            "correction_pct": "Boost pressure correction",
            "duty_pct": "Boost control solenoid duty cycle",
            "air_mass_gps": "Mass air flow",
            "intake_air_c": "Intake air temperature",
            "throttle_pct": "Throttle valve angle",
        },
        {
            "t_s": "Elapsed time",
            "engine_rpm": "RPM",
            "pedal_pct": "APP",
            "vehicle_kmh": "Road speed",
            "boost_request_kpa_abs": "Driver demand charge pressure",
            "boost_specified_kpa_abs": "Charge pressure target",
            "boost_actual_kpa_abs": "Charge pressure measured",
            "correction_pct": "Wastegate correction",
            "duty_pct": "Wastegate duty",
            "air_mass_gps": "MAF",
            "intake_air_c": "IAT",
            "throttle_pct": "TPS",
        },
        {
            "t_s": "t",
            "engine_rpm": "EngineSpeed",
            "pedal_pct": "PedalPosition",
            "vehicle_kmh": "VSS",
            "boost_request_kpa_abs": "BoostRequest",
            "boost_specified_kpa_abs": "BoostSetpoint",
            "boost_actual_kpa_abs": "Boost",
            "correction_pct": "BoostTrim",
            "duty_pct": "BoostDuty",
            "air_mass_gps": "AirMass",
            "intake_air_c": "InletAirTemp",
            "throttle_pct": "ThrottlePosition",
        },
    ],
    "de": [
        {
            "t_s": "Zeit",
            "engine_rpm": "Motordrehzahl",
            "pedal_pct": "Fahrpedalstellung",
            "vehicle_kmh": "Fahrgeschwindigkeit",
            "boost_request_kpa_abs": "Ladedruck angefordert",
            "boost_specified_kpa_abs": "Ladedruck Sollwert",
            "boost_actual_kpa_abs": "Ladedruck Istwert",
            "correction_pct": "Ladedruckkorrektur",
            "duty_pct": "Tastverhältnis Ladedruckregelung",
            "air_mass_gps": "Luftmasse",
            "intake_air_c": "Ansauglufttemperatur",
            "throttle_pct": "Drosselklappenwinkel",
        },
        {
            "t_s": "Zeitstempel",
            "engine_rpm": "Drehzahl",
            "pedal_pct": "Pedalwert",
            "vehicle_kmh": "Geschwindigkeit",
            "boost_request_kpa_abs": "Fahrerwunsch Ladedruck",
            "boost_specified_kpa_abs": "Ladedruck (Soll)",
            "boost_actual_kpa_abs": "Ladedruck (Ist)",
            "correction_pct": "Korrektur Ladedruck",
            "duty_pct": "Ladedruck-Magnetventil Ansteuerung",
            "air_mass_gps": "Luftmassenstrom",
            "intake_air_c": "Temperatur Ansaugluft",
            "throttle_pct": "Drosselklappe",
        },
    ],
    "fr": [
        {
            "t_s": "Temps",
            "engine_rpm": "Régime moteur",
            "pedal_pct": "Position pédale d'accélérateur",
            "vehicle_kmh": "Vitesse véhicule",
            "boost_request_kpa_abs": "Pression de suralimentation demandée",
            "boost_specified_kpa_abs": "Consigne de pression de suralimentation",
            "boost_actual_kpa_abs": "Pression de suralimentation mesurée",
            "correction_pct": "Correction de suralimentation",
            "duty_pct": "Rapport cyclique électrovanne de turbo",
            "air_mass_gps": "Débit d'air massique",
            "intake_air_c": "Température d'air d'admission",
            "throttle_pct": "Position papillon",
        },
        {
            "t_s": "Heure",
            "engine_rpm": "Régime",
            "pedal_pct": "Pédale",
            "vehicle_kmh": "Vitesse",
            "boost_request_kpa_abs": "Pression turbo demandée",
            "boost_specified_kpa_abs": "Pression de turbo consigne",
            "boost_actual_kpa_abs": "Pression de turbo réelle",
            "correction_pct": "Correction pression turbo",
            "duty_pct": "RCO turbo",
            "air_mass_gps": "Débit d’air",
            "intake_air_c": "Température admission",
            "throttle_pct": "Papillon",
        },
    ],
    "es": [
        {
            "t_s": "Tiempo",
            "engine_rpm": "Régimen del motor",
            "pedal_pct": "Posición del pedal del acelerador",
            "vehicle_kmh": "Velocidad del vehículo",
            "boost_request_kpa_abs": "Presión de sobrealimentación solicitada",
            "boost_specified_kpa_abs": "Presión de sobrealimentación especificada",
            "boost_actual_kpa_abs": "Presión de sobrealimentación real",
            "correction_pct": "Corrección de sobrealimentación",
            "duty_pct": "Ciclo de trabajo electroválvula turbo",
            "air_mass_gps": "Caudal de aire",
            "intake_air_c": "Temperatura del aire de admisión",
            "throttle_pct": "Mariposa",
        },
        {
            "t_s": "Hora",
            "engine_rpm": "Revoluciones",
            "pedal_pct": "Acelerador",
            "vehicle_kmh": "Velocidad",
            "boost_request_kpa_abs": "Presión turbo pedida",
            "boost_specified_kpa_abs": "Presión de turbo objetivo",
            "boost_actual_kpa_abs": "Presión de turbo medida",
            "correction_pct": "Ajuste presión turbo",
            "duty_pct": "Electroválvula de turbo",
            "air_mass_gps": "Masa de aire",
            "intake_air_c": "Temperatura aire admisión",
            "throttle_pct": "Posición de la mariposa",
        },
    ],
}
UNITS = {
    "en": {
        "engine_rpm": "rpm",
        "vehicle_kmh": "km/h",
        "share": "%",
        "temperature": "°C",
        "stroke": "mg/stroke",
    },
    "de": {
        "engine_rpm": "1/min",
        "vehicle_kmh": "km/h",
        "share": "%",
        "temperature": "°C",
        "stroke": "mg/Hub",
    },
    "fr": {
        "engine_rpm": "tr/min",
        "vehicle_kmh": "km/h",
        "share": "%",
        "temperature": "°C",
        "stroke": "mg/coup",
    },
    "es": {
        "engine_rpm": "rpm",
        "vehicle_kmh": "km/h",
        "share": "%",
        "temperature": "°C",
        "stroke": "mg/carrera",
    },
}
PREAMBLE = {
    "en": ("Recording of a test drive", "Barometric pressure", "Displacement", "Cylinders"),
    "de": ("Messung Probefahrt", "Luftdruck", "Hubraum", "Zylinder"),
    "fr": ("Enregistrement d'un essai", "Pression atmosphérique", "Cylindrée", "Nombre de cylindres"),
    "es": ("Registro de una prueba", "Presión atmosférica", "Cilindrada", "Número de cilindros"),
}
ABSOLUTE = {"en": "abs", "de": "abs", "fr": "abs", "es": "abs"}
KINDS = {"en": "absolute", "de": "absolut", "fr": "absolue", "es": "absoluta"}
RELATIVE = {"en": "gauge", "de": "relativ", "fr": "relative", "es": "relativa"}
EXTRA = {
    "en": ("Coolant temperature [°C]", "Battery voltage [V]", "Rail pressure [bar]"),
    "de": ("Kühlmitteltemperatur [°C]", "Batteriespannung [V]", "Raildruck [bar]"),
    "fr": ("Température liquide de refroidissement [°C]", "Tension batterie [V]", "Pression rail [bar]"),
    "es": ("Temperatura del refrigerante [°C]", "Tensión de batería [V]", "Presión raíl [bar]"),
}


@dataclass(frozen=True)
class Dialect:
    """How a run is written."""

    language: str = "en"
    variant: int = 0
    delimiter: str = ","
    comma: bool = False
    encoding: str = "utf-8"
    newline: str = "\n"
    unit_place: str = "brackets"  # brackets, row, trailing, none
    pressure: str = "mbar"
    kind: str = "absolute"
    says_kind: bool = False
    time: str = "s"  # s, ms, clock, date, whole_seconds, each
    preamble: int = 0
    says_air: bool = False
    says_engine: bool = False
    air: str = "g/s"
    extra: int = 0
    twice: bool = False  # a second column of the same name
    trailing: bool = False  # a delimiter at each line's end
    gaps: float = 0.0
    words_in_cells: float = 0.0
    repeats: int = 0
    back: int = 0
    torn: bool = False
    blank: int = 0
    header_again: bool = False
    seed: int = 0


@dataclass
class Rendered:
    """A log's bytes and what must be read from it."""

    data: bytes
    channels: Channels
    tolerance: dict[str, float]
    columns: dict[str, str]
    rows_left_out: int = 0
    cells_left_out: int = 0
    facts: dict[str, float] = field(default_factory=dict)


def render(channels: Channels, how: Dialect, *, air_kpa: float, litres: float, cylinders: int) -> Rendered:
    """Write the channels in a dialect; the truth comes back beside the bytes."""
    return _Writer(channels, how, air_kpa, litres, cylinders).written()


class _Writer:
    def __init__(
        self, channels: Channels, how: Dialect, air_kpa: float, litres: float, cylinders: int
    ) -> None:
        self.how, self.air_kpa, self.litres, self.cylinders = how, air_kpa, litres, cylinders
        self.dice = random.Random(how.seed)
        self.truth = {name: list(values) for name, values in channels.items()}
        self.names = [name for name in channels if name != "t_s"]
        self.left_rows = self.left_cells = 0
        self.tolerance: dict[str, float] = {}

    def written(self) -> Rendered:
        how = self.how
        table = self._columns()
        headers = [header for header, _ in table]
        rows = [list(cells) for cells in zip(*(cells for _, cells in table), strict=True)]
        lines = [*self._preamble(), *self._heads(headers), *self._body(rows)]
        text = how.newline.join(lines) + ("" if how.torn else how.newline)
        facts: dict[str, float] = {}
        if how.kind == "gauge" and not how.says_air:
            facts["barometric_kpa_abs"] = self.air_kpa
        if how.air == "stroke" and not how.says_engine:
            facts.update(displacement_l=self.litres, cylinders=self.cylinders)
        start = next(when for when in self.truth["t_s"] if when is not None)
        self.truth["t_s"] = [None if when is None else when - start for when in self.truth["t_s"]]
        named = {name: self._heading(name) for name in self.names}
        return Rendered(
            text.encode(how.encoding),
            self.truth,
            self.tolerance,
            named,
            self.left_rows,
            self.left_cells,
            facts,
        )

    def _columns(self) -> list[tuple[str, list[str]]]:
        columns: list[tuple[str, list[str]]] = []
        each = self.how.time == "each"
        if not each:
            columns.append((self._heading("t_s"), self._times()))
        for name in self.names:
            if each:
                columns.append((self._heading("t_s"), self._times()))
            columns.append((self._heading(name), self._cells(name)))
        for extra in EXTRA[self.how.language][: self.how.extra]:
            columns.append((extra, [self._number(80.0 + self.dice.random(), 1) for _ in self.truth["t_s"]]))
        if self.how.twice:
            again = self._heading("intake_air_c")
            columns.append((again, [self._number(20.0 + self.dice.random(), 1) for _ in self.truth["t_s"]]))
        return columns

    def _heading(self, name: str) -> str:
        how = self.how
        word = WORDS[how.language][how.variant][name]
        if name in BOOSTS and how.says_kind:
            word = f"{word} {(KINDS if how.kind == 'absolute' else RELATIVE)[how.language]}"
        unit = self._unit(name)
        if not unit or how.unit_place in ("row", "none"):
            return word
        return f"{word} [{unit}]" if how.unit_place == "brackets" else f"{word} ({unit})"

    def _unit(self, name: str) -> str:
        units = UNITS[self.how.language]
        if name == "t_s":
            return {"s": "s", "ms": "ms", "each": "s"}.get(self.how.time, "")
        if name in BOOSTS:
            return self.how.pressure
        if name == "air_mass_gps":
            return units["stroke"] if self.how.air == "stroke" else self.how.air
        if name.endswith("_pct"):
            return units["share"]
        return units["temperature"] if name.endswith("_c") else units[name]

    def _times(self) -> list[str]:
        times = [when for when in self.truth["t_s"] if when is not None]
        start = datetime(2026, 11, 25, 23, 59, 40, tzinfo=UTC)
        kind = self.how.time
        if kind == "ms":
            return [f"{1000.0 * when:.0f}" for when in times]
        if kind in ("clock", "date", "whole_seconds"):
            moments = [start + timedelta(seconds=when) for when in times]
            shown = {"clock": "%H:%M:%S.%f", "date": "%d.%m.%Y %H:%M:%S.%f", "whole_seconds": "%H:%M:%S"}[
                kind
            ]
            texts = [moment.strftime(shown) for moment in moments]
            texts = [text if kind == "whole_seconds" else text[:-3] for text in texts]
            return [text[:-4] + text[-4:].replace(".", ",") if self.how.comma else text for text in texts]
        return [self._number(when, 3) for when in times]

    def _cells(self, name: str) -> list[str]:
        decimals, scale = 2, 1.0
        add = 0.0
        if name in BOOSTS:
            scale = 1.0 / KPA_IN[self.how.pressure]
            decimals = {"kPa": 1, "hPa": 0, "mbar": 0, "bar": 3, "psi": 2, "inHg": 2}[self.how.pressure]
            add = -self.air_kpa if self.how.kind == "gauge" else 0.0
        elif name == "engine_rpm":
            decimals = 0
        elif name == "air_mass_gps" and self.how.air == "kg/h":
            scale = 3.6
        self.tolerance[name] = 0.51 * 10.0**-decimals / scale + 1e-9
        values = self.truth[name]
        if name == "air_mass_gps" and self.how.air == "stroke":
            return self._a_stroke()
        cells = []
        for row, value in enumerate(values):
            if value is None or self.dice.random() < self.how.gaps:
                values[row] = None
                cells.append("")
            elif self.dice.random() < self.how.words_in_cells:
                values[row] = None
                self.left_cells += 1
                cells.append(self.dice.choice(["n/a", "---", "ERR", "off", "????", "NaN"]))
            else:
                cells.append(self._number((value + add) * scale, decimals))
        return cells

    def _a_stroke(self) -> list[str]:
        cells, truth = [], self.truth["air_mass_gps"]
        for row, (air, rpm) in enumerate(zip(truth, self.truth["engine_rpm"], strict=True)):
            if air is None or rpm is None:
                truth[row] = None
                cells.append("")
            else:
                cells.append(self._number(air * 1000.0 * 120.0 / (round(rpm) * self.cylinders), 1))
        self.tolerance["air_mass_gps"] = 0.06 * 6000.0 * self.cylinders / 120.0 / 1000.0
        return cells

    def _number(self, value: float, decimals: int) -> str:
        text = f"{value:.{decimals}f}"
        return text.replace(".", ",") if self.how.comma else text

    def _preamble(self) -> list[str]:
        title, air, size, count = PREAMBLE[self.how.language]
        sign = ";" if self.how.delimiter == "," else self.how.delimiter
        lines = [title, "2026-11-25", "No. 7"][: self.how.preamble]
        if self.how.says_air:
            lines.append(f"{air}:{sign} {self._number(self.air_kpa * 10.0, 0)} hPa")
        if self.how.says_engine:
            lines += [f"{size}: {self._number(self.litres, 1)} l", f"{count}: {self.cylinders}"]
        return [*lines, ""] if self.how.preamble > 1 else lines

    def _heads(self, headers: list[str]) -> list[str]:
        names = self._line(headers)
        if self.how.unit_place != "row":
            return [names]
        order = (
            ["t_s", *self.names] if self.how.time != "each" else [n for c in self.names for n in ("t_s", c)]
        )
        units = [self._unit(name) for name in order] + [""] * (len(headers) - len(order))
        return [names, self._line(units)]

    def _body(self, rows: list[list[str]]) -> list[str]:
        how = self.how
        lines = [self._line(row) for row in rows]
        dirt: list[tuple[int, str]] = []
        places = self.dice.sample(range(5, len(rows) - 5), how.repeats + how.back + how.blank)
        for place in places[: how.repeats]:
            dirt.append((place, lines[place]))
        for place in places[how.repeats : how.repeats + how.back]:
            wrong = [*rows[place - 3]]
            wrong[0] = rows[max(0, place - 4)][0]
            dirt.append((place, self._line(wrong)))
        for place in places[how.repeats + how.back :]:
            dirt.append((place, ""))
        if how.header_again:
            dirt.append((len(rows) // 2, self._heads([header for header, _ in self._columns_named()])[0]))
        for place, line in sorted(dirt, reverse=True):
            lines.insert(place + 1, line)
        self.left_rows += len(dirt)
        if how.torn:
            lines.append(self._line(rows[-1][: len(rows[-1]) // 2]))
            self.left_rows += 1
        return lines

    def _columns_named(self) -> list[tuple[str, list[str]]]:
        names = (
            ["t_s", *self.names] if self.how.time != "each" else [n for c in self.names for n in ("t_s", c)]
        )
        extra = [(name, []) for name in EXTRA[self.how.language][: self.how.extra]]
        again = [(self._heading("intake_air_c"), [])] if self.how.twice else []
        return [(self._heading(name), []) for name in names] + extra + again

    def _line(self, cells: list[str]) -> str:
        sign = self.how.delimiter
        quoted = [f'"{cell}"' if sign in cell else cell for cell in cells]
        return sign.join(quoted) + (sign if self.how.trailing else "")
