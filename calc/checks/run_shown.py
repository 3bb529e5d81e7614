"""One road run as it is drawn: its channels, its pulls, and where the gauges' readings lie in it."""

from collections.abc import Mapping
from typing import Any

from calc.checks.evidence import Evidence
from calc.checks.run_log import CHARGE_SIDE, LoggedPull, RunLog

SHOWN_AT = (*CHARGE_SIDE, "control_line")


def run_shown(job: Mapping[str, Any], run_id: str) -> dict[str, Any] | None:
    """The course of a road run with a log, as the checks see it.

    Parameters
    ----------
    job : Mapping
        A job document without nulls whose runs hold their channels (see `with_logs`). [contract's units]
    run_id : str
        Which run. [-]

    Returns
    -------
    dict or None
        `channels` as logged. `pulls`: `number`, first and last row as `start` and `end`, `judged`, likewise,
        of the rows that may be judged or None, `values`, each channel's mean over those. `gauges`: `at`,
        `t_s`, `kpa` (charge side absolute, control line gauge), `expanded` (U, k = 2), `pull`. `unplaced`:
        how many readings have no place in the log. `air_kpa_abs`: the air around the car, as the checks take
        it. None where the run has no times.
    """
    evidence = Evidence(job)
    found = ((place, run) for place, run in evidence.items("/tests/road") if run.get("id") == run_id)
    pointer, run = next(found, ("", {}))
    log = RunLog(pointer, run)
    if not log.usable:
        return None
    readings = [item for item in run.get("readings") or () if item and _can_be_drawn(item)]
    spots = log.spots(evidence, readings)
    gauges = [
        {
            "at": item.get("at") or "charge_circuit",
            "t_s": spot.when,
            "pull": _number(spot.pull),
            **_read(evidence, item),
        }
        for item, spot in zip(readings, spots, strict=True)
        if spot is not None
    ]
    return {
        "channels": dict(log.channels),
        "pulls": [_pull(pull) for pull in log.pulls],
        "gauges": gauges,
        "unplaced": len(readings) - len(gauges),
        "air_kpa_abs": evidence.barometric.value,
    }


def _can_be_drawn(item: Mapping[str, Any]) -> bool:
    is_shown = (item.get("at") or "charge_circuit") in SHOWN_AT
    return is_shown and item.get("p_kpa") is not None and not item.get("peak")


def _read(evidence: Evidence, item: Mapping[str, Any]) -> dict[str, float]:
    read = evidence.pressure(item["p_kpa"], item.get("gauge"))
    if item.get("at") == "control_line":
        return {"kpa": read.value, "expanded": 2.0 * read.uncertainty}
    real = evidence.absolute(read)
    return {"kpa": real.value, "expanded": 2.0 * real.uncertainty}


def _pull(pull: LoggedPull) -> dict[str, Any]:
    rows = pull.settling.judged
    first = pull.pull.start
    return {
        "number": pull.pull.number,
        "start": first,
        "end": pull.pull.end - 1,
        "judged": [first + rows[0], first + rows[-1]] if rows else None,
        "values": pull.said(rows) if rows else {},
    }


def _number(pull: LoggedPull | None) -> int | None:
    return None if pull is None else pull.pull.number
