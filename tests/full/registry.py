"""Named long runs and the rows that they yield."""

import importlib.util
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

TESTS = Path(__file__).resolve().parents[1]


@dataclass(frozen=True)
class Row:
    """One line of a run's table: what was looked at, what was measured, what is required."""

    what: str
    measured: str
    required: str
    holds: bool


Run = Callable[[bool], Iterator[Row]]


@dataclass(frozen=True)
class FullRun:
    """A long run: its name, what it shows, the run, and whether its small form is part of every check."""

    name: str
    shows: str
    run: Run
    small_in_every_check: bool = True


RUNS: dict[str, FullRun] = {}


def full_run(name: str, shows: str, *, small_in_every_check: bool = True) -> Callable[[Run], Run]:
    """Register a run; its function takes `small` and yields rows."""

    def register(run: Run) -> Run:
        known = RUNS.get(name)  # pytest may import the same file under a second name
        same = known is None or known.run.__code__.co_filename == run.__code__.co_filename
        assert same, f"two runs are called {name}"
        RUNS[name] = FullRun(name, shows, run, small_in_every_check)
        return run

    return register


def discover() -> dict[str, FullRun]:
    """Import every ``full_*.py`` below tests and return the runs by name."""
    for path in sorted(TESTS.rglob("full_*.py")):
        module = ".".join(path.relative_to(TESTS.parent).with_suffix("").parts)
        if module not in sys.modules:
            spec = importlib.util.spec_from_file_location(module, path)
            assert spec is not None
            assert spec.loader is not None
            sys.modules[module] = importlib.util.module_from_spec(spec)
            spec.loader.exec_module(sys.modules[module])
    return dict(sorted(RUNS.items()))
