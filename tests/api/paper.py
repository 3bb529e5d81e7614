"""Reports as the tests need them: drawn from a job document, and read back by other programs than ours."""

import io
import json
import re
import subprocess
import warnings
from collections.abc import Iterable, Iterator
from typing import Any

import pikepdf
import pint

from api.job import judged
from api.pdf.render import render
from api.pdf.request import ReportRequest

MADE_AT = "2026-11-25T14:32:00+00:00"
NUMBER = re.compile(r"(?<![\w.])-?\d+(?:\.\d+)?")
FOOT = re.compile(r"±isthedoubtofafigure.*?UTC\.|\d+/\d+$")  # the running foot, without blanks
LONGEST_LOG = 40  # longer logs are in the attached document and summed up on paper
NOT_PRINTED = frozenset({"format", "id", "rank", "workshop"})

# The greatest difference that printing may make: half of the last decimal that is shown.
GRAIN = {"kPa": 0.005, "bar": 0.00005, "psi": 0.005, "mbar": 0.05, "inHg": 0.005}
PINT_NAMES = {"kPa": "kPa", "bar": "bar", "psi": "psi", "mbar": "mbar", "inHg": "inch_Hg_32F"}
_units = pint.UnitRegistry()


def request_for(job: dict[str, Any] | str, **options: Any) -> ReportRequest:
    """What a report is drawn from, with the usual choices where none are given."""
    text = job if isinstance(job, str) else json.dumps(job)
    usual = {"form": "technical", "paper": "a4", "unit": "kPa", "made_at": MADE_AT}
    chosen = usual | options
    verdict = judged(text, unit=chosen["unit"], language=chosen.get("language", "en"))
    return ReportRequest(job=text, verdict=verdict, **chosen)


def drawn(job: dict[str, Any] | str, **options: Any) -> bytes:
    """The report of a job, drawn in this process."""
    return rendered(request_for(job, **options))


def rendered(request: ReportRequest) -> bytes:
    """The report of a request, drawn in this process."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", ResourceWarning)  # WeasyPrint 70 leaves its colour profile open
        return render(request)


def text_of(pdf: bytes) -> str:
    """All words of a PDF in the order of reading, as Poppler finds them, blanks made one."""
    read = subprocess.run(["pdftotext", "-raw", "-", "-"], input=pdf, capture_output=True, check=True)
    return " ".join(read.stdout.decode().split())


def words_of(text: str) -> str:
    """The text without any blank: where a line was broken does not count."""
    return "".join(text.split())


def numbers_in(text: str) -> set[float]:
    """Every number that is printed; signs and groups of thousands as they are meant."""
    plain = re.sub(r"(?<=\d),(?=\d{3}\b)", "", text.replace("−", "-"))
    return {float(number) for number in NUMBER.findall(plain)}


def numbers_of(job: dict[str, Any]) -> Iterator[tuple[str, float]]:
    """Every number of a job that a report must show, with its key."""
    for key, value in job.items():
        if key in NOT_PRINTED or (key == "channels" and _is_long(value)):
            continue
        yield from _numbers(key, value)


def in_unit(key: str, value: float, unit: str) -> float:
    """A number of a job in the unit of pressure asked for, converted by pint; others stay as they are."""
    if "_kpa" not in key:
        return value
    return float(_units.Quantity(value, "kPa").to(PINT_NAMES[unit]).magnitude)


def missing_numbers(job: dict[str, Any], text: str, unit: str) -> list[tuple[str, float]]:
    """The numbers of a job that the text does not show."""
    printed = numbers_in(text)
    return [
        (key, value)
        for key, value in numbers_of(job)
        if not any(abs(in_unit(key, value, unit) - one) <= GRAIN[unit] + 1e-9 for one in printed)
    ]


def sentences_of(verdict: dict[str, Any]) -> list[str]:
    """Every sentence of a verdict that the technician's report must hold."""
    said = [verdict["says"], *verdict["cautions"]]
    said += [one[key] for one in verdict["findings"] if one["value"] is not None for key in ("title", "says")]
    said += [one["smallest_shown"]["says"] for one in verdict["findings"] if has_size_shown(one)]
    said += [fault["says"] for fault in verdict["faults"] if fault["standing"] != "not_examined"]
    said += [pair["says"] for pair in verdict["pairs"]]
    said += [verdict[key]["says"] for key in ("adjustment", "repair_proof", "next_test") if verdict.get(key)]
    said += [verdict["priors"]["says"]] if verdict.get("priors") else []
    following = verdict.get("next_test")
    return said + ([following["why"], *(one["says"] for one in following["results"])] if following else [])


def has_size_shown(finding: dict[str, Any]) -> bool:
    """Whether a finding says the smallest defect that its instruments show, with a figure."""
    shown = finding.get("smallest_shown", {})
    return any(shown.get(end) is not None for end in ("low", "high"))


def missing_words(wanted: Iterable[str], pdf: bytes) -> list[str]:
    """Those of the texts that the PDF does not show; where a line or a page was broken does not count."""
    read = subprocess.run(["pdftotext", "-raw", "-", "-"], input=pdf, capture_output=True, check=True)
    pages = [FOOT.sub("", words_of(page)) for page in read.stdout.decode().split("\f")]
    text = "".join(pages)
    return [one for one in wanted if words_of(one) not in text]


LEFTOVERS = ("None", "nan", "{", "}", "Undefined", "True", "False")


def no_leftovers(text: str) -> bool:
    """No word of Python's or of the template's shows."""
    return not any(word in text for word in LEFTOVERS)


def opened(pdf: bytes) -> pikepdf.Pdf:
    """The PDF as qpdf reads it."""
    return pikepdf.open(io.BytesIO(pdf))


def tagged(pdf: pikepdf.Pdf) -> Iterator[pikepdf.Dictionary]:
    """Every element of the structure tree, in reading order."""
    pending = [pdf.Root.StructTreeRoot]
    while pending:
        node = pending.pop()
        if isinstance(node, pikepdf.Dictionary) and "/S" in node:
            yield node
        kids = node.get("/K") if isinstance(node, pikepdf.Dictionary) else None
        kids = list(kids) if isinstance(kids, pikepdf.Array) else [kids]
        pending.extend(kid for kid in reversed(kids) if isinstance(kid, pikepdf.Dictionary))


def _is_long(channels: dict[str, list[Any]]) -> bool:
    return max((len(samples) for samples in channels.values()), default=0) > LONGEST_LOG


def _numbers(key: str, value: Any) -> Iterator[tuple[str, float]]:
    if isinstance(value, dict) and value.keys() <= {"min", "max"}:
        yield from ((key, float(end)) for end in value.values() if end is not None)
    elif isinstance(value, dict):
        yield from numbers_of(value)
    elif isinstance(value, list):
        for one in value:
            yield from _numbers(key, one)
    elif isinstance(value, int | float) and not isinstance(value, bool):
        yield key, float(value)
