"""The one check: ``python3 -m tests``.

With no argument: format, lint, types, then every test; it stops at the first step that fails. Any other
argument goes to pytest (a path, ``-k name``). ``published`` prints our results beside the published values,
``full`` makes the long runs (tests/full).
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Sequence

from api import bootstrap

STEPS = {
    "format (mend with: ruff format)": ["ruff", "format", "--check", "--quiet", "."],
    "lint (ruff check)": ["ruff", "check", "--quiet", "."],
    "types (mypy)": ["mypy", "--no-error-summary"],
}
EVERY_TEST = ["pytest", "-n", "2", "--dist", "loadgroup", "--quiet"]
TABLES = ["published", "full"]


def main(argv: Sequence[str]) -> int:
    """Run what was asked for; the exit status of the step that failed, or 0."""
    try:
        bootstrap.enter("tests", argv, extra="tests")
    except bootstrap.NotReady as reason:
        print(reason, file=sys.stderr)
        return 1
    if argv and argv[0] in TABLES:
        return run(f"tests.{argv[0]}", *argv[1:])
    if argv:
        return run("pytest", *argv)
    return everything()


def everything() -> int:
    for name, command in STEPS.items():
        print(f"== {name}", flush=True)
        status = run(*command)
        if status != 0:
            print(f"The check stops here: {name} failed.", flush=True)
            return status
    print("== tests (pytest)", flush=True)
    return run(*EVERY_TEST)


def run(module: str, *arguments: str) -> int:
    command = [sys.executable, "-m", module, *arguments]
    return subprocess.run(command, check=False, cwd=bootstrap.ROOT).returncode


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
