"""The scenarios as a long run: ``python3 -m tests full --only S [--small]``."""

from collections.abc import Iterator

from tests.fire.all import SCENARIOS, outcomes_of
from tests.full.registry import Row, full_run


@full_run("S", "scenarios S1 to S20: nothing lost, nothing twice", small_in_every_check=False)
def scenarios(small: bool) -> Iterator[Row]:
    """One row for each kind of fault; the last one adds them up."""
    total = 0
    held = True
    for name in SCENARIOS:
        for outcome in outcomes_of(name, small):
            total += outcome.faults
            held &= outcome.held
            measured = outcome.skipped and f"not run: {outcome.skipped}"
            note = f"; {outcome.note}" if outcome.note else ""
            yield Row(
                f"{outcome.scenario} {outcome.what}",
                measured or f"{outcome.faults:,} faults{note}",
                "0 lost, 0 twice" if outcome.scenario != "S20" else "caught",
                holds=outcome.held,
            )
    yield Row("all together", f"{total:,} faults", "0 lost, 0 twice", holds=held)
