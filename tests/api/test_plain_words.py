"""The customer's page: easy to read, and its four questions answered.

Flesch, "A new readability yardstick", Journal of Applied Psychology 32 (1948): 60 and more is plain English.
Reckoned by textstat, a general-purpose package.
"""

import json
import re
from pathlib import Path

import pytest
import textstat

from api import demo
from api.pdf.figures import Printer
from api.pdf.story import proposal, unpriced
from api.pdf.words import words_for
from tests.api.paper import drawn, text_of
from tests.calc.test_fault_cases import judged

FAULTS = Path(__file__).resolve().parents[2] / "fixtures/faults"
CASES = (
    "actuator_opens_late", "actuator_opens_early", "charge_air_leak", "diaphragm_leak", "spring_weak",
    "solenoid_circuit_fault", "intake_restriction", "exhaust_restriction", "turbocharger_worn",
    "no_fault_found",
)  # fmt: skip
PLAIN = 60.0


@pytest.mark.parametrize("name", CASES)
def test_what_the_customer_reads_is_plain(name: str) -> None:
    first = json.loads((FAULTS / f"{name}.json").read_text())["cases"][0]
    verdict, printer = judged(first["change"]), Printer("bar", words_for("en"))
    told = [verdict["customer"]["says"], verdict["customer"]["means"]]
    told += [proposal(verdict, printer), unpriced(verdict, printer)]
    said = re.sub(r"\d[\d.]*", "ten", " ".join(told))  # figures have no syllables
    assert textstat.flesch_reading_ease(said) >= PLAIN, said


@pytest.mark.parametrize(
    ("language", "questions"),
    [
        ("en", ["What it will cost", "How we know", "Not looked at, so not known", "Proof of the repair"]),
        ("de", ["Was es kosten wird", "Woher wir das wissen", "Nicht geprüft", "Nachweis der Reparatur"]),
    ],
)
def test_the_report_answers_what_a_customer_asks(language: str, questions: list[str]) -> None:
    text = text_of(drawn(demo.document(), form="customer", language=language))
    sums = ["150.97 GBP", "507.25 GBP"] if language == "en" else ["150,97 GBP", "507,25 GBP"]
    signed = "A. Sample said yes to" if language == "en" else "A. Sample hat"
    missing = [words for words in (*questions, *sums, signed, "P0234") if words not in text]
    assert missing == []


def test_a_repair_without_a_price_says_so_and_a_strange_signature_is_not_drawn() -> None:
    job = demo.document()
    job["estimate"]["authorisations"][0]["signature"] = 'M1 1L2 2"/><image href="http://example.com/x"/>'
    text = text_of(drawn(job, form="customer"))
    assert "said yes to" in text
    del job["estimate"]
    assert "The price is not agreed yet" in text_of(drawn(job, form="customer"))
