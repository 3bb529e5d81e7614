"""Copies of photos for screen and paper, decoded in a limited process; the originals stay as they came."""

import io
import sys
import tempfile
import warnings
from pathlib import Path

from api import limits

SECONDS = 60.0  # by the clock, for a machine that has much to do
PROCESSOR_SECONDS = 20
MEMORY = 1024 * 1024 * 1024
MOST_PIXELS = 40_000_000
LONGEST_SIDE = 1600
QUALITY = 80


class UnreadableError(Exception):
    """The bytes are no picture that is decoded here: of another kind, too large, or broken."""


def printed_copy(original: bytes) -> bytes:
    """A JPEG of at most 1600 pixels a side without EXIF.

    Raises `UnreadableError` where the bytes cannot be decoded in the limits.
    """
    try:
        return limits.run("api.pictures", original, SECONDS)
    except limits.ChildFailedError as failed:
        raise UnreadableError(failed.why) from None


def kept_copy(original: Path, kept: Path) -> bytes:
    """The copy of a photo, made once and kept as `kept`; raises as `printed_copy` does."""
    if kept.is_file():
        return kept.read_bytes()
    copy = printed_copy(original.read_bytes())
    kept.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.NamedTemporaryFile(dir=kept.parent, suffix=".part", delete=False) as part:
        part.write(copy)
    Path(part.name).replace(kept)
    return copy


def decode(original: bytes) -> bytes:
    """The copy itself; run only in the child."""
    from PIL import Image, ImageOps

    Image.MAX_IMAGE_PIXELS = MOST_PIXELS
    warnings.simplefilter("error", Image.DecompressionBombWarning)
    with Image.open(io.BytesIO(original), formats=["JPEG", "PNG"]) as opened:
        upright = ImageOps.exif_transpose(opened).convert("RGB")
    upright.thumbnail((LONGEST_SIDE, LONGEST_SIDE))
    bare = Image.new("RGB", upright.size)  # pixels alone: EXIF, comments and profiles stay behind
    bare.paste(upright)
    copy = io.BytesIO()
    bare.save(copy, "JPEG", quality=QUALITY, optimize=True)
    return copy.getvalue()


if __name__ == "__main__":
    limits.limit(MEMORY, PROCESSOR_SECONDS)
    sys.stdout.buffer.write(decode(sys.stdin.buffer.read()))
