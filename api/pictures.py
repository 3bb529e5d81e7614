"""Copies of photos for screen and paper, decoded in a limited process; the originals stay as they came."""

import atexit
import io
import tempfile
import warnings
from pathlib import Path
from threading import Lock

from api import limits
from api.standing import Standing, answer

SECONDS = 60.0  # by the clock, for a machine that has much to do
PROCESSOR_SECONDS = 20
MEMORY = 1024 * 1024 * 1024
MOST_PIXELS = 40_000_000
SHOWN, PRINTED = 1600, 900  # pixels of the longest side; 900 are 300 dpi in the widest place of a report
QUALITY = 80
IDLE_SECONDS = 60.0

_one_at_a_time = Lock()
_child = Standing("api.pictures", SECONDS)
atexit.register(_child.end)


class UnreadableError(Exception):
    """The bytes are no picture that is decoded here: of another kind, too large, or broken."""


def copy_of(original: bytes, longest: int) -> bytes:
    """A JPEG of at most `longest` pixels a side without EXIF.

    Raises `UnreadableError` where the bytes cannot be decoded in the limits.
    """
    try:
        with _one_at_a_time:
            return _child.ask(b"%d\n%b" % (longest, original))
    except limits.ChildFailedError as failed:
        raise UnreadableError(failed.why) from None


def kept_copy(original: Path, kept: Path, longest: int) -> bytes:
    """The copy of a photo, made once and kept as `kept`; raises as `copy_of` does."""
    if kept.is_file():
        return kept.read_bytes()
    copy = copy_of(original.read_bytes(), longest)
    kept.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.NamedTemporaryFile(dir=kept.parent, suffix=".part", delete=False) as part:
        part.write(copy)
    Path(part.name).replace(kept)
    return copy


def decode(original: bytes, longest: int) -> bytes:
    """The copy itself; run only in the child."""
    from PIL import Image, ImageOps

    Image.MAX_IMAGE_PIXELS = MOST_PIXELS
    warnings.simplefilter("error", Image.DecompressionBombWarning)
    with Image.open(io.BytesIO(original), formats=["JPEG", "PNG"]) as opened:
        opened.draft("RGB", (longest, longest))  # a large JPEG is decoded at a half, a quarter or an eighth
        upright = ImageOps.exif_transpose(opened).convert("RGB")
    upright.thumbnail((longest, longest))
    bare = Image.new("RGB", upright.size)  # pixels alone: EXIF, comments and profiles stay behind
    bare.paste(upright)
    copy = io.BytesIO()
    bare.save(copy, "JPEG", quality=QUALITY, optimize=True)
    return copy.getvalue()


def _answer(given: bytes) -> bytes:
    longest, _, original = given.partition(b"\n")
    return decode(original, int(longest))


if __name__ == "__main__":
    limits.limit(MEMORY)
    answer(_answer, lambda: limits.allow(PROCESSOR_SECONDS), IDLE_SECONDS)
