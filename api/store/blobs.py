"""Photos and logs as files named by the SHA-256 of their bytes, kept exactly as they came."""

import hashlib
import os
import re
import tempfile
from collections.abc import Callable, Iterable
from pathlib import Path

NAME = re.compile(r"[0-9a-f]{64}")
LARGEST = 16 * 1024 * 1024


class WrongHashError(Exception):
    """The bytes that came are not those that the name promises."""


class TooLargeError(Exception):
    """More bytes came than one blob may have."""


class Blobs:
    """The blobs below one folder."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.incoming = folder / "incoming"

    def prepare(self) -> None:
        """Make the folder, and drop what a crash left half received."""
        self.incoming.mkdir(parents=True, exist_ok=True)
        for leftover in self.incoming.iterdir():
            leftover.unlink()

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


def _to_disk(folder: Path) -> None:
    """A rename survives a power cut only when its folder is on the disk too (fsync(2), POSIX)."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
