"""Two phones on one job over a line like the workshop's Wi-Fi: how long a reading is under way."""

import random
from collections.abc import Iterator

from playwright.sync_api import Error, Page

from tests.browser.test_store_sync import NEW_JOB, RUN, START

FIRST = "/tests/actuator/first_movement_kpa"
# A weak corner of a workshop. Common practice, no source.
WIFI = {"offline": False, "latency": 40, "downloadThroughput": 1_000_000, "uploadThroughput": 500_000}
LONGEST_MS = 20_000
NOBODY_TOUCHES = """(id) => {
  self.job = self.workbook.job(id);
  self.seen = {};
  self.job.onChange(() => {
    const value = self.job.document.tests?.actuator?.first_movement_kpa;
    self.seen[value] ??= Date.now();
    document.title = String(value);
  });
}"""
KEEP = "([path, value]) => self.job.set(path, value).then(() => Date.now())"


def seconds_until_seen(one: Page, other: Page, count: int) -> Iterator[float]:
    """For each reading the seconds from *kept* here to shown there; one that is never seen yields nothing.

    Both pages share this machine's clock. The moments of the readings fall anywhere between two looks.
    """
    dice = random.Random(5)
    for page in (one, other):
        page.context.new_cdp_session(page).send("Network.emulateNetworkConditions", WIFI)
        page.evaluate(START)
    job = one.evaluate(NEW_JOB, {"/vehicle/make": "Alder"})
    one.evaluate(RUN)
    other.evaluate(RUN)
    other.evaluate(NOBODY_TOUCHES, job)
    for value in range(1, count + 1):
        one.wait_for_timeout(dice.uniform(0, 3000))
        kept = one.evaluate(KEEP, [FIRST, value])
        try:
            other.locator(f"xpath=//title[text()='{value}']").wait_for(state="attached", timeout=LONGEST_MS)
        except Error:
            continue
        yield (other.evaluate("(value) => self.seen[value]", value) - kept) / 1000
