"""Two hundred generated jobs on paper: every reading, every limit, in the unit that was asked for."""

from collections.abc import Iterator

from tests.api.generated_reports import lacks_of
from tests.full.registry import Row, full_run

WHOLE, SMALL = 200, 1


@full_run("report-readings", "Generated jobs drawn as PDF and read back by Poppler")
def report_readings(small: bool) -> Iterator[Row]:
    """Counts what the reports do not show: readings, limits, sentences, price lines; and machine's words."""
    count = SMALL if small else WHOLE
    lacking = [(seed, one) for seed in range(500, 500 + count) for one in lacks_of(seed)]
    what = f"readings, limits, sentences and prices missing in {count} reports"
    shown = "; ".join(f"{seed}: {one[:60]}" for seed, one in lacking[:3])
    yield Row(what, f"{len(lacking)} {shown}".strip(), "0", not lacking)
