"""A job document, looked at by the server: its verdict, its title, and the blobs that it names."""

from typing import Any

import calc
from api.store.blobs import NAME

# The contract allows 64 MB. A day with logs stays far below this; more would hold up everybody else.
LARGEST = 8 * 1024 * 1024


class NotWholeError(Exception):
    """The job cannot be judged: it breaks the contract, or is too large; the message names the place."""


def judged(text: str, *, unit: str, language: str = "en", read_log: calc.LogReader | None = None) -> str:
    """The verdict on a job document, as text; `read_log` gives its logs. Raises `NotWholeError`."""
    data = text.encode()
    if len(data) > LARGEST:
        raise NotWholeError(f": the document has {len(data)} bytes; {LARGEST} are judged here")
    try:
        return calc.judge_text(data, unit=unit, language=language, read=read_log)
    except calc.BrokenDocument as broken:
        raise NotWholeError(calc.told_broken(str(broken), language)) from None


def title(document: dict[str, Any], unnamed: str = "Car not named yet") -> str:
    """The car in a few words, as people call it across the workshop; else `unnamed`."""
    vehicle = document.get("vehicle") or {}
    words = [vehicle.get(key) for key in ("make", "model", "engine", "fuel")]
    return " ".join(word for word in words if word) or unnamed


def photo_names(document: dict[str, Any]) -> list[str]:
    """SHA-256 names of the photos in the document, each once, in its order."""
    names = [photo.get("sha256") for photo in document.get("photos") or []]
    for step in document.get("steps") or []:
        names.extend(step.get("photos") or [])
    return _well_formed(names)


def blob_names(document: dict[str, Any]) -> list[str]:
    """SHA-256 names of all that the document keeps as blobs: its photos, then its logs."""
    return _well_formed([*photo_names(document), *calc.log_names(document)])


def _well_formed(names: list[Any]) -> list[str]:
    return list(dict.fromkeys(name for name in names if isinstance(name, str) and NAME.fullmatch(name)))
