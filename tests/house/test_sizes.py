"""Nothing grows until nobody reads it: functions and files stay short, and what is longer has its reason."""

import ast
from collections.abc import Iterator

from tests.house.source import named, text, tree

LONGEST_FUNCTION = 60  # lines of the body, without its docstring
LONGEST_FILE = 450
LONGER = ("/words/",)  # catalogues are tables of texts


def functions(name: str) -> Iterator[tuple[str, int]]:
    """Each function of a file, and how long its body is."""
    for node in ast.walk(tree(name)):
        if isinstance(node, ast.FunctionDef):
            has_docstring = ast.get_docstring(node) is not None and len(node.body) > 1
            first = node.body[1 if has_docstring else 0]
            yield f"{name}: {node.name}", (node.end_lineno or first.lineno) - first.lineno + 1


def sources() -> list[str]:
    return [name for name in named(".py", ".js") if name.startswith(("api/", "calc/", "pwa/"))]


def lines(name: str) -> int:
    return len(text(name).splitlines())


def test_functions_are_short() -> None:
    measured = dict(one for name in sources() if name.endswith(".py") for one in functions(name))
    assert len(measured) > 500
    assert {name: length for name, length in measured.items() if length > LONGEST_FUNCTION} == {}


def test_files_are_short() -> None:
    longer = {name: lines(name) for name in sources() if lines(name) > LONGEST_FILE}
    assert {name for name in longer if not any(part in name for part in LONGER)} == set()


def test_what_may_be_longer_is() -> None:
    assert [
        part for part in LONGER if not any(part in n and lines(n) > LONGEST_FILE for n in sources())
    ] == []
