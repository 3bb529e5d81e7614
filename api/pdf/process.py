"""Reports are drawn one at a time, each in a child process with limits."""

from threading import Lock

from api import limits
from api.pdf.request import ReportRequest

SECONDS = 30.0
MEMORY = 1024 * 1024 * 1024
MODULE = "api.pdf"

_one_at_a_time = Lock()


def draw(request: ReportRequest) -> bytes:
    """The PDF of a report; raises `limits.ChildFailedError` where it could not be drawn in its limits."""
    with _one_at_a_time:
        return limits.run(MODULE, request.to_json().encode(), SECONDS)
