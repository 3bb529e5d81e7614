"""DEVELOPERS.md names every address of the server and no other, and every room."""

import re
from pathlib import Path

from tests.house.source import files, text

ROW = re.compile(r"^\| ([A-Z, ]+) \| `(/[^`]*)` \|", re.MULTILINE)


def documented() -> set[tuple[str, str]]:
    rows = ROW.findall(text("DEVELOPERS.md"))
    return {(method, address) for methods, address in rows for method in methods.split(", ")}


def served(data: Path) -> set[tuple[str, str]]:
    from api.app import create_app

    rules = create_app(data).url_map.iter_rules()
    return {(method, plain(rule.rule)) for rule in rules for method in shown(rule.methods or set())}


def plain(rule: str) -> str:
    """``<string:job>`` and ``<path:name>`` are documented as ``<job>`` and ``<name>``."""
    return re.sub(r"<[^<>:]+:", "<", rule)


def shown(methods: set[str]) -> set[str]:
    """HEAD comes with GET and OPTIONS with everything; neither is worth a row."""
    return methods - {"OPTIONS"} - ({"HEAD"} if "GET" in methods else set())


def test_every_address_is_documented(tmp_path: Path) -> None:
    assert served(tmp_path) == documented()


def test_every_room_is_on_the_map() -> None:
    rooms = {"/".join(name.split("/")[:2]) for name in files() if name.startswith("calc/")}
    unnamed = [room for room in sorted(rooms) if Path(room).name not in text("DEVELOPERS.md")]
    assert [room for room in unnamed if not room.endswith(("__init__.py", "__main__.py"))] == []
