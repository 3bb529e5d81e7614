"""The report: ten pages with forty photos drawn anew, its memory, and the server's answers meanwhile."""

import tempfile
from collections.abc import Iterator
from pathlib import Path
from statistics import median

from api.address import HTTPS_PORT, Address
from api.app import create_app
from api.context import Reached
from tests.api import forty_photos
from tests.bench.rows import at_most
from tests.full.registry import Row
from tests.security.full_silent import row as percentile_row
from tests.security.full_silent import while_drawing
from tests.security.test_serving import HOST, serving

HEALTH_MS = 500


def rows(small: bool) -> Iterator[Row]:
    """Small: two photos, two rounds, nothing about `/health`."""
    seen = forty_photos.draw(small=small)
    seconds, file, memory = forty_photos.MOST_SECONDS, forty_photos.MOST_MB, forty_photos.MOST_MEMORY_MB
    drawn = f"{seen.what}, drawn anew, warm"
    yield at_most(drawn, median(seen.by_clock), seconds, "s", digits=2, more=seen.spread)
    yield at_most("its file", seen.file_mb, file, "MB", digits=1)
    yield at_most("most memory of one process that draws it", seen.memory_mb, memory, "MB")
    if not small:
        yield six_at_once()


def six_at_once() -> Row:
    """`/health` over HTTPS while six reports are drawn."""
    reached = Reached(Address(HOST, HTTPS_PORT))
    with tempfile.TemporaryDirectory() as folder:
        app = create_app(folder, reached=reached)
        with serving(app, Path(folder) / "keys") as https:
            found = while_drawing(https, Path(folder))
    return percentile_row("/health over HTTPS while six reports are drawn", found, HEALTH_MS)
