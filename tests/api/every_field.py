"""A job in which every text that the contract knows is filled, and everything else is there once."""

from collections.abc import Iterator
from itertools import cycle
from typing import Any

from calc import contract

GAUGE = "gauge"
FIXED = {"format": contract.FORMAT, "id": "019ac0de-0000-7000-8000-000000000001"}


def filled_with(texts: list[str]) -> dict[str, Any]:
    """The job whose texts are these, one after the other and over again."""
    filler = cycle(texts)
    members = contract.JOB.members
    job = {name: _made(kind, name, filler) for name, kind in members.items() if name not in FIXED}
    job["gauges"][0]["id"] = GAUGE
    return FIXED | job


def _made(kind: contract.Kind, name: str, texts: Iterator[str]) -> Any:
    if isinstance(kind, contract.Group):
        return {key: _made(member, key, texts) for key, member in kind.members.items() if _has(member)}
    if isinstance(kind, contract.Items):
        return [_made(kind.item, name, texts)]
    if isinstance(kind, contract.FreeMap):
        return {next(texts): next(texts), "sha256": next(texts)}
    if isinstance(kind, contract.Texts):
        return [next(texts), next(texts)]
    return next(texts) if isinstance(kind, contract.Text) else _plain(kind)


def _has(kind: contract.Kind) -> bool:
    """Channels and weights hold no text."""
    return not isinstance(kind, contract.ChannelGroup | contract.Weights)


def _plain(kind: contract.Kind) -> Any:
    if isinstance(kind, contract.Word):
        return kind.words[0]
    if isinstance(kind, contract.WordList):
        return list(kind.words[:2])
    if isinstance(kind, contract.Limit):
        return {"min": 1, "max": 2}
    if isinstance(kind, contract.Numbers | contract.Span):
        return [0, 400]
    plain = {contract.Flag: True, contract.Amount: "12.50", contract.GaugeId: GAUGE, contract.Number: 3}
    return plain[type(kind)]
