"""The limits of work that is done apart, in a child process: its memory and its time (see `api.standing`)."""

from pathlib import Path

try:
    import resource
except ImportError:  # a system without such limits
    resource = None  # type: ignore[assignment]

PROJECT = Path(__file__).resolve().parent.parent


class ChildFailedError(Exception):
    """The child did not finish in its limits; `why` is for the log, not for the client."""

    def __init__(self, why: str) -> None:
        super().__init__(why)
        self.why = why


def limit(memory: int, seconds: int | None = None) -> None:
    """Bound this process's address space and its time on the processor, where the system has such limits."""
    if resource is None:
        return
    resource.setrlimit(resource.RLIMIT_AS, (memory, memory))
    if seconds is not None:
        resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds))


def allow(seconds: int) -> None:
    """Bound the time on the processor of the next piece of work: the system ends what takes more."""
    if resource is None:
        return
    used = resource.getrusage(resource.RUSAGE_SELF)
    _, most = resource.getrlimit(resource.RLIMIT_CPU)
    resource.setrlimit(resource.RLIMIT_CPU, (int(used.ru_utime + used.ru_stime) + 1 + seconds, most))
