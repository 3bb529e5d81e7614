"""Forty photos on ten pages: how long a warm process draws, how large the file is, how much memory."""

from collections.abc import Iterator

from tests.api import forty_photos
from tests.full.registry import Row, full_run


@full_run("report-forty", "A report with forty photos and ten pages, drawn anew by the warm server")
def report_forty(small: bool) -> Iterator[Row]:
    """The fastest of the warm rounds holds the bar: what else the machine does only adds to it."""
    seen = forty_photos.draw(small=small)
    fastest = min(seen.by_clock)
    enough = small or (seen.photos >= forty_photos.PHOTOS and seen.pages >= forty_photos.PAGES)
    yield Row("photos and pages", f"{seen.photos} photos, {seen.pages} pages", "40 photos, 10 pages", enough)
    quick = small or fastest <= forty_photos.MOST_SECONDS
    bar = f"at most {forty_photos.MOST_SECONDS} s"
    yield Row("seconds, warm: the fastest", f"{fastest:.2f} s ({seen.spread})", bar, quick)
    fits = seen.file_mb <= forty_photos.MOST_MB
    yield Row("size", f"{seen.file_mb:.1f} MB", f"at most {forty_photos.MOST_MB} MB", fits)
    bar = f"at most {forty_photos.MOST_MEMORY_MB} MB"
    is_lean = seen.memory_mb <= forty_photos.MOST_MEMORY_MB
    yield Row("most memory of one process that draws it", f"{seen.memory_mb:.0f} MB", bar, is_lean)
