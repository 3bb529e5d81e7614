"""`/api/session`, `/api/workshop`: whom the phone is signed in as, and what all jobs share."""

from decimal import Decimal
from typing import Any

from flask import Blueprint

from api import judging
from api.context import connection
from api.office.jobs import read_new_jobs
from api.office.quantities import BY_KEY, value_of
from api.people import session
from api.store import prices, register, settings, vehicle_limits
from api.store.vehicle_limits import VehicleLimit

blueprint = Blueprint("own", __name__)


@blueprint.get("/api/session")
def who() -> dict[str, Any]:
    """The person, and the paired phone or null."""
    person, phone = session.person() or session.AT_THE_MACHINE, session.phone()
    return {
        "person": {"id": person.id, "name": person.name, "role": person.role},
        "phone": {"id": phone.id, "name": phone.name} if phone else None,
        "signed_in": not session.is_open(),
    }


@blueprint.get("/api/workshop")
def workshop() -> dict[str, Any]:
    """Settings, gauges in use, prices, limits of each engine, and how to judge, as a job holds them."""
    gauges = [one for one in register.every(connection()) if one.retired_at is None]
    return {
        "settings": settings.read(connection(), "workshop"),
        "gauges": [
            {"id": one.id, "label": one.label, "due_on": one.due_on, "gauge": one.gauge} for one in gauges
        ],
        "prices": [
            {"kind": one.kind, "name": one.name, "unit": one.unit, "price": one.price, "tax_pct": one.tax_pct}
            for one in prices.every(connection())
        ],
        "engines": _engines(vehicle_limits.every(connection())),
        "judging": _judging(),
    }


def _judging() -> dict[str, dict[str, float]]:
    """What a new job gets about judging; jobs not looked at yet are read first where they are to weigh."""
    if judging.read(connection())["proved_weigh"]:
        read_new_jobs()
    return judging.for_jobs(connection())


def _engines(limits: list[VehicleLimit]) -> list[dict[str, Any]]:
    found: dict[tuple[str, ...], dict[str, Any]] = {}
    for one in limits:
        car = {"make": one.make, "model": one.model, "engine": one.engine}
        engine = found.setdefault(
            (one.make, one.model, one.engine), {"vehicle": car, "spec": {}, "sources": {}}
        )
        engine["spec"][one.quantity] = value_of(BY_KEY[one.quantity], _exact(one.least), _exact(one.most))
        engine["sources"][one.quantity] = f"{one.source} (typed by {one.typed_by}, {one.typed_at[:10]})"
    return list(found.values())


def _exact(text: str | None) -> Decimal | None:
    return None if text is None else Decimal(text)
