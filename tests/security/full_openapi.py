"""The whole of what schemathesis asks of the API."""

import tempfile
from collections.abc import Iterator
from pathlib import Path

from schemathesis.core.failures import FailureGroup

from tests.full.registry import Row, full_run
from tests.security.test_openapi import ask_everything, described
from tests.security.visitor import Workshop

MOST = 300


@full_run("openapi", "schemathesis, all checks, every address of the API", small_in_every_check=False)
def openapi(small: bool) -> Iterator[Row]:
    """One row an address: requests asked, failures found."""
    most = 10 if small else MOST
    for method, path in sorted(described()):
        with tempfile.TemporaryDirectory() as folder:
            pwa = Path(folder) / "pwa"
            pwa.mkdir()
            (pwa / "index.html").write_text("<!doctype html><title>shell</title>")
            failure, asked = "0 failures", 0
            try:
                asked = ask_everything(Workshop(Path(folder) / "data", pwa), path, method, most)
            except (FailureGroup, AssertionError) as found:
                failure = str(found).splitlines()[0]
            yield Row(
                f"{method} {path}", f"{asked} requests, {failure}", "0 failures", failure == "0 failures"
            )
