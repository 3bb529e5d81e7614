"""Keys of our own about the road run: what of it points at the first suspect, each pull, part load."""

from collections.abc import Mapping
from typing import Any

from calc.checks.course import course as course_of
from calc.checks.evidence import Evidence
from calc.checks.pull_course import Course, PartLoad, courses, part_loads
from calc.faults.traces import speaking_for
from calc.verdict.rounding import significant
from calc.words import road as words
from calc.words.sentences import Sentences

DIGITS, DOUBT_DIGITS = 6, 3
Row = dict[str, Any]


def beside_road(evidence: Evidence, suspect: str, said: Sentences) -> Row:
    """`course`, `pulls` and `part_load` of the verdict; empty lists where no log shows any.

    `course` holds the plain numbers of the pulls that speak for the most probable fault, `suspect`.
    """
    return {
        "course": _course(evidence, suspect, said),
        "pulls": [_pull(course, evidence, said) for course in courses(evidence)],
        "part_load": [_part_load(part, evidence, said) for part in part_loads(evidence)],
    }


def _course(evidence: Evidence, suspect: str, said: Sentences) -> list[Row]:
    numbers = course_of(evidence)
    names = [] if suspect == "no_fault_found" else speaking_for(suspect, evidence.kind, numbers)
    return [
        {
            "name": name,
            "value": significant(numbers[name], DOUBT_DIGITS),
            "says": words.trace(said, name, numbers[name]),
        }
        for name in names
    ]


def _pull(course: Course, evidence: Evidence, said: Sentences) -> Row:
    step = course.step
    return {
        "run": _run_id(evidence, course.run),
        "pull": course.pull,
        "rise_s": significant(None if step is None else step.transition, DOUBT_DIGITS),
        "rise_expanded_s": None if step is None else significant(course.step_doubt, DOUBT_DIGITS),
        "overshoot_pct": significant(None if step is None else step.overshoot_pct, DOUBT_DIGITS),
        "settling_s": significant(None if step is None else step.settling, DOUBT_DIGITS),
        **_with_doubt("mean_deviation", course.mean),
        **_with_doubt("largest_deviation", course.largest),
        "corrected_pct": significant(course.corrected_pct, DOUBT_DIGITS),
        "says": words.pull(said, course),
    }


def _part_load(part: PartLoad, evidence: Evidence, said: Sentences) -> Row:
    return {
        "run": _run_id(evidence, part.run),
        "t_s": significant(part.t_s, DIGITS),
        "seconds": significant(part.seconds, DOUBT_DIGITS),
        "pedal_pct": significant(part.pedal_pct, DOUBT_DIGITS),
        "boost_specified_kpa_abs": significant(part.specified, DIGITS),
        **_with_doubt("deviation", (part.error, part.expanded)),
        "outcome": part.outcome,
        "says": words.part_load(said, part),
    }


def _with_doubt(name: str, value: tuple[float, float] | None) -> Row:
    found, doubt = value or (None, None)
    return {
        f"{name}_kpa": significant(found, DIGITS),
        f"{name}_expanded_kpa": significant(doubt, DOUBT_DIGITS),
    }


def _run_id(evidence: Evidence, pointer: str) -> str | None:
    run: Mapping[str, Any] = evidence.get(pointer) or {}
    return run.get("id")
