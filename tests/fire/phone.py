"""A phone as operations.md describes it, in Python: the model that servers are held against.

What it keeps lies in `disk`; everything else is lost when it is started again.
"""

import copy
import hashlib
import json
import random
from dataclasses import dataclass, field
from typing import Any

from api.fold.document import Folded, fold
from api.fold.holding import hold, writes
from api.fold.places import is_at_or_in
from tests.fire.lines import Line, as_json

PART = 64 * 1024
MOST = 200


@dataclass
class Kept:
    """One operation with its bytes as made, and where it stands."""

    text: str
    number: int | None = None
    was: int | None = None
    refused: str | None = None
    made: int = 0

    @property
    def operation(self) -> dict[str, Any]:
        value: dict[str, Any] = json.loads(self.text)
        return value


@dataclass
class Disk:
    """What survives the end of the app."""

    rows: dict[str, Kept] = field(default_factory=dict)
    blobs: dict[str, bytes] = field(default_factory=dict)
    sent: set[str] = field(default_factory=set)
    number: int = 0
    hash: str = ""
    behind: bool = False
    made: int = 0
    erasures: dict[str, dict[str, str]] = field(default_factory=dict)
    safe: set[str] = field(default_factory=set)
    run: str = ""


class Phone:
    """It makes operations, keeps them, brings them to the workshop; nothing leaves it unseen in the list."""

    def __init__(self, device: str, line: Line, dice: random.Random) -> None:
        self.device = device
        self.line = line
        self.dice = dice
        self.disk = Disk()
        self.acknowledged: set[str] = set()

    def restart(self) -> None:
        """The app ends and begins again with what the disk holds."""
        self.disk = copy.deepcopy(self.disk)

    # making

    def new_id(self) -> str:
        """A UUID of version 7 in form (RFC 9562), by the run's own dice."""
        bits = f"{self.dice.getrandbits(128):032x}"
        return f"019ac0de-{bits[:4]}-7{bits[4:7]}-8{bits[7:10]}-{bits[10:22]}"

    def listed(self, job: str) -> list[dict[str, Any]]:
        rows = [row for row in self.disk.rows.values() if row.number is not None]
        rows.sort(key=lambda row: row.number or 0)
        return [one for row in rows if (one := row.operation)["job"] == job]

    def unlisted_rows(self) -> list[Kept]:
        rows = [row for row in self.disk.rows.values() if row.number is None and row.refused is None]
        return sorted(rows, key=lambda row: (row.was if row.was is not None else 2**53, row.made))

    def unlisted(self, job: str) -> list[dict[str, Any]]:
        return [one for row in self.unlisted_rows() if (one := row.operation)["job"] == job]

    def folded(self, job: str) -> Folded:
        return fold(job, [*self.listed(job), *self.unlisted(job)], self.disk.erasures.values())

    def change(self, job: str, do: str, path: str, value: Any = None) -> str:
        """Make and keep an operation that names what this phone sees there; its id."""
        operation = {"id": self.new_id(), "job": job, "device": self.device, "person": f"p-{self.device}"}
        operation |= {"at": "2026-11-25T09:12:00+00:00", "do": do, "path": path}
        if do != "remove":
            operation["value"] = value
        operation["replaced"] = self._seen(job, do, path)
        self.keep(json.dumps(operation))
        return str(operation["id"])

    def keep(self, text: str) -> None:
        self.disk.made += 1
        self.disk.rows[json.loads(text)["id"]] = Kept(text, made=self.disk.made)
        self.disk.safe.discard(json.loads(text)["job"])

    def _seen(self, job: str, do: str, path: str) -> list[str]:
        listed, own = self.listed(job), self.unlisted(job)
        holding = hold([*listed, *own])
        if do == "set":
            seen = {held.id for held in holding.places.get(path, [])}
            named = [one for one in own if path in writes(one)]
        else:
            seen = {
                held.id for place, all_ in holding.places.items() if is_at_or_in(place, path) for held in all_
            }
            seen |= {
                one["id"] for at, all_ in holding.removes.items() if is_at_or_in(at, path) for _, one in all_
            }
            named = [one for one in own if is_at_or_in(one["path"], path)]
        return sorted(seen.union(*(one["replaced"] for one in named)))

    def photograph(self, job: str, data: bytes) -> str:
        """Keep a photo and its item; its name."""
        name = hashlib.sha256(data).hexdigest()
        self.disk.blobs[name] = data
        item = self.new_id()
        self.change(
            job, "add", f"/photos/{item}", {"rank": f"h{len(self.disk.blobs):03d}aaaa", "sha256": name}
        )
        return name

    # sync

    def sync(self) -> None:
        """Operations, then photos, then receipts; an UnreachableError leaves what was kept so far."""
        while True:
            before = (self.disk.number, self.disk.hash, len(self.unlisted_rows()))
            self.exchange()
            if not self.disk.behind and not self.unlisted_rows():
                break
            after = (self.disk.number, self.disk.hash, len(self.unlisted_rows()))
            assert after != before, "the sync is stuck: a question brought nothing forward"
        for name in sorted(set(self.disk.blobs) - self.disk.sent):
            self.send_blob(name)
        for job in {row.operation["job"] for row in self.disk.rows.values()} - self.disk.safe:
            self.compare_receipt(job)

    def exchange(self) -> dict[str, Any]:
        """One question and its answer, taken up whole."""
        batch = [] if self.disk.behind else self._batch()
        body = {
            "device": self.device,
            "number": self.disk.number,
            "hash": self.disk.hash,
            "operations": [row.text for row in batch],
            "erasures": list(self.disk.erasures.values()),
        }
        status, _, data = self.line.ask("POST", "/api/sync", json.dumps(body).encode())
        reply: dict[str, Any] = as_json(status, data)
        self.take(batch, reply)
        return reply

    def _batch(self) -> list[Kept]:
        batch, size = [], 0
        for row in self.unlisted_rows()[:MOST]:
            size += len(row.text.encode())
            if batch and size > 256 * 1024:
                break
            batch.append(row)
        return batch

    def take(self, batch: list[Kept], reply: dict[str, Any]) -> None:
        disk = self.disk
        if reply["restart"]:
            for row in disk.rows.values():
                if row.number is not None:
                    row.was, row.number = row.number, None
            disk.number, disk.hash = 0, ""
        if reply["restart"] or reply["run"] != disk.run:
            disk.sent, disk.safe, disk.run = set(), set(), reply["run"]
        for row, answer in zip(batch, reply["answers"], strict=True):
            if answer["answer"] == "refused":
                row.refused = answer["reason"]
            else:
                self.acknowledged.add(row.operation["id"])
        for entry in reply["entries"]:
            self._take_entry(entry)
        assert (disk.number, disk.hash) == (reply["number"], reply["hash"]), (
            "the entries do not join the list"
        )
        disk.behind = reply["more"]
        disk.erasures |= {one["id"]: one for one in reply["erasures"]}
        self._forget_erased()

    def _take_entry(self, entry: dict[str, Any]) -> None:
        disk, text = self.disk, entry["operation"]
        one = entry["id"] if text is None else json.loads(text)["id"]
        assert entry["number"] == disk.number + 1, "a number is missing"
        disk.number += 1
        disk.hash = hashlib.sha256(f"{disk.hash} {disk.number} {one}".encode()).hexdigest()
        if text is None:
            disk.rows.pop(one, None)
            return
        row = disk.rows.get(one) or Kept(text)
        assert row.text == text, "bytes were rewritten"
        if row.number is None:
            disk.safe.discard(row.operation["job"])
        row.number, row.was, row.refused = disk.number, None, None
        disk.rows[one] = row
        self.acknowledged.add(one)

    def _forget_erased(self) -> None:
        for one, row in list(self.disk.rows.items()) if self.disk.erasures else ():
            operation = row.operation
            for record in self.disk.erasures.values():
                if record["job"] == operation["job"] and is_at_or_in(operation["path"], record["path"]):
                    self.disk.rows.pop(one, None)

    def send_blob(self, name: str) -> None:
        """In parts, from where the server stands."""
        data, path = self.disk.blobs[name], f"/api/blobs/{name}"
        status, headers, _ = self.line.ask("HEAD", path)
        while status != 200:
            start = int(headers.get("Upload-Offset", 0))
            part = data[start : start + PART]
            more = (
                {}
                if len(part) == len(data)
                else {"Content_Range": f"bytes {start}-{start + len(part) - 1}/{len(data)}"}
            )
            status, headers, body = self.line.ask("PUT", path, part, **more)
            if status in (200, 201):
                break
            if status not in (202, 409):
                as_json(status, body)
        self.disk.sent.add(name)

    def compare_receipt(self, job: str) -> None:
        """Safe only where both sums are equal and nothing is open."""
        rows = [(one, row) for one, row in self.disk.rows.items() if row.operation["job"] == job]
        if any(row.number is None for _, row in rows):
            return
        status, _, body = self.line.ask("GET", f"/api/jobs/{job}/receipt")
        lines = sorted(
            (row.number, f"{row.number} {one} {hashlib.sha256(row.text.encode()).hexdigest()}")
            for one, row in rows
        )
        blobs = sorted({p["sha256"] for p in self.folded(job).document.get("photos", [])})
        text = "".join(
            f"{line}\n" for line in [*(line for _, line in lines), *(f"blob {name}" for name in blobs)]
        )
        if as_json(status, body)["sha256"] == hashlib.sha256(text.encode()).hexdigest():
            self.disk.safe.add(job)
