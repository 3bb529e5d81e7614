"""What one report is made from: everything that the child process needs, and nothing else."""

import base64
import hashlib
import json
import re
from dataclasses import asdict, dataclass, field
from datetime import datetime
from functools import cached_property
from typing import Any

import calc

# Controls, halves of pairs and what Unicode reserves: HTML and XML 1.0 (section 2.2) cannot hold them.
UNPRINTABLE = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufdd0-\ufdef\ufffe\uffff]")
FORMS = ("short", "customer", "technical")
PAPERS = ("a4", "letter")


@dataclass(frozen=True)
class ReportRequest:
    """A report to draw.

    `job` and `verdict` are the two JSON texts, attached to the PDF as they are; `made_at` is RFC 3339 and
    the only time that enters the file; `photos` are the printed copies by the SHA-256 of their originals, and
    `unreadable` names those that are there and cannot be decoded; `workshop` holds name, street and town
    for a job that names no workshop itself; `courses` are the logged runs as drawn (see `api.pdf.course`).
    """

    job: str
    verdict: str
    form: str
    paper: str
    unit: str
    made_at: str
    language: str = "en"
    workshop: dict[str, str] = field(default_factory=dict)
    photos: dict[str, bytes] = field(default_factory=dict)
    unreadable: list[str] = field(default_factory=list)
    courses: list[dict[str, Any]] = field(default_factory=list)

    @property
    def document(self) -> dict[str, Any]:
        """The job document as it is printed: without null, and without characters that no page can show."""
        document: dict[str, Any] = _printable(calc.read_job(self.job.encode()))
        return document

    @property
    def findings(self) -> dict[str, Any]:
        """The verdict document, printable too."""
        verdict: dict[str, Any] = _printable(json.loads(self.verdict))
        return verdict

    @property
    def moment(self) -> datetime:
        """When the report was made."""
        return datetime.fromisoformat(self.made_at)

    @property
    def job_hash(self) -> str:
        """SHA-256 of the job document that the verdict was drawn from."""
        return hashlib.sha256(self.job.encode()).hexdigest()

    @cached_property
    def as_json(self) -> str:
        """The request as the child reads it, put together once: with forty photos it is 10 MB."""
        photos = {name: base64.b64encode(data).decode() for name, data in self.photos.items()}
        return json.dumps(asdict(self) | {"photos": photos}, sort_keys=True)


def from_json(text: str) -> ReportRequest:
    """The request as the parent wrote it."""
    given = json.loads(text)
    photos = {name: base64.b64decode(data) for name, data in given.pop("photos").items()}
    return ReportRequest(**given, photos=photos)


def _printable(value: Any) -> Any:
    """The same value with unprintable characters shown as U+FFFD, and null only as a gap in numbers."""
    if isinstance(value, str):
        return UNPRINTABLE.sub("\N{REPLACEMENT CHARACTER}", value)
    if isinstance(value, dict):
        return {_printable(key): _printable(inner) for key, inner in value.items()}
    if isinstance(value, list):
        is_series = any(isinstance(inner, int | float) for inner in value)
        return [_printable(inner) for inner in value if is_series or inner is not None]
    return value
