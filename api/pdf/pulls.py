"""The pulls of the road runs as the report shows them: aimed, car says, gauge says, beside each other."""

from dataclasses import dataclass
from typing import Any

from api.pdf.figures import Printer

AIR_PRESSURE_KPA = 101.3  # the contract's own value where none was noted
SAME_SPEED_RPM = 150.0  # the contract's rule for readings that belong together


@dataclass(frozen=True)
class Pull:
    """One pull; pressures in kPa above the air pressure."""

    title: str
    phase: str
    aimed: float | None
    car: float | None
    gauge: float | None
    duty_pct: float | None

    @property
    def values(self) -> list[float]:
        """The pressures that are known."""
        return [value for value in (self.aimed, self.car, self.gauge) if value is not None]

    @property
    def has_pair(self) -> bool:
        """Whether there is anything to compare."""
        return len(self.values) > 1

    def cells(self, printer: Printer) -> list[str]:
        """Aimed, car says, gauge says and duty as printed."""
        pressures = [_or_dash("_kpa", value, printer) for value in (self.aimed, self.car, self.gauge)]
        return [*pressures, _or_dash("duty_pct", self.duty_pct, printer)]

    def in_words(self, printer: Printer) -> str:
        """The pull in one clause."""
        aimed, car, gauge, _ = self.cells(printer)
        return printer.words.say("pull_words", pull=self.title, aimed=aimed, car=car, gauge=gauge)


def pulls(document: dict[str, Any], printer: Printer) -> list[Pull]:
    """Every noted moment with the gauge reading in the charge circuit that belongs to it."""
    air = air_pressure(document)
    runs = (document.get("tests") or {}).get("road") or []
    phases = {run.get("phase", "before_repair") for run in runs}
    return [pull for run in runs for pull in _of_run(run, len(phases) > 1, air, printer)]


def air_pressure(document: dict[str, Any]) -> float:
    """The air pressure noted in the job, else the contract's own value. [kPa, absolute]"""
    noted = (document.get("site") or {}).get("barometric_kpa_abs")
    return AIR_PRESSURE_KPA if noted is None else float(noted)


def _of_run(run: dict[str, Any], with_phase: bool, air: float, printer: Printer) -> list[Pull]:
    noted = run.get("noted") or []
    readings = [
        one for one in run.get("readings") or [] if one.get("at", "charge_circuit") == "charge_circuit"
    ]
    phase = run.get("phase", "before_repair")
    prefix = f"{printer.word(phase)}, " if with_phase else ""
    titles = [prefix + _title(row, count, printer) for count, row in enumerate(noted, 1)]
    rows = zip(noted, titles, strict=True)
    return [_pull(row, _partner(row, readings), title, phase, air) for row, title in rows]


def _title(row: dict[str, Any], count: int, printer: Printer) -> str:
    number = printer.plain(row.get("pull") or count)
    speed = row.get("engine_rpm")
    if speed is None:
        return printer.words.say("pull", number=number)
    return printer.words.say("pull_at", number=number, speed=printer.figure("engine_rpm", speed))


def _pull(row: dict[str, Any], gauge: dict[str, Any] | None, title: str, phase: str, air: float) -> Pull:
    return Pull(
        title=title[0].upper() + title[1:],
        phase=phase,
        aimed=_above(row.get("boost_specified_kpa_abs"), air),
        car=_above(row.get("boost_actual_kpa_abs"), air),
        gauge=None if gauge is None else gauge.get("p_kpa"),
        duty_pct=row.get("duty_pct"),
    )


def _partner(row: dict[str, Any], readings: list[dict[str, Any]]) -> dict[str, Any] | None:
    """The reading of the same pull and nearest engine speed, else of the same moment."""
    same = [one for one in readings if one.get("pull") == row.get("pull") and not one.get("peak")]
    if row.get("engine_rpm") is None:
        return next((one for one in same if one.get("t_s") == row.get("t_s")), None)
    near = [one for one in same if abs(_speed(one) - row["engine_rpm"]) <= SAME_SPEED_RPM]
    return min(near, key=lambda one: abs(_speed(one) - row["engine_rpm"]), default=None)


def _speed(reading: dict[str, Any]) -> float:
    speed = reading.get("engine_rpm")
    return float("inf") if speed is None else float(speed)


def _above(absolute: float | None, air: float) -> float | None:
    return None if absolute is None else absolute - air


def _or_dash(key: str, value: float | None, printer: Printer) -> str:
    return "–" if value is None else printer.figure(key, round(value, 1))
