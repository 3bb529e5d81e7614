"""The verdict: a job document in, findings, faults, conclusion and next test out, by the contract's rules."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from calc.checks import TEST_OF_CHECK, examine
from calc.checks.decay_plan import stored
from calc.checks.evidence import Evidence
from calc.checks.finding import Finding
from calc.faults.explain import boost_error, explains
from calc.faults.model import Findings
from calc.faults.next_test import NextTest, applies, minutes_of, ranked, remaining
from calc.faults.weigh import Weighed, weigh
from calc.verdict.adjustment import adjustment
from calc.verdict.beside_road import beside_road
from calc.verdict.cautions import cautions
from calc.verdict.conclusion import conclude, is_settled, pairs
from calc.verdict.finer import finer_class
from calc.verdict.measured import beside_finding, beside_verdict
from calc.verdict.questions import questions
from calc.verdict.repair import Proof, by_same_gauge, doubt_of_change, repair_proof
from calc.verdict.rounding import shares, significant
from calc.words import bench, summary
from calc.words.sentences import Sentences

VALUE_DIGITS, DOUBT_DIGITS = 6, 3
Row = dict[str, Any]


def verdict(job: Mapping[str, Any], engine: str, said: Sentences) -> Row:
    """Everything the contract's verdict holds, and the keys of our own that screens and reports show.

    Parameters
    ----------
    job : Mapping
        A job document as `read_job` gives it. [kPa, °C and the other units of the contract]
    engine : str
        Name and version of the engine. [-]
    said : Sentences
        Language and pressure unit of what is said; values stay in the contract's units. [-]
    """
    evidence = Evidence(job)
    said = replace(said, vanes=evidence.kind.device == "variable_geometry")
    findings = examine(evidence)
    weighed = weigh(evidence, findings)
    for item in weighed:
        item.explains = explains(item.fault, evidence, findings)
    concluded = conclude(weighed)
    following = [] if is_settled(concluded) else ranked(evidence, findings, weighed)
    conclusion = _conclusion(concluded, evidence, findings, said)
    finer = {name: finer_class(found, evidence) for name, found in findings.items()}
    result: Row = {
        "format": "verdict/1",
        "job": job["id"],
        "engine": engine,
        "findings": [
            {**_finding(found, finer[name], said), **beside_finding(found, evidence, said)}
            for name, found in findings.items()
        ],
        "faults": _faults(weighed, findings, said),
        "conclusion": conclusion,
        "next_test": _next_test(following, findings, finer, said),
        "adjustment": _adjustment(concluded, weighed, evidence, findings, said),
        "cautions": _cautions(evidence, findings, concluded, following, said),
        "pairs": [
            {"faults": [pair.first, pair.second], "says": summary.pair(said, pair.first, pair.second)}
            for pair in pairs(weighed, findings, evidence.kind)
        ],
        **_repair(evidence, findings, said),
        **_overview(conclusion, following, weighed, evidence, findings, said),
        **beside_verdict(evidence, said),
        **beside_road(evidence, max(weighed, key=lambda item: item.probability).fault.name, said),
        "questions": _questions(evidence, said),
        "priors": _priors(evidence, weighed, said),
    }
    return result


def _finding(found: Finding, finer: float | None, said: Sentences) -> Row:
    doubt = None if found.value is None or found.unit == "flag" else found.expanded_uncertainty
    return {
        "check": found.check,
        "outcome": found.outcome,
        "value": significant(found.value, VALUE_DIGITS),
        "unit": found.facts.get("unit", found.unit),
        "expanded_uncertainty": significant(doubt, DOUBT_DIGITS),
        "limit": _limit(found),
        "says": said.finding(found, finer),
        "read_from": list(found.read_from),
        "source": said.source(found),
        "title": said.title(found),
        "figure": said.figure(found),
        "settles": said.settles(found, finer),
    }


def _limit(found: Finding) -> Row | None:
    if found.limit is None or found.unit == "flag":
        return None
    ends = {"min": found.limit.low, "max": found.limit.high}
    return {end: significant(value, VALUE_DIGITS) for end, value in ends.items() if value is not None}


def _faults(weighed: Sequence[Weighed], findings: Findings, said: Sentences) -> list[Row]:
    error = boost_error(findings)
    rows = [
        {
            "fault": item.fault.name,
            "location": item.fault.location,
            "standing": item.standing,
            "probability": share,
            "explains_complaint": item.explains,
            "for": item.speaks_for,
            "against": item.speaks_against,
            "alike": item.alike,
            "says": said.fault(item.fault.name, item.standing, item.alike, item.explains, error),
            "title": said.fault_title(item.fault.name),
            "customer_title": said.to_customer(said.words.FAULTS[item.fault.name].customer),
        }
        for item, share in zip(weighed, shares([item.probability for item in weighed]), strict=True)
    ]
    return sorted(rows, key=lambda row: -row["probability"])


def _conclusion(
    concluded: Weighed | None, evidence: Evidence, findings: Findings, said: Sentences
) -> Row | None:
    if concluded is None:
        return None
    says, means = summary.customer_of(said, concluded, findings)
    error = boost_error(findings)
    return {
        "fault": concluded.fault.name,
        "location": concluded.fault.location,
        "standing": concluded.standing,
        "says": summary.conclusion(said, concluded, findings, error, reproduced=_reproduced(evidence)),
        "customer_says": said.to_customer(says),
        "customer_means": said.to_customer(means),
    }


def _reproduced(evidence: Evidence) -> bool:
    return evidence.get("/complaint/reproduced") is not False


def _priors(evidence: Evidence, weighed: Sequence[Weighed], said: Sentences) -> Row | None:
    """The workshop's own weights, where the job carries any that differ from 1; None where all are alike."""
    typed = evidence.get("/workshop/priors") or {}
    own = {item.fault.name: float(typed.get(item.fault.name) or 1.0) for item in weighed}
    heavier = {name: weight for name, weight in own.items() if weight > 0.0 and weight != 1.0}
    if not heavier:
        return None
    return {"weights": heavier, "says": summary.priors(said, heavier)}


def _questions(evidence: Evidence, said: Sentences) -> list[Row]:
    """What is asked before anything is blamed; `spoils` is the answer that forbids to judge by it."""
    return [
        {
            "asks": summary.question(said, one.key, one.run),
            "path": one.path,
            "answer": one.answer,
            "spoils": one.spoils,
            "says": said.words.QUESTIONS[one.key][1] if one.spoiled else None,
        }
        for one in questions(evidence)
    ]


def _next_test(
    following: Sequence[NextTest], findings: Findings, finer: Mapping[str, float | None], said: Sentences
) -> Row | None:
    if not following:
        return None
    test = following[0]
    finer_gauges = [(findings[name], class_pct) for name, class_pct in finer.items() if class_pct is not None]
    return {
        "test": test.test,
        "title": said.words.TESTS[test.test],
        "minutes": test.minutes,
        "why": summary.why(said, test, finer_gauges),
        "says": summary.next_step(said, test),
        "results": [
            {"check": one.check, "result": one.state, "says": says}
            for one in test.results
            if (says := summary.would_mean(said, one))
        ],
    }


def _adjustment(
    concluded: Weighed | None,
    weighed: Sequence[Weighed],
    evidence: Evidence,
    findings: Findings,
    said: Sentences,
) -> Row | None:
    """For the conclusion if it is a preload fault, else for a proved one."""
    proved = [item for item in weighed if item.standing == "proved"]
    for item in ([concluded] if concluded else []) + proved:
        turn = adjustment(item.fault.name, evidence, findings)
        if turn is not None:
            return {
                "rod_turns": turn.turns,
                "rod_turns_expanded": turn.expanded,
                "rod_turns_to_limit": turn.turns_to_limit,
                "preload": turn.preload,
                "says": summary.turns(said, turn.preload, turn.turns, turn.turns_to_limit),
            }
    return None


def _cautions(
    evidence: Evidence,
    findings: Findings,
    concluded: Weighed | None,
    following: Sequence[NextTest],
    said: Sentences,
) -> list[str]:
    next_test = following[0].test if following else None
    keys = cautions(evidence, findings, next_test, nothing_left=not following and not is_settled(concluded))
    spoiled = dict.fromkeys(one.key for one in questions(evidence) if one.spoiled)
    air = bench.stored(said, stored(evidence))
    return [
        said.words.CAUTION_FIRST,
        *(said.words.QUESTIONS[key][1] for key in spoiled),
        *(said.words.CAUTIONS[key].format(stored=air) for key in keys),
    ]


def _repair(evidence: Evidence, findings: Findings, said: Sentences) -> Row:
    proof = repair_proof(evidence, findings)
    if proof is None:
        return {}
    return {
        "repair_proof": {
            **_change(proof, said),
            "proved": proof.proved,
            "checks": [_finding(found, None, said) for found in proof.checks if found.examined],
            "says": summary.repair(said, proof.proved, proof.before, proof.after),
        }
    }


def _change(proof: Proof, said: Sentences) -> Row:
    """By how much boost came nearer to its aim, with the doubt of that change alone."""
    before, after = proof.before, proof.after
    if before is None or after is None or before.value is None or after.value is None:
        return {}
    nearer, doubt = abs(before.value) - abs(after.value), 2.0 * doubt_of_change(before, after)
    figure = said.figures.measured(nearer, doubt, before.unit, signed=True)
    keys = ("nearer", "same_gauge") if by_same_gauge(before, after) else ("nearer",)
    texts = [str(said.words.MEASURED[key]) for key in keys]
    return {
        "change": {
            "value": significant(nearer, VALUE_DIGITS),
            "expanded_uncertainty": significant(doubt, DOUBT_DIGITS),
            "says": " ".join(text.format(change=figure) for text in texts),
        }
    }


def _overview(
    conclusion: Row | None,
    following: Sequence[NextTest],
    weighed: Sequence[Weighed],
    evidence: Evidence,
    findings: Findings,
    said: Sentences,
) -> Row:
    """What a screen says at once: one sentence, the customer's two, what is sound, what is not known."""
    if conclusion is not None:
        says, customer = conclusion["says"], (conclusion["customer_says"], conclusion["customer_means"])
    else:
        says = summary.still_open(said, weighed, findings, reproduced=_reproduced(evidence))
        customer = summary.customer_open(said, following[0] if following else None)

    def to_customer(check: str) -> str:
        return said.to_customer(said.words.CHECKS[check].plain)

    open_to_this_car = [
        name
        for name in findings
        if applies(TEST_OF_CHECK[name], evidence.kind) and not findings[name].examined
    ]
    return {
        "says": says,
        "customer": dict(zip(("says", "means"), map(said.to_customer, customer), strict=True)),
        "tested_sound": [to_customer(name) for name, found in findings.items() if found.outcome == "within"],
        "not_tested": [to_customer(name) for name in open_to_this_car],
        "remaining": [
            {
                "test": test,
                "title": said.words.TESTS[test],
                "minutes": minutes_of(test, evidence, findings),
            }
            for test in remaining(evidence, findings)
        ],
    }
