"""Work that is done apart: a child process with a limit of time and memory, ended when it overruns."""

import subprocess
import sys
from pathlib import Path

PROJECT = Path(__file__).resolve().parent.parent


class ChildFailedError(Exception):
    """The child did not finish in its limits; `why` is for the log, not for the client."""

    def __init__(self, why: str) -> None:
        super().__init__(why)
        self.why = why


def run(module: str, given: bytes, seconds: float) -> bytes:
    """Give a module of ours its input in a process of its own, and return what it wrote.

    Raises
    ------
    ChildFailedError
        it took longer than `seconds`, ran out of memory, or found its input bad
    """
    command = [sys.executable, "-m", module]
    try:
        done = subprocess.run(
            command, input=given, capture_output=True, timeout=seconds, cwd=PROJECT, check=False
        )
    except subprocess.TimeoutExpired:
        raise ChildFailedError(f"{module} took longer than {seconds:g} s") from None
    if done.returncode != 0 or not done.stdout:
        raise ChildFailedError(f"{module}: {done.stderr.decode(errors='replace')[-2000:]}")
    return done.stdout


def limit(memory: int, seconds: int) -> None:
    """Bound this process's address space and its time on the processor, where the system has such limits."""
    try:
        import resource
    except ImportError:
        return
    resource.setrlimit(resource.RLIMIT_AS, (memory, memory))
    resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds))
