"""Every scenario, by importing the files that hold them."""

from tests.fire import disks, in_browser, releases, restores, rules, server_faults, slips
from tests.fire.scenario import SCENARIOS, outcomes_of

__all__ = [
    "SCENARIOS",
    "disks",
    "in_browser",
    "outcomes_of",
    "releases",
    "restores",
    "rules",
    "server_faults",
    "slips",
]
