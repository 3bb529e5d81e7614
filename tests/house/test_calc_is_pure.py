"""calc gives the same bytes for the same job, anywhere: nothing in it asks the world a question."""

import ast

import pytest

from tests.house.source import named, python_imports, tree

DOOR = "calc/__main__.py"
INSIDE = [name for name in named(".py", under="calc/") if name != DOOR]
WORLD = {
    "asyncio", "ctypes", "ftplib", "glob", "http", "io", "locale", "multiprocessing", "os", "pathlib",
    "platform", "random", "secrets", "shutil", "smtplib", "socket", "sqlite3", "ssl", "subprocess",
    "tempfile", "threading", "time", "urllib", "uuid", "zoneinfo",
}  # fmt: skip
QUESTIONS = {"open", "input", "print", "exec", "eval", "breakpoint", "__import__"}
CLOCKS = {"now", "utcnow", "today"}


@pytest.mark.parametrize("name", INSIDE)
def test_no_module_of_calc_imports_the_world(name: str) -> None:
    assert {dotted.split(".")[0] for dotted in python_imports(name)} & WORLD == set()


@pytest.mark.parametrize("name", INSIDE)
def test_no_module_of_calc_asks_for_a_file_or_the_time(name: str) -> None:
    asked = [node for node in ast.walk(tree(name)) if isinstance(node, ast.Call) and asks_the_world(node)]
    assert [ast.unparse(node) for node in asked] == []


def asks_the_world(call: ast.Call) -> bool:
    if isinstance(call.func, ast.Name):
        return call.func.id in QUESTIONS
    return isinstance(call.func, ast.Attribute) and call.func.attr in CLOCKS


@pytest.mark.parametrize("name", INSIDE)
def test_the_interpreter_is_asked_only_for_the_range_of_numbers(name: str) -> None:
    asked = [node for node in ast.walk(tree(name)) if isinstance(node, ast.Attribute)]
    of_sys = {node.attr for node in asked if ast.unparse(node.value) == "sys"}
    assert of_sys <= {"float_info", "maxsize"}


@pytest.mark.parametrize("name", INSIDE)
def test_floats_are_summed_exactly(name: str) -> None:
    """Python 3.11 and the phone's 3.14 differ in sum(); math.fsum is the same on both."""
    calls = [node for node in ast.walk(tree(name)) if isinstance(node, ast.Call)]
    sums = [node for node in calls if isinstance(node.func, ast.Name) and node.func.id == "sum"]
    assert [ast.unparse(node) for node in sums if not counts(node)] == []


def counts(call: ast.Call) -> bool:
    """``sum(1 for ...)`` and ``sum(len(x) for ...)`` count; whole numbers have no rounding."""
    made = call.args[0]
    if not isinstance(made, ast.GeneratorExp):
        return False
    if isinstance(made.elt, ast.Constant):
        return isinstance(made.elt.value, int)
    return isinstance(made.elt, ast.Call) and ast.unparse(made.elt.func) == "len"
