"""The factory: one Flask application for one data folder."""

from contextlib import closing
from pathlib import Path

from flask import Flask

from api import errors, guard
from api.context import PROJECT, Context, attach
from api.desk import pages as desk
from api.erasure import Eraser
from api.routes import blobs, jobs, phone, reports, sync
from api.shelf import Shelf
from api.store import database
from api.store.blobs import Blobs

BLUEPRINTS = (blobs.blueprint, jobs.blueprint, reports.blueprint, desk.blueprint, sync.blueprint, phone.blueprint)


def create_app(data_dir: Path | str, *, pwa: Path = PROJECT / "pwa", calc: Path = PROJECT / "calc") -> Flask:
    """The server for the workshop whose data lies in `data_dir`, which is made where it is missing."""
    app = Flask("api", static_folder=None)
    attach(app, open_workshop(Path(data_dir), pwa, calc))
    errors.register(app)
    guard.register(app)
    for blueprint in BLUEPRINTS:
        app.register_blueprint(blueprint)
    return app


def open_workshop(data: Path, pwa: Path, calc: Path) -> Context:
    """The data folder with its database brought up to date and its blobs ready."""
    data.mkdir(parents=True, exist_ok=True)
    context = Context(data / "workshop.sqlite3", Blobs(data / "blobs"), calc, Shelf(pwa))
    context.blobs.prepare()
    with closing(database.connect(context.database)) as connection:
        database.bring_up_to_date(connection)
        Eraser(data, context.blobs).merge(connection)
    return context
