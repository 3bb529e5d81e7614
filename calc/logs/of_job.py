"""Runs that name a log: their channels are read from its bytes when wanted; a job never holds the rows."""

import json
from collections.abc import Callable, Mapping
from typing import Any

from calc.errors import OutOfRange, UnreadableLog
from calc.logs.words import FAMILIES

PLAUSIBLE = {"barometric_kpa_abs": (50.0, 120.0), "displacement_l": (0.05, 100.0), "cylinders": (1, 24)}

# The run that a log makes, from its name and the arguments of `read_log` as JSON; None where not at hand.
LogReader = Callable[[str, str], Mapping[str, Any] | None]


def log_names(job: Mapping[str, Any]) -> list[str]:
    """SHA-256 names of the logs that a job's road runs hold, each once."""
    names = [log.get("sha256") for run in _runs(job) if (log := _log_of(run))]
    return list(dict.fromkeys(name for name in names if isinstance(name, str)))


def with_logs(job: Mapping[str, Any], read: LogReader) -> dict[str, Any]:
    """The job with the channels of every run whose log is at hand; the job given stays as it is.

    Parameters
    ----------
    job : Mapping
        A job document without nulls. [units of the contract]
    read : callable
        Gives what `read_log` makes of a log, or None. Equal arguments mean equal results, so it may remember.
    """
    if not log_names(job):
        return dict(job)
    tests = job["tests"]
    return {**job, "tests": {**tests, "road": [_with_channels(job, run, read) for run in tests["road"]]}}


def log_facts(job: Mapping[str, Any]) -> dict[str, float | None]:
    """What `read_log` may take from a job: air pressure, displacement, cylinders; None if not plausible."""
    site, car = job.get("site") or {}, job.get("vehicle") or {}
    told = {
        "barometric_kpa_abs": site.get("barometric_kpa_abs"),
        "displacement_l": car.get("displacement_l"),
        "cylinders": car.get("cylinders"),
    }
    return {name: _between(told[name], *ends) for name, ends in PLAUSIBLE.items()}


def _between(value: float | None, least: float, most: float) -> float | None:
    return value if value is not None and least <= value <= most else None


def _with_channels(job: Mapping[str, Any], run: Any, read: LogReader) -> Any:
    log = _log_of(run) if isinstance(run, Mapping) else None
    if not log or run.get("channels"):
        return run
    try:
        found = read(str(log.get("sha256")), _wish(job, log))
    except (OutOfRange, UnreadableLog):
        return run
    return run if found is None else {**run, "channels": found["channels"]}


def _wish(job: Mapping[str, Any], log: Mapping[str, Any]) -> str:
    """The columns as they were accepted and no other, and what of the car the log does not say itself."""
    columns = {**dict.fromkeys(FAMILIES), **(log.get("columns") or {})}
    return json.dumps({"columns": columns, **log_facts(job)})


def _runs(job: Mapping[str, Any]) -> list[Mapping[str, Any]]:
    road = (job.get("tests") or {}).get("road") or []
    return [run for run in road if isinstance(run, Mapping)]


def _log_of(run: Mapping[str, Any]) -> Mapping[str, Any] | None:
    log = run.get("log")
    return log if isinstance(log, Mapping) and log else None
