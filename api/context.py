"""What a request needs from the running server, in one place."""

from dataclasses import dataclass
from pathlib import Path

from flask import Flask, current_app

from api.shelf import Shelf

KEY = "teepiece"
PROJECT = Path(__file__).resolve().parent.parent


@dataclass(frozen=True)
class Context:
    """The folders that this server works with."""

    data: Path
    calc: Path
    shelf: Shelf


def attach(app: Flask, context: Context) -> None:
    """Hand the context to the app's requests."""
    app.extensions[KEY] = context


def context() -> Context:
    """The context of the request that is being served."""
    found: Context = current_app.extensions[KEY]
    return found
