"""Three pages of reports with their approved pictures: what is drawn, drawn small, and compared.

    python3 -m tests.api.approved_pages     # draws all three anew; look at them before they are committed

A request is kept with its verdict as it stood, so that another wording of the calculation changes no picture.
"""

import io
import json
import subprocess
import sys
import tempfile
import zipfile
from dataclasses import replace
from hashlib import sha256
from pathlib import Path

from PIL import Image, ImageChops, ImageStat

from api import demo
from api.pdf.request import ReportRequest, from_json
from tests.api.paper import rendered

FOLDER = Path(__file__).parent / "approved"
REQUESTS = FOLDER / "requests.zip"
PAGES = {"summary": 1, "proof": 3, "leak": 1}  # name: page of its report
DOTS_PER_INCH = 50
# Grey levels of 255: another version of Poppler or FreeType smooths edges otherwise; no source.
MOST_IN_MEAN, MOST_IN_A_CELL, CELL = 2.0, 48.0, 12


def request_of(name: str) -> ReportRequest:
    """The report's request, its photos taken from the demo job's folder."""
    with zipfile.ZipFile(REQUESTS) as archive:
        kept = from_json(archive.read(f"{name}.json").decode())
    originals = {
        sha256(path.read_bytes()).hexdigest(): path.read_bytes() for path in demo.FOLDER.glob("*.jpg")
    }
    return replace(kept, photos=originals)


def picture_of(name: str) -> Image.Image:
    """The page as Poppler draws it."""
    page = PAGES[name]
    with tempfile.TemporaryDirectory() as folder:
        pdf = Path(folder) / "report.pdf"
        pdf.write_bytes(rendered(request_of(name)))
        command = [
            "pdftoppm",
            "-r",
            str(DOTS_PER_INCH),
            "-gray",
            "-png",
            "-f",
            str(page),
            "-l",
            str(page),
            pdf,
        ]
        drawn = subprocess.run(command, capture_output=True, check=True).stdout
    return Image.open(io.BytesIO(drawn)).convert("L")


def approved(name: str) -> Image.Image:
    """The picture as it was approved."""
    return Image.open(FOLDER / f"{name}.png").convert("L")


def differences(one: Image.Image, other: Image.Image) -> tuple[float, float]:
    """How far two pictures are apart: in the mean, and in the mean of the worst cell of 12 by 12 dots."""
    if one.size != other.size:
        return 255.0, 255.0
    apart = ImageChops.difference(one, other)
    cells = apart.resize((apart.width // CELL, apart.height // CELL), Image.Resampling.BOX)
    return ImageStat.Stat(apart).mean[0], float(cells.getextrema()[1])


def approve(requests: dict[str, ReportRequest]) -> None:
    """Keep these requests, and the pictures that they give now."""
    with zipfile.ZipFile(REQUESTS, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, request in requests.items():
            bare = replace(request, photos={})
            info = zipfile.ZipInfo(f"{name}.json", (2026, 11, 25, 0, 0, 0))
            archive.writestr(info, json.dumps(json.loads(bare.as_json), sort_keys=True), zipfile.ZIP_DEFLATED)
    for name in requests:
        picture_of(name).save(FOLDER / f"{name}.png", optimize=True)


if __name__ == "__main__":
    approve({name: request_of(name) for name in PAGES})
    sys.stdout.write("Look at the pictures before they are committed.\n")
