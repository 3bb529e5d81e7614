"""A job document, looked at by the server: its title, and the blobs that it names."""

from typing import Any

from api.store.blobs import NAME


def title(document: dict[str, Any], unnamed: str = "Car not named yet") -> str:
    """The car in a few words, as people call it across the workshop; else `unnamed`."""
    vehicle = document.get("vehicle") or {}
    words = [vehicle.get(key) for key in ("make", "model", "engine", "fuel")]
    return " ".join(word for word in words if word) or unnamed


def blob_names(document: dict[str, Any]) -> list[str]:
    """SHA-256 names of the photos in the document, each once, in its order."""
    names = [photo.get("sha256") for photo in document.get("photos") or []]
    for step in document.get("steps") or []:
        names.extend(step.get("photos") or [])
    return list(dict.fromkeys(name for name in names if isinstance(name, str) and NAME.fullmatch(name)))
