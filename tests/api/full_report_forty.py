"""Forty photos on ten pages: how long a warm process draws, how large the file is, how much memory."""

import io
import json
import random
import time
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path
from typing import Any

from PIL import Image

from api import demo, pictures, report
from api.pdf import process
from tests.api.paper import MADE_AT, opened
from tests.full.registry import Row, full_run

PHOTOS, PAGES = 40, 10
FEW = 2
SIDE = (3000, 2250)
ROUNDS = 5
MOST_SECONDS, MOST_BYTES, MOST_MEMORY = 1.5, 10_000_000, 250_000_000
NOTE = "Looked at, photographed, and compared with what the maker's repair data say of this place. "


def photo(seed: int) -> bytes:
    """A picture as hard to compress as a phone's: soft shapes and the grain of a sensor."""
    rng = random.Random(seed)
    coarse = Image.frombytes("RGB", (48, 36), rng.randbytes(48 * 36 * 3)).resize(
        SIDE, Image.Resampling.BICUBIC
    )
    grain = Image.effect_noise(SIDE, 24).convert("RGB")
    file = io.BytesIO()
    Image.blend(coarse, grain, 0.25).save(file, "JPEG", quality=88)
    return file.getvalue()


def job_with(originals: list[bytes]) -> dict[str, Any]:
    """The demo job with these photos, and notes enough for ten pages."""
    job = demo.document()
    names = [sha256(one).hexdigest() for one in originals]
    job["photos"] = [
        {"id": f"p{n}", "sha256": name, "caption": f"Seen at place {n}"} for n, name in enumerate(names)
    ]
    job["steps"] = [{"id": f"s{n}", "state": "in_order", "note": NOTE * 2} for n in range(28)]
    return job


@full_run("report-forty", "A report with forty photos and ten pages, drawn by the warm process")
def report_forty(small: bool) -> Iterator[Row]:
    """The fastest of five rounds: what else the machine does only adds to it."""
    originals = [photo(seed) for seed in range(FEW if small else PHOTOS)]
    copies = {sha256(one).hexdigest(): pictures.copy_of(one, pictures.PRINTED) for one in originals}
    text = json.dumps(job_with(originals))
    seconds = []
    for _ in range(1 + (1 if small else ROUNDS)):
        began = time.perf_counter()
        wanted = report.prepare(text, form="technical", unit="bar", made_at=MADE_AT, photo=copies.get)
        pdf = process.draw(wanted)
        seconds.append(time.perf_counter() - began)
    with opened(pdf) as read:
        pages = len(read.pages)
    fastest, memory = min(seconds[1:]), peak_memory()
    enough = small or pages >= PAGES
    yield Row("photos and pages", f"{len(copies)} photos, {pages} pages", "40 photos, 10 pages", enough)
    what = "seconds, warm: the fastest and the slowest"
    shown = f"{fastest:.2f} s, {max(seconds[1:]):.2f} s (cold {seconds[0]:.2f} s)"
    yield Row(what, shown, f"at most {MOST_SECONDS} s", small or fastest <= MOST_SECONDS)
    yield Row("size", f"{len(pdf) / 1e6:.1f} MB", "at most 10 MB", len(pdf) <= MOST_BYTES)
    shown = f"{memory / 1e6:.0f} MB"
    yield Row("most memory of the process", shown, "at most 250 MB", memory <= MOST_MEMORY)


def peak_memory() -> int:
    """The most that the drawing process held (VmHWM of proc(5)). [bytes]"""
    child = process._child._child
    assert child is not None
    lines = Path(f"/proc/{child.process.pid}/status").read_text().splitlines()
    (peak,) = (line.split()[1] for line in lines if line.startswith("VmHWM:"))
    return int(peak) * 1024
