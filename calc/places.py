"""The places of a job document that an operation may write: what the contract knows, each whole in itself.

In such a path an item of a list is named by its own id: `/tests/road/<run>/readings/<item>/p_kpa`.
"""

import re
from collections.abc import Iterator

from calc.contract import JOB, TEXT, Group, Items, Kind
from calc.errors import BrokenDocument, BrokenPlace
from calc.walk import Walk, is_object, members_of, pointer_of, shown

_BAD_ESCAPE = re.compile(r"~(?![01])")


def check_place(path: str, value: object) -> None:
    """Check that an operation may write a value at a place.

    A path that ends at an item stands for the item's own values, as an `add` carries them: an object whose
    keys are places of the item. None is allowed everywhere: it clears a place, and a `remove` carries none.
    What only the whole document can tell (gauge ids, equal lengths of channels) is not asked here.

    Raises
    ------
    BrokenPlace
        an unknown place, one that is not set as a whole, or a value that cannot stand there
    """
    steps = _steps(path)
    kind = _kind_at(path, steps)
    if value is None:
        return
    if isinstance(kind, Group):
        _check_item(path, steps, kind, value)
    else:
        _check_value(Walk(gauge_ids=None, path=steps), kind, value)


def names_item(path: str) -> bool:
    """Tell whether a path names an item (for `add` and `remove`) and not a value (for `set`).

    Raises BrokenPlace where the contract does not know the place.
    """
    return isinstance(_kind_at(path, _steps(path)), Group)


def _steps(path: str) -> list[str]:
    if not path.startswith("/") or _BAD_ESCAPE.search(path):
        raise BrokenPlace(path, "not a JSON Pointer into the job")
    steps = path[1:].split("/")
    return [step.replace("~1", "/").replace("~0", "~") for step in steps] if "~" in path else steps


def _kind_at(path: str, steps: list[str]) -> Kind:
    """Return the kind of value at a place: a Group stands for an item."""
    kind: Kind = JOB
    of_item = False
    for depth, step in enumerate(steps):
        if isinstance(kind, Items):
            kind, of_item = _item_named(path, step, kind), True
            continue
        kind = _member(path, step, kind, is_whole_job=depth == 0, of_item=of_item)
        of_item = False
    if isinstance(kind, Items) or (isinstance(kind, Group) and not of_item):
        raise BrokenPlace(path, "not set as a whole: name the place in it")
    return kind


def _item_named(path: str, item_id: str, kind: Items) -> Group:
    if not item_id:
        raise BrokenPlace(path, "the id of the item is missing")
    return kind.item


def _member(
    path: str, name: str, kind: Kind, *, is_whole_job: bool, of_item: bool, below: bool = False
) -> Kind:
    """Return the kind of a member; `path` is the place asked for, or with `below` the one that holds it."""
    if not isinstance(kind, Group):
        raise BrokenPlace(path, "lies inside a value that is set as a whole")
    if of_item and name == "rank":
        return TEXT
    if name not in kind.members or (name in ("format", "id") and (is_whole_job or of_item)):
        path += pointer_of([name]) if below else ""
        raise BrokenPlace(path, f"the contract knows no place {shown(name)} here")
    return kind.members[name]


def _check_item(path: str, steps: list[str], kind: Group, value: object) -> None:
    walk = Walk(gauge_ids=None, path=steps)
    if not is_object(value):
        _check_value(walk, kind, value)
    for name, member in members_of(value):
        if not isinstance(name, str):
            raise BrokenPlace(path, "a name in the item is not text")
        member_kind = _member(path, name, kind, is_whole_job=False, of_item=True, below=True)
        if isinstance(member_kind, Group | Items):
            reason = "an item carries its own values alone: what lies deeper comes by itself"
            raise BrokenPlace(path + pointer_of([name]), reason)
        walk.path = [*steps, name]
        _check_value(walk, member_kind, member)


def _check_value(walk: Walk, kind: Kind, value: object) -> None:
    try:
        walk.read(value, kind)
    except BrokenDocument as error:
        raise BrokenPlace(error.pointer, error.reason) from None


def _item_lists(kind: Kind, path: str) -> Iterator[str]:
    if isinstance(kind, Items):
        yield path
        yield from _item_lists(kind.item, path + "/*")
    if isinstance(kind, Group):
        for name, member in kind.members.items():
            yield from _item_lists(member, f"{path}/{name}")


ITEM_LISTS: tuple[str, ...] = tuple(_item_lists(JOB, ""))
