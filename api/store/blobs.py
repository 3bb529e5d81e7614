"""Photos and logs as files named by the SHA-256 of their bytes, kept exactly as they came."""

import hashlib
import os
import re
import tempfile
import threading
import time
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path

NAME = re.compile(r"[0-9a-f]{64}")
LARGEST = 16 * 1024 * 1024
PARTS_STAY_SECONDS = 14 * 24 * 3600


class WrongHashError(Exception):
    """The bytes that came are not those that the name promises."""


class TooLargeError(Exception):
    """More bytes came than one blob may have."""


class WrongOffsetError(Exception):
    """The part does not begin where the parts before it ended; `offset` is where it should."""

    def __init__(self, offset: int) -> None:
        super().__init__(offset)
        self.offset = offset


@dataclass(frozen=True)
class Part:
    """Some bytes of a blob: they begin at `start` of `total`."""

    start: int
    total: int
    data: bytes


class Blobs:
    """The blobs below one folder."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.incoming = folder / "incoming"
        self.copies = folder / "copies"  # of photos, as they are shown and printed
        self._joining = threading.Lock()

    def prepare(self) -> None:
        """Make the folder; drop what a crash left half received, but not parts that may still go on."""
        self.incoming.mkdir(parents=True, exist_ok=True)
        for leftover in self.incoming.iterdir():
            if leftover.suffix != ".part" or time.time() - leftover.stat().st_mtime > PARTS_STAY_SECONDS:
                leftover.unlink()

    def names(self) -> list[str]:
        """Every blob that is here, in order."""
        found = (path.name for path in self.folder.glob("[0-9a-f][0-9a-f]/*"))
        return sorted(name for name in found if NAME.fullmatch(name))

    def received(self, name: str) -> int:
        """How many bytes of an unfinished blob have come in parts: the next one begins there."""
        part = self._part(name)
        return part.stat().st_size if part.is_file() else 0

    def finish(self, name: str) -> Path | None:
        """Give a blob its name where all its bytes have come in parts, as after a crash just before."""
        with self._joining:
            part = self._part(name)
            if not NAME.fullmatch(name) or not part.is_file() or _sum(part) != name:
                return self.find(name)
            self._finish(name)
        return self.find(name)

    def join(self, name: str, part: Part) -> bool:
        """Add a part; True once the blob is whole, right and on the disk.

        Raises
        ------
        WrongOffsetError
            it does not begin where the last one ended; nothing was added
        WrongHashError, TooLargeError
            nothing of the blob is kept then
        """
        if part.total > LARGEST or part.start + len(part.data) > part.total:
            raise TooLargeError
        with self._joining:
            if self.find(name):
                return True
            offset = self.received(name)
            if part.start != offset:
                raise WrongOffsetError(offset)
            self._add(name, part)
            if offset + len(part.data) < part.total:
                return False
            self._finish(name)
        return True

    def drop(self, name: str) -> None:
        """Take a blob away with its copy, as an erasure asks."""
        if NAME.fullmatch(name):
            self._path(name).unlink(missing_ok=True)
            self._part(name).unlink(missing_ok=True)
            for copy in self.copies.glob(f"{name}*.jpg"):
                copy.unlink(missing_ok=True)

    def copy_path(self, name: str, longest: int) -> Path:
        """Where the copy of a photo with so many pixels a side lies, or would lie."""
        return self.copies / f"{name}-{longest}.jpg"

    def _add(self, name: str, part: Part) -> None:
        path = self._part(name)
        try:
            with path.open("ab") as file:
                file.write(part.data)
        except OSError:
            with path.open("r+b") as file:  # a disk that is full keeps no half of a part
                file.truncate(part.start)
            raise

    def _finish(self, name: str) -> None:
        path = self._part(name)
        if _sum(path) != name:
            path.unlink()
            raise WrongHashError
        with path.open("rb") as file:
            os.fsync(file.fileno())
        self._keep(path, name)

    def _keep(self, received: Path, name: str) -> None:
        """Give whole, synced bytes their name, so that they are there after a power cut too."""
        path = self._path(name)
        path.parent.mkdir(exist_ok=True)
        received.replace(path)
        _to_disk(path.parent)
        _to_disk(self.folder)

    def _part(self, name: str) -> Path:
        return self.incoming / f"{name}.part"

    def find(self, name: str) -> Path | None:
        """The file of that name, where it is a blob's name and the blob is there."""
        if not NAME.fullmatch(name):
            return None
        path = self._path(name)
        return path if path.is_file() else None

    def put(self, name: str, chunks: Iterable[bytes]) -> bool:
        """Keep the bytes under their name once they are known to be right and on the disk; False if there.

        Raises
        ------
        WrongHashError, TooLargeError
            Nothing is kept then.
        """
        if self.find(name):
            return False
        received = self._receive(name, chunks)
        try:
            path = self._path(name)
            path.parent.mkdir(exist_ok=True)
            received.replace(path)
        finally:
            received.unlink(missing_ok=True)
        _to_disk(path.parent)
        _to_disk(self.folder)
        return True

    def _path(self, name: str) -> Path:
        return self.folder / name[:2] / name

    def _receive(self, name: str, chunks: Iterable[bytes]) -> Path:
        handle, path = tempfile.mkstemp(dir=self.incoming)
        try:
            with os.fdopen(handle, "wb") as file:
                if _copy(chunks, file.write) != name:
                    raise WrongHashError
                file.flush()
                os.fsync(file.fileno())
        except BaseException:
            Path(path).unlink(missing_ok=True)
            raise
        return Path(path)


def _copy(chunks: Iterable[bytes], write: Callable[[bytes], int]) -> str:
    digest, size = hashlib.sha256(), 0
    for chunk in chunks:
        size += len(chunk)
        if size > LARGEST:
            raise TooLargeError
        digest.update(chunk)
        write(chunk)
    return digest.hexdigest()


def _sum(path: Path) -> str:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def _to_disk(folder: Path) -> None:
    """A rename survives a power cut only when its folder is on the disk too (fsync(2), POSIX)."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
