"""Published values as rows of data, and our own result beside each of them."""

import csv
import math
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path

from tests.published.formulas import FORMULAS

FOLDER = Path(__file__).resolve().parents[2] / "fixtures" / "published"
MARKS = ("published", "computed", "from memory", "common practice, no source")
COLUMNS = ["what", "formula", "inputs", "value", "allowed", "mark", "note"]


@dataclass(frozen=True)
class Row:
    """One outside value.

    `allowed` is empty (half of the last printed digit), a number in the unit of the value, or `rel x`.
    A `note` that begins with `cannot be met` says why ours must differ by more than that.
    """

    file: str
    source: str
    what: str
    formula: str
    inputs: dict[str, str]
    value: str
    allowed: str
    mark: str
    note: str

    @property
    def name(self) -> str:
        return f"{self.file}: {self.what}"

    @property
    def meant_to_miss(self) -> bool:
        return self.note.startswith("cannot be met")

    def ours(self) -> float | str:
        return FORMULAS[self.formula](**{key: number(text) for key, text in self.inputs.items()})

    def tolerance(self) -> float:
        if self.allowed.startswith("rel "):
            return float(self.allowed.removeprefix("rel ")) * abs(float(self.value))
        return float(self.allowed) if self.allowed else half_last_digit(self.value)

    def difference(self) -> float:
        """Ours minus theirs; for a text 0 where both are equal and 1 where not."""
        ours = self.ours()
        if isinstance(ours, str):
            return 0.0 if ours == self.value else 1.0
        return ours - float(self.value)

    def agrees(self) -> bool:
        """Whether ours lies within what is allowed; the last bits of a double are not held against it."""
        if isinstance(self.ours(), str):
            return self.difference() == 0.0
        slack = 8.0 * math.ulp(abs(float(self.value)))
        return abs(self.difference()) <= self.tolerance() + slack


def number(text: str) -> float | str:
    """A number where it is one; a leading apostrophe keeps a text that looks like one."""
    if text.startswith("'"):
        return text[1:]
    try:
        return float(text)
    except ValueError:
        return text


def half_last_digit(printed: str) -> float:
    exponent = Decimal(printed).as_tuple().exponent
    assert isinstance(exponent, int), printed
    return 0.5 * 10.0**exponent


def rows() -> list[Row]:
    return [row for path in sorted(FOLDER.glob("*.csv")) for row in read(path)]


def read(path: Path) -> Iterator[Row]:
    lines = path.read_text(encoding="utf-8").splitlines()
    head = [line.removeprefix("#").strip() for line in lines if line.startswith("#")]
    table = csv.DictReader(line for line in lines if line and not line.startswith("#"))
    assert table.fieldnames == COLUMNS, path.name
    for cells in table:
        assert None not in cells, f"{path.name}: {cells}"
        inputs = dict(pair.split("=") for pair in cells.pop("inputs").split())
        yield Row(file=path.stem, source=" ".join(head), inputs=inputs, **cells)
