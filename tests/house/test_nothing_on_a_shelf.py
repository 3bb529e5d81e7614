"""Every public formula is one that the product itself works with, from a check, a fault or a sentence."""

import ast
from collections.abc import Iterator
from functools import cache

from tests.house.source import named, tree

ROOMS = ("calc/physics/", "calc/signals/", "calc/uncertainty/")
Place = tuple[str, str]  # module, name


def module(name: str) -> str:
    return name.removesuffix(".py").removesuffix("/__init__").replace("/", ".")


@cache
def modules() -> dict[str, ast.Module]:
    return {module(name): tree(name) for name in named(".py", under="calc/")}


@cache
def kept() -> dict[Place, ast.stmt]:
    """Functions and classes of the three rooms."""
    rooms = {module(name) for room in ROOMS for name in named(".py", under=room)}
    return {
        (name, item.name): item
        for name in rooms
        for item in modules()[name].body
        if isinstance(item, ast.FunctionDef | ast.ClassDef)
    }


@cache
def imported(name: str) -> dict[str, Place]:
    return {
        alias.asname or alias.name: (node.module, alias.name)
        for node in ast.walk(modules()[name])
        if isinstance(node, ast.ImportFrom) and node.module
        for alias in node.names
    }


def used(node: ast.stmt, name: str) -> Iterator[Place]:
    """What a statement of a module calls or passes on; a parameter of the same name is not it."""
    arguments = {each.arg for each in ast.walk(node) if isinstance(each, ast.arg)}
    known = imported(name)
    for each in ast.walk(node):
        if isinstance(each, ast.Name) and each.id not in arguments:
            yield known.get(each.id, (name, each.id))


def reached() -> set[Place]:
    waiting = [
        place
        for name, code in modules().items()
        for node in code.body
        if not isinstance(node, ast.Import | ast.ImportFrom)
        and (name, getattr(node, "name", "")) not in kept()
        for place in used(node, name)
    ]
    found: set[Place] = set()
    while waiting:
        place = waiting.pop()
        if place in kept() and place not in found:
            found.add(place)
            waiting += used(kept()[place], place[0])
    return found


def test_every_formula_is_used_by_the_product() -> None:
    assert len(kept()) > 60
    assert sorted(set(kept()) - reached()) == []
