"""Photos that are none, that are more than a photo, or that are far larger than they look."""

import io
import struct
import zlib
from collections.abc import Callable

from PIL import Image

SCRIPT = b"<script>alert(1)</script>"
PAGE = b"<!doctype html><html>" + SCRIPT + b"</html>"
SIGNATURE = b"\x89PNG\r\n\x1a\n"


def chunk(kind: bytes, data: bytes) -> bytes:
    """A piece of a PNG (PNG specification, 5.3)."""
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def png(width: int, height: int, *more: bytes) -> bytes:
    """A PNG that is nothing but one long run of noughts (PNG specification, 11); `more` chunks before it."""
    packer = zlib.compressobj(9)
    row = bytes(1 + width * 3)
    rows = b"".join(packer.compress(row) for _ in range(height)) + packer.flush()
    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return SIGNATURE + chunk(b"IHDR", head) + b"".join(more) + chunk(b"IDAT", rows) + chunk(b"IEND", b"")


def saved(kind: str, **options: object) -> bytes:
    """A small picture in a file of that kind."""
    file = io.BytesIO()
    Image.new("RGB", (8, 8), "navy").save(file, kind, **options)
    return file.getvalue()


def with_exif() -> bytes:
    """A photo that says who made it, in markup, and where."""
    exif = Image.Exif()
    exif[0x010E] = SCRIPT.decode()  # ImageDescription
    exif[0x8825] = {1: "N", 2: (51.0, 28.0, 38.0)}  # GPS
    return saved("JPEG", exif=exif)


# Never decoded: shown nowhere.
NONE: dict[str, Callable[[], bytes]] = {
    "svg": lambda: b'<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)">' + SCRIPT + b"</svg>",
    "svg called png": lambda: SIGNATURE + b"<svg onload=alert(1)>",
    "svg that names a file": lambda: b"<svg><image href='file:///etc/passwd'/></svg>",
    "page behind a picture's first bytes": lambda: b"\xff\xd8\xff" + PAGE,
    "gif and script at once": lambda: b"GIF89a/*<svg/onload=alert(1)>*/=alert(1)//;",
    "gif": lambda: saved("GIF"),
    "bmp": lambda: saved("BMP"),
    "tiff": lambda: saved("TIFF"),
    "ico": lambda: saved("ICO"),
    "webp": lambda: saved("WEBP"),
    "pdf": lambda: b"%PDF-1.7\n1 0 obj << /OpenAction << /S /JavaScript /JS (app.alert(1)) >> >> endobj",
    "EPS": lambda: b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 9 9\n(/etc/passwd) (r) file\n",
    "a program": lambda: b"\x7fELF" + bytes(60),
    "200 megapixels": lambda: png(20_000, 10_000),
    "one pixel row more than 40 megapixels": lambda: png(8_000, 5_001),
    "a size that no memory holds": lambda: (
        SIGNATURE + chunk(b"IHDR", b"\x7f\xff\xff\xff" * 2 + b"\x08\x02\0\0\0")
    ),
    "a photo cut short": lambda: saved("JPEG")[:-200],
    "a sum that is wrong": lambda: png(2, 2).replace(b"IDAT", b"IDAT\0", 1),
    "a text that swells to 100 MB": lambda: png(
        2, 2, chunk(b"zTXt", b"Comment\0\0" + zlib.compress(bytes(100_000_000), 9))
    ),
    "nothing": lambda: b"",
}
# A photo and something else: the photo is decoded and written anew, the rest stays behind.
MORE: dict[str, Callable[[], bytes]] = {
    "zip behind a picture": lambda: png(2, 2) + b"PK\x03\x04",
    "page behind a picture": lambda: png(2, 2) + PAGE,
    "pdf behind a picture": lambda: saved("JPEG") + b"%PDF-1.7\n/JavaScript",
    "script in a comment": lambda: saved("JPEG", comment=SCRIPT),
    "script in the exif": with_exif,
}
PICTURES = NONE | MORE
