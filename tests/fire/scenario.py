"""A scenario: a name, what is done to the system, and a run that says how many faults it withstood."""

import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True)
class Outcome:
    """One line of the table. `skipped` says why a scenario could not be run on this machine."""

    scenario: str
    what: str
    faults: int
    held: bool
    note: str = ""
    skipped: str = ""


Run = Callable[[bool], Iterator[Outcome]]


@dataclass(frozen=True)
class Scenario:
    """`run(small)` yields outcomes; `in_browser` ones want a process of their own."""

    name: str
    run: Run
    in_browser: bool


SCENARIOS: dict[str, Scenario] = {}


def scenario(name: str, *, in_browser: bool = False) -> Callable[[Run], Run]:
    """Register a run under S1 to S20."""

    def register(run: Run) -> Run:
        SCENARIOS[name] = Scenario(name, run, in_browser)
        return run

    return register


def outcomes_of(name: str, small: bool) -> Iterator[Outcome]:
    """Run one; what breaks becomes a row that did not hold, with the reason, so that the others still run."""
    began = time.monotonic()
    try:
        yield from SCENARIOS[name].run(small)
    except Exception as error:  # noqa: BLE001  (a broken promise of any kind is the result, not an accident)
        reason = f"{type(error).__name__}: {error}"
        yield Outcome(
            name, "broke off", 0, held=False, note=f"{reason[:300]} after {time.monotonic() - began:.0f} s"
        )


MEMORY = Path("/dev/shm")  # noqa: S108  (Linux's file system in memory, where there is one)


@contextmanager
def folder(*, in_memory: bool = False) -> Iterator[Path]:
    """A place for one run's data, gone afterwards; in memory where thousands of runs need no disk."""
    where = MEMORY if in_memory and MEMORY.is_dir() else None
    with tempfile.TemporaryDirectory(prefix="fire-", dir=where) as path:
        yield Path(path)
