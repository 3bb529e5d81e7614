"""The factory: one Flask application for one data folder."""

from contextlib import closing
from dataclasses import replace
from pathlib import Path

from flask import Flask

from api import errors, guard, office
from api.clock import Clock, utc_now
from api.context import ON_LOOPBACK, PROJECT, Context, Reached, attach
from api.desk import pages as desk
from api.erasure import Eraser
from api.office import pages
from api.people import access, session
from api.routes import blobs, deliveries, description, history, jobs, own, phone, reports, sync
from api.secret import cookie_key
from api.shelf import Shelf
from api.store import database, erasures
from api.store.blobs import Blobs

BLUEPRINTS = (
    blobs.blueprint,
    jobs.blueprint,
    reports.blueprint,
    deliveries.blueprint,
    history.blueprint,
    sync.blueprint,
    own.blueprint,
    description.blueprint,
    desk.blueprint,
    *office.BLUEPRINTS,
    phone.blueprint,
)


def create_app(
    data_dir: Path | str,
    *,
    pwa: Path = PROJECT / "pwa",
    calc: Path = PROJECT / "calc",
    reached: Reached = ON_LOOPBACK,
    clock: Clock = utc_now,
) -> Flask:
    """The server for the workshop whose data lies in `data_dir`, which is made where it is missing.

    `reached` says how phones on the Wi-Fi reach it, over HTTPS and with sign-in; else it answers on loopback.
    """
    app = Flask("api", static_folder=None)
    workshop = open_workshop(Path(data_dir), pwa, calc)
    attach(app, replace(workshop, reached=reached, clock=clock))
    app.secret_key = cookie_key(workshop.data)
    session.register(app)
    errors.register(app)
    guard.register(app)
    app.before_request(access.check)
    pages.register(app)
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
        erasures.own_key(connection)  # there before the first backup
        Eraser(data, context.blobs).merge(connection)
    return context
