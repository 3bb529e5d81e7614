"""Sentences made from findings and faults, in one language and one pressure unit."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from types import ModuleType

from calc.checks.finding import Finding
from calc.faults.explain import BoostError
from calc.words import english, german
from calc.words.figures import Figures

LANGUAGES: Mapping[str, ModuleType] = {"en": english, "de": german}
SIGNED = (
    "road_real_boost",
    "road_tracking",
    "road_sensor",
    "road_request",
    "road_correction",
    "road_control_pressure",
    "rest_charge_pressure",
    "rest_temperatures",
    "actuator_position",
)


@dataclass(frozen=True, slots=True)
class Sentences:
    """Everything that is said, for one reader.

    figures : how values are written. [-]
    words : the language's catalogue. [-]
    vanes : whether the car has vanes where the customer's words say valve. [-]
    """

    figures: Figures
    words: ModuleType
    vanes: bool = False

    def to_customer(self, text: str) -> str:
        """The customer's words for this kind of car."""
        return text.replace(*self.words.VALVE_TO_VANES) if self.vanes else text

    def title(self, found: Finding) -> str:
        """Short name of a check."""
        return str(self.words.CHECKS[found.check].title)

    def figure(self, found: Finding) -> str | None:
        """Value with doubt and unit, or None for a yes-or-no check and where nothing was read."""
        if found.value is None or found.unit == "flag":
            return None
        unit = found.facts.get("unit", found.unit)
        if found.check == "solenoid_coil" and found.facts.get("open_circuit"):
            return f"∞ {self.figures.unit('ohm')}"
        text = self.figures.measured(
            found.value, found.expanded_uncertainty, unit, signed=found.check in SIGNED
        )
        return f"≥ {self.figures.with_unit(found.value, unit)}" if found.lower_bound else text

    def limit(self, found: Finding) -> str | None:
        """The limit with its unit, or None."""
        if found.limit is None or found.unit == "flag":
            return None
        return self.figures.limit(found.limit, found.facts.get("unit", found.unit))

    def source(self, found: Finding) -> str:
        """Formula or standard behind a finding."""
        return str(self.words.SOURCES.get(found.source, found.source))

    def figure_and_limit(self, found: Finding) -> str | None:
        """What was read against its limit, as half a sentence; None where the check has no figure."""
        figure, limit = self.figure(found), self.limit(found)
        if figure is None:
            return None
        text = self.words.SHOWN.format(title=self.inside(self.title(found)), figure=figure)
        return text if limit is None else f"{text}; {self._limit_phrase(found)}"

    def settles(self, found: Finding, finer: float | None) -> str | None:
        """What would settle an undecided finding, or None."""
        if found.outcome != "undecided" or finer is None:
            return None
        return str(self.words.SETTLES_FINER.format(finer=self.figures.spelled(f"{finer:g}")))

    def finding(self, found: Finding, finer: float | None = None) -> str:
        """One plain sentence for a finding."""
        if found.unit == "flag":
            return self._placed(found, self._flag(found))
        if not found.examined:
            return self._not_judged(found)
        if found.facts.get("open_circuit"):
            return str(self.words.OPEN_COIL)
        measured = self._at_least(found) if found.lower_bound else self._reads(found)
        return self._placed(
            found, f"{measured}; {self._limit_phrase(found)}. {self._judgement(found, finer)}"
        )

    def fault(
        self,
        name: str,
        standing: str,
        alike: Sequence[str],
        explains: str,
        error: BoostError | None,
    ) -> str:
        """What is said of one fault."""
        parts = [self.words.STANDINGS[standing].format(sentence=self.words.FAULTS[name].sentence)]
        if alike:
            parts.append(self.alike(name, alike))
        if standing == "proved" and explains in self.words.EXPLAINS:
            parts.append(self.explained(explains, error))
        return " ".join(parts)

    def alike(self, name: str, others: Sequence[str]) -> str:
        """What the tests done do not tell apart from it; of no fault found: that it was felt all the same."""
        if name == "no_fault_found":
            return str(self.words.FELT)
        return str(self.words.ALIKE.format(others=self.titles(others)))

    def fault_title(self, name: str) -> str:
        """Short name of a fault."""
        return str(self.words.FAULTS[name].title)

    def titles(self, names: Sequence[str]) -> str:
        """Faults by their short names, within a sentence."""
        return self.join(self.inside(self.fault_title(name)) for name in names)

    def explained(self, explains: str, error: BoostError | None) -> str:
        """Whether the defect explains the error."""
        return str(self.words.EXPLAINS[explains].format(error=self.error(error)))

    def error(self, error: BoostError | None) -> str:
        """The boost error in words."""
        if error is None:
            return str(self.words.NO_ERROR)
        value = self.figures.with_unit(abs(error.value), "kPa")
        if error.check == "road_correction":
            return str(self.words.ERROR_TRIM.format(value=value))
        template = self.words.ERROR_HIGH if error.value > 0.0 else self.words.ERROR_LOW
        return str(template.format(value=value, who=self.words.WHO[error.check]))

    def inside(self, text: str) -> str:
        """A title or sentence as it stands inside another sentence of this language."""
        return text[:1].lower() + text[1:] if self.words.LOWERS_INSIDE else text

    def join(self, parts: Iterable[str]) -> str:
        """A list in words: a, b and c."""
        items = list(parts)
        if len(items) <= 1:
            return "".join(items)
        return f"{', '.join(items[:-1])}{self.words.AND}{items[-1]}"

    def _reads(self, found: Finding) -> str:
        return str(self.words.CHECKS[found.check].reads.format(figure=self.figure(found)))

    def _at_least(self, found: Finding) -> str:
        if found.facts.get("pump_cannot_reach"):
            template = self.words.PUMP_CANNOT_REACH
        else:
            template = self.words.LOWER_BOUND[found.check]
        return str(template.format(value=self.figures.with_unit(found.value or 0.0, found.unit)))

    def _limit_phrase(self, found: Finding) -> str:
        template = self.words.TYPICAL_LIMIT if found.typical else self.words.LIMIT
        return str(template.format(limit=self.limit(found)))

    def _judgement(self, found: Finding, finer: float | None) -> str:
        if found.outcome == "within":
            return str(self.words.WITHIN)
        if found.outcome == "outside":
            words = self.words.CHECKS[found.check]
            return str(words.low if found.spoken_side == "low" else words.high)
        hint = self.settles(found, finer)
        return f"{self.words.UNDECIDED} {hint}" if hint else str(self.words.UNDECIDED)

    def _not_judged(self, found: Finding) -> str:
        because = found.facts.get("because", "no_reading")
        if because == "no_limit" and found.value is not None:
            return str(self.words.NO_LIMIT.format(reads=self._reads(found)))
        return str(self.words.BECAUSE[because])

    def _flag(self, found: Finding) -> str:
        words = self.words.CHECKS[found.check]
        if not found.examined:
            return str(self.words.BECAUSE[found.facts.get("because", "no_reading")])
        if found.outcome == "undecided":
            return str(self.words.AUTHORITY_UNDECIDED)
        if found.outcome == "within":
            plain = self.words.FLAG_WITHIN.format(reads=words.reads)
            return str(self.words.FLAG_WITHIN_BY_CHECK.get(found.check, plain))
        if found.check == "smoke_leak" and found.facts.get("places"):
            return str(self.words.SMOKE_AT.format(places=self.join(found.facts["places"])))
        if found.check == "control_hoses" and found.facts.get("fault") in self.words.HOSES:
            return str(self.words.HOSES[found.facts["fault"]])
        if found.check in self.words.FLAG_OUTSIDE_BY_CHECK:
            return str(self.words.FLAG_OUTSIDE_BY_CHECK[found.check])
        return str(self.words.FLAG_OUTSIDE.format(words=words.low if found.side == "low" else words.high))

    def _placed(self, found: Finding, text: str) -> str:
        """The sentence with the pull and engine speed it speaks of."""
        pull, rpm = found.facts.get("pull"), found.facts.get("engine_rpm")
        if not found.examined or rpm is None:
            return text
        if pull is None:
            return str(self.words.AT_RPM.format(rpm=f"{rpm:.0f}", text=self.inside(text)))
        return str(self.words.AT_PULL.format(pull=pull, rpm=f"{rpm:.0f}", text=self.inside(text)))


def sentences(language: str, pressure_unit: str) -> Sentences:
    """The sentences of a language, in a pressure unit; KeyError for a language that has no catalogue."""
    words = LANGUAGES[language]
    return Sentences(Figures(pressure_unit, words.FIGURES), words)


def upper_first(text: str) -> str:
    """The text as the beginning of a sentence."""
    return text[:1].upper() + text[1:]
