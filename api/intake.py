"""A copy that a phone saved, taken in at the desk: like a sync, but from a file. Nothing comes twice.

The file comes from outside, so nothing in it is believed: every size is bounded while it is read, a blob must
be what its name says, an operation is held against the contract like any other.
"""

import json
import re
import sqlite3
import zipfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import IO, Any

from api import erasure, exchange
from api.fold.text import BrokenTextError, parse
from api.store.blobs import LARGEST as LARGEST_BLOB
from api.store.blobs import Blobs, TooLargeError, WrongHashError
from api.store.erasures import Erasure

FORMAT = "teepiece-copy/1"
LARGEST_COPY = 1024 * 1024 * 1024
MOST_FILES = 20_000
LARGEST_LIST = 256 * 1024 * 1024
LARGEST_SMALL = 4 * 1024 * 1024
MOST_OPERATIONS = 200
LARGEST_BATCH = 256 * 1024
PIECE = 64 * 1024
# As a phone packs. A piece of any other kind is unpacked whole: 469 bytes of bzip2 took 450 MB.
PACKED = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)
BLOB = re.compile(r"blobs/([0-9a-f]{64})(?:\.[a-z]{1,5})?")


class NotACopyError(Exception):
    """The file is no copy that a phone saved, or it is damaged; the message says so to a person."""


@dataclass
class TakenIn:
    """What became of a copy: operations by answer, photos that were new, and what was refused, with why."""

    applied: int = 0
    duplicate: int = 0
    photos: int = 0
    refused: list[dict[str, str | None]] = field(default_factory=list)

    def as_json(self) -> dict[str, Any]:
        """The summary for the desk."""
        return {
            "applied": self.applied,
            "duplicate": self.duplicate,
            "photos": self.photos,
            "refused": self.refused,
        }


def take_in(
    connection: sqlite3.Connection,
    blobs: Blobs,
    learn: Callable[[list[Erasure]], None],
    file: IO[bytes],
) -> TakenIn:
    """Take a copy in; the same one again changes nothing. `learn` is told the erasures in it first.

    Raises
    ------
    NotACopyError
        nothing was taken then, or only what was whole before the damage
    """
    taken = TakenIn()
    try:
        with zipfile.ZipFile(file) as archive:
            members = _members(archive)
            _check_format(_small(archive, members["copy.json"]))
            learn(_erasures(archive, members))
            for batch in _batches(_operations(archive, members["operations.jsonl"])):
                _take_batch(connection, batch, taken)
            for name, member in members.items():
                if found := BLOB.fullmatch(name):
                    taken.photos += _take_blob(archive, member, found[1], blobs, taken)
    except (zipfile.BadZipFile, NotImplementedError, RuntimeError, EOFError, KeyError) as error:
        raise NotACopyError("This file is not a copy that a phone saved, or it is damaged.") from error
    return taken


def _members(archive: zipfile.ZipFile) -> dict[str, zipfile.ZipInfo]:
    """The files of the copy by name; their number, packing and claimed sizes within bounds."""
    members = archive.infolist()
    if len(members) > MOST_FILES or sum(member.file_size for member in members) > LARGEST_COPY:
        raise NotACopyError("This file is larger than any copy that a phone saves.")
    if any(member.compress_type not in PACKED for member in members):
        raise NotACopyError("This file is not a copy that a phone saved, or it is damaged.")
    return {member.filename: member for member in members}


def _pieces(archive: zipfile.ZipFile, member: zipfile.ZipInfo, most: int) -> Iterator[bytes]:
    """The bytes of a member; what a header claims about their number is not believed."""
    size = 0
    with archive.open(member) as stream:
        while piece := stream.read(PIECE):
            size += len(piece)
            if size > most:
                raise NotACopyError("A part of this file is larger than it may be.")
            yield piece


def _small(archive: zipfile.ZipFile, member: zipfile.ZipInfo) -> Any:
    data = b"".join(_pieces(archive, member, LARGEST_SMALL))
    try:
        return parse(data.decode())
    except (UnicodeDecodeError, BrokenTextError) as error:
        raise NotACopyError(f"{member.filename} cannot be read.") from error


def _check_format(manifest: Any) -> None:
    if not isinstance(manifest, dict) or manifest.get("format") != FORMAT:
        raise NotACopyError("This file is not a copy that a phone saved.")


def _erasures(archive: zipfile.ZipFile, members: dict[str, zipfile.ZipInfo]) -> list[Erasure]:
    values = _small(archive, members["erasures.json"]) if "erasures.json" in members else []
    try:
        return [erasure.read(value) for value in values]
    except (ValueError, TypeError) as error:
        raise NotACopyError("The erasures in this file cannot be read.") from error


def _operations(archive: zipfile.ZipFile, member: zipfile.ZipInfo) -> Iterator[str]:
    """The operations' texts, bytes as made."""
    rest = b""
    for piece in _pieces(archive, member, LARGEST_LIST):
        *lines, rest = (rest + piece).split(b"\n")
        if len(rest) > LARGEST_BATCH * 4:
            raise NotACopyError("A line of this file is longer than any operation.")
        yield from map(_text, lines)
    if rest:
        yield _text(rest)


def _text(line: bytes) -> str:
    try:
        value = json.loads(line)
    except (UnicodeDecodeError, ValueError, RecursionError) as error:
        raise NotACopyError("The operations in this file cannot be read.") from error
    if not isinstance(value, dict) or not isinstance(value.get("operation"), str):
        raise NotACopyError("The operations in this file cannot be read.")
    return str(value["operation"])


def _batches(texts: Iterator[str]) -> Iterator[list[str]]:
    batch: list[str] = []
    size = 0
    for text in texts:
        size += len(text)
        if batch and (len(batch) == MOST_OPERATIONS or size > LARGEST_BATCH):
            yield batch
            batch, size = [], len(text)
        batch.append(text)
    if batch:
        yield batch


def _take_batch(connection: sqlite3.Connection, batch: list[str], taken: TakenIn) -> None:
    for answer in exchange.take(connection, batch):
        if answer.answer == "applied":
            taken.applied += 1
        elif answer.answer == "duplicate":
            taken.duplicate += 1
        else:
            taken.refused.append(answer.as_json())


def _take_blob(
    archive: zipfile.ZipFile, member: zipfile.ZipInfo, name: str, blobs: Blobs, taken: TakenIn
) -> bool:
    try:
        return blobs.put(name, _pieces(archive, member, LARGEST_BLOB))
    except (WrongHashError, TooLargeError):
        taken.refused.append({"id": name, "answer": "refused", "reason": "the photo is damaged in this file"})
        return False
