"""The phone's modules as one script and its styles as one sheet: with few requests a phone starts sooner.

The sources stay native modules. Each becomes a function's body, after those that it imports; what it exports
is what that function returns. Only the forms of import and export that the sources use are known here; any
other is refused.
"""

import json
import posixpath
import re
from dataclasses import dataclass
from functools import lru_cache

from api.shelf import Book, Shelf

PAGE, FIRST, STYLES = "index.html", "app.js", "style/all.css"
SCRIPT, MAP, SHEET = "packed.js", "packed.js.map", "packed.css"

IMPORT = re.compile(r'^import (\{[^}]*\}|\* as \w+) from "([^"]+)";$', re.MULTILINE)
PASSED_ON = re.compile(r'^export (\{[^}]*\}) from "([^"]+)";$', re.MULTILINE)
EXPORT = re.compile(r"^export (?=(?:async )?(?:function|const|class) (\w+))", re.MULTILINE)
UNKNOWN = re.compile(r'^(?:import|export)\b.*|\bimport\("\.[^"]*"\)', re.MULTILINE)
STYLE = re.compile(r'^@import "([^"]+)";$', re.MULTILINE)


class CannotPack(ValueError):
    """A file that is not there, modules that wait for each other, or another form of import or export."""


@dataclass(frozen=True)
class Packed:
    """What the page fetches in place of the files `names`; the map shows those to a browser's tools."""

    script: Book
    map: Book
    sheet: Book
    names: frozenset[str]


@dataclass(frozen=True)
class Module:
    """A source as a function's body; `needs` are the modules that it imports."""

    name: str
    needs: tuple[str, ...]
    body: str
    source: str


def packed(shelf: Shelf) -> Packed | None:
    """The pack of the files on the shelf now; None where its page names the modules themselves."""
    page = shelf.book(PAGE)
    if page is None or f'src="/{SCRIPT}"'.encode() not in page.data:
        return None
    sheets = tuple(
        _there(shelf, f"style/{name}") for name in STYLE.findall(_there(shelf, STYLES).data.decode())
    )
    return _packed(tuple(_in_order(shelf)), sheets)


def by_name(shelf: Shelf, name: str) -> Book | None:
    """The packed file of that name, or None."""
    pack = packed(shelf) if name in {SCRIPT, MAP, SHEET} else None
    return (
        next((book for book in (pack.script, pack.map, pack.sheet) if book.name == name), None)
        if pack
        else None
    )


@lru_cache(maxsize=4)
def _packed(modules: tuple[Module, ...], sheets: tuple[Book, ...]) -> Packed:
    lines, sections, pieces = 0, [], []
    for module in modules:
        pieces.append(f"const {_variable(module.name)} = (() => {{\n{module.body}}})();\n")
        sections.append({"offset": {"line": lines + 1, "column": 0}, "map": _line_by_line(module)})
        lines += pieces[-1].count("\n")
    listed = ", ".join(f'"{module.name}": {_variable(module.name)}' for module in modules)
    pieces.append(f"export const modules = {{ {listed} }};\n//# sourceMappingURL=/{MAP}\n")
    return Packed(
        script=Book(SCRIPT, "".join(pieces).encode()),
        map=Book(MAP, json.dumps({"version": 3, "sections": sections}).encode()),
        sheet=Book(SHEET, b"".join(sheet.data for sheet in sheets)),
        names=frozenset({STYLES, *(module.name for module in modules), *(sheet.name for sheet in sheets)}),
    )


def _line_by_line(module: Module) -> dict[str, object]:
    """ECMA-426: each line of the body is the line of that number in the source."""
    mappings = "AAAA" + ";AACA" * module.source.count("\n")
    return {
        "version": 3,
        "sources": [f"/{module.name}"],
        "sourcesContent": [module.source],
        "names": [],
        "mappings": mappings,
    }


def _in_order(shelf: Shelf) -> list[Module]:
    """The modules that the first one needs, each after those that it needs itself."""
    found: dict[str, Module] = {}

    def visit(name: str, above: tuple[str, ...]) -> None:
        if name in above:
            raise CannotPack(" > ".join((*above, name)))
        if name in found:
            return
        module = _module(_there(shelf, name))
        for need in module.needs:
            visit(need, (*above, name))
        found[name] = module

    visit(FIRST, ())
    return list(found.values())


def _there(shelf: Shelf, name: str) -> Book:
    book = shelf.book(name)
    if book is None:
        raise CannotPack(f"there is no {name}")
    return book


@lru_cache(maxsize=512)
def _module(book: Book) -> Module:
    name, source = book.name, book.data.decode()
    passed_on = [
        word.strip() for found in PASSED_ON.finditer(source) for word in found[1].strip("{}").split(",")
    ]
    exported = [*(found[1] for found in EXPORT.finditer(source)), *passed_on]
    needs = tuple(_address(name, found[2]) for form in (IMPORT, PASSED_ON) for found in form.finditer(source))

    def taken(found: re.Match[str]) -> str:
        wanted = found[1].removeprefix("* as ").replace(" as ", ": ")
        return f"const {wanted} = {_variable(_address(name, found[2]))};"

    body = EXPORT.sub("", PASSED_ON.sub(taken, IMPORT.sub(taken, source)))
    if strange := UNKNOWN.search(body):
        raise CannotPack(f"{name}: {strange[0]}")
    return Module(name, needs, f"{body}return {{ {', '.join(exported)} }};\n", source)


def _address(importer: str, path: str) -> str:
    return posixpath.normpath(posixpath.join("/", posixpath.dirname(importer), path)).removeprefix("/")


def _variable(name: str) -> str:
    return "$" + re.sub(r"\W", "_", name)
