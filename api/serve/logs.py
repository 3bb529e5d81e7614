"""The server's log: a file that is turned over when it grows, in UTC, with nothing of a customer in it."""

import logging
import time
from logging.handlers import RotatingFileHandler
from pathlib import Path

from flask import Flask, Response, request

LARGEST = 1_000_000
KEPT = 5
TOLD = frozenset({401, 403, 429})
FORM = "%(asctime)sZ %(levelname)s %(name)s %(message)s"

log = logging.getLogger("teepiece.refused")


def to_file(folder: Path) -> None:
    """Write everything of ours to `server.log`, six files of a megabyte at most."""
    folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    handler = RotatingFileHandler(folder / "server.log", maxBytes=LARGEST, backupCount=KEPT, encoding="utf-8")
    formatter = logging.Formatter(FORM, "%Y-%m-%dT%H:%M:%S")
    formatter.converter = time.gmtime
    handler.setFormatter(formatter)
    logging.basicConfig(level=logging.INFO, handlers=[handler], force=True)
    # It warns of each piece of an answer to a peer that has gone: a stranger could push our own lines out.
    logging.getLogger("asyncio").setLevel(logging.ERROR)


def tell_refusals(app: Flask) -> None:
    """Log who was refused what, and what went wrong; the address without its question, in plain letters."""

    @app.after_request
    def tell(response: Response) -> Response:
        if response.status_code in TOLD or response.status_code >= 500:
            place = ascii(request.path[:200])
            log.warning("%d %s %s from %s", response.status_code, request.method, place, request.remote_addr)
        return response
