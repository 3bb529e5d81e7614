"""What is said about a pull's course and about part load."""

from calc.checks.course import NEVER_RPM
from calc.checks.pull_course import Course, PartLoad
from calc.words.sentences import Sentences

SHARES = ("share", "miss", "filling", "reach")  # what is a share of something is said in per cent


def pull(said: Sentences, course: Course) -> str:
    """A pull in figures, as far as its log shows them."""
    words, spelled, step = said.words.MEASURED, said.figures.spelled, course.step
    parts = [words["pull_number"].format(number=course.pull)]
    if step is None:
        parts.append(words["pull_no_step"])
    elif step.transition is not None:
        rise = " ± ".join(spelled(f"{each:.1f}") for each in (step.transition, course.step_doubt))
        parts.append(words["pull_step"].format(rise=rise, overshoot=spelled(f"{step.overshoot_pct:.0f}")))
    if step is not None and step.settling is not None:
        parts.append(words["pull_settled"].format(seconds=spelled(f"{step.settling:.1f}")))
    if course.mean is not None and course.largest is not None:
        mean, largest = (
            said.figures.measured(*each, "kPa", signed=True) for each in (course.mean, course.largest)
        )
        parts.append(words["pull_deviation"].format(mean=mean, largest=largest))
    if course.corrected_pct is not None:
        parts.append(words["pull_corrected"].format(share=spelled(f"{course.corrected_pct:.0f}")))
    return " ".join(str(part) for part in parts)


def trace(said: Sentences, name: str, value: float) -> str:
    """One plain number of the pulls' course."""
    words = said.words.MEASURED
    if name == "arrival_rpm" and value >= NEVER_RPM:
        return str(words["trace_never"])
    if name.endswith("_kpa"):
        number = said.figures.with_unit(value, "kPa")
    else:
        number = said.figures.spelled(f"{100.0 * value if name.endswith(SHARES) else value:.0f}")
    return str(words[f"trace_{name}"].format(value=number))


def part_load(said: Sentences, part: PartLoad) -> str:
    """A steady stretch at part load, judged only where the device can act."""
    words = said.words.MEASURED
    text = words["part_load"].format(
        pedal=f"{part.pedal_pct:.0f}",
        seconds=said.figures.spelled(f"{part.seconds:.1f}"),
        error=said.figures.measured(part.error, part.expanded, "kPa", signed=True),
    )
    return f"{text} {words[f'part_load_{part.outcome}']}"
