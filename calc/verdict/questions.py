"""What is asked before anything is blamed: cleared codes, a cold engine, the wrong gear, reduced power.

A question has a place in the job for its answer; what a wrong answer does: `calc.checks.run_conditions`.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from calc.checks.evidence import Evidence
from calc.checks.run_conditions import DIESEL_ONLY, SPOILED_BY

CODES = "codes_cleared"
HOLDS = ("channels", "log", "readings", "noted")


@dataclass(frozen=True, slots=True)
class Question:
    """One yes or no: its key, where the answer stands (items by their own id), the answer, the run.

    spoils : the answer that forbids to judge by it.
    run : the run's number, where there are several.
    """

    key: str
    path: str
    answer: bool | None
    spoils: bool
    run: int | None = None

    @property
    def spoiled(self) -> bool:
        """Whether the answer given is that one."""
        return self.answer is self.spoils


def questions(evidence: Evidence) -> list[Question]:
    """The questions of this job, answered or not: of its codes, then of each run in turn."""
    return [*_of_codes(evidence), *_of_runs(evidence)]


def _of_codes(evidence: Evidence) -> Iterator[Question]:
    complaint = evidence.get("/complaint") or {}
    said = complaint.get("codes") or complaint.get("symptoms") or complaint.get("text")
    if said and evidence.get("/tests"):
        yield Question(CODES, f"/complaint/{CODES}", complaint.get(CODES), spoils=True)


def _of_runs(evidence: Evidence) -> Iterator[Question]:
    made = [(index, run) for index, run in _runs(evidence) if any(run.get(key) for key in HOLDS)]
    diesel = "diesel" in str(evidence.get("/vehicle/fuel") or "").lower()
    for number, (index, run) in enumerate(made, start=1):
        place = f"/tests/road/{run.get('id') or index}"
        for key, spoils in SPOILED_BY.items():
            if key not in DIESEL_ONLY or diesel:
                count = number if len(made) > 1 else None
                yield Question(key, f"{place}/{key}", run.get(key), spoils, count)


def _runs(evidence: Evidence) -> Iterator[tuple[int, Mapping[str, Any]]]:
    for index, run in enumerate(evidence.get("/tests/road") or ()):
        if run is not None:
            yield index, run
