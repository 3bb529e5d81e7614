"""Reports are drawn one at a time, each in a child process with limits; few may wait."""

from threading import BoundedSemaphore, Lock

from api import limits
from api.pdf.request import ReportRequest

SECONDS = 90.0  # by the clock, for a machine that has much to do
PROCESSOR_SECONDS = 30
MEMORY = 1024 * 1024 * 1024
MODULE = "api.pdf"
MOST_AT_ONCE = 4  # one is drawn, the others wait; the server's other threads stay free

_one_at_a_time = Lock()
_places = BoundedSemaphore(MOST_AT_ONCE)


class BusyError(Exception):
    """As many reports as may wait are waiting already."""


def draw(request: ReportRequest) -> bytes:
    """The PDF of a report.

    Raises `BusyError` where too many are waiting, `limits.ChildFailedError` where it could not be drawn.
    """
    if not _places.acquire(blocking=False):
        raise BusyError
    try:
        with _one_at_a_time:
            return limits.run(MODULE, request.to_json().encode(), SECONDS)
    finally:
        _places.release()
