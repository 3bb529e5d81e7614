"""Boost-control diagnosis: a job document in, a verdict out. Pure, on the standard library alone.

`judge_text` is what server, phone and command line call: the same bytes in give the same bytes out.
"""

import json
from collections.abc import Mapping
from typing import Any

from calc.checks.run_shown import run_shown
from calc.errors import BrokenDocument, BrokenPlace, OutOfRange, UnreadableLog
from calc.faults.next_test import MINUTES
from calc.faults.priors import weights as prior_weights
from calc.job import ITEM_LISTS, check_place, names_item, read_job, without_nulls
from calc.logs import LogReader, log_facts, log_names, read_log, with_logs
from calc.verdict import verdict
from calc.verdict.changed import changed
from calc.words.broken import told_broken
from calc.words.figures import DECIMALS
from calc.words.sentences import LANGUAGES, sentences

__all__ = [
    "ITEM_LISTS",
    "LANGUAGES",
    "PRESSURE_UNITS",
    "VERSION",
    "BrokenDocument",
    "BrokenPlace",
    "LogReader",
    "OutOfRange",
    "UnreadableLog",
    "check_place",
    "fault_title",
    "judge",
    "judge_text",
    "log_facts",
    "log_names",
    "names_item",
    "prior_weights",
    "proposed_tests",
    "read_job",
    "read_log",
    "run_shown",
    "told_broken",
    "what_changed",
    "with_logs",
]

VERSION = "0.1.0"
PRESSURE_UNITS = tuple(DECIMALS)


def judge(job: Mapping[str, Any], *, unit: str = "kPa", language: str = "en") -> dict[str, Any]:
    """The verdict on a job.

    Parameters
    ----------
    job : Mapping
        A job document; `None` anywhere counts as absent. [units of the contract]
    unit : str
        Pressure unit of sentences and figures, one of `PRESSURE_UNITS`; values stay in kPa. [-]
    language : str
        Language of the sentences, one of `LANGUAGES`. [-]

    Raises
    ------
    BrokenDocument
        names the first broken place of the document
    KeyError
        for a unit or language that is not known
    """
    return verdict(without_nulls(job), f"calc {VERSION}", sentences(language, unit))


def judge_text(data: bytes, *, unit: str = "kPa", language: str = "en", read: LogReader | None = None) -> str:
    """The verdict on a job document's bytes, as JSON text with stable order and one line feed at its end.

    `read` gives the logs that road runs name (see `with_logs`); without it they are not at hand.
    Raises as `judge` does.
    """
    job = read_job(data)
    found = verdict(with_logs(job, read) if read else job, f"calc {VERSION}", sentences(language, unit))
    return json.dumps(found, ensure_ascii=False, allow_nan=False, separators=(",", ":")) + "\n"


def fault_title(fault: str, *, language: str = "en") -> str:
    """The title of a fault of the contract, as sentences name it; KeyError for one that is not there.

    Parameters
    ----------
    fault : str
        Its name in the contract, as in a conclusion. [-]
    language : str
        One of `LANGUAGES`. [-]

    Examples
    --------
    >>> fault_title("actuator_opens_late")
    'Actuator opens too late'
    """
    return sentences(language, "kPa").fault_title(fault)


def proposed_tests(*, language: str = "en") -> dict[str, tuple[str, float]]:
    """Every test that may be proposed: its title, and the minutes that it usually takes.

    Parameters
    ----------
    language : str
        One of `LANGUAGES`. [-]

    Examples
    --------
    >>> proposed_tests()["smoke"]
    ('Smoke in the charge circuit', 15)
    """
    titles = LANGUAGES[language].TESTS
    return {test: (titles[test], minutes) for test, minutes in MINUTES.items()}


def what_changed(before: Mapping[str, Any], after: Mapping[str, Any], *, language: str = "en") -> str | None:
    """One sentence about what a new reading moved between two verdicts on a job; None where nothing moved.

    Parameters
    ----------
    before, after : Mapping
        Verdicts as `judge` gives them, the later one second. [-]
    language : str
        One of `LANGUAGES`. [-]
    """
    return changed(before, after, sentences(language, "kPa"))
