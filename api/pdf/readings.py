"""Everything that was noted in a job, as titled rows and tables: no reading and no limit is left out."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from api.pdf.figures import Printer, is_number
from api.pdf.order import in_order

LONGEST_LOG = 40
SHORT = 24  # rows
HALF = 72  # signs of a table's row that fit half a page
LONGEST_WORD, LONGEST_CELL = 16, 44  # signs; what is longer is broken
NARROW = 3  # columns of a table that still fit beside others
DAYS = frozenset({"calibrated_on", "taken_at", "when"})
UNSEEN = frozenset({"id", "rank"})


@dataclass(frozen=True)
class Table:
    """Readings in columns; `title` is empty where the section's own title says enough."""

    title: str
    head: list[str]
    rows: list[list[str]]

    @property
    def widths(self) -> list[int]:
        """The columns' shares of the width, by the longest word of each head and the longest cell. [%]"""
        return [round(100 * one / sum(self.signs)) for one in self.signs]

    @property
    def signs(self) -> list[int]:
        """How many signs wide each column should be."""
        columns = zip(self.head, *self.rows, strict=True)
        return [max(_longest_word(head), *map(_signs, cells), 1) for head, *cells in columns]


def _longest_word(text: str) -> int:
    return 2 + min(max(map(len, text.split()), default=0), LONGEST_WORD)


def _signs(text: str) -> int:
    return 2 + min(len(text), LONGEST_CELL)


@dataclass
class Section:
    """One test, or one part of the job, as noted."""

    title: str
    rows: list[tuple[str, str]] = field(default_factory=list)
    tables: list[Table] = field(default_factory=list)

    @property
    def is_wide(self) -> bool:
        """Whether a table of it needs more than a narrow column."""
        return any(len(table.head) > NARROW for table in self.tables)

    @property
    def is_short(self) -> bool:
        """Whether it stands in half a page's width without running on to the next page."""
        return sum(len(table.rows) for table in self.tables) <= SHORT and all(
            sum(table.signs) <= HALF for table in self.tables
        )

    def __bool__(self) -> bool:
        return bool(self.rows or self.tables)


@dataclass(frozen=True)
class Names:
    """What gauges and photos are called on paper: numbers in the job's order, not ids."""

    printer: Printer
    gauges: Mapping[str, str]
    photos: Mapping[str, str]


def names_of(document: dict[str, Any], printer: Printer) -> Names:
    """Number the job's gauges and photos."""
    say = printer.words.say
    gauges = enumerate(document.get("gauges") or [], 1)
    photos = enumerate(document.get("photos") or [], 1)
    return Names(
        printer,
        {gauge.get("id", ""): say("gauge", number=str(n)) for n, gauge in gauges},
        {photo.get("sha256", ""): say("photo", number=str(n)) for n, photo in photos},
    )


def part(document: dict[str, Any], key: str, names: Names) -> Section:
    """One of the job's own parts: car, complaint, boost control, limits, place."""
    section = Section(names.printer.words.sections[key])
    _fill(section, document.get(key) or {}, names)
    return section


def tests(document: dict[str, Any], names: Names) -> list[Section]:
    """Every test but the road runs, in the contract's order."""
    done = document.get("tests") or {}
    known = names.printer.words.sections
    sections = [_test(key, done[key], names) for key in known if key != "road" and done.get(key)]
    return [section for section in sections if section]


def gauges(document: dict[str, Any], names: Names) -> list[Section]:
    """Each gauge of the job with its class, its scale and its calibration."""
    sections = []
    for gauge in document.get("gauges") or []:
        section = Section(names.gauges[gauge.get("id", "")].capitalize())
        _fill(section, gauge, names)
        sections.append(section)
    return sections


def road(document: dict[str, Any], names: Names, ranges: Mapping[str, Any]) -> list[Section]:
    """Each road run with its gauge readings, what was noted, and its log.

    `ranges` holds by the run's id how often each channel was read, its least and its greatest value.
    """
    runs = (document.get("tests") or {}).get("road") or []
    return [
        _run(number, run, ranges.get(run.get("id") or "", {}), names) for number, run in enumerate(runs, 1)
    ]


def steps(document: dict[str, Any], names: Names) -> Table | None:
    """The steps of the work with their state, notes and photos."""
    noted = [_step(step) for step in document.get("steps") or [] if _has_reading(step)]
    return _table("", noted, names) if noted else None


def _step(step: dict[str, Any]) -> dict[str, Any]:
    """A step with its time under a name of its own: elsewhere `at` is the place of a gauge."""
    return {"when" if key == "at" else key: given for key, given in step.items()}


def value(key: str, given: Any, names: Names) -> str:
    """One value in words, with its unit; empty for what is not printed here."""
    if isinstance(given, bool):
        return names.printer.words.answers[given]
    if is_number(given):
        return names.printer.figure(key, given)
    if isinstance(given, list):
        return _joined(key, given, names)
    if isinstance(given, dict):
        return names.printer.limit(key, given) if given.keys() <= {"min", "max"} else ""
    return names.printer.day(given) if key in DAYS else _word(given, names)


def _test(key: str, test: dict[str, Any], names: Names) -> Section:
    section = Section(names.printer.words.sections[key])
    _fill(section, test, names)
    return section


def _run(number: int, run: dict[str, Any], ranges: dict[str, list[float]], names: Names) -> Section:
    section = Section(f"{names.printer.words.sections['road']} {number}")
    channels, file = run.get("channels") or {}, run.get("log") or {}
    _fill(section, {key: given for key, given in run.items() if key not in ("channels", "log")}, names)
    if file.get("sha256"):
        section.rows.append((names.printer.label("log"), str(file["sha256"])))
    if channels and not _is_long(channels):
        section.tables.append(_log(channels, names))
    elif channels or ranges:
        section.rows.append((names.printer.words.say("log"), names.printer.words.say("log_ranges")))
        section.rows.extend(_ranges(_ranges_of(channels) if channels else ranges, names))
    return section


def _fill(section: Section, noted: dict[str, Any], names: Names) -> None:
    for key in in_order(noted):
        given = noted[key]
        if key in UNSEEN or given is None or given == []:
            continue
        if _is_items(given):
            section.tables.append(_table(names.printer.label(key), given, names))
        elif _is_group(given):
            section.rows.extend(_group(key, given, names))
        elif text := value(key, given, names):
            section.rows.append((names.printer.label(key), text))


def _group(key: str, given: dict[str, Any], names: Names) -> Iterable[tuple[str, str]]:
    for inner in in_order(given):
        one = given[inner]
        if one is not None and (text := value(inner, one, names)):
            yield f"{names.printer.label(key)}: {names.printer.label_inside(inner)}", text


def _is_items(given: Any) -> bool:
    return isinstance(given, list) and all(isinstance(item, dict) for item in given)


def _is_group(given: Any) -> bool:
    return isinstance(given, dict) and not given.keys() <= {"min", "max"}


def _has_reading(item: dict[str, Any]) -> bool:
    return any(key not in UNSEEN and given not in (None, [], "") for key, given in item.items())


def _table(title: str, items: list[dict[str, Any]], names: Names) -> Table:
    keys = [key for key in dict.fromkeys(key for item in items for key in item) if key not in UNSEEN]
    shown = in_order(key for key in keys if any(item.get(key) is not None for item in items))
    head = [_head(key, names) for key in shown]
    return Table(title, head, [[_cell(key, item.get(key), names) for key in shown] for item in items])


def _head(key: str, names: Names) -> str:
    name, unit = names.printer.label(key), names.printer.unit_of(key)
    return f"{name}, {unit}" if unit else name


def _cell(key: str, given: Any, names: Names) -> str:
    if given is None:
        return "–"
    if is_number(given):
        return names.printer.amount(key, given)
    return value(key, given, names)


def _log(channels: dict[str, list[float | None]], names: Names) -> Table:
    kept = {key: channels[key] for key in in_order(channels) if channels[key]}
    longest = max((len(samples) for samples in kept.values()), default=0)
    rows = [[_cell(key, samples[n], names) for key, samples in kept.items()] for n in range(longest)]
    return Table(names.printer.words.say("log"), [_head(key, names) for key in kept], rows)


def _is_long(channels: dict[str, list[float | None]]) -> bool:
    return max((len(samples) for samples in channels.values()), default=0) > LONGEST_LOG


def _ranges_of(channels: dict[str, list[float | None]]) -> dict[str, list[float]]:
    read = {key: [one for one in samples if one is not None] for key, samples in channels.items()}
    return {key: [float(len(some)), min(some), max(some)] for key, some in read.items() if some}


def _ranges(ranges: Mapping[str, list[float]], names: Names) -> Iterable[tuple[str, str]]:
    """Of each channel its least and its greatest value, and how often it was read."""
    for key in in_order(ranges):
        count, *ends = ranges[key]
        if count:
            shown = names.printer.limit(key, {"min": ends[0], "max": ends[1]})
            yield names.printer.label(key), f"{shown} ({count:.0f})"


def _joined(key: str, given: list[Any], names: Names) -> str:
    if key == "span_kpa" and len(given) == 2:
        return names.printer.limit(key, {"min": given[0], "max": given[1]})
    if all(is_number(one) or one is None for one in given):
        return ", ".join(_cell(key, one, names) for one in given)
    return ", ".join(_word(one, names) for one in given if isinstance(one, str))


def _word(text: Any, names: Names) -> str:
    return names.gauges.get(text) or names.photos.get(text) or names.printer.word(str(text))
