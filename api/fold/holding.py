"""What each place holds, which items have come, and which a remove hides."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any, NamedTuple

from api.fold.places import below, is_at_or_in, items_around

Operation = dict[str, Any]


class Held(NamedTuple):
    """One operation that stands at a place, with its position in the list and the value it wrote there."""

    position: int
    id: str
    value: Any


@dataclass
class Holding:
    """Everything a fold needs to know about one job's operations."""

    places: dict[str, list[Held]] = field(default_factory=dict)
    items: set[str] = field(default_factory=set)
    removes: dict[str, list[tuple[int, Operation]]] = field(default_factory=dict)
    waiting: list[str] = field(default_factory=list)

    @cached_property
    def contents(self) -> dict[str, set[tuple[int, str]]]:
        """For each item the position and id of all that its places hold, items in it included."""
        found: dict[str, set[tuple[int, str]]] = defaultdict(set)
        for path, standing in self.places.items():
            for item in items_around(path):
                found[item].update((held.position, held.id) for held in standing)
        return found


def hold(operations: Sequence[Operation]) -> Holding:
    """Sort one job's operations, in list order, into places, items and standing removes."""
    came = {operation["path"] for operation in operations if operation["do"] == "add"}
    found = Holding(items=came & _complete(came))
    counted = []
    for position, operation in enumerate(operations):
        if _waits(operation, came):
            found.waiting.append(operation["id"])
        else:
            counted.append((position, operation))
    found.places = _standing_values(counted)
    found.removes = _standing_removes(counted)
    return found


def writes(operation: Operation) -> dict[str, Any]:
    """The places that an operation writes, with their values; a remove writes none."""
    path = operation["path"]
    if operation["do"] == "set":
        return {path: operation["value"]}
    if operation["do"] == "add":
        return {below(path, key): value for key, value in operation["value"].items() if key != "id"}
    return {}


def is_erased(operation: Operation, erasures: Iterable[dict[str, Any]]) -> bool:
    """Whether an erasure record covers the operation's place."""
    return any(
        operation["job"] == erasure["job"] and is_at_or_in(operation["path"], erasure["path"])
        for erasure in erasures
    )


def _complete(came: set[str]) -> set[str]:
    return {item for item in came if all(outer in came for outer in items_around(item))}


def _waits(operation: Operation, came: set[str]) -> bool:
    return not all(item in came for item in items_around(operation["path"]))


def _standing_values(counted: list[tuple[int, Operation]]) -> dict[str, list[Held]]:
    written: dict[str, list[Held]] = defaultdict(list)
    named: dict[str, set[str]] = defaultdict(set)
    for position, operation in counted:
        one, others = operation["id"], _others(operation)
        for place, value in writes(operation).items():
            written[place].append(Held(position, one, value))
            if others:
                named[place].update(others)
    return {place: [one for one in held if one.id not in named[place]] for place, held in written.items()}


def _standing_removes(counted: list[tuple[int, Operation]]) -> dict[str, list[tuple[int, Operation]]]:
    if all(operation["do"] != "remove" for _, operation in counted):
        return {}
    named: dict[str, set[str]] = defaultdict(set)
    for _, operation in counted:
        for item in items_around(operation["path"]):
            named[item].update(_others(operation))
    removes: dict[str, list[tuple[int, Operation]]] = defaultdict(list)
    for position, operation in counted:
        if operation["do"] == "remove" and operation["id"] not in named[operation["path"]]:
            removes[operation["path"]].append((position, operation))
    return dict(removes)


def _others(operation: Operation) -> set[str]:
    return set(operation["replaced"]) - {operation["id"]}
