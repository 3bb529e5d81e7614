"""The list of files that make one release of the phone's app, and the engine it runs."""

import hashlib
import io
import json
import zipfile
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from api.packed import Packed, packed
from api.shelf import Book, Shelf

ENGINE_FOLDER = "vendor/pyodide/"
# The cars to practise with come with the engine, which judges them: the shell stays small.
WITH_ENGINE = (ENGINE_FOLDER, "practice/")
ENGINE_ZIP = "/engine/calc.zip"
# The worker is fetched by the browser itself, and licences are read on request, not kept on the phone.
NOT_KEPT = frozenset({"sw.js"})
NOT_KEPT_SUFFIXES = frozenset({".md", ".txt", ".sha256", ""})
ZIP_DATE = (1980, 1, 1, 0, 0, 0)  # the earliest that the format can hold: the same files give the same bytes


@dataclass(frozen=True)
class Release:
    """Two caches for the phone: the shell changes often, the engine seldom."""

    shell: tuple[Book, ...]
    engine: tuple[Book, ...]

    def script(self) -> str:
        """JavaScript for the service worker; its bytes change exactly when a file changes."""
        return f"self.RELEASE = {json.dumps(self._lists(), indent=1, sort_keys=True)};\n"

    def _lists(self) -> dict[str, object]:
        return {
            "shell": {"version": _version(self.shell), "files": [_address(book) for book in self.shell]},
            "engine": {
                "version": _version(self.engine),
                "bytes": sum(len(book.data) for book in self.engine),
                "files": [[_address(book), len(book.data)] for book in self.engine],
            },
        }


def current(shelf: Shelf, calc_folder: Path) -> Release:
    """The release that the files on disk make now."""
    books = [book for name in shelf.names() if _is_kept(name) and (book := shelf.book(name))]
    shell = _shell([book for book in books if not book.name.startswith(WITH_ENGINE)], packed(shelf))
    engine = [book for book in books if book.name.startswith(WITH_ENGINE)]
    return Release(tuple(shell), (*engine, engine_zip(calc_folder)))


def _shell(books: list[Book], pack: Packed | None) -> list[Book]:
    if pack is None:
        return books
    return [*(book for book in books if book.name not in pack.names), pack.script, pack.sheet]


def engine_zip(calc_folder: Path) -> Book:
    """`calc` as one archive, the same bytes for the same sources; packed anew once one has changed."""
    states = [(path, path.stat()) for path in sorted(calc_folder.rglob("*.py"))]
    return _packed(calc_folder, tuple((path, one.st_mtime_ns, one.st_size) for path, one in states))


@lru_cache(maxsize=4)
def _packed(calc_folder: Path, sources: tuple[tuple[Path, int, int], ...]) -> Book:
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as archive:
        for path, _, _ in sources:
            name = path.relative_to(calc_folder.parent).as_posix()
            entry = zipfile.ZipInfo(name, ZIP_DATE)
            entry.compress_type = zipfile.ZIP_DEFLATED
            archive.writestr(entry, path.read_bytes())
    return Book(ENGINE_ZIP.removeprefix("/"), buffer.getvalue())


def _is_kept(name: str) -> bool:
    path = Path(name)
    is_licence = path.stem.upper().startswith(("LICENSE", "LICENCE", "OFL"))
    return name not in NOT_KEPT and path.suffix not in NOT_KEPT_SUFFIXES and not is_licence


def _address(book: Book) -> str:
    return "/" if book.name == "index.html" else f"/{book.name}"


def _version(books: tuple[Book, ...]) -> str:
    lines = "".join(f"{book.sha256} {book.name}\n" for book in books)
    return hashlib.sha256(lines.encode()).hexdigest()[:16]
