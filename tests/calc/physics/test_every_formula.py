"""Every public formula: its docstring against its signature, and what it does with a number that is none."""

import ast
import doctest
import importlib
import inspect
import math
import pkgutil
import re
import typing
from collections.abc import Callable, Iterator
from types import ModuleType
from typing import Any

import pytest

import calc.physics
import calc.signals
from calc.errors import CalcError, OutOfRange

SECTIONS = ("Parameters", "Returns", "Notes", "Examples", "References")
SECTION = re.compile(r"^(Parameters|Returns|Notes|Examples|References)\n-+\n", re.MULTILINE)


def modules(package: ModuleType) -> list[ModuleType]:
    names = [name for _, name, _ in pkgutil.iter_modules(package.__path__)]
    return [importlib.import_module(f"{package.__name__}.{name}") for name in names]


def functions(package: ModuleType) -> list[Callable[..., Any]]:
    return [
        function
        for module in modules(package)
        for name, function in inspect.getmembers(module, inspect.isfunction)
        if not name.startswith("_") and function.__module__ == module.__name__
    ]


TOOLS = ("calc.physics.bounds", "calc.physics.roots")  # of the house, no formulas
FITS = tuple(f"calc.signals.{name}" for name in ("breakpoint", "hysteresis", "regression"))
PHYSICS = [each for each in functions(calc.physics) if each.__module__ not in TOOLS]
MEASURED = PHYSICS + [each for each in functions(calc.signals) if each.__module__ in FITS]


def label(function: Callable[..., Any]) -> str:
    return f"{function.__module__.removeprefix('calc.')}.{function.__name__}"


def sections(function: Callable[..., Any]) -> dict[str, str]:
    text = inspect.getdoc(function) or ""
    parts = SECTION.split(text)
    return {"": parts[0], **dict(zip(parts[1::2], parts[2::2], strict=True))}


def described(function: Callable[..., Any]) -> dict[str, str]:
    """The parameters of the docstring with what stands behind their colon and below."""
    found: dict[str, str] = {}
    names: list[str] = []
    for line in sections(function).get("Parameters", "").splitlines():
        if line and not line.startswith(" "):
            head, _, kind = line.partition(" : ")
            names = [name.strip() for name in head.split(",")]
            found.update(dict.fromkeys(names, kind + " "))
        else:
            found.update({name: found[name] + " " + line.strip() for name in names})
    return found


@pytest.mark.parametrize("function", MEASURED, ids=label)
def test_the_docstring_names_the_parameters_of_the_signature(function: Callable[..., Any]) -> None:
    assert sorted(described(function)) == sorted(inspect.signature(function).parameters)


@pytest.mark.parametrize("function", MEASURED, ids=label)
def test_optional_is_said_of_what_has_a_default(function: Callable[..., Any]) -> None:
    said = {name for name, text in described(function).items() if "optional" in text}
    given = inspect.signature(function).parameters.values()
    assert said == {each.name for each in given if each.default is not inspect.Parameter.empty}


@pytest.mark.parametrize("function", MEASURED, ids=label)
def test_every_parameter_and_result_has_its_unit(function: Callable[..., Any]) -> None:
    units = re.compile(r"\[[^\]]+\]")
    for name, text in described(function).items():
        assert units.search(text), name
    assert units.search(sections(function)["Returns"])


@pytest.mark.parametrize("function", MEASURED, ids=label)
def test_equation_example_and_source_stand_in_order(function: Callable[..., Any]) -> None:
    found = sections(function)
    names = [name for name in SECTIONS if name in found]
    assert [name for name in found if name] == names
    assert {"Parameters", "Returns", "Examples", "References"} <= set(names)
    assert len(found["References"].strip()) > 5
    summary, *rest = [part for part in found[""].split("\n\n") if part.strip()]
    assert summary.rstrip().endswith(".")
    assert any(re.search(r"[=≤<∫±Σ·−]|median| mod ", part) for part in rest), (
        "an equation stands below the summary"
    )


@pytest.mark.parametrize("function", PHYSICS, ids=label)
def test_numbers_are_annotated_as_what_they_are(function: Callable[..., Any]) -> None:
    kinds = typing.get_type_hints(function)
    for name, text in described(function).items():
        if text.startswith("float"):
            assert kinds[name] in (float, float | None), name


def worked_call(function: Callable[..., Any]) -> dict[str, Any]:
    """The arguments of the docstring's own example."""
    module = inspect.getmodule(function)
    assert module is not None
    space = dict(vars(module))
    for example in doctest.DocTestParser().get_examples(function.__doc__ or ""):
        tree = ast.parse(example.source)
        for node in ast.walk(tree):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") == function.__name__:
                node.func = ast.Name("bound", ast.Load())
                call = ast.fix_missing_locations(ast.Expression(node))
                bind = inspect.signature(function).bind
                made = eval(compile(call, "example", "eval"), {**space, "bound": bind})  # noqa: S307
                return dict(made.arguments)
        exec(compile(tree, "example", "exec"), space)  # noqa: S102
    raise AssertionError(f"{function.__name__} is not called in its own example")


def broken_calls() -> Iterator[Any]:
    for function in PHYSICS:
        sound = worked_call(function)
        for name, value in sound.items():
            if isinstance(value, float | int) and not isinstance(value, bool):
                endless = (math.inf,) if "to infinity" in described(function)[name] else ()
                for wrong in {math.nan, math.inf, -math.inf} - set(endless):
                    yield pytest.param(
                        function, {**sound, name: wrong}, id=f"{label(function)}-{name}-{wrong}"
                    )


@pytest.mark.parametrize(("function", "arguments"), list(broken_calls()))
def test_what_is_no_number_is_refused(function: Callable[..., Any], arguments: dict[str, Any]) -> None:
    with pytest.raises(CalcError):
        function(**arguments)


def out_of_range() -> Iterator[Any]:
    """One step beyond each end that the docstring states as plain numbers."""
    number = r"-?[\d ]*\.?\d+(?:e-?\d+)?"
    ends = re.compile(rf"({number}) to ({number})(?=[.;,]\s)", re.IGNORECASE)
    for function in PHYSICS:
        sound = worked_call(function)
        for name, text in described(function).items():
            found = ends.search(text.replace("\N{NO-BREAK SPACE}", " "))
            if found and text.startswith("float") and isinstance(sound.get(name), float | int):
                low, high = (float(each.replace(" ", "")) for each in found.groups())
                for wrong in (low - 1.0e-3 * max(1.0, abs(low)), high + 1.0e-3 * max(1.0, abs(high))):
                    yield pytest.param(
                        function, {**sound, name: wrong}, wrong, id=f"{label(function)}-{name}-{wrong:g}"
                    )


@pytest.mark.parametrize(("function", "arguments", "wrong"), list(out_of_range()))
def test_beyond_the_stated_range_is_refused_with_the_number_and_the_limit(
    function: Callable[..., Any], arguments: dict[str, Any], wrong: float
) -> None:
    with pytest.raises(OutOfRange) as caught:
        function(**arguments)
    assert f"{wrong:.9g}" in str(caught.value)
    assert "outside" in str(caught.value)


def test_there_is_something_to_look_at() -> None:
    assert len(PHYSICS) >= 60
    assert len(list(out_of_range())) >= 100
    assert len(list(broken_calls())) >= 300
