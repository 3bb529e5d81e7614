"""Long runs in a real browser: the same figures on phone and server, and the dial under a gloved finger."""

from collections.abc import Iterator

from tests.browser import dial, two_phones
from tests.browser.machines import opened_page, opened_pages
from tests.browser.same_figures import different_jobs
from tests.full.registry import Row, full_run

JOBS, FEW_JOBS = 2000, 20
TARGETS, FEW_TARGETS = 200, 10
READINGS, FEW_READINGS = 100, 5


@full_run(
    "same_figures", "Phone and server print the same verdict, byte for byte", small_in_every_check=False
)
def same_figures(small: bool) -> Iterator[Row]:
    count = FEW_JOBS if small else JOBS
    with opened_page() as page:
        different = different_jobs(page, count)
    measured = f"{len(different)} differences in {count} jobs {' '.join(different[:5])}".rstrip()
    yield Row("generated jobs", measured, "0 differences", holds=not different)


@full_run("dial", "One touch of the dial with 5 mm of error, then nudges", small_in_every_check=False)
def dial_targets(small: bool) -> Iterator[Row]:
    count = FEW_TARGETS if small else TARGETS
    with opened_page() as page:
        dial.open_pad(page)
        readings = dial.read_targets(page, count)
    missed = [reading for reading in readings if reading.error_bar > dial.HALF_DIVISION_BAR]
    nudges = [reading.nudges for reading in readings]
    measured = (
        f"{len(missed)} of {count} missed; {sum(nudges) / count:.1f} nudges each, {max(nudges)} at most"
    )
    yield Row("within half a division", measured, "0 missed", holds=not missed)


@full_run(
    "two phones", "A reading kept on one phone, until the other one shows it", small_in_every_check=False
)
def two_phones_on_one_job(small: bool) -> Iterator[Row]:
    count = FEW_READINGS if small else READINGS
    with opened_pages(2) as (one, other):
        spent = sorted(two_phones.seconds_until_seen(one, other, count))
    lost = count - len(spent)
    measured = f"median {spent[len(spent) // 2]:.1f} s, slowest {spent[-1]:.1f} s, {lost} not seen"
    yield Row(f"{count} readings", measured, "at most 5 s each", holds=not lost and spent[-1] <= 5)
