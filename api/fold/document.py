"""The fold: one job's operations, in list order, to its document, its conflicts and what is hidden."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from api.fold.holding import Held, Holding, Operation, hold, is_erased
from api.fold.places import items_around, tokens
from api.fold.text import same


@dataclass(frozen=True)
class Folded:
    """What a phone and the workshop show of a job.

    `conflicts` are `{"path", "shown", "others"}` sorted by path, `hidden` the outermost removed items,
    `waiting` the ids of operations whose item has not come.
    """

    document: dict[str, Any]
    conflicts: list[dict[str, Any]]
    hidden: list[str]
    waiting: list[str]


def fold(job: str, operations: Sequence[Operation], erasures: Iterable[dict[str, Any]] = ()) -> Folded:
    """Fold the operations of `job`; those of other jobs and at erased places count for nothing."""
    known = list(erasures)
    holding = hold([one for one in operations if one["job"] == job and not is_erased(one, known)])
    hidden = _hidden(holding)
    seen = {path: held for path, held in holding.places.items() if held and _is_seen(path, hidden)}
    marked = [_marked(holding, item) for item in holding.removes if _is_seen(item, hidden)]
    conflicts = [*_place_conflicts(seen), *marked]
    return Folded(
        document=_document(job, seen, [item for item in holding.items if _is_seen(item, hidden)]),
        conflicts=sorted(conflicts, key=lambda conflict: conflict["path"].encode()),
        hidden=sorted(hidden, key=str.encode),
        waiting=holding.waiting,
    )


def _hidden(holding: Holding) -> set[str]:
    """The outermost of the items that one remove names whole."""
    gone = {item for item in holding.removes if _is_hidden(holding, item)}
    return {item for item in gone if gone.isdisjoint(items_around(item)[:-1])}


def _is_hidden(holding: Holding, item: str) -> bool:
    standing = {one for _, one in holding.contents[item]}
    return any(standing <= set(remove["replaced"]) for _, remove in holding.removes[item])


def _is_seen(path: str, hidden: set[str]) -> bool:
    return hidden.isdisjoint(items_around(path))


def _place_conflicts(seen: dict[str, list[Held]]) -> list[dict[str, Any]]:
    return [
        {"path": path, "shown": held[0].id, "others": [other.id for other in held[1:]]}
        for path, held in seen.items()
        if not all(same(held[0].value, other.value) for other in held[1:])
    ]


def _marked(holding: Holding, item: str) -> dict[str, Any]:
    """A visible item that standing removes meant to hide: what they missed, then they themselves."""
    removes = holding.removes[item]
    named_by_all = set.intersection(*(set(remove["replaced"]) for _, remove in removes))
    shown, *further = sorted(held for held in holding.contents[item] if held[1] not in named_by_all)
    others = sorted([*further, *((position, remove["id"]) for position, remove in removes)])
    return {"path": item, "shown": shown[1], "others": [one for _, one in others]}


def _document(job: str, seen: dict[str, list[Held]], items: list[str]) -> dict[str, Any]:
    tree: dict[str, Any] = {}
    for item in items:
        _node(tree, tokens(item))
    for path, held in seen.items():
        if held[0].value is not None:
            *outer, key = tokens(path)
            _node(tree, outer)[key] = held[0].value
    for item in items:
        _node(tree, tokens(item))["id"] = tokens(item)[-1]
    _make_lists(tree, items)
    return tree | {"format": "job/1", "id": job}


def _node(tree: dict[str, Any], keys: list[str]) -> dict[str, Any]:
    for key in keys:
        tree = tree.setdefault(key, {})
    return tree


def _make_lists(tree: dict[str, Any], items: list[str]) -> None:
    """Turn each list of items from `{id: item}` into a sorted list, the innermost first."""
    lists = {item.rpartition("/")[0] for item in items}
    for path in sorted(lists, key=lambda one: -one.count("/")):
        *outer, key = tokens(path)
        around = _node(tree, outer)
        around[key] = sorted(around[key].values(), key=_rank)


def _rank(item: dict[str, Any]) -> tuple[bytes, bytes]:
    rank = item.get("rank")
    return (rank if isinstance(rank, str) else "").encode(), item["id"].encode()
