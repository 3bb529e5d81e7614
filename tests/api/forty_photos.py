"""A report of forty photos and ten pages, drawn anew by a running server: what it takes, how large it is.

Before each drawing a word of the job is changed, since the server hands out the kept PDF of an unchanged job.
"""

import hashlib
import io
import json
import os
import random
import tempfile
import time
import urllib.request
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from statistics import median
from typing import Any

from PIL import Image

from api import demo
from api.unfold import operations_for
from tests.api.paper import opened
from tests.api.phone import new_id, operation
from tests.browser.machines import Server

PHOTOS, FEW_PHOTOS = 40, 2
ROUNDS, FEW_ROUNDS = 7, 2
PAGES = 10
MOST_SECONDS, MOST_MB, MOST_MEMORY_MB = 1.5, 10, 250
MEGA = 1_000_000
WIDTH, HEIGHT, GRAIN = 1280, 960, 60
NOTES = 28
NOTE = "Looked at, photographed, and compared with what the maker's repair data say of this place. " * 2
AT = "2026-11-25T09:12:00+00:00"
AT_ONCE = 100
TICKS = os.sysconf("SC_CLK_TCK")


@dataclass(frozen=True)
class Drawn:
    """What was seen: times of the warm rounds by the clock and by the processor, and of the first one. [s]"""

    photos: int
    pages: int
    first: float
    by_clock: Sequence[float]
    by_processor: Sequence[float]
    file_mb: float
    memory_mb: float

    @property
    def what(self) -> str:
        """The report in words."""
        return f"report of {self.pages} pages with {self.photos} photos"

    @property
    def spread(self) -> str:
        """Everything about its time but the median."""
        low, high = min(self.by_clock), max(self.by_clock)
        return (
            f"{low:.2f} to {high:.2f} in {len(self.by_clock)}; "
            f"{median(self.by_processor):.2f} s of processor time; the first one {self.first:.1f} s"
        )


def draw(*, small: bool) -> Drawn:
    """The report fetched over HTTP from a server of its own, once cold and then warm; small: two photos."""
    photos, rounds = (FEW_PHOTOS, FEW_ROUNDS) if small else (PHOTOS, ROUNDS)
    with tempfile.TemporaryDirectory() as folder:
        server = Server(Path(folder) / "data")
        server.start()
        try:
            return _drawn(server, photos, rounds)
        finally:
            server.stop()


def _drawn(server: Server, photos: int, rounds: int) -> Drawn:
    assert server.process is not None
    job, pid = _hand_in(server, photos), server.process.pid
    address = f"{server.url}/api/jobs/{job}/report.pdf?form=technical&unit=bar"
    by_clock, by_processor, pdfs = [], [], []
    for number in range(1 + rounds):
        _sync(server, [json.dumps(operation(job, "/complaint/text", f"Asked again, {number}"))])
        spent, began = _processor_seconds(pid), time.perf_counter()
        pdfs.append(_fetched(address))
        by_clock.append(time.perf_counter() - began)
        by_processor.append(_processor_seconds(pid) - spent)
    assert len(set(pdfs)) == len(pdfs), "a kept report was handed out: nothing was drawn"
    with opened(pdfs[-1]) as read:
        pages = len(read.pages)
    size, memory = len(pdfs[-1]) / MEGA, max(most_memory(one) for one in family(pid)[1:])
    return Drawn(photos, pages, by_clock[0], by_clock[1:], by_processor[1:], size, memory)


def _hand_in(server: Server, count: int) -> str:
    """The demo's job with that many photos and notes enough, as a phone hands it in; its id."""
    photos = [photo(number) for number in range(count)]
    names = [hashlib.sha256(data).hexdigest() for data in photos]
    for name, data in zip(names, photos, strict=True):
        _ask(server, "PUT", f"/api/blobs/{name}", data)
    listed = [
        {"sha256": name, "caption": f"Seen at place {number}", "taken_at": AT}
        for number, name in enumerate(names)
    ]
    steps = [{"id": f"place{number}", "state": "in_order", "note": NOTE} for number in range(NOTES)]
    document = demo.document() | {"id": new_id(), "photos": listed, "steps": steps}
    _sync(server, operations_for(document, device="bench", person="bench", at=AT))
    return str(document["id"])


def photo(seed: int) -> bytes:
    """A picture as hard to compress as a phone's, about 400 KB: soft shapes and the grain of a sensor."""
    dice = random.Random(seed)
    coarse = Image.frombytes("RGB", (160, 120), dice.randbytes(160 * 120 * 3)).resize((WIDTH, HEIGHT))
    grain = Image.effect_noise((WIDTH, HEIGHT), GRAIN).convert("RGB")
    data = io.BytesIO()
    Image.blend(coarse, grain, 0.15).save(data, "JPEG", quality=80)
    return data.getvalue()


def _sync(server: Server, texts: list[str]) -> None:
    for start in range(0, len(texts), AT_ONCE):
        body = {"device": "bench", "number": 0, "hash": "", "operations": texts[start : start + AT_ONCE]}
        answers = _ask(server, "POST", "/api/sync", json.dumps(body).encode())["answers"]
        assert {answer["answer"] for answer in answers} == {"applied"}


def _ask(server: Server, method: str, path: str, body: bytes) -> dict[str, Any]:
    headers = {"X-Teepiece": "1", "Origin": server.url, "Content-Type": "application/json"}
    request = urllib.request.Request(server.url + path, body, headers, method=method)
    with urllib.request.urlopen(request, timeout=60) as answer:
        found: dict[str, Any] = json.loads(answer.read() or b"{}")
    return found


def _fetched(address: str) -> bytes:
    with urllib.request.urlopen(address, timeout=180) as answer:
        body: bytes = answer.read()
    return body


def family(pid: int) -> list[int]:
    """A process and its children."""
    listed = (thread / "children" for thread in Path(f"/proc/{pid}/task").iterdir())
    return [pid, *(int(child) for one in listed for child in one.read_text().split())]


def _processor_seconds(pid: int) -> float:
    """What the server and its children have used (proc(5), stat: utime and stime)."""
    stats = (Path(f"/proc/{one}/stat").read_text().rpartition(")")[2].split() for one in family(pid))
    return sum(int(fields[11]) + int(fields[12]) for fields in stats) / TICKS


def most_memory(pid: int) -> float:
    """The highest resident size that a process has had (proc(5), status: VmHWM). [MB]"""
    lines = Path(f"/proc/{pid}/status").read_text().splitlines()
    return next(int(line.split()[1]) * 1024 / MEGA for line in lines if line.startswith("VmHWM"))
