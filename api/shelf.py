"""Files that the phone fetches, read from disk once and again only after they changed."""

import gzip
import hashlib
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from stat import S_ISREG

import brotli

# Our own table: the browser refuses a module of the wrong type, and the system's table differs by machine.
TYPES = {
    ".css": "text/css",
    ".html": "text/html",
    ".js": "text/javascript",
    ".json": "application/json",
    ".mjs": "text/javascript",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".ttf": "font/ttf",
    ".txt": "text/plain",
    ".wasm": "application/wasm",
    ".webmanifest": "application/manifest+json",
    ".woff2": "font/woff2",
    ".zip": "application/zip",
}
COMPRESSIBLE = frozenset({".css", ".html", ".js", ".json", ".mjs", ".svg", ".ttf", ".wasm", ".webmanifest"})
WORTH_COMPRESSING = 512
LARGE = 1_000_000


@dataclass(frozen=True)
class Book:
    """One file's bytes, with the hash they are known by and their compressed forms made on first use."""

    name: str
    data: bytes
    sha256: str = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "sha256", hashlib.sha256(self.data).hexdigest())

    @property
    def suffix(self) -> str:
        return Path(self.name).suffix

    @property
    def kind(self) -> str:
        """The media type, by the end of the name."""
        return TYPES.get(self.suffix, "application/octet-stream")

    @property
    def compressible(self) -> bool:
        return self.suffix in COMPRESSIBLE and len(self.data) >= WORTH_COMPRESSING

    @cached_property
    def brotli(self) -> bytes:
        pressed: bytes = brotli.compress(self.data, quality=5 if len(self.data) > LARGE else 9)
        return pressed

    @cached_property
    def gzip(self) -> bytes:
        return gzip.compress(self.data, compresslevel=6, mtime=0)


class Shelf:
    """The files below one folder, by their address relative to it."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._books: dict[str, tuple[tuple[int, int], Book]] = {}

    def names(self) -> list[str]:
        """Every file on the shelf in a stable order; what begins with a dot is not for the phone."""
        paths = (path.relative_to(self.folder) for path in self.folder.rglob("*") if path.is_file())
        return sorted(path.as_posix() for path in paths if not _is_private(path))

    def book(self, name: str) -> Book | None:
        """The file of that name, or None; only names that `names` lists are found.

        `a/./b` is none of them: each spelling would be another book, and a stranger can think of many.
        """
        path = Path(name)
        if _is_private(path) or ".." in path.parts or path.is_absolute() or "\\" in name or "\0" in name:
            return None
        if path.as_posix() != name:
            return None
        full = self.folder / path
        try:
            state = full.stat()
        except OSError:  # not there, or a name that no file can have
            return None
        if not S_ISREG(state.st_mode):
            return None
        stamp = (state.st_mtime_ns, state.st_size)
        kept = self._books.get(name)
        if kept is None or kept[0] != stamp:
            kept = self._books[name] = (stamp, Book(name, full.read_bytes()))
        return kept[1]


def _is_private(path: Path) -> bool:
    return any(part.startswith((".", "__")) for part in path.parts)
