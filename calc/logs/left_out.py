"""The account of what of a log was not used, and why: nothing is dropped in silence."""

from dataclasses import dataclass, field
from typing import Any


@dataclass
class LeftOut:
    """Counts by what (`row`, `cell`, `column`), why, and column."""

    counts: dict[tuple[str, str, str | None], int] = field(default_factory=dict)
    more: dict[tuple[str, str, str | None], dict[str, Any]] = field(default_factory=dict)

    def add(self, what: str, why: str, count: int = 1, column: str | None = None, **more: Any) -> None:
        """Count so many more; what is said in `more` is kept from the first time."""
        if count > 0:
            key = (what, why, column)
            self.counts[key] = self.counts.get(key, 0) + count
            self.more.setdefault(key, more)

    def listed(self) -> list[dict[str, Any]]:
        """As it stands in the result: rows, then cells, then columns, in the order met."""
        order = {"row": 0, "cell": 1, "column": 2}
        found = []
        for key in sorted(self.counts, key=lambda key: order[key[0]]):
            what, why, column = key
            named = {} if column is None else {"column": column}
            found.append({"what": what, "count": self.counts[key], "why": why, **named, **self.more[key]})
        return found
