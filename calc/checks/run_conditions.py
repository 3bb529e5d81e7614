"""What is asked of a road run before anything is blamed: how it was made. A run made wrongly is not judged.

Each question is a key of our own in a run, answered yes or no; unanswered it changes nothing. A car in
reduced-power mode aims low because of a stored fault; while a filter regenerates, exhaust and fuel are not
what they are else; a cold engine is held back; a pull over two gears is two. Common practice, no source.
"""

from collections.abc import Mapping
from typing import Any

# key of a run -> the answer that spoils it
SPOILED_BY: Mapping[str, bool] = {
    "engine_warm": False,
    "gear_held": False,
    "in_reduced_power": True,
    "regenerating": True,
}
DIESEL_ONLY = ("regenerating",)


def is_fit(run: Mapping[str, Any]) -> bool:
    """Whether nothing that was answered about a run forbids judging it."""
    return all(run.get(key) is not spoiling for key, spoiling in SPOILED_BY.items())
