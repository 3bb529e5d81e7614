"""The report: everything of the job is on it, it is whole as a PDF, and nothing in a job can break it."""

import hashlib
import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import pikepdf
import pytest

from api.pdf.words import LANGUAGES
from tests.api.paper import (
    MADE_AT,
    drawn,
    has_size_shown,
    missing_numbers,
    missing_words,
    no_leftovers,
    opened,
    rendered,
    request_for,
    tagged,
    text_of,
    words_of,
)

DEMO = Path(__file__).resolve().parents[2] / "fixtures/demo"
JOB: dict[str, Any] = json.loads((DEMO / "job.json").read_text("utf-8"))
PHOTOS = {hashlib.sha256(path.read_bytes()).hexdigest(): path.read_bytes() for path in DEMO.glob("*.jpg")}
EMPTY = {"format": "job/1", "id": "x"}


@pytest.fixture(scope="module")
def customer() -> bytes:
    return drawn(JOB, form="customer", photos=PHOTOS)


@pytest.fixture(scope="module")
def technical() -> bytes:
    return drawn(JOB, form="technical", photos=PHOTOS)


def test_every_reading_and_limit_is_printed_for_the_customer(customer: bytes) -> None:
    shown = {key: JOB[key] for key in ("spec", "site", "gauges", "tests")}
    assert missing_numbers(shown, text_of(customer), "kPa") == []


def test_every_reading_and_limit_is_printed_for_the_technician(technical: bytes) -> None:
    assert missing_numbers(JOB, text_of(technical), "kPa") == []


def test_every_sentence_of_the_verdict_is_printed_for_the_technician(technical: bytes) -> None:
    verdict, text = request_for(JOB).findings, words_of(text_of(technical))
    said = [
        verdict["says"],
        verdict["adjustment"]["says"],
        verdict["repair_proof"]["says"],
        *verdict["cautions"],
    ]
    said += [fault["says"] for fault in verdict["faults"] if fault["standing"] != "not_examined"]
    said += [finding["title"] for finding in verdict["findings"]]
    assert [sentence for sentence in said if words_of(sentence) not in text] == []


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_smallest_defect_that_the_instruments_show_is_printed_for_the_technician(language: str) -> None:
    """Of what was measured, and of a test not made yet with gauge and limit known; not for the customer."""
    job = JOB | {"spec": JOB["spec"] | {"exhaust_back_pressure_kpa": {"max": 25}}}
    wanted = request_for(job, language=language)
    shown = [one for one in wanted.findings["findings"] if has_size_shown(one)]
    says = [one["smallest_shown"]["says"] for one in shown]
    assert {"within", "outside", "undecided", "not_examined"} == {one["outcome"] for one in shown}
    assert missing_words(says, rendered(wanted)) == []
    for_customer = rendered(replace(wanted, form="customer"))
    assert missing_words(says, for_customer) == says


def test_the_customer_reads_what_was_found_what_was_sound_and_what_was_not_looked_at(customer: bytes) -> None:
    verdict, text = request_for(JOB).findings, words_of(text_of(customer))
    said = [verdict["customer"]["says"], verdict["customer"]["means"], *verdict["cautions"]]
    said += verdict["tested_sound"] + verdict["not_tested"]
    said += [JOB["complaint"]["text"], JOB["technician"], JOB["customer"]["name"], verdict["engine"]]
    said += [photo["caption"] for photo in JOB["photos"]]
    assert [one for one in said if words_of(one) not in text] == []


def test_a_customers_report_has_two_to_four_pages_and_the_photos_on_the_first(customer: bytes) -> None:
    with opened(customer) as pdf:
        assert 2 <= len(pdf.pages) <= 4
        assert drawings_on(pdf.pages[0]) == len(PHOTOS)


def test_the_technicians_report_has_the_photos_too(technical: bytes) -> None:
    with opened(technical) as pdf:
        assert sum(drawings_on(page) for page in pdf.pages) == len(PHOTOS)


def test_job_and_verdict_are_attached_byte_for_byte(customer: bytes) -> None:
    wanted = request_for(JOB)
    with opened(customer) as pdf:
        attached = {name: pdf.attachments[name].get_file().read_bytes() for name in pdf.attachments}
    assert attached == {"job.json": wanted.job.encode(), "verdict.json": wanted.verdict.encode()}


def test_the_file_says_language_title_and_standard(customer: bytes) -> None:
    with opened(customer) as pdf:
        assert str(pdf.Root.Lang) == "en"
        assert str(pdf.docinfo.Title) == "Tern Street Garage: Brindle Saloon 1.8 turbo petrol"
        with (
            pdf.open_metadata() as metadata
        ):  # ISO 19005-3: the part and level of PDF/A stand in the metadata
            assert (metadata["pdfaid:part"], metadata["pdfaid:conformance"]) == ("3", "A")


def test_the_structure_can_be_read_aloud(technical: bytes) -> None:
    """ISO 14289-1 (PDF/UA), 7.1 to 7.5, as far as it goes without a validator."""
    with opened(technical) as pdf:
        assert bool(pdf.Root.MarkInfo.Marked)
        nodes = list(tagged(pdf))
        kinds = [str(node.S) for node in nodes]
        assert kinds.count("/H1") == 1
        figures = [node for node in nodes if str(node.S) == "/Figure"]
        assert len(figures) == 4 + len(PHOTOS)  # air line, two charts, signature
        assert all(len(str(node.Alt)) > 10 for node in figures)
        assert {str(node.P.S) for node in nodes if str(node.S) in ("/TH", "/TD")} == {"/TR"}


def test_every_font_is_in_the_file(technical: bytes) -> None:
    with opened(technical) as pdf:
        things = [one for one in pdf.objects if isinstance(one, pikepdf.Dictionary)]
        descriptors = [one for one in things if one.get("/Type") == pikepdf.Name.FontDescriptor]
        assert descriptors
        assert all("/FontFile2" in one for one in descriptors)


def test_the_same_job_and_time_give_the_same_bytes() -> None:
    first, again, later = (
        drawn(JOB, form="short", photos=PHOTOS, made_at=at)
        for at in (MADE_AT, MADE_AT, "2026-11-25T14:33:00+00:00")
    )
    assert first == again
    assert first != later


@pytest.mark.parametrize("paper", [("a4", 595, 842), ("letter", 612, 792)])
def test_the_paper_is_the_one_asked_for(paper: tuple[str, int, int]) -> None:
    """A4: ISO 216, 210 x 297 mm; letter: ANSI Y14.1, 8.5 x 11 in; one point is 1/72 in."""
    name, width, height = paper
    with opened(drawn(JOB, form="short", paper=name)) as pdf:
        assert [round(float(side)) for side in pdf.pages[0].mediabox] == [0, 0, width, height]
        assert len(pdf.pages) == 1


def test_a_job_with_nothing_in_it_is_said_to_have_nothing() -> None:
    text = text_of(drawn(EMPTY, form="customer"))
    assert "Not looked at, so not known" in text
    assert "What was measured" not in text
    assert no_leftovers(text)


def test_a_photo_that_cannot_be_shown_is_said_to_be_missing() -> None:
    names = ["a" * 64, "b" * 64]
    job = EMPTY | {"photos": [{"id": name, "sha256": name, "caption": "x"} for name in names]}
    text = text_of(drawn(job, form="customer", unreadable=names[1:]))
    assert text.count("has not reached the workshop's server") == 1
    assert text.count("could not be read") == 1


def test_null_anywhere_is_absent() -> None:
    holey = {
        "format": "job/1",
        "id": "x",
        "customer": None,
        "gauges": [None],
        "photos": [None, {"sha256": None}],
    }
    holey |= {
        "tests": {"road": [{"id": "r", "readings": [None], "noted": None, "channels": {"t_s": [0, None]}}]}
    }
    assert no_leftovers(text_of(drawn(holey)))


def test_what_the_contract_does_not_know_breaks_nothing() -> None:
    strange = json.loads(json.dumps(JOB))
    strange["tests"]["smoke"] |= {
        "x": {"min": [1]},
        "y": [[1, [2]], {"z": {}}],
        "places": [],
        "w_kpa": "words",
    }
    strange |= {
        "tests": strange["tests"] | {"unheard_of": {"a": 1}},
        "vehicle": {"make": "Ö" * 300, "odo": True},
    }
    assert no_leftovers(text_of(drawn(strange)))


def drawings_on(page: pikepdf.Page) -> int:
    """How many images are drawn on a page (operator Do, ISO 32000-2, 8.8); pages share one list of them."""
    images = {
        name for name, one in page.resources.XObject.items() if one.get("/Subtype") == pikepdf.Name.Image
    }
    commands = pikepdf.parse_content_stream(page, "Do")
    return sum(str(command.operands[0]) in images for command in commands)


def test_a_language_that_is_not_there_is_refused_by_name() -> None:
    assert "en" in LANGUAGES
    with pytest.raises(KeyError):
        drawn(EMPTY, language="xx")
