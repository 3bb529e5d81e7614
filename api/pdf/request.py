"""What one report is made from: everything that the child process needs, and nothing else."""

import base64
import hashlib
import json
from dataclasses import asdict, dataclass, field
from datetime import datetime
from typing import Any

FORMS = ("short", "customer", "technical")
PAPERS = ("a4", "letter")


@dataclass(frozen=True)
class ReportRequest:
    """A report to draw.

    `job` and `verdict` are the two JSON texts, attached to the PDF as they are; `made_at` is RFC 3339 and
    the only time that enters the file; `photos` are the printed copies by the SHA-256 of their originals.
    """

    job: str
    verdict: str
    form: str
    paper: str
    unit: str
    made_at: str
    language: str = "en"
    photos: dict[str, bytes] = field(default_factory=dict)

    @property
    def document(self) -> dict[str, Any]:
        """The job document."""
        document: dict[str, Any] = json.loads(self.job)
        return document

    @property
    def findings(self) -> dict[str, Any]:
        """The verdict document."""
        verdict: dict[str, Any] = json.loads(self.verdict)
        return verdict

    @property
    def moment(self) -> datetime:
        """When the report was made."""
        return datetime.fromisoformat(self.made_at)

    @property
    def job_hash(self) -> str:
        """SHA-256 of the job document that the verdict was drawn from."""
        return hashlib.sha256(self.job.encode()).hexdigest()

    def to_json(self) -> str:
        """The request as the child reads it."""
        photos = {name: base64.b64encode(data).decode() for name, data in self.photos.items()}
        return json.dumps(asdict(self) | {"photos": photos}, sort_keys=True)


def from_json(text: str) -> ReportRequest:
    """The request as the parent wrote it."""
    given = json.loads(text)
    photos = {name: base64.b64decode(data) for name, data in given.pop("photos").items()}
    return ReportRequest(**given, photos=photos)
