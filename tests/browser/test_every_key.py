"""Every key of the job document has a screen that writes it, or a reason why none does."""

from collections.abc import Iterator
from typing import Any

import pytest

from calc import contract
from tests.house.source import named, text

SOURCE = "\n".join(text(name) for name in named(".js", under="pwa/") if "/words/" not in name)

MADE = "made by the app itself, not typed"
OFFICE = "set by the workshop at its desk; the phone takes it over into the job"
ASKED = "asked by the verdict's own questions, which name the place themselves"
LEFT_OUT = {
    **dict.fromkeys(("engine_warm", "gear_held", "in_reduced_power", "regenerating"), ASKED),
    **dict.fromkeys(("from_kpa", "to_kpa", "tank_from_kpa", "tank_to_kpa"), "named by the words of its page"),
    "id": MADE,
    "format": MADE,
    "opened_at": MADE,
    "technician": MADE,
    "t_s": "readings of a run go by pull and engine speed; times come with a log",
    "channels": "read from a log, whose file the job names",
    "at": MADE,
    "photos": MADE,
    "priors": OFFICE,
    "minutes": OFFICE,
    "name": OFFICE,
    "address": OFFICE,
    "rounding": OFFICE,
}


def keys(kind: Any) -> Iterator[str]:
    if isinstance(kind, contract.Items):
        yield from keys(kind.item)
    if isinstance(kind, contract.Group):
        for key, member in kind.members.items():
            yield key
            yield from keys(member)


KEYS = sorted(set(keys(contract.JOB)))


@pytest.mark.parametrize("key", [key for key in KEYS if key not in LEFT_OUT])
def test_a_key_has_a_screen(key: str) -> None:
    assert key in SOURCE


def test_nothing_is_left_out_that_is_no_key() -> None:
    assert set(LEFT_OUT) <= set(KEYS)
