"""How long `/health` takes while others say nothing, or while PDFs are drawn."""

import statistics
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path

from api.address import HTTPS_PORT, Address
from api.app import create_app
from api.context import PROJECT, Reached
from tests.full.registry import Row, full_run
from tests.security.test_serving import HOST, Https, serving

REPORT = [sys.executable, "-m", "api", "report", "fixtures/demo/job.json", "-o"]


def times(https: Https, count: int) -> list[float]:
    """Milliseconds of each of so many questions, a new TLS connection each."""
    found = []
    for _ in range(count):
        start = time.perf_counter()
        status = https.ask("GET", "/health")[0]
        found.append((time.perf_counter() - start) * 1000)
        assert status == 200
    return found


def row(what: str, found: list[float], most: float) -> Row:
    worst = statistics.quantiles(found, n=100)[98]
    return Row(what, f"99th percentile {worst:.0f} ms", f"under {most:.0f} ms", worst < most)


@full_run(
    "silent", "/health over HTTPS while others are silent or PDFs are drawn", small_in_every_check=False
)
def silent(small: bool) -> Iterator[Row]:
    """20 and 200 silent connections; six PDFs at once."""
    count = 50 if small else 500
    reached = Reached(Address(HOST, HTTPS_PORT))
    with (
        tempfile.TemporaryDirectory() as folder,
        serving(create_app(folder, reached=reached), Path(folder) / "keys") as https,
    ):
        for mute in (0, 20, 200):
            with ExitStack() as held:
                for _ in range(mute):
                    held.enter_context(https.connect())
                yield row(f"{mute} silent connections", times(https, count), 250)
        yield row("six PDFs at once", while_drawing(https, Path(folder)), 500)


def while_drawing(https: Https, folder: Path) -> list[float]:
    """Asked for as long as six PDFs are being drawn in processes of their own."""
    drawing = [subprocess.Popen([*REPORT, str(folder / f"{one}.pdf")], cwd=PROJECT) for one in range(6)]
    done = threading.Event()

    def wait() -> None:
        for one in drawing:
            assert one.wait() == 0
        done.set()

    watch = threading.Thread(target=wait)
    watch.start()
    found: list[float] = []
    while not done.is_set() or len(found) < 20:
        found += times(https, 5)
    watch.join()
    return found
