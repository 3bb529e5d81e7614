"""Two hundred generated jobs on paper: every reading, every limit, in the unit that was asked for."""

from collections.abc import Iterator

from tests.api.paper import drawn, missing_numbers, text_of
from tests.full.registry import Row, full_run
from tests.generated_jobs import generated_jobs

WHOLE, SMALL = 200, 1
LEFTOVERS = ("None", "nan", "{", "}", "Undefined")


@full_run("report-readings", "Generated jobs drawn as PDF and read back by Poppler")
def report_readings(small: bool) -> Iterator[Row]:
    """Counts the readings that a report does not show, and words of the machine that it does."""
    count = SMALL if small else WHOLE
    missing = leftover = 0
    for job, unit in generated_jobs(count, first=500):
        text = text_of(drawn(job, unit=unit))
        missing += len(missing_numbers(job, text, unit))
        leftover += sum(word in text for word in LEFTOVERS)
    yield Row(f"readings and limits missing in {count} reports", str(missing), "0", missing == 0)
    yield Row(f"words such as None or nan in {count} reports", str(leftover), "0", leftover == 0)
