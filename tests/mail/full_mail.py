"""Fault patterns: what the customer's mailbox holds after refusals, grey-listing, breaks and slowness."""

import random
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from tests.full.registry import Row, full_run
from tests.mail.post_office import FAULTS, PostOffice
from tests.mail.workshop import Mailing

PATTERNS = 200
FEW = 12
SEED = 5321
CANNOT_KNOW = {"dropped_after", "lost_after", "slow"}  # a break after the last dot (RFC 1047)


@dataclass(frozen=True)
class Result:
    """One pattern, how often the letter arrived, and what the workshop says of it."""

    faults: tuple[str, ...]
    arrived: int
    identities: int
    state: str
    says: str

    @property
    def is_certain(self) -> bool:
        """Whether the protocol lets the sender know."""
        return not CANNOT_KNOW & set(self.faults)

    @property
    def holds(self) -> bool:
        if self.identities > 1 or self.arrived > 2:
            return False
        if self.state == "sent":
            return self.arrived == 1 if self.is_certain else self.arrived >= 1
        return self.arrived == 0 if self.is_certain else bool(self.says)


def patterns(count: int) -> Iterator[tuple[str, ...]]:
    """Every single fault first, then series of them by a seed."""
    rng = random.Random(SEED)
    yield from ((one,) for one in FAULTS[: min(count, len(FAULTS))])
    for _ in range(count - len(FAULTS)):
        yield tuple(rng.choices(FAULTS, k=rng.randrange(2, 6)))


def tried(faults: tuple[str, ...], office: PostOffice, folder: Path) -> Result:
    """One letter through one pattern."""
    office.faults, before = list(faults), dict(office.taken)
    mailing = Mailing(folder, office)
    job, _ = mailing.wish()
    assert mailing.take() == 1
    assert mailing.take() == 0
    settled = mailing.post_until_settled()
    met = faults[: len(faults) - len(office.faults)]
    new = {one: count - before.get(one, 0) for one, count in office.taken.items()}
    arrived = {one: count for one, count in new.items() if count}
    assert mailing.letters(job) == [settled]
    return Result(met, sum(arrived.values()), len(arrived), settled.state, settled.says)


@full_run("mail", "One wish is one e-mail, whatever the mail server does; at most two where SMTP cannot know")
def run(small: bool) -> Iterator[Row]:
    count = FEW if small else PATTERNS
    with PostOffice() as office, tempfile.TemporaryDirectory() as folder:
        results = [
            tried(faults, office, Path(folder) / str(number)) for number, faults in enumerate(patterns(count))
        ]
    certain = [one for one in results if one.is_certain]
    others = [one for one in results if not one.is_certain]
    wrong = [one for one in results if not one.holds]
    yield Row("fault patterns", str(len(results)), str(count), len(results) == count)
    once = sum(one.arrived == (one.state == "sent") for one in certain)
    what = "exactly once, or said to have failed and not there"
    yield Row(what, f"{once} of {len(certain)}", "all", once == len(certain))
    most = max((one.arrived for one in others), default=0)
    what = f"most copies where SMTP cannot know ({len(others)} patterns)"
    yield Row(what, str(most), "at most 2", most <= 2)
    names = max(one.identities for one in results)
    yield Row("message ids of one wish", str(names), "at most 1", names <= 1)
    yield Row("told wrongly", "; ".join(map(str, wrong)) or "none", "none", not wrong)
