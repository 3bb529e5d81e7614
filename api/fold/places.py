"""Places of the job document: JSON Pointers whose list items are named by their own id (RFC 6901)."""

from functools import lru_cache

from calc import ITEM_LISTS

_LISTS = frozenset(ITEM_LISTS)


def tokens(path: str) -> list[str]:
    """The unescaped keys of a pointer."""
    parts = path.split("/")[1:]
    return [part.replace("~1", "/").replace("~0", "~") for part in parts] if "~" in path else parts


def below(path: str, key: str) -> str:
    """The pointer of `key` in what lies at `path`."""
    escaped = key if key.isidentifier() else key.replace("~", "~0").replace("/", "~1")
    return f"{path}/{escaped}"


def is_at_or_in(path: str, outer: str) -> bool:
    """Whether `path` is `outer` or lies in it."""
    return path == outer or path.startswith(f"{outer}/")


@lru_cache(maxsize=16_384)
def items_around(path: str) -> tuple[str, ...]:
    """The items that `path` is or lies in, the outermost first."""
    parts = path.split("/")
    pattern, items = "", []
    for end, part in enumerate(parts[1:], start=2):
        in_list = pattern in _LISTS
        pattern += "/*" if in_list else f"/{part}"
        if in_list:
            items.append("/".join(parts[:end]))
    return tuple(items)


def is_item(path: str) -> bool:
    """Whether `path` names an item of a list, not something in it."""
    return items_around(path)[-1:] == (path,)
