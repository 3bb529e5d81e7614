"""The report: ten pages with forty photos, its memory, and the server's answers while six are drawn."""

import hashlib
import io
import json
import random
import tempfile
import urllib.request
from collections.abc import Iterator
from pathlib import Path
from statistics import median
from typing import Any

import pikepdf
from PIL import Image

from api import demo
from api.address import HTTPS_PORT, Address
from api.app import create_app
from api.context import Reached
from api.unfold import operations_for
from tests.bench.rows import MEGA, at_most, seconds
from tests.browser.machines import Server
from tests.full.registry import Row
from tests.security.full_silent import row as percentile_row
from tests.security.full_silent import while_drawing
from tests.security.test_serving import HOST, serving

PHOTOS, FEW_PHOTOS = 40, 2
TIMES, FEW_TIMES = 5, 1
SECONDS, FILE_MB, MEMORY_MB = 1.5, 10, 250
HEALTH_MS = 500
WIDTH, HEIGHT, GRAIN = 1280, 960, 60
NOTE = "Looked at, photographed, and compared with what the maker's data say of this place. " * 2


def rows(small: bool) -> Iterator[Row]:
    """Small: two photos, one round, nothing about `/health`."""
    photos, times = (FEW_PHOTOS, FEW_TIMES) if small else (PHOTOS, TIMES)
    with tempfile.TemporaryDirectory() as folder:
        server = Server(Path(folder) / "data")
        server.start()
        try:
            address = f"{server.url}/api/jobs/{hand_in(server, photos)}/report.pdf?form=technical&unit=bar"
            cold = seconds(lambda: fetched(address))
            warm = [seconds(lambda: fetched(address)) for _ in range(times)]
            pdf = fetched(address)
            assert server.process is not None
            memory = most_memory(server.process.pid)
        finally:
            server.stop()
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        pages = len(opened.pages)
    what = f"report of {pages} pages with {photos} photos"
    yield at_most(f"{what}, warm", median(warm), SECONDS, "s", digits=2, more=f"the first one {cold:.1f} s")
    yield at_most("its file", len(pdf) / MEGA, FILE_MB, "MB", digits=1)
    yield at_most("most memory of one process that draws it", memory, MEMORY_MB, "MB")
    if not small:
        yield six_at_once()


def six_at_once() -> Row:
    """`/health` over HTTPS while six reports are drawn."""
    reached = Reached(Address(HOST, HTTPS_PORT))
    with tempfile.TemporaryDirectory() as folder:
        app = create_app(folder, reached=reached)
        with serving(app, Path(folder) / "keys") as https:
            found = while_drawing(https, Path(folder))
    return percentile_row("/health over HTTPS while six reports are drawn", found, HEALTH_MS)


def hand_in(server: Server, count: int) -> str:
    """The demo's job with that many photos and as many notes, as a phone hands it in; its id."""
    document = demo.document()
    photos = [photo(number) for number in range(count)]
    names = [hashlib.sha256(data).hexdigest() for data in photos]
    for name, data in zip(names, photos, strict=True):
        ask(server, "PUT", f"/api/blobs/{name}", data)
    at = "2026-11-25T09:12:00+00:00"
    listed = [
        {"sha256": name, "caption": f"photo {number}", "taken_at": at} for number, name in enumerate(names)
    ]
    steps = [{"id": f"place{number}", "state": "in_order", "note": NOTE} for number in range(count)]
    document |= {"photos": listed, "steps": steps}
    texts = operations_for(document, device="bench", person="bench", at=at)
    for start in range(0, len(texts), 100):
        body = {"device": "bench", "number": 0, "hash": "", "operations": texts[start : start + 100]}
        answers = ask(server, "POST", "/api/sync", json.dumps(body).encode())["answers"]
        assert {answer["answer"] for answer in answers} == {"applied"}
    return str(document["id"])


def photo(number: int) -> bytes:
    """A picture with as much grain as makes it as large as a phone's: about 400 KB."""
    dice = random.Random(number)
    coarse = Image.frombytes("RGB", (160, 120), dice.randbytes(160 * 120 * 3)).resize((WIDTH, HEIGHT))
    grain = Image.effect_noise((WIDTH, HEIGHT), GRAIN).convert("RGB")
    data = io.BytesIO()
    Image.blend(coarse, grain, 0.15).save(data, "JPEG", quality=80)
    return data.getvalue()


def ask(server: Server, method: str, path: str, body: bytes) -> dict[str, Any]:
    headers = {"X-Teepiece": "1", "Origin": server.url, "Content-Type": "application/json"}
    request = urllib.request.Request(server.url + path, body, headers, method=method)
    with urllib.request.urlopen(request, timeout=60) as answer:
        found: dict[str, Any] = json.loads(answer.read() or b"{}")
    return found


def fetched(address: str) -> bytes:
    with urllib.request.urlopen(address, timeout=180) as answer:
        body: bytes = answer.read()
    return body


def most_memory(parent: int) -> float:
    """The highest resident size that any child of the server has had, in MB."""
    children = [
        pid
        for thread in Path(f"/proc/{parent}/task").iterdir()
        for pid in (thread / "children").read_text().split()
    ]
    return max(peak_of(int(pid)) for pid in children)


def peak_of(pid: int) -> float:
    lines = Path(f"/proc/{pid}/status").read_text().splitlines()
    return next(int(line.split()[1]) * 1024 / MEGA for line in lines if line.startswith("VmHWM"))
