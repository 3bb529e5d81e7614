"""What is said of the whole: conclusion, what is open, next test, rod, repair, and the customer's words."""

from collections.abc import Mapping, Sequence

from calc.checks.finding import Finding
from calc.faults.explain import BoostError
from calc.faults.meanings import Meaning
from calc.faults.model import Findings
from calc.faults.next_test import NextTest
from calc.faults.weigh import Weighed
from calc.uncertainty.decision import Limit
from calc.words.sentences import Sentences, upper_first

MENTIONED = 3  # faults named in a sentence about what is open
WORTH_NAMING = 0.08  # less probable than this is not named among what is open


def conclusion(
    said: Sentences, item: Weighed, findings: Findings, error: BoostError | None, *, reproduced: bool
) -> str:
    """One sentence: the fault, what shows it, whether it explains the complaint, what looks the same."""
    words = said.words
    sentence = upper_first(words.FAULTS[item.fault.name].sentence)
    evidence = [findings[name] for name in (item.proof or item.speaks_for)]
    figures = [said.figure_and_limit(found) for found in evidence if found.examined]
    shown = next((text for text in figures if text), None)
    parts = [
        words.CONCLUSION.format(Sentence=sentence, evidence=shown)
        if shown
        else words.CONCLUSION_PLAIN.format(Sentence=sentence)
    ]
    if item.explains in words.EXPLAINS and item.standing == "proved":
        parts.append(said.explained(item.explains, error))
    if item.standing == "likely" and item.fault.name != "no_fault_found":
        parts.append(words.NOT_PROVED)
    if item.alike:
        parts.append(said.alike(item.fault.name, item.alike))
    if not reproduced:
        parts.append(words.NOT_REPRODUCED)
    return " ".join(parts)


def still_open(said: Sentences, weighed: Sequence[Weighed], findings: Findings, *, reproduced: bool) -> str:
    """One sentence where nothing can be concluded: what is left, and what looks alike."""
    text = _still_open(said, weighed, findings)
    return text if reproduced else f"{text} {said.words.NOT_REPRODUCED}"


def _still_open(said: Sentences, weighed: Sequence[Weighed], findings: Findings) -> str:
    words = said.words
    if not any(found.examined for found in findings.values()):
        return str(words.OPEN_NOTHING)
    proved = [item for item in weighed if item.standing == "proved"]
    if proved:
        sentence = upper_first(words.FAULTS[proved[0].fault.name].sentence)
        return str(words.OPEN_PROVED_NOT_ENOUGH.format(Sentence=sentence))
    running = [
        item
        for item in weighed
        if item.standing in ("possible", "likely") and item.speaks_for and item.fault.name != "no_fault_found"
    ]
    running.sort(key=lambda item: -item.probability)
    if not running:
        return str(words.OPEN_UNCLEAR)
    first = running[0]
    if first.alike:
        return str(words.OPEN_GROUP.format(faults=said.titles([first.fault.name, *first.alike])))
    near = [item.fault.name for item in running[:MENTIONED] if item.probability >= WORTH_NAMING]
    return str(words.OPEN_RUNNING.format(faults=said.titles(near))) if near else str(words.OPEN_UNCLEAR)


def pair(said: Sentences, first: str, second: str) -> str:
    """That two faults together explain what none explains alone."""
    return str(
        said.words.PAIR.format(
            first=upper_first(said.words.FAULTS[first].sentence), second=said.words.FAULTS[second].sentence
        )
    )


def next_step(said: Sentences, test: NextTest) -> str:
    """Which test comes next and how long it takes."""
    return str(said.words.NEXT.format(title=said.words.TESTS[test.test], minutes=f"{test.minutes:.0f}"))


def question(said: Sentences, key: str, run: int | None) -> str:
    """A question about a run, or about the codes; `run` counts the runs where there are several."""
    asks = said.words.QUESTIONS[key][0]
    return str(asks) if run is None else str(said.words.QUESTION_OF_RUN.format(run=run, asks=asks))


def priors(said: Sentences, weights: Mapping[str, float]) -> str:
    """Which faults weigh more, or less, by what this workshop has proved before; the weightiest first."""
    ordered = sorted(weights, key=lambda name: -weights[name])
    shown = [
        said.words.PRIOR.format(
            fault=said.inside(said.fault_title(name)), times=said.figures.spelled(f"{weights[name]:g}")
        )
        for name in ordered
    ]
    return str(said.words.PRIORS.format(faults=said.join(shown)))


def would_mean(said: Sentences, result: Meaning) -> str | None:
    """What one result of the next test would mean; None for a side that the check has no words for."""
    words = said.words
    faults = [said.inside(said.fault_title(name)) for name in result.faults]
    if result.check is None:
        more = [words.RESULT_MORE.format(more=result.more)] if result.more else []
        return str(words.RESULT_IN_ORDER.format(faults=said.join([*faults, *more])))
    check = words.CHECKS[result.check]
    shown = check.low if result.state == "low" else check.high
    if not shown:
        return None
    return str(words.RESULT.format(title=check.title, shown=shown.rstrip("."), faults=said.join(faults)))


def why(said: Sentences, test: NextTest, finer: Sequence[tuple[Finding, float]]) -> str:
    """What the next test tells, and the gauge that would settle what is undecided."""
    words = said.words
    parts = [words.NEXT_WHY.format(faults=said.titles(test.tells)) if test.tells else words.NEXT_WHY_PLAIN]
    if finer:
        found, class_pct = finer[0]
        shown = said.figures.spelled(f"{class_pct:g}")
        parts.append(words.NEXT_FINER.format(finer=shown, title=said.title(found)))
    return " ".join(parts)


def turns(said: Sentences, preload: str, count: float | None, to_limit: float | None) -> str:
    """What to turn on the rod, and by how much."""
    words = said.words
    if count is None or to_limit is None:
        return f"{words.TURNS_UNKNOWN[preload]} {words.MAKERS_WAY}"
    template = words.TURNS_LESS if preload == "less" else words.TURNS_MORE
    turned, just_inside = (said.figures.spelled(f"{value:.1f}") for value in (count, to_limit))
    return f"{template.format(turns=turned, to_limit=just_inside)} {words.CLEVIS}"


def repair(said: Sentences, proved: bool | None, before: Finding | None, after: Finding | None) -> str:
    """Whether the runs prove the repair."""
    words = said.words
    if proved is None or after is None:
        return str(words.PROOF_OPEN)
    now = words.OFF_BY.format(figure=said.figure(after))
    if not proved:
        return str(words.PROOF_FALSE.format(after=now))
    if before is None or not before.examined:
        return str(words.PROOF_TRUE_ALONE.format(after=now))
    return str(words.PROOF_TRUE.format(after=now, before=said.figure(before)))


def customer_of(said: Sentences, item: Weighed, findings: Findings) -> tuple[str, str]:
    """The customer's sentence, and what it means, in plain words without abbreviations."""
    words = said.words
    plain = words.FAULTS[item.fault.name]
    parts = [plain.customer]
    shown = next((findings[name] for name in item.proof if said.limit(findings[name])), None)
    if shown is not None and not shown.typical:
        parts.append(_measured_for_customer(said, shown))
    if item.standing == "likely" and item.fault.name != "no_fault_found":
        parts.append(words.CUSTOMER_LIKELY)
    was_felt = item.fault.name == "no_fault_found" and bool(item.alike)
    return " ".join(parts), words.CUSTOMER_FELT if was_felt else plain.means


def _measured_for_customer(said: Sentences, found: Finding) -> str:
    """Value against limit; a vacuum by its depth, since a customer reads no negative pressures."""
    words, figures = said.words, said.figures
    value, limit = found.value or 0.0, found.limit
    template = words.CUSTOMER_MEASURED_BY_CHECK.get(found.check, words.CUSTOMER_MEASURED)
    if limit is not None and found.unit == "kPa" and limit.high is not None and limit.high < 0.0:
        template = words.CUSTOMER_MEASURED_VACUUM
        value, limit = -value, Limit(-limit.high, None if limit.low is None else -limit.low)
    shown = "" if limit is None else figures.limit(limit, found.unit)
    return str(template.format(value=figures.with_unit(value, found.unit), limit=shown))


def customer_open(said: Sentences, test: NextTest | None) -> tuple[str, str]:
    """What the customer is told while the cause is not certain."""
    words = said.words
    if test is None:
        return words.CUSTOMER_OPEN, words.CUSTOMER_OPEN_MEANS_PLAIN
    step = words.CUSTOMER_TESTS[test.test]
    return words.CUSTOMER_OPEN, words.CUSTOMER_OPEN_MEANS.format(test=step)


def now_concluded(said: Sentences, old: tuple[str, str] | None, new: tuple[str, str]) -> str:
    """That a reading made a fault the conclusion, and what it was before; each a fault and its standing."""
    words = said.words
    before = words.WAS[old[1]].format(fault=said.titles([old[0]])) if old else words.WAS_OPEN
    return f"{before} {words.NOW[new[1]].format(sentence=words.FAULTS[new[0]].sentence)}"


def no_longer_concluded(said: Sentences, fault: str) -> str:
    """That a reading took the conclusion away."""
    return str(said.words.NO_LONGER.format(sentence=said.words.FAULTS[fault].sentence))


def now_cleared(said: Sentences, faults: Sequence[str]) -> str:
    """That a reading ruled faults out."""
    shown = said.titles(faults[:MENTIONED])
    if len(faults) > MENTIONED:
        return str(said.words.NOW_CLEARED_MANY.format(faults=shown, more=len(faults) - MENTIONED))
    return str(said.words.NOW_CLEARED.format(faults=shown))


def moved(said: Sentences, fault: str, was: float, now: float) -> str:
    """That a fault became more, or less, probable."""
    template = said.words.MORE_PROBABLE if now > was else said.words.LESS_PROBABLE
    share, before = (said.figures.spelled(f"{100.0 * one:.0f}") for one in (now, was))
    return str(template.format(fault=said.titles([fault]), now=share, before=before))
