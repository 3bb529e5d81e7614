"""``python3 -m tests.fire [S3 …] [--small]``: run scenarios and print their table."""

import argparse
import sys
from collections.abc import Sequence

from tests.fire.all import SCENARIOS, outcomes_of
from tests.fire.scenario import Outcome


def main(argv: Sequence[str]) -> int:
    """Exit status 1 where a row does not hold."""
    asked = argparse.ArgumentParser(prog="python3 -m tests.fire", description=__doc__)
    asked.add_argument("names", nargs="*", metavar="S1", help="; ".join(SCENARIOS))
    asked.add_argument("--small", action="store_true")
    given = asked.parse_args(argv)
    print("| scenario | faults injected | held |\n| --- | --- | --- |", flush=True)
    held = True
    for name in given.names or SCENARIOS:
        for outcome in outcomes_of(name, given.small):
            print(printed(outcome), flush=True)
            held &= outcome.held
    return 0 if held else 1


def printed(outcome: Outcome) -> str:
    what = f"{outcome.scenario} {outcome.what}" + (f" ({outcome.note})" if outcome.note else "")
    if outcome.skipped:
        return f"| {what} | 0 | not run: {outcome.skipped} |"
    return f"| {what} | {outcome.faults:,} | {'yes' if outcome.held else '**no**'} |"


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
