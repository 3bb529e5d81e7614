"""Reports are drawn one at a time, in a child process with limits that stays warm; few may wait."""

import atexit
from threading import BoundedSemaphore, Lock

from api.pdf.request import ReportRequest
from api.standing import Standing

SECONDS = 90.0  # by the clock, for a machine that has much to do
PROCESSOR_SECONDS = 30
MEMORY = 1024 * 1024 * 1024
IDLE_SECONDS = 600.0  # then the child's memory is given back
MODULE = "api.pdf"
MOST_AT_ONCE = 4  # one is drawn, the others wait; the server's other threads stay free

_one_at_a_time = Lock()
_places = BoundedSemaphore(MOST_AT_ONCE)
_child = Standing(MODULE, SECONDS)
atexit.register(_child.end)


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
            return _child.ask(request.as_json.encode())
    finally:
        _places.release()
