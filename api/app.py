"""The factory: one Flask application for one data folder."""

from pathlib import Path

from flask import Flask

from api import errors, guard
from api.context import PROJECT, Context, attach
from api.routes import phone
from api.shelf import Shelf


def create_app(data_dir: Path | str, *, pwa: Path = PROJECT / "pwa", calc: Path = PROJECT / "calc") -> Flask:
    """The server for the workshop whose data lies in `data_dir`, which is made where it is missing."""
    data = Path(data_dir)
    data.mkdir(parents=True, exist_ok=True)
    app = Flask("api", static_folder=None)
    attach(app, Context(data=data, calc=calc, shelf=Shelf(pwa)))
    errors.register(app)
    guard.register(app)
    app.register_blueprint(phone.blueprint)
    return app
