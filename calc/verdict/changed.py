"""What a new reading moved: one line between two verdicts on the same job."""

from collections.abc import Mapping
from typing import Any

from calc.words import summary
from calc.words.sentences import Sentences

MOVED = 0.10  # a change of probability worth a word


def changed(before: Mapping[str, Any], after: Mapping[str, Any], said: Sentences) -> str | None:
    """One line about what changed, the weightiest first, as it was and as it is; None where nothing did.

    Parameters
    ----------
    before, after : Mapping
        Two verdicts on the same job, the later one second. [-]
    said : Sentences
        Language of the line. [-]
    """
    old, new = (_fault(verdict.get("conclusion")) for verdict in (before, after))
    if new is not None and new != old:
        return summary.now_concluded(said, old, new)
    if old is not None and new is None:
        return summary.no_longer_concluded(said, old[0])
    if new is not None and (explains := _explains(after, new[0])) != _explains(before, new[0]):
        return str(said.words.NOW_EXPLAINS[explains])
    stood = {row["fault"]: row for row in before.get("faults", ())}
    both = [(stood[row["fault"]], row) for row in after["faults"] if row["fault"] in stood]
    cleared = [
        row["fault"] for was, row in both if row["standing"] == "ruled_out" and was["standing"] != "ruled_out"
    ]
    if cleared:
        return summary.now_cleared(said, cleared)
    steps = [(was["probability"], row["probability"], row["fault"]) for was, row in both]
    was, now, fault = max(steps, key=lambda one: abs(one[1] - one[0]), default=(0.0, 0.0, ""))
    return summary.moved(said, fault, was, now) if abs(now - was) >= MOVED else None


def _explains(verdict: Mapping[str, Any], fault: str) -> str:
    """Whether a fault explains the complaint."""
    return next(str(row["explains_complaint"]) for row in verdict["faults"] if row["fault"] == fault)


def _fault(conclusion: Mapping[str, Any] | None) -> tuple[str, str] | None:
    return None if conclusion is None else (conclusion["fault"], conclusion["standing"])
